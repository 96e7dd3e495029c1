"""What is missing as rows, grouped by who can put it right."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.verdicts import Missing
from assurance.site import marks, wording
from assurance.site.links import Link
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class GapRow:
    """One thing to put right."""

    mark: Markup
    text: Markup
    remedy: Markup
    place: Link
    record: Link
    due: str
    late: str
    frees: str
    frees_unit: str


@dataclass(frozen=True, slots=True)
class OwnerRows:
    """The things of one owner."""

    owner: str
    count: str
    rows: tuple[GapRow, ...]
    first: GapRow
    others: tuple[GapRow, ...]


def by_owner(view: View, missing: Iterable[Missing]) -> tuple[OwnerRows, ...]:
    """Things to put right by owner; the owner of the most pressing thing comes first."""
    groups: dict[str, list[GapRow]] = {}
    for one in missing:
        groups.setdefault(view.who(one.owner), []).append(gap_row(view, one))
    return tuple(
        OwnerRows(owner, wording.counted(len(rows), "thing"), tuple(rows), rows[0], tuple(rows[1:]))
        for owner, rows in groups.items()
    )


def gap_row(view: View, missing: Missing) -> GapRow:
    """One thing to put right, as a row."""
    return GapRow(
        mark=marks.mark(missing.verdict),
        text=view.fault(missing.record, missing.text, missing.place),
        remedy=view.links.say(wording.sentence(missing.remedy)),
        place=view.links.place(missing.place, missing.record),
        record=Link(missing.record, view.links.record(missing.record)),
        due=wording.day(missing.due),
        late=wording.late(missing.due, as_of=view.assessment.as_of),
        frees=f"{missing.frees:,}",
        frees_unit="claim" if missing.frees == 1 else "claims",
    )
