"""Reserve factors: from cells to results and the sheet of the governing one, by hand or from a table."""

from collections.abc import Iterable, Sequence

from assurance.calculations import cautions
from assurance.calculations.cells import Case
from assurance.methods import reserve_factors, reserve_sheet, stress
from assurance.methods.reserve_sheet import Applied, PutOn
from assurance.model import numbers
from assurance.model.assessment import Cell, ResultValue, Worked
from assurance.model.steps import Sheet

METHOD = reserve_factors.METHOD
SOLVED_STRESSES = ("max_principal", "max_shear")  # from the root of a cubic


def cell(one: Case) -> Cell:
    """The worst row as it is published."""
    factored, solved = one.factored, one.bar.stress in SOLVED_STRESSES
    needed = reserve_sheet.needed(factored.put_on)
    reserve = reserve_of(one)
    not_governing = reserve_sheet.not_governing(factored.put_on)
    return Cell(
        one.worst.part, one.worst.load_case, one.bar.criterion,
        None if reserve is None else numbers.published(reserve, solved=solved),
        numbers.published(one.worst.applied, solved=solved),
        numbers.published(one.bar.allowable.least),
        one.bar.allowable.unit,
        _names(factored.already),
        _names(factor for factor in factored.put_on if factor not in not_governing),
        numbers.published(needed),
        one.file, one.worst.row, one.worst.row_name, one.worst.below_one, one.bar.allowable.record,
        _names(not_governing), _names(factored.left_in),
    )  # fmt: skip


def _names(factors: Iterable[PutOn]) -> tuple[str, ...]:
    return tuple(one.name for one in factors)


def reserve_of(one: Case) -> float | None:
    """The reserve factor of a worst row; None where the applied value cannot cause that failure."""
    if one.worst.applied <= 0:
        return None
    return float(
        stress.reserve_factor(
            one.bar.allowable.least,
            one.worst.applied,
            already=reserve_sheet.inside(one.factored.already),
            needed=reserve_sheet.needed(one.factored.put_on),
        )
    )


def worked(id_: str, found: Sequence[Case]) -> Worked:
    """The results over all cells, with the sheet of the least reserve factor."""
    ordered = sorted(found, key=lambda one: (one.worst.part, one.worst.load_case, one.bar.path))
    cells = tuple(cell(one) for one in ordered)
    governed = [(one, at) for one, at in zip(cells, ordered, strict=True) if one.reserve_factor is not None]
    below_one = sum(one.below_one for one in cells)
    factors = tuple(dict.fromkeys(name for one in ordered for name in _factors_inside(one)))
    if not governed:
        results, sheet = _not_governed(factors), None
    else:
        results, sheet = _of_the_least(governed, below_one, factors)
    parts, load_cases = ({one.part for one in cells}, {one.load_case for one in cells})
    return Worked(
        id_, METHOD.name, METHOD.version, results, sheet, cells,
        remarks=cautions.of_cells(ordered, cells), faults=cautions.without_safety_factor(ordered),
        parts=tuple(sorted(parts - {""})), load_cases=tuple(sorted(load_cases - {""})),
    )  # fmt: skip


def _of_the_least(
    governed: list[tuple[Cell, Case]], below_one: int, factors: tuple[str, ...]
) -> tuple[dict[str, ResultValue], Sheet]:
    """The results and the sheet of the least reserve factor; of equal ones the first by name."""
    least, governing = min(
        governed,
        key=lambda pair: (pair[0].reserve_factor, pair[0].part, pair[0].load_case, pair[0].criterion),
    )
    solved = governing.bar.stress in SOLVED_STRESSES
    values = reserve_factors.least(least.reserve_factor or 0.0, below_one)
    results = {
        spec.name: ResultValue(
            numbers.published(values[spec.name] or 0.0, solved=solved), "", solved=solved and not spec.whole,
            factors=factors, whole=spec.whole,
        )
        for spec in METHOD.results
    }  # fmt: skip
    return results, sheet_of(governing)


def _factors_inside(one: Case) -> Iterable[str]:
    yield from _names((*one.factored.put_on, *one.factored.left_in))
    yield from one.bar.allowable.factors


def _not_governed(factors: tuple[str, ...]) -> dict[str, ResultValue]:
    outcome = reserve_factors.not_governed()
    return {
        spec.name: ResultValue(
            None, "", why_not=outcome.why_not[spec.name].text, undefined=True, factors=factors,
            whole=spec.whole,
        )
        for spec in METHOD.results
    }  # fmt: skip


def sheet_of(one: Case) -> Sheet:
    """The governing cell told step by step."""
    where = f"{one.file}, row {one.worst.row}" if one.worst.row else ""
    allowable, worst = one.bar.allowable, one.worst
    return reserve_sheet.sheet(
        Applied(
            one.bar.criterion, worst.applied, allowable.unit, allowable.least,
            one.factored.already, one.factored.put_on, one.bar.stress, worst.components,
            where, one.applied_from, allowable.record, allowable.written,
            None if worst.stated == worst.applied else worst.stated,
            None if allowable.least == allowable.value else allowable.value,
            one.factored.left_in,
        )
    )  # fmt: skip
