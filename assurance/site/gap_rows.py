"""What is missing as rows: by owner for the Conclusion, and as the table of the Gaps page."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.verdicts import Missing, Verdict
from assurance.site import marks, wording
from assurance.site.cells import beneath, counted_line, place_cell, to
from assurance.site.links import Link
from assurance.site.table_groups import Grouping, anchor
from assurance.site.tables import Choice, Column, Field, TableOf
from assurance.site.view import View

_DUE = {
    "late": "Late",
    "due": "Not due yet",
    "none": "No date",
}


@dataclass(frozen=True, slots=True)
class GapRow:
    """One thing to put right."""

    mark: Markup
    text: Markup
    remedy: Markup
    due: str
    late: str
    frees: str
    frees_unit: str


@dataclass(frozen=True, slots=True)
class OwnerRows:
    """The things of one owner."""

    owner: str
    href: str
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
        OwnerRows(owner, gaps_of(owner), wording.counted(len(rows), "thing"), tuple(rows), rows[0],
                  tuple(rows[1:]))
        for owner, rows in groups.items()
    )  # fmt: skip


def gaps_of(owner: str) -> str:
    """The address of what is missing of one owner."""
    return f"gaps.html#owner={anchor(owner)}"


def gap_row(view: View, missing: Missing) -> GapRow:
    """One thing to put right, as a row."""
    return GapRow(
        mark=marks.mark(missing.verdict),
        text=view.fault(missing.record, missing.text, missing.place),
        remedy=view.links.say(wording.sentence(missing.remedy)),
        due=wording.day(missing.due),
        late=wording.late(missing.due, as_of=view.assessment.as_of),
        frees=f"{missing.frees:,}",
        frees_unit="claim" if missing.frees == 1 else "claims",
    )


def gaps_table(view: View) -> TableOf[Missing]:
    """How the gaps are shown: in groups by owner, and by verdict or day where a reader asks for it."""
    return TableOf(
        caption="What stands between today and the use",
        columns=_columns(view),
        fields=_fields(view),
        groupings=(
            Grouping("owner", lambda one: anchor(view.who(one.owner)), _owner_line(view)),
            Grouping("verdict", lambda one: one.verdict.name, _verdict_line, lambda one: -Verdict[one]),
            Grouping("due", lambda one: _due(view, one), _due_line, tuple(_DUE).index),
            Grouping("frees", lambda one: str(one.frees), _frees_line, lambda key: -int(key)),
        ),
        grouped=True,
        choices=(Choice("late", lambda one: _due(view, one) == "late"),),
        nothing="No gap matches.",
        css="by-owner",
    )


def _columns(view: View) -> tuple[Column[Missing], ...]:
    return (
        Column("Verdict", lambda one: marks.mark(one.verdict), lambda one: -one.verdict, "mk", unseen=True),
        Column("What is wrong, and what puts it right", lambda one: _wrong(view, one), css="what"),
        Column("Record", lambda one: _record(view, one), lambda one: one.record, "record", "Record"),
        Column("Owner", lambda one: view.who(one.owner), lambda one: view.who(one.owner), "owned", "Owner"),
        Column("Due", lambda one: _due_cell(view, one), lambda one: one.due, "num after", "Due"),
        Column(
            "Claims it frees", lambda one: _frees(one), lambda one: one.frees, "num after", "Frees",
            falling=True,
        ),
    )  # fmt: skip


def _wrong(view: View, one: Missing) -> Markup:
    row = gap_row(view, one)
    return row.text + Markup(' <span class="do">{}</span>').format(row.remedy)


def _record(view: View, one: Missing) -> Markup:
    place = place_cell(view.links.place(one.place, one.record))
    if not one.record:
        return place
    return to(Link(one.record, view.links.record(one.record)), "id") + Markup("<br>") + place


def _due_cell(view: View, one: Missing) -> Markup:
    late = wording.late(one.due, as_of=view.assessment.as_of)
    day = Markup("{}").format(wording.day(one.due) or "no date")
    return day + (Markup("<br>") + beneath(late, "late") if late else Markup(""))


def _frees(one: Missing) -> Markup:
    return Markup('{:,}<span class="unit"> {}</span>').format(
        one.frees, "claim" if one.frees == 1 else "claims"
    )


def _due(view: View, one: Missing) -> str:
    if one.due is None:
        return "none"
    return "late" if wording.late(one.due, as_of=view.assessment.as_of) else "due"


def _owner_line(view: View) -> Callable[[str, Sequence[Missing]], Markup]:
    def line(_: str, rows: Sequence[Missing]) -> Markup:
        days = [one.due for one in rows if one.due is not None]
        end = f"next due {wording.day(min(days))}" if days else "no date"
        return counted_line(view.who(rows[0].owner), wording.counted(len(rows), "thing"), end)

    return line


def _verdict_line(key: str, rows: Sequence[Missing]) -> Markup:
    return marks.verdict_word(Verdict[key]) + Markup(' <span class="label">{}</span>').format(
        wording.counted(len(rows), "thing")
    )


def _due_line(key: str, rows: Sequence[Missing]) -> Markup:
    return counted_line(_DUE[key], wording.counted(len(rows), "thing"))


def _frees_line(key: str, rows: Sequence[Missing]) -> Markup:
    frees = f"Frees {wording.counted(int(key), 'claim')}" if int(key) else "Frees no claim alone"
    return counted_line(frees, wording.counted(len(rows), "thing"))


def _fields(view: View) -> tuple[Field[Missing], ...]:
    return (
        Field("verdict", lambda one: one.verdict.word),
        Field("what is wrong", lambda one: wording.sentence(one.text)),
        Field("what puts it right", lambda one: wording.sentence(one.remedy)),
        Field("record", lambda one: one.record),
        Field("claim", lambda one: one.claim),
        Field("owner", lambda one: view.who(one.owner)),
        Field("due", lambda one: one.due),
        Field("claims it frees", lambda one: one.frees),
        Field("file", lambda one: one.place.file),
        Field("line", lambda one: one.place.line),
    )
