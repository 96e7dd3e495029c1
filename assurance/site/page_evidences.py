"""The Evidence page: what there is, what is not current, and what nobody relies on."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from assurance.model.engineering_records import EvidenceRecord
from assurance.model.verdicts import Verdict
from assurance.site import wording
from assurance.site.cells import counted_line, named_cell
from assurance.site.links import Named
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.table_groups import Grouping
from assurance.site.tables import Choice, Column, Field, Table, TableOf, table
from assurance.site.view import View

UNREAD = "cannot be read whole"


@dataclass(frozen=True, slots=True)
class EvidencesPage:
    """What `evidences.html` shows."""

    count: str
    not_current: str
    not_relied_on: str
    drafts: str
    records: Table | None
    alone: tuple[Named, ...]
    more_alone: str


def evidences_page(view: View) -> EvidencesPage:
    """The Evidence page of a case."""
    entries = view.assessment.of_kind("evidence")
    ids = sorted(entries, key=lambda id_: (-view.links.verdict(id_), id_))
    not_current = sum(view.links.verdict(id_) is not Verdict.HOLDS for id_ in ids)
    drafts = sum(_record(view, id_) is not None and _state(view, id_) == "draft" for id_ in ids)
    alone = tuple(id_ for id_ in ids if not view.assessment.used_by.get(id_))
    return EvidencesPage(
        count=wording.counted(len(ids), "record") if ids else "",
        not_current=f"{not_current:,} not current" if not_current else "all current",
        not_relied_on=f"{len(alone):,} nobody relies on" if alone else "",
        drafts=f"{drafts:,} draft" if drafts else "",
        records=table("evidence", _evidence_table(view), ids, root=view.links.root),
        alone=view.links.each(alone[:MOST_ROWS]),
        more_alone=more_rows(len(alone)),
    )


def _evidence_table(view: View) -> TableOf[str]:
    """How evidence is shown: what is not current first, and by state or kind where asked for."""
    return TableOf(
        caption="Evidence records",
        columns=_columns(view),
        fields=_fields(view),
        groupings=(
            Grouping("state", lambda id_: _state(view, id_), _group_line),
            Grouping("kind", lambda id_: _kind(view, id_), _group_line, lambda one: one),
        ),
        choices=(
            Choice("not current", lambda id_: view.links.verdict(id_) is not Verdict.HOLDS),
            Choice("nobody relies on", lambda id_: not view.assessment.used_by.get(id_)),
        ),
    )


def _columns(view: View) -> tuple[Column[str], ...]:
    links = view.links
    return (
        Column("Verdict", lambda id_: links.named(id_).mark, lambda id_: -links.verdict(id_), "mk",
               unseen=True),
        Column("Record", lambda id_: named_cell(links.named(id_)), links.name, "what", names_row=True),
        Column("Kind", lambda id_: _kind(view, id_), lambda id_: _kind(view, id_) or None, word="Kind"),
        Column("Date", lambda id_: wording.day(_date(view, id_)), lambda id_: _date(view, id_), "nb", "Date"),
        Column("Revision", lambda id_: _revision(view, id_), lambda id_: _revision(view, id_) or None,
               word="Revision"),
        Column("Current", lambda id_: _current(view, id_), lambda id_: _current(view, id_), word="Current"),
        Column("Relied on by", lambda id_: f"{_used_by(view, id_):,}", lambda id_: _used_by(view, id_), "num",
               "Relied on by", falling=True),
    )  # fmt: skip


def _fields(view: View) -> tuple[Field[str], ...]:
    return (
        Field("verdict", lambda id_: view.links.verdict(id_).word),
        Field("id", lambda id_: id_),
        Field("title", view.links.name),
        Field("kind", lambda id_: _kind(view, id_)),
        Field("state", lambda id_: _state(view, id_)),
        Field("date", lambda id_: _date(view, id_)),
        Field("revision", lambda id_: _revision(view, id_)),
        Field("current", lambda id_: _current(view, id_)),
        Field("relied on by [records]", lambda id_: _used_by(view, id_)),
        Field("file", lambda id_: view.assessment.entries[id_].place.file),
        Field("line", lambda id_: view.assessment.entries[id_].place.line),
    )


def _group_line(key: str, rows: Sequence[str]) -> Markup:
    return counted_line(wording.label(key or UNREAD), wording.counted(len(rows), "record"))


def _record(view: View, id_: str) -> EvidenceRecord | None:
    record = view.assessment.entries[id_].record
    return record if isinstance(record, EvidenceRecord) else None


def _kind(view: View, id_: str) -> str:
    record = _record(view, id_)
    return record.kind if record else ""


def _state(view: View, id_: str) -> str:
    record = _record(view, id_)
    return str(record.state) if record else ""


def _date(view: View, id_: str) -> date | None:
    record = _record(view, id_)
    return record.date if record else None


def _revision(view: View, id_: str) -> str:
    record = _record(view, id_)
    return (record.revision if record else "") or ""


def _used_by(view: View, id_: str) -> int:
    return len(view.assessment.used_by.get(id_, ()))


def _current(view: View, id_: str) -> str:
    """Why a record is not current, or that it is."""
    if _record(view, id_) is None:
        return UNREAD
    reasons = sorted(view.assessment.reasons.get(id_, ()), key=lambda one: -one.verdict)
    return wording.sentence(reasons[0].text.replace("`", "")) if reasons else "current"
