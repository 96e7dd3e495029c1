"""The Strength page: the reserve factor of every part, load case and criterion, worst first."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import numbers
from assurance.model.assessment import Assessment, Cell
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.block import LEAST_RESERVE
from assurance.site.drawings_strength import PartRow, narrow_reserve_chart, reserve_chart
from assurance.site.links import Link, Links
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View

MOST_PARTS = 40


@dataclass(frozen=True, slots=True)
class CellRow:
    """One part, load case and criterion."""

    mark: Markup
    part: Link
    load_case: Link
    criterion: str
    reserve_factor: str
    margin: str
    applied: str
    put_on: str
    allowable: str
    allowable_from: Link
    factors: str
    taken_out: str
    not_governing: str
    left_in: str
    origin: Link
    origin_file: str
    origin_name: str
    below_one: str


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
    rows: tuple[CellRow, ...]
    more: str
    empty_cells: tuple[str, ...]
    more_empty: str
    definitions: tuple[wording.Definition, ...]
    caution: str


def strength_page(view: View) -> StrengthPage:
    """The Strength page of a case."""
    found = sorted(_cells(view.assessment), key=_worst_first)
    governed = [(id_, cell) for id_, cell in found if cell.reserve_factor is not None]
    parts = _parts(view, governed)
    says = f"Reserve factors of {len(parts)} parts on a log axis from 0.5 to 5; the wall is what is needed"
    empty = _empty_cells(view)
    least = governed[0] if governed else None
    return StrengthPage(
        css=marks.css_class(_verdict(view, *least)) if least else "open",
        mark=marks.plain_mark(_verdict(view, *least), size=34) if least else Markup(""),
        least=numbers.reserve(least[1].reserve_factor or 0.0) if least else "",
        needed=numbers.fixed(LEAST_RESERVE),
        least_words=_words(view.links, least[1]) if least else "",
        least_origin=origin(view.links, *least) if least else Link("", ""),
        least_file=least[1].file if least else "",
        chart=reserve_chart(parts, says=says) if parts else None,
        narrow_chart=narrow_reserve_chart(parts, says=says) if parts else None,
        rows=tuple(cell_row(view, id_, cell) for id_, cell in found[:MOST_ROWS]),
        more=more_rows(len(found)),
        empty_cells=empty[:MOST_ROWS],
        more_empty=more_rows(len(empty)),
        definitions=wording.STRENGTH_WORDS,
        caution=wording.CAUTION,
    )


def _cells(assessment: Assessment) -> Iterable[tuple[str, Cell]]:
    for id_ in sorted(assessment.worked):
        for cell in assessment.worked[id_].cells:
            yield id_, cell


def _worst_first(one: tuple[str, Cell]) -> tuple[bool, float, str, str, str]:
    cell = one[1]
    factor = cell.reserve_factor
    return (factor is None, numbers.published(factor or 0.0), cell.part, cell.load_case, cell.criterion)


def _verdict(view: View, id_: str, cell: Cell) -> Verdict:
    if cell.reserve_factor is not None and cell.reserve_factor < LEAST_RESERVE:
        return Verdict.FAILS
    return view.links.verdict(id_)


def _words(links: Links, cell: Cell) -> str:
    where = ", ".join(part for part in (cell.criterion, _name(links, cell.load_case)) if part)
    return f"{_name(links, cell.part)}: {where}" if cell.part else where


def _name(links: Links, id_: str) -> str:
    return links.name(id_) if id_ else ""


def _parts(view: View, governed: list[tuple[str, Cell]]) -> list[PartRow]:
    """Each part at its least, in the order of the worst."""
    by_part: dict[str, list[tuple[str, Cell]]] = {}
    for id_, cell in governed:
        by_part.setdefault(cell.part, []).append((id_, cell))
    rows = []
    for part, cells in list(by_part.items())[:MOST_PARTS]:
        id_, least = cells[0]
        rows.append(
            PartRow(
                name=_name(view.links, part) or id_,
                href=view.links.record(part),
                governed_by=", ".join(one for one in (least.criterion, least.load_case) if one),
                verdict=_verdict(view, id_, least),
                least=least.reserve_factor or 0.0,
                others=tuple(cell.reserve_factor for _, cell in cells[1:] if cell.reserve_factor is not None),
                needed=LEAST_RESERVE,
            )
        )
    return rows


def cell_row(view: View, id_: str, cell: Cell) -> CellRow:
    """One part, load case and criterion as a row."""
    links = view.links
    factor = cell.reserve_factor
    return CellRow(
        mark=marks.mark(_verdict(view, id_, cell)),
        part=Link(_name(links, cell.part) or "not stated", links.record(cell.part)),
        load_case=Link(cell.load_case or "no load case", links.record(cell.load_case)),
        criterion=cell.criterion,
        reserve_factor="not governed" if factor is None else numbers.reserve(factor),
        margin="" if factor is None else numbers.reserve(numbers.published(factor - 1.0)),
        put_on=numbers.shown(cell.needed, 3, toward="up"),
        applied=numbers.with_unit(numbers.shown(cell.applied, toward="up"), cell.unit),
        allowable=numbers.with_unit(numbers.shown(cell.allowable, toward="down"), cell.unit),
        allowable_from=_from(links, cell.allowable_from),
        factors=" · ".join(cell.factors) or "none",
        taken_out=" · ".join(cell.already),
        not_governing=" · ".join(cell.not_governing),
        left_in=" · ".join(cell.left_in),
        origin=origin(links, id_, cell),
        origin_file=cell.file.rpartition("/")[2],
        origin_name=cell.row_name,
        below_one=wording.counted(cell.below_one, "row") + " below 1" if cell.below_one else "",
    )


def _from(links: Links, reference: str) -> Link:
    head = reference.partition(".")[0]
    return Link(reference, links.record(reference) or links.result(reference) or links.record(head))


def origin(links: Links, id_: str, cell: Cell) -> Link:
    """Where the least of a cell comes from: a row of a file, or the sheet of the calculation."""
    if cell.file and cell.row:
        return Link(f"row{numbers.NO_BREAK_SPACE}{cell.row:,}", links.record(id_))
    return Link("worked out by hand", links.record(id_))


def _empty_cells(view: View) -> tuple[str, ...]:
    return tuple(
        ", ".join(_name(view.links, one) for one in combination if one)
        for id_ in sorted(view.assessment.worked)
        for combination in view.assessment.worked[id_].empty_cells
    )
