"""Adds a record to a case: chosen file, placeholders that can be read, written whole or not at all."""

import os
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from assurance.methods.registry import METHODS
from assurance.model.case import CaseText
from assurance.model.fields import ID
from assurance.model.kinds import KINDS, SINGULAR, Entry
from assurance.model.verdicts import Finding
from assurance.reading.faults import did_you_mean, listed, of_kind
from assurance.reading.folders import RECORD_FOLDERS, SUFFIXES
from assurance.reading.marks import namings
from assurance.reading.real_paths import leads_out, real_path
from assurance.reading.record_files import Item, read_file
from assurance.reading.references import Known, misnamed
from assurance.reading.wording import id_words
from assurance.scaffold.placeholders import placeholders
from assurance.scaffold.record_text import RecordText, record_text
from assurance.scaffold.schema_file import editor_line
from assurance.scaffold.splicing import NotSpliced, Spliced, spliced
from assurance.scaffold.writing import write_whole

MARK = b"\xef\xbb\xbf"  # the byte-order mark, kept where a file has one
AMONG_HAZARDS = frozenset({"hazards", "failure_modes", "rating_scales", "risk_scheme", "actions"})


class Refused(ValueError):  # noqa: N818 - it says what happened
    """The record was not added and nothing was changed; the text says why and what would put it right."""


@dataclass(frozen=True, slots=True)
class AddedRecord:
    """Where a new record was written, and whether it still lacks an owner."""

    file: str
    line: int
    unowned: bool


def add_record(
    case: CaseText, kind: str, id_: str, *, given: Mapping[str, Any], file: str | None = None
) -> AddedRecord:
    """Adds a record of a kind to the case, with these values and placeholders for what else it needs.

    Raises `Refused`, with nothing changed, where the record could not be read back whole from there.
    """
    _refuse_case(case)
    _refuse_id(case, id_)
    name = _checked_file(case, _default_file(case, kind) if file is None else file)
    _refuse_method(given.get("method"))
    values = placeholders(case, kind, given)
    path = case.folder / name
    before = path.read_bytes() if path.is_file() else None
    added = _added(case, name, before, kind, record_text(KINDS[kind], id_, values))
    _refuse_faults(case, id_, kind, _entry_of(name, added.text, id_))
    _refuse_losses(name, _decoded(name, before), added.text, id_)
    if (path.read_bytes() if path.is_file() else None) != before:
        raise Refused(f"`{name}` was changed by somebody else meanwhile. Run the command again")
    mark = MARK if before is not None and before.startswith(MARK) else b""
    write_whole(path.resolve(), mark + added.text.encode())
    return AddedRecord(name, added.line, "owner" in KINDS[kind].model_fields and "owner" not in values)


def _refuse_case(case: CaseText) -> None:
    if not case.of_kind("case"):
        raise Refused(
            f"no `case` record could be read in `{case.folder}`. "
            "Name the folder of a case with `--case`, or start one with `holdwater new case`"
        )


def _refuse_id(case: CaseText, id_: str) -> None:
    if not ID.fullmatch(id_):
        _, message, remedy = id_words(id_, "an id")
        raise Refused(_joined(message, remedy))
    taken = {known.lower(): entry for known, entry in case.entries.items()}.get(id_.lower())
    if taken is not None:
        holder = f"{of_kind(taken.kind)} `{taken.id}` at {taken.place}"
        raise Refused(f"the id `{id_}` is already used: {holder}. Choose another")


def _refuse_method(method: str | None) -> None:
    if method is not None and method not in METHODS:
        near = did_you_mean(
            method, tuple(METHODS), otherwise=f"The methods are {listed(tuple(METHODS), 'and')}."
        )
        raise Refused(_joined(f"`{method}` is no method.", near))


def _default_file(case: CaseText, kind: str) -> str:
    """The file that holds most records of the kind, else one of its own."""
    holding = Counter(entry.place.file for entry in case.of_kind(kind).values())
    if holding:
        return min(holding, key=lambda name: (-holding[name], name))
    folder = "hazards" if kind in AMONG_HAZARDS else "claims"
    return f"{folder}/{kind.replace('_', '-')}.yml"


def _checked_file(case: CaseText, file: str) -> str:
    """A file as a path from the case folder: YAML under `claims/` or `hazards/` that leads nowhere else."""
    root = case.folder.resolve()
    inside = Path(os.path.relpath(root / file, root))  # as written: a link is looked at below
    if inside.parts[0] not in RECORD_FOLDERS or len(inside.parts) < len(("claims", "file")):
        raise Refused(f"`{file}` is not under `claims/` or `hazards/` of the case. Name a file there")
    if inside.suffix.lower() not in SUFFIXES or not inside.as_posix().isprintable():
        raise Refused(f"`{file}` would not be read as a YAML file. Name one that ends in `.yml`")
    path = root / inside
    if real_path(path) is None or leads_out(path, root):
        raise Refused(f"`{file}` leads out of the case, or nowhere. Name a file of the case itself")
    if path.exists() and not path.is_file():
        raise Refused(f"`{file}` is not a file. Name a YAML file under `claims/` or `hazards/`")
    return inside.as_posix()


def _added(case: CaseText, name: str, before: bytes | None, kind: str, record: RecordText) -> Spliced:
    text = _decoded(name, before)
    if before is None:
        line = editor_line(case.folder, case.folder / name)
        text = f"{line}\n\n" if line else ""
    try:
        return spliced(text, kind, record)
    except NotSpliced as why:
        raise Refused(f"the record cannot be put into `{name}`: {why}") from None


def _decoded(name: str, content: bytes | None) -> str:
    try:
        return (content or b"").decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refused(f"`{name}` is not UTF-8. Save it as UTF-8 first") from None


def _entry_of(name: str, text: str, id_: str) -> tuple[Entry | None, tuple[Finding, ...]]:
    """The new record as it would be read, and what would be found in it."""
    items = read_file(name, text)
    entry = next((item for item in items if isinstance(item, Entry) and item.id == id_), None)
    return entry, tuple(item for item in items if isinstance(item, Finding) and item.record == id_)


def _refuse_faults(
    case: CaseText,
    id_: str,
    kind: str,
    read: tuple[Entry | None, tuple[Finding, ...]],
) -> None:
    """Refuses a record that names what is not there, or holds a value that cannot be read."""
    entry, findings = read
    if findings:
        raise Refused(_joined(findings[0].message, findings[0].remedy))
    if entry is None or entry.record is None or entry.kind != kind:
        raise Refused(f"the {SINGULAR[kind]} `{id_}` would not be read back whole. Add it by hand")
    known = Known({**case.entries, id_: entry}, frozenset())
    for naming in namings(entry.record):
        wrong = misnamed(naming, known)
        if wrong is not None:
            raise Refused(_joined(wrong.message, wrong.remedy))


def _joined(message: str, remedy: str) -> str:
    """A message and its remedy, without the full stop at the end."""
    return f"{message} {remedy}".removesuffix(".")


def _refuse_losses(name: str, before: str, after: str, id_: str) -> None:
    """Refuses a text in which anything but the new record would be read in another way than before."""
    rest = [item for item in read_file(name, after) if not (isinstance(item, Entry) and item.id == id_)]
    if [_told(item) for item in rest] != [_told(item) for item in read_file(name, before)]:
        raise Refused(f"`{name}` is laid out so that a record cannot be added safely. Add it by hand")


def _told(item: Item) -> object:
    """What an item of a file says, wherever it stands."""
    if isinstance(item, Entry):
        return item.id, item.kind, item.record
    return (item.rule, item.record, item.message) if isinstance(item, Finding) else item
