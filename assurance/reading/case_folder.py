"""A whole case folder: its records, where each is written, its files, and what was wrong."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from assurance.model.argument_records import Case
from assurance.model.case import CaseText, FileFact, SiteSettings
from assurance.model.fields import Refers, Who
from assurance.model.kinds import Entry
from assurance.model.verdicts import Finding, Place, Weight
from assurance.reading.coherence import incoherent
from assurance.reading.data_files import OUTSIDE, file_facts, folder_of
from assurance.reading.faults import as_finding, of_kind, shown_value
from assurance.reading.file_readings import FileReading, read_afresh
from assurance.reading.found import Found, find
from assurance.reading.marks import Naming
from assurance.reading.memory import no_garbage_collection
from assurance.reading.record_files import Glimpsed
from assurance.reading.references import Known, Misnamed, misnamed, names_something
from assurance.reading.texts import CaseTexts, Spots
from assurance.reading.validating import MOST_FAULTS

NOTHING_READ = FileReading(())
ReadText = Callable[[str, str], FileReading]  # from the name of a file and its text


def read_case(folder: Path) -> CaseText:
    """Every record of a case folder, and a finding for everything that cannot be read whole."""
    found = find(folder)
    return no_folder(folder) if found is None else read_found(found)


def read_found(found: Found, *, read: ReadText = read_afresh) -> CaseText:
    """Every record of what was found in a case folder.

    `read` may give the reading of a text that was read before; it must be the one of `read_afresh`.
    """
    with no_garbage_collection():
        return _read(found, read)


def _read(found: Found, read: ReadText) -> CaseText:
    texts: dict[str, str] = {}
    spots: dict[str, Spots] = {}
    gathered = _Gathered()
    for file in found.files:
        texts[file.name] = file.text
        if file.fault is not None:
            gathered.findings.append(as_finding(file.fault, file=file.name))
            gathered.whole = False
        reading = read(file.name, file.text)
        spots[file.name] = reading.spots
        gathered.take(file.name, reading)
    gathered.fill_gaps()
    written = CaseTexts(texts, gathered.entries, spots)
    files = _files(found.folder, gathered)
    findings = [
        *found.settings.findings,
        *gathered.told(),
        *_without_case(gathered, texts),
        *_misnamed(gathered, written),
        *_outside(gathered.files, files, written),
    ]
    return CaseText(
        folder=found.folder,
        settings=found.settings.settings,
        entries=gathered.entries,
        findings=tuple(sorted(findings, key=_order)),
        files=files,
        locate=written.locate,
        as_written=written.as_written,
        texts=_texts_read(found),
    )


def _texts_read(found: Found) -> tuple[FileFact, ...]:
    """The settings and every YAML file as facts, with the sha256 of the bytes that were read."""
    settings = [found.settings.file] if found.settings.file else []
    return tuple(
        FileFact(
            one.name, one.name, sha256=one.sha256, size=one.size, fault=one.fault.message if one.fault else ""
        )
        for one in (*settings, *found.files)
    )


@dataclass(slots=True)
class _Gathered:
    """What the files of a case hold together; the first of two records with one id stays."""

    entries: dict[str, Entry] = field(default_factory=dict)
    names: dict[str, tuple[Naming, ...]] = field(default_factory=dict)
    files: dict[str, tuple[Naming, ...]] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    unread: set[str] = field(default_factory=set)
    folded: dict[str, Entry] = field(default_factory=dict)
    glimpsed: list[Entry] = field(default_factory=list)
    readings: dict[str, list[FileReading]] = field(default_factory=dict)  # by file
    case: Entry | None = None
    whole: bool = True

    def take(self, file: str, reading: FileReading) -> None:
        self.readings.setdefault(file, []).append(reading)
        if reading.items and all(isinstance(item, Finding) for item in reading.items):
            self.whole = False  # a file of which no id is known
        for item in reading.items:
            if isinstance(item, Entry):
                self._take_entry(item, reading)
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
                self._take_entry(stub, NOTHING_READ)

    def told(self) -> Iterator[Finding]:
        """The findings so far; one of a record that did not stay speaks of its file."""
        for finding in self.findings:
            stays = finding.record in self.entries
            yield finding if stays else replace(finding, record="")

    def _take_entry(self, entry: Entry, reading: FileReading) -> None:
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
        if entry.record is not None:
            self.names[entry.id] = reading.names[entry.id]
            if entry.id in reading.files:
                self.files[entry.id] = reading.files[entry.id]
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


def _misnamed(gathered: _Gathered, written: CaseTexts) -> Iterator[Finding]:
    known = Known(gathered.entries, frozenset(gathered.unread), whole=gathered.whole)
    case = gathered.case.record if gathered.case else None
    doubtful = _doubtful(gathered, known)
    for id_, names in gathered.names.items():
        entry = gathered.entries[id_]
        looked_at = names if entry.place.file in doubtful else ()
        wrong = [found for naming in looked_at if (found := misnamed(naming, known, own=id_)) is not None]
        if entry.record is not None:
            wrong += incoherent(entry.record, known, case if isinstance(case, Case) else None)
        for each in wrong[:MOST_FAULTS]:
            yield _as_finding(id_, each, written)
        if len(wrong) > MOST_FAULTS:
            yield _as_finding(id_, _many_more(len(wrong) - MOST_FAULTS), written)


def _doubtful(gathered: _Gathered, known: Known) -> set[str]:
    """The files in which a text may name nothing. Each text is looked at once, however often it stands."""
    readings = [(file, one) for file, several in gathered.readings.items() for one in several]
    texts: dict[Refers | Who, set[str]] = {}
    for _, reading in readings:
        for mark, here in reading.texts.items():
            texts.setdefault(mark, set()).update(here)
    left = {mark: {one for one in every if not names_something(one, mark, known)}
            for mark, every in texts.items()}  # fmt: skip
    return {file for file, reading in readings
            if any(not left[mark].isdisjoint(here) for mark, here in reading.texts.items())}  # fmt: skip


def _many_more(count: int) -> Misnamed:
    message = f"{count:,} more names in this record are wrong, which are not listed."
    return Misnamed("reference-unknown", (), message, "Put right the ones listed first.")


def _as_finding(id_: str, wrong: Misnamed, written: CaseTexts) -> Finding:
    return _finding(wrong.rule, id_, written.locate(id_, wrong.path), wrong.message, wrong.remedy)


def _files(folder: Path, gathered: _Gathered) -> dict[tuple[str, str], FileFact]:
    """The fact of each file by record and name as written; a record's own folder is where its names start."""
    starts = {(id_, naming.text): folder_of(gathered.entries[id_].place.file)
              for id_, names in gathered.files.items() for naming in names}  # fmt: skip
    facts = file_facts(folder, ((start, name) for (_, name), start in starts.items()))
    return {(id_, name): facts[start, name] for (id_, name), start in starts.items()}


def _outside(
    named: Mapping[str, tuple[Naming, ...]], files: Mapping[tuple[str, str], FileFact], written: CaseTexts
) -> Iterator[Finding]:
    for id_, names in named.items():
        told: set[str] = set()
        for naming in names:
            if naming.text not in told and files[id_, naming.text].fault == OUTSIDE:
                told.add(naming.text)
                message = f"{shown_value(naming.text)} lies outside the case folder; it is not read."
                place = written.locate(id_, naming.path)
                remedy = "Put the file into the case and name it from here."
                yield _finding("file-outside-the-case", id_, place, message, remedy)


def no_folder(folder: Path) -> CaseText:
    """The case of a folder that is not there."""
    message = f"There is no case folder `{folder.name}`."
    finding = _finding("case-missing", "", Place(), message, "Name a folder with `claims/` and `hazards/`.")
    written = CaseTexts({}, {}, {})
    return CaseText(folder, SiteSettings(), {}, (finding,), {}, written.locate, written.as_written)


def _finding(rule: str, record: str, place: Place, message: str, remedy: str) -> Finding:
    return Finding(rule, Weight.BLOCKING, record, place, message, remedy)


def _order(finding: Finding) -> tuple[Place, str, str]:
    return finding.place, finding.rule, finding.message
