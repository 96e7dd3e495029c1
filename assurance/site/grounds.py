"""What a record rests on, as rows."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import kinds
from assurance.model.argument_records import ClaimRecord
from assurance.model.engineering_records import Calculation, EvidenceRecord
from assurance.site import wording
from assurance.site.argument_tree import children_of
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class GroundRow:
    """One record that another rests on."""

    mark: Markup
    name: str
    id: str
    href: str
    kind: str
    date: str
    revision: str
    shows: str


def ground_rows(view: View, id_: str) -> tuple[GroundRow, ...]:
    """What a record rests on, in the order written."""
    shows = _shown_by(view, id_)
    return tuple(_row(view, one, shows.get(one, "")) for one in children_of(view.assessment, id_))


def _row(view: View, id_: str, shows: str) -> GroundRow:
    entry = view.assessment.entries[id_]
    named = view.links.named(id_)
    record = entry.record
    kind, day, revision = kinds.SINGULAR[entry.kind], "", ""
    if isinstance(record, EvidenceRecord):
        kind, day, revision = record.kind, wording.day(record.date), record.revision or ""
    elif isinstance(record, Calculation):
        kind = f"calculation, {record.method}"
    return GroundRow(named.mark, named.name, id_, named.href, kind, day, revision, shows)


def _shown_by(view: View, id_: str) -> dict[str, str]:
    """What each ground is said to show, and where."""
    record = view.assessment.entries[id_].record
    if not isinstance(record, ClaimRecord):
        return {}
    return {
        support.record: ", ".join(part for part in (support.shows, support.where) if part)
        for argument in record.each_argument().values()
        for support in argument.rests_on
    }
