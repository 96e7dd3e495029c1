"""The answer of `check`: taken from the store where nothing it follows from has changed, else worked out."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from assurance.checking.followed import digest_of, files_digest, program_digest, texts_digest
from assurance.checking.kept import Kept, from_plain, to_plain
from assurance.model.checked import Checked, ClaimVerdict
from assurance.reading.data_files import file_facts
from assurance.reading.folders import RECORD_FOLDERS
from assurance.reading.found import Found, find
from assurance.reading.settings import SETTINGS_FILE
from assurance.store import Store

if TYPE_CHECKING:
    from assurance.model.assessment import Assessment
    from assurance.model.case import CaseText


def check_case(folder: Path, *, day: date | None = None, store: Store | None = None) -> Checked:
    """The findings and the verdicts of a case folder on a day, or on the day the case names.

    The last answer for this folder and day is kept in the store, with digests of everything that it
    follows from; it is given again while all of them are the same.
    """
    found = find(folder)
    program = program_digest() if store else ""
    if store is None or not program or found is None:
        return checked(_worked_out(folder, found, day, store)[1])
    slot = digest_of("check", str(folder.resolve()), day.isoformat() if day else "")
    texts = texts_digest(found, day, program)
    kept = from_plain(store.get(slot) or {})
    if kept is not None and _still_holds(kept, texts, found):
        return kept.answer
    case, assessment = _worked_out(folder, found, day, store)
    answer = checked(assessment)
    _keep(store, slot, texts, case, answer)
    return answer


def _still_holds(kept: Kept, texts: str, found: Found) -> bool:
    """Whether nothing that an answer follows from has changed, and it speaks of files of this case."""
    if kept.texts != texts or kept.files != files_digest(texts, file_facts(found.folder, kept.named)):
        return False
    files = {"", SETTINGS_FILE, *RECORD_FOLDERS, *(file.name for file in found.files)}
    places = [*(one.place for one in kept.answer.claims), *(one.place for one in kept.answer.findings)]
    return all(place.file in files for place in places)


def _worked_out(
    folder: Path, found: Found | None, day: date | None, store: Store | None
) -> tuple["CaseText", "Assessment"]:
    from assurance.checking.rechecking import Rechecker

    return Rechecker(folder, day=day, store=store).of(found)


def _keep(store: Store, slot: str, texts: str, case: "CaseText", answer: Checked) -> None:
    """Keeps an answer, unless a file that it was worked out from has changed meanwhile."""
    from assurance.reading.data_files import folder_of

    facts = {(folder_of(case.entries[record].place.file), name): one
             for (record, name), one in case.files.items()}  # fmt: skip
    named = tuple(sorted(facts))
    files = files_digest(texts, facts)
    if files == files_digest(texts, file_facts(case.folder, named)):
        store.put(slot, to_plain(Kept(texts, named, files, answer)))


def checked(assessment: "Assessment") -> Checked:
    """What `check` tells of a finished assessment."""
    return Checked(
        assessment.case,
        assessment.as_of,
        assessment.top_claims,
        tuple(ClaimVerdict(id_, assessment.verdicts[id_], entry.place)
              for id_, entry in assessment.of_kind("claims").items()),
        assessment.findings,
    )  # fmt: skip
