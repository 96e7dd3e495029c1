"""The list of all records, by kind."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import kinds
from assurance.site import wording
from assurance.site.links import Link
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class RecordRow:
    """One record in the list of all."""

    mark: Markup
    name: str
    id: str
    href: str
    place: Link


@dataclass(frozen=True, slots=True)
class KindGroup:
    """All records of one kind."""

    title: str
    count: str
    rows: tuple[RecordRow, ...]
    more: str
    open: bool


@dataclass(frozen=True, slots=True)
class RecordsPage:
    """What `records.html` shows."""

    count: str
    groups: tuple[KindGroup, ...]


def records_page(view: View) -> RecordsPage:
    """The list of all records, by kind."""
    groups = []
    for kind in kinds.KINDS:
        ids = list(view.assessment.of_kind(kind))
        if ids:
            title = wording.label(kinds.SINGULAR[kind] if len(ids) == 1 else kind)
            rows = tuple(_record_row(view, id_) for id_ in ids[:MOST_ROWS])
            groups.append(KindGroup(title, f"{len(ids):,}", rows, more_rows(len(ids)), open=False))
    return RecordsPage(wording.counted(len(view.assessment.entries), "record"), tuple(groups))


def _record_row(view: View, id_: str) -> RecordRow:
    named = view.links.named(id_)
    mark = named.mark if id_ in view.assessment.verdicts else Markup("")
    place = view.links.place(view.assessment.entries[id_].place, id_)
    return RecordRow(mark, named.name, id_, named.href, place)
