"""A whole case folder: its records, where each is written, its files, and what was wrong."""

import gc
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path

from assurance.model.argument_records import Case
from assurance.model.case import CaseText, SiteSettings
from assurance.model.fields import FileName
from assurance.model.kinds import Entry
from assurance.model.verdicts import Finding, Place, Weight
from assurance.reading.coherence import incoherent
from assurance.reading.data_files import file_facts, leaves_the_case
from assurance.reading.faults import as_finding, of_kind, shown_value
from assurance.reading.folders import record_files
from assurance.reading.marks import Naming, namings
from assurance.reading.record_files import Glimpsed, Item, read_file
from assurance.reading.references import Known, Misnamed, misnamed
from assurance.reading.settings import read_settings
from assurance.reading.texts import CaseTexts
from assurance.reading.validating import MOST_FAULTS


def read_case(folder: Path) -> CaseText:
    """Every record of a case folder, and a finding for everything that cannot be read whole."""
    if not folder.is_dir():
        return _no_folder(folder)
    with _no_garbage_collection():
        return _read(folder)


def _read(folder: Path) -> CaseText:
    settings = read_settings(folder)
    texts: dict[str, str] = {}
    gathered = _Gathered()
    for file in record_files(folder):
        texts[file.name] = file.text
        if file.fault is not None:
            gathered.findings.append(as_finding(file.fault, file=file.name))
            gathered.whole = False
        gathered.take(read_file(file.name, file.text))
    gathered.fill_gaps()
    written = CaseTexts(texts, gathered.entries)
    named = {id_: tuple(namings(e.record)) for id_, e in gathered.entries.items() if e.record is not None}
    findings = [
        *settings.findings,
        *gathered.told(),
        *_without_case(gathered, texts),
        *_misnamed(gathered, named, written),
        *_outside(folder, gathered.entries, named, written),
    ]
    return CaseText(
        folder=folder,
        settings=settings.settings,
        entries=gathered.entries,
        findings=tuple(sorted(findings, key=_order)),
        files=file_facts(folder, _named_files(gathered.entries, named)),
        locate=written.locate,
        as_written=written.as_written,
    )


@dataclass(slots=True)
class _Gathered:
    """What the files of a case hold together; the first of two records with one id stays."""

    entries: dict[str, Entry] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    unread: set[str] = field(default_factory=set)
    folded: dict[str, Entry] = field(default_factory=dict)
    glimpsed: list[Entry] = field(default_factory=list)
    case: Entry | None = None
    whole: bool = True

    def take(self, items: tuple[Item, ...]) -> None:
        for item in items:
            if isinstance(item, Entry):
                self._take_entry(item)
            elif isinstance(item, Finding):
                self.findings.append(item)
            elif isinstance(item, Glimpsed):
                self.glimpsed.append(item.stub)
            else:
                self.unread.add(item.id)

    def fill_gaps(self) -> None:
        """Takes the stubs of files that do not parse, where no record of that id was read."""
        for stub in self.glimpsed:
            second_case = stub.kind == "case" and self.case is not None
            if stub.id.lower() not in self.folded and not second_case:
                self._take_entry(stub)

    def told(self) -> Iterator[Finding]:
        """The findings so far; one of a record that did not stay speaks of its file."""
        for finding in self.findings:
            stays = finding.record in self.entries
            yield finding if stays else replace(finding, record="")

    def _take_entry(self, entry: Entry) -> None:
        first = self.folded.setdefault(entry.id.lower(), entry)
        if first is not entry:
            self.findings.append(_id_twice(first, entry))
        elif entry.kind == "case" and self.case is not None:
            self.findings.append(_case_twice(self.case, entry))
            first = self.case
        if first is not entry:
            self.unread.add(entry.id)
            return
        self.entries[entry.id] = entry
        if entry.kind == "case":
            self.case = entry


def _id_twice(first: Entry, second: Entry) -> Finding:
    how = "" if first.id == second.id else f" as `{first.id}`"
    message = f"The id `{second.id}` is already used{how} for {of_kind(first.kind)} at {first.place}."
    return _finding("id-twice", first.id, second.place, message, "Give one of the two another id.")


def _case_twice(first: Entry, second: Entry) -> Finding:
    message = f"`{second.id}` is a second `case` record; the first, `{first.id}`, is at {first.place}."
    return _finding("case-twice", first.id, second.place, message, "Keep one `case` record.")


def _without_case(gathered: _Gathered, texts: Mapping[str, str]) -> Iterator[Finding]:
    if gathered.case is None and gathered.whole:
        place = Place(next(iter(texts), "claims"), 1, 1)
        remedy = "Write `case:` with an id and its `title` in a file under `claims/`."
        yield _finding("case-missing", "", place, "The case has no `case` record.", remedy)


def _misnamed(
    gathered: _Gathered, named: Mapping[str, tuple[Naming, ...]], written: CaseTexts
) -> Iterator[Finding]:
    known = Known(gathered.entries, frozenset(gathered.unread))
    case = gathered.case.record if gathered.case else None
    for id_, names in named.items():
        record = gathered.entries[id_].record
        wrong = [found for naming in names if (found := misnamed(naming, known)) is not None]
        if record is not None:
            wrong += incoherent(record, known, case if isinstance(case, Case) else None)
        for each in wrong[:MOST_FAULTS]:
            yield _as_finding(id_, each, written)
        if len(wrong) > MOST_FAULTS:
            yield _as_finding(id_, _many_more(len(wrong) - MOST_FAULTS), written)


def _many_more(count: int) -> Misnamed:
    message = f"{count:,} more names in this record are wrong, which are not listed."
    return Misnamed("reference-unknown", (), message, "Put right the ones listed first.")


def _as_finding(id_: str, wrong: Misnamed, written: CaseTexts) -> Finding:
    return _finding(wrong.rule, id_, written.locate(id_, wrong.path), wrong.message, wrong.remedy)


def _named_files(
    entries: Mapping[str, Entry], named: Mapping[str, tuple[Naming, ...]]
) -> Iterator[tuple[str, str, str]]:
    for id_, names in named.items():
        for naming in names:
            if isinstance(naming.mark, FileName):
                yield id_, entries[id_].place.file, naming.text


def _outside(
    folder: Path,
    entries: Mapping[str, Entry],
    named: Mapping[str, tuple[Naming, ...]],
    written: CaseTexts,
) -> Iterator[Finding]:
    for id_, names in named.items():
        for naming in names:
            if isinstance(naming.mark, FileName) and leaves_the_case(
                folder, entries[id_].place.file, naming.text
            ):
                message = f"{shown_value(naming.text)} lies outside the case folder; it is not read."
                place = written.locate(id_, naming.path)
                remedy = "Put the file into the case and name it from here."
                yield _finding("file-outside-the-case", id_, place, message, remedy)


def _no_folder(folder: Path) -> CaseText:
    message = f"There is no case folder `{folder.name}`."
    finding = _finding("case-missing", "", Place(), message, "Name a folder with `claims/` and `hazards/`.")
    written = CaseTexts({}, {})
    return CaseText(folder, SiteSettings(), {}, (finding,), {}, written.locate, written.as_written)


def _finding(rule: str, record: str, place: Place, message: str, remedy: str) -> Finding:
    return Finding(rule, Weight.BLOCKING, record, place, message, remedy)


def _order(finding: Finding) -> tuple[Place, str, str]:
    return finding.place, finding.rule, finding.message


@contextmanager
def _no_garbage_collection() -> Iterator[None]:
    """Reading makes many objects and no loops of them, so looking for loops is time lost."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
