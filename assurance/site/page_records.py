"""The list of all records, by kind."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import kinds
from assurance.site import wording
from assurance.site.cells import counted_line, place_cell
from assurance.site.pieces import anchor, span
from assurance.site.table_groups import Grouping
from assurance.site.tables import Choice, Column, Field, Table, TableOf, table
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class RecordsPage:
    """What `records.html` shows."""

    count: str
    records: Table | None


def records_page(view: View) -> RecordsPage:
    """The list of all records, by kind in the order in which a case is read."""
    ids = [id_ for kind in kinds.KINDS for id_ in view.assessment.of_kind(kind)]
    return RecordsPage(
        count=wording.counted(len(ids), "record") if ids else "Records",
        records=table("records", _records_table(view), ids, root=view.links.root),
    )


def _records_table(view: View) -> TableOf[str]:
    links, entries, verdicts = view.links, view.assessment.entries, view.assessment.verdicts
    return TableOf(
        caption="Records by kind",
        columns=(
            Column("Verdict", lambda id_: _mark(view, id_),
                   lambda id_: -verdicts[id_] if id_ in verdicts else None, "mk", unseen=True),
            Column("Record", lambda id_: anchor(links.record(id_), links.name(id_), "said"), links.name,
                   "what", names_row=True),
            Column("Id", lambda id_: span("id", id_), lambda id_: id_, word="Id"),
            Column("Written in", lambda id_: place_cell(links.place(entries[id_].place, id_)),
                   lambda id_: f"{entries[id_].place.file} {entries[id_].place.line:06}", "record", "Place"),
        ),
        fields=(
            Field("kind", lambda id_: kinds.SINGULAR[entries[id_].kind]),
            Field("id", lambda id_: id_),
            Field("name", links.name),
            Field("verdict", lambda id_: verdicts[id_].word if id_ in verdicts else ""),
            Field("file", lambda id_: entries[id_].place.file),
            Field("line", lambda id_: entries[id_].place.line),
        ),
        groupings=(
            Grouping("kind", lambda id_: entries[id_].kind, _kind_line, folded=lambda _: True),
            Grouping("file", lambda id_: entries[id_].place.file, _file_line, lambda one: one),
        ),
        grouped=True,
        choices=(Choice("does not hold", lambda id_: not view.holds(id_)),),
        nothing="No record matches.",
        css="all-records",
    )  # fmt: skip


def _mark(view: View, id_: str) -> Markup:
    return view.links.named(id_).mark if id_ in view.assessment.verdicts else Markup("")


def _kind_line(key: str, rows: Sequence[str]) -> Markup:
    label = kinds.SINGULAR[key] if len(rows) == 1 else key
    return counted_line(wording.label(label), f"{len(rows):,}")


def _file_line(key: str, rows: Sequence[str]) -> Markup:
    return counted_line(key, wording.counted(len(rows), "record"), css="place")
