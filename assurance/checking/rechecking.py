"""Checks one case again and again in one process, reading anew only the files that were edited."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from assurance.assess import assess
from assurance.checking.followed import program_digest
from assurance.checking.readings import Readings
from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.reading.case_folder import no_folder, read_found
from assurance.reading.data_files import is_unchanged
from assurance.reading.found import Found, find
from assurance.reading.memory import no_garbage_collection
from assurance.results import Results, gives_the_same, work_out_case
from assurance.store import Store


class Rechecker:
    """A case folder that is read and assessed again after each edit, as a new process would do it."""

    def __init__(self, folder: Path, *, day: date | None = None, store: Store | None = None) -> None:
        self._folder = folder
        self._day = day
        self._store = replace(store, seen={}) if store else None
        self._before: tuple[CaseText, Results] | None = None
        self._readings = Readings(folder, store, program_digest() if store else "")

    def again(self) -> tuple[CaseText, Assessment]:
        """The case as it lies there now, and what is concluded about it."""
        return self.of(find(self._folder))

    def of(self, found: Found | None) -> tuple[CaseText, Assessment]:
        """The case of what was found in the folder, and what is concluded about it."""
        with no_garbage_collection():
            case = no_folder(self._folder) if found is None else read_found(found, read=self._readings.of)
            return case, assess(case, as_of=self._day, results=self._results_of(case))

    def _results_of(self, case: CaseText) -> Results:
        before, self._before = self._before, None
        if before is not None and gives_the_same(case, before[0]):
            results = before[1]
        else:
            results = work_out_case(case, self._store)
            if not _files_are_as_they_were(case, results):
                return results
        self._before = case, results
        return results


def _files_are_as_they_were(case: CaseText, results: Results) -> bool:
    """Whether no file was written while calculations read it: else nobody knows which rows it gave."""
    return all(is_unchanged(fact) for (record, _), fact in case.files.items() if record in results.uses)
