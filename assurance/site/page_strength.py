"""The Strength page: the reserve factor of every part, load case and criterion, worst first."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import numbers
from assurance.site import marks, wording
from assurance.site.block import LEAST_RESERVE
from assurance.site.drawings_strength import MOST_TICKS, PartRow, narrow_reserve_chart, reserve_chart
from assurance.site.links import Link, Links
from assurance.site.pieces import span
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.strength_rows import CellOf, cell_verdict, cells_table, name_of, origin, worst_first
from assurance.site.tables import Table, table
from assurance.site.view import View

MOST_PARTS = 40
CHART_CAPTION = (
    "A dot is the least of a part, hollow where what it rests on does not hold; ticks are its other load "
    f"cases and criteria, the {MOST_TICKS} nearest to the wall."
)


@dataclass(frozen=True, slots=True)
class StrengthPage:
    """What `strength.html` shows."""

    css: str
    mark: Markup
    least: str
    needed: str
    least_words: str
    least_origin: Link
    least_file: str
    chart: Markup | None
    narrow_chart: Markup | None
    chart_caption: str
    cells: Table | None
    empty_cells: tuple[Markup, ...]
    more_empty: str
    definitions: tuple[wording.Definition, ...]
    caution: str


def strength_page(view: View) -> StrengthPage:
    """The Strength page of a case."""
    found = worst_first(view, sorted(view.assessment.worked))
    governed = [one for one in found if one.cell.reserve_factor is not None]
    parts = _parts(view, governed)
    says = f"Reserve factors of {len(parts)} parts on a log axis from 0.5 to 5; the wall is what is needed"
    empty = _empty_cells(view)
    least = governed[0] if governed else None
    return StrengthPage(
        css=marks.css_class(cell_verdict(view, least)) if least else "open",
        mark=marks.plain_mark(cell_verdict(view, least), size=34) if least else Markup(""),
        least=numbers.reserve(least.cell.reserve_factor or 0.0) if least else "",
        needed=numbers.fixed(LEAST_RESERVE),
        least_words=_words(view.links, least) if least else "",
        least_origin=origin(view.links, least) if least else Link("", ""),
        least_file=least.cell.file if least else "",
        chart=reserve_chart(parts, says=says) if parts else None,
        narrow_chart=narrow_reserve_chart(parts, says=says) if parts else None,
        chart_caption=CHART_CAPTION,
        cells=table("strength", cells_table(view, found), found, root=view.links.root),
        empty_cells=empty[:MOST_ROWS],
        more_empty=more_rows(len(empty)),
        definitions=wording.STRENGTH_WORDS,
        caution=wording.CAUTION,
    )


def _words(links: Links, one: CellOf) -> str:
    where = ", ".join(part for part in (one.cell.criterion, name_of(links, one.cell.load_case)) if part)
    return f"{name_of(links, one.cell.part)}: {where}" if one.cell.part else where


def _parts(view: View, governed: Sequence[CellOf]) -> list[PartRow]:
    """Each part at its least, in the order of the worst."""
    by_part: dict[str, list[CellOf]] = {}
    for one in governed:
        by_part.setdefault(one.cell.part, []).append(one)
    return [_part(view, part, rows) for part, rows in list(by_part.items())[:MOST_PARTS]]


def _part(view: View, part: str, rows: Sequence[CellOf]) -> PartRow:
    least = rows[0].cell
    factors = [one.cell.reserve_factor for one in rows if one.cell.reserve_factor is not None]
    return PartRow(
        name=name_of(view.links, part) or rows[0].calculation,
        href=view.links.record(part),
        governed_by=", ".join(one for one in (least.criterion, least.load_case) if one),
        verdict=cell_verdict(view, rows[0]),
        least=factors[0],
        others=tuple(factors[1:]),
        needed=LEAST_RESERVE,
    )


def _empty_cells(view: View) -> tuple[Markup, ...]:
    """Combinations of part, load case and criterion without a row, in the words of their records."""
    return tuple(
        Markup(", ").join(span("said", name_of(view.links, one)) for one in combination if one)
        for id_ in sorted(view.assessment.worked)
        for combination in view.assessment.worked[id_].empty_cells
    )
