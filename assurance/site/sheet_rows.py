"""The rows of a calculation sheet: what is given, columns of data, and each step with its numbers put in."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model import mathml, numbers
from assurance.model.steps import Column, Given, Named, Step, Term, print_step
from assurance.site import wording
from assurance.site.links import Link, result_anchor
from assurance.site.view import View

LONGEST_GIVEN = 9  # characters
_KINDS = {
    "statistic": "statistic over a column",
    "look-up": "looked up in a table",
    "quantile": "quantile of a distribution",
    "line": "least-squares line",
}


@dataclass(frozen=True, slots=True)
class GivenRow:
    """A number that enters the sum."""

    what: str
    symbol: Markup
    value: str
    width: str
    origin: Link
    as_written: bool  # whether it stands in the record of the calculation itself


@dataclass(frozen=True, slots=True)
class ColumnRow:
    """A column of data that the sum is taken over."""

    name: str
    count: str
    least: str
    most: str
    file: str
    left_out: Markup


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step: what it is, the formula, the numbers put in, and the result."""

    number: str
    anchor: str
    what: str
    symbol: Markup
    formula: Markup
    with_numbers: Markup
    statement: Markup
    kind: str
    result: str
    source: str


def given_row(view: View, given: Given) -> GivenRow:
    """A number that enters the sum, with where it comes from."""
    links = view.links
    where = links.record(given.record) or links.result(given.record)
    return GivenRow(
        what=wording.label(given.what or given.name),
        symbol=symbol_shown(given.symbol),
        value=numbers.with_unit(_given_shown(given.value), given.unit),
        width="" if given.half_width is None else numbers.with_unit(
            f"± {numbers.shown(given.half_width, 3, toward='up')}", given.unit
        ),
        origin=Link(given.record or "as written", where if given.record else "#as-written"),
        as_written=not given.record,
    )  # fmt: skip


def column_row(column: Column, *, say: Callable[[str], Markup]) -> ColumnRow:
    """A column of data in one line, with the rows of its file that are not in it."""
    ends = (min(column.values), max(column.values)) if column.values else None
    least, most = (
        (numbers.with_unit(numbers.as_written(numbers.published(end)), column.unit) for end in ends)
        if ends
        else ("", "")
    )
    count = f"{len(column.values):,}"
    return ColumnRow(column.name, count, least, most, column.file, say(column.left_out))


def step_row(
    number: int,
    step: Step,
    named: Named,
    symbols: Mapping[str, str],
    *,
    say: Callable[[str], Markup],
) -> StepRow:
    """A step as a row. The printed numbers lead to the printed result."""
    printed = print_step(step, named)
    formula = with_numbers = Markup("")
    if step.tree is not None:
        formula = Markup(mathml.mathml(step.tree, symbols))
        with_numbers = Markup(mathml.with_numbers(step.tree, printed.inputs))
    return StepRow(
        number=f"{number}",
        anchor=result_anchor(step.name),
        what=wording.sentence(step.what).rstrip("."),
        symbol=symbol_shown(step.symbol),
        formula=formula,
        with_numbers=with_numbers,
        statement=say(wording.sentence(step.statement)),
        kind=_KINDS.get(step.kind, ""),
        result=numbers.with_unit(printed.result, step.unit),
        source=step.source,
    )


def _given_shown(value: float) -> str:
    """A given number as it was typed, or to six digits where it was worked out elsewhere."""
    exact = numbers.as_written(numbers.published(value))
    return exact if len(exact) <= LONGEST_GIVEN else numbers.shown(value, 6)


def symbol_shown(symbol: str) -> Markup:
    """A symbol as it stands in the formulas."""
    return Markup(mathml.mathml(Term("symbol", name=symbol), {})) if symbol else Markup("")
