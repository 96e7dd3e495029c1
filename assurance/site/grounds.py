"""What a record rests on, as rows."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import kinds
from assurance.model.argument_records import ClaimRecord
from assurance.model.engineering_records import Calculation, EvidenceRecord, TestedPart
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
    of: str  # outcome, and the parts that were looked at
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
    kind, of, day, revision = kinds.SINGULAR[entry.kind], "", "", ""
    if isinstance(record, EvidenceRecord):
        kind, of, day = record.kind, _of(record), wording.day(record.date)
        revision = record.revision or ""
    elif isinstance(record, Calculation):
        of = record.method
    return GroundRow(named.mark, named.name, id_, named.href, kind, of, day, revision, shows)


def _of(record: EvidenceRecord) -> str:
    """The outcome, what is not issued, and the parts with issue and serial."""
    state = "" if record.state == "issued" else record.state
    parts = (part_shown(one) for one in record.parts)
    return ", ".join(part for part in (record.outcome or "", state, *parts) if part)


def part_shown(part: TestedPart) -> str:
    """A part as it was tested: its id with issue and serial."""
    issue = f" issue {part.issue}" if part.issue else ""
    return f"{part.part}{issue}{f' serial {part.serial}' if part.serial else ''}"


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
