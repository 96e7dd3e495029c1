"""Reserve factors as rows: one for every part, load case and criterion, with where each number is from."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model import numbers
from assurance.model.assessment import Cell
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.block import LEAST_RESERVE
from assurance.site.cells import beneath, counted_line, to
from assurance.site.links import Link, Links
from assurance.site.pieces import bold, span
from assurance.site.rows import MOST_ROWS
from assurance.site.table_groups import Grouping
from assurance.site.tables import Choice, Column, Field, TableOf
from assurance.site.view import View

_NOT_GOVERNED = "not governed"


@dataclass(frozen=True, slots=True)
class CellOf:
    """A part, load case and criterion with the calculation that works it out."""

    calculation: str
    cell: Cell


def worst_first(view: View, calculations: Iterable[str]) -> list[CellOf]:
    """The cells of calculations, the least reserve factor first, those without one last."""
    worked = view.assessment.worked
    found = [CellOf(id_, cell) for id_ in calculations if id_ in worked for cell in worked[id_].cells]
    return sorted(found, key=_weight)


def _weight(one: CellOf) -> tuple[bool, float, str, str, str]:
    cell, factor = one.cell, one.cell.reserve_factor
    return (factor is None, numbers.published(factor or 0.0), cell.part, cell.load_case, cell.criterion)


def cell_verdict(view: View, one: CellOf) -> Verdict:
    """What is concluded about a cell: below what is needed it fails, whatever it rests on."""
    return Verdict.FAILS if _below_one(one) else view.links.verdict(one.calculation)


def name_of(links: Links, id_: str) -> str:
    """The name of a part or load case, or nothing where none is stated."""
    return links.name(id_) if id_ else ""


def origin(links: Links, one: CellOf) -> Link:
    """Where the least of a cell comes from: a row of a file, or the sheet of the calculation."""
    if one.cell.file and one.cell.row:
        row = f"row{numbers.NO_BREAK_SPACE}{one.cell.row:,}"
        return Link(row, links.record(one.calculation))
    return Link("worked out by hand", links.record(one.calculation))


def cells_table(view: View, rows: Sequence[CellOf], *, at_first: int = MOST_ROWS) -> TableOf[CellOf]:
    """How reserve factors are shown: worst first, and by part, load case or criterion where asked for."""
    governing = _governing(rows)
    return TableOf(
        caption="Every part, load case and criterion, worst first",
        columns=(*_what(view), *_factors(), *_stresses(view), _origin_column(view)),
        fields=(*_places_fields(), *_number_fields(), *_origin_fields()),
        groupings=(
            Grouping("part", lambda one: one.cell.part, _line(view, lambda one: one.part)),
            Grouping("load case", lambda one: one.cell.load_case, _line(view, lambda one: one.load_case)),
            Grouping("criterion", lambda one: one.cell.criterion, _line(view, lambda one: one.criterion)),
        ),
        choices=(
            Choice("least of each part", lambda one: governing.get(one.cell.part) is one),
            Choice("below 1", _below_one),
        ),
        css="cells",
        at_first=at_first,
    )


def _governing(rows: Sequence[CellOf]) -> dict[str, CellOf]:
    """The row with the least reserve factor of each part; `rows` stand worst first."""
    found: dict[str, CellOf] = {}
    for one in rows:
        if one.cell.reserve_factor is not None:
            found.setdefault(one.cell.part, one)
    return found


def _below_one(one: CellOf) -> bool:
    factor = one.cell.reserve_factor
    return factor is not None and factor < LEAST_RESERVE


def _what(view: View) -> tuple[Column[CellOf], ...]:
    links = view.links
    return (
        Column("Verdict", lambda one: marks.mark(cell_verdict(view, one)),
               lambda one: -cell_verdict(view, one), "mk", unseen=True),
        Column("Part, criterion", lambda one: _part(links, one.cell),
               lambda one: name_of(links, one.cell.part) or None, "what", names_row=True),
        Column("Load case", lambda one: _load_case(links, one.cell), lambda one: one.cell.load_case or None,
               word="Load case"),
    )  # fmt: skip


def _factors() -> tuple[Column[CellOf], ...]:
    return (
        Column("Reserve factor", lambda one: _reserve(one.cell), lambda one: one.cell.reserve_factor,
               "num after", "Reserve factor"),
        Column("Margin of safety", lambda one: _margin(one.cell), lambda one: one.cell.margin, "num after",
               "Margin"),
    )  # fmt: skip


def _stresses(view: View) -> tuple[Column[CellOf], ...]:
    return (
        Column("Applied", lambda one: _applied(one.cell), lambda one: one.cell.applied, "num",
               "Applied"),
        Column("Factor put on", lambda one: _put_on(one.cell), lambda one: one.cell.needed, "put-on",
               "Factor put on"),
        Column("Allowable", lambda one: _allowable(view.links, one.cell), lambda one: one.cell.allowable,
               "from", "Allowable"),
    )  # fmt: skip


def _origin_column(view: View) -> Column[CellOf]:
    return Column("Origin", lambda one: _from_row(view.links, one), lambda one: _origin_key(one.cell),
                  "origin", "Origin")  # fmt: skip


def _part(links: Links, cell: Cell) -> Markup:
    part = Link(name_of(links, cell.part) or "not stated", links.record(cell.part))
    return to(part, "said") + beneath(cell.criterion, "do said")


def _load_case(links: Links, cell: Cell) -> Markup:
    return to(Link(cell.load_case or "no load case", links.record(cell.load_case)), "id")


def _reserve(cell: Cell) -> Markup:
    if cell.reserve_factor is None:
        return Markup(_NOT_GOVERNED)
    below = f"{wording.counted(cell.below_one, 'row')} below 1" if cell.below_one else ""
    return bold(numbers.reserve(cell.reserve_factor)) + beneath(below)


def _margin(cell: Cell) -> str:
    return "" if cell.margin is None else numbers.reserve(numbers.published(cell.margin))


def _applied(cell: Cell) -> str:
    return numbers.with_unit(numbers.shown(cell.applied, toward="up"), cell.unit)


def _put_on(cell: Cell) -> Markup:
    """The factor, what it is made of, and what was left out of it for which reason."""
    lines = [escape(numbers.shown(cell.needed, 3, toward="up"))]
    lines.append(beneath(" · ".join(cell.factors) or "none", "do id"))
    for words, factors in (
        ("taken out first:", cell.already),
        ("lower, so not put on:", cell.not_governing),
        ("left in what is applied:", cell.left_in),
    ):
        if factors:
            named = span("id", " · ".join(factors))
            lines.append(Markup(f'<span class="do">{words} {named}</span>'))
    return Markup("").join(lines)


def _allowable(links: Links, cell: Cell) -> Markup:
    value = numbers.with_unit(numbers.shown(cell.allowable, toward="down"), cell.unit)
    source = to(_source(links, cell.allowable_from))
    return Markup(f'{escape(value)}<span class="do id">{source}</span>')


def _source(links: Links, reference: str) -> Link:
    head = reference.partition(".")[0]
    return Link(reference, links.record(reference) or links.result(reference) or links.record(head))


def _from_row(links: Links, one: CellOf) -> Markup:
    file = " ".join(part for part in (one.cell.file.rpartition("/")[2], one.cell.row_name) if part)
    return to(origin(links, one)) + beneath(file if one.cell.file else "", "do place")


def _origin_key(cell: Cell) -> str | None:
    return f"{cell.file} {cell.row:012}" if cell.file else None


def _line(view: View, of: Callable[[Cell], str]) -> Callable[[str, Sequence[CellOf]], Markup]:
    def line(_: str, rows: Sequence[CellOf]) -> Markup:
        name = name_of(view.links, of(rows[0].cell))
        return counted_line(
            name or "Not stated", wording.counted(len(rows), "row"), css="said" if name else ""
        )

    return line


def _places_fields() -> tuple[Field[CellOf], ...]:
    return (
        Field("part", lambda one: one.cell.part),
        Field("load case", lambda one: one.cell.load_case),
        Field("criterion", lambda one: one.cell.criterion),
    )


def _number_fields() -> tuple[Field[CellOf], ...]:
    return (
        Field("reserve factor [1]", lambda one: one.cell.reserve_factor),
        Field("margin of safety [1]", lambda one: one.cell.margin),
        Field("applied", lambda one: one.cell.applied),
        Field("allowable", lambda one: one.cell.allowable),
        Field("unit of applied and allowable", lambda one: one.cell.unit),
        Field("factor put on [1]", lambda one: one.cell.needed),
        Field("factors put on", lambda one: "; ".join(one.cell.factors)),
        Field("factors taken out first", lambda one: "; ".join(one.cell.already)),
        Field("factors lower and not put on", lambda one: "; ".join(one.cell.not_governing)),
        Field("factors left in", lambda one: "; ".join(one.cell.left_in)),
    )


def _origin_fields() -> tuple[Field[CellOf], ...]:
    return (
        Field("allowable from", lambda one: one.cell.allowable_from),
        Field("rows below 1", lambda one: one.cell.below_one),
        Field("file", lambda one: one.cell.file),
        Field("row of the file", lambda one: one.cell.row or None),
        Field("name of the row", lambda one: one.cell.row_name),
        Field("calculation", lambda one: one.calculation),
    )
