"""Reserve factors: from cells to results and the sheet of the governing one, by hand or from a table."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from assurance.calculations.bound import BoundNumber, Path
from assurance.calculations.factors import Factored
from assurance.methods import reserve_factors, reserve_sheet, stress
from assurance.methods.reserve_sheet import Applied
from assurance.model import numbers
from assurance.model.assessment import Cell, ResultValue, Worked
from assurance.model.steps import Sheet

METHOD = reserve_factors.METHOD
SOLVED_STRESSES = ("max_principal", "max_shear")  # from the root of a cubic


@dataclass(frozen=True, slots=True)
class Bar:
    """One criterion with its allowable in the unit of the applied values; `parts` narrows it."""

    criterion: str
    stress: str
    allowable: BoundNumber
    path: Path
    parts: tuple[str, ...] = ()

    def speaks_of(self, part: str) -> bool:
        """Whether the criterion is asked of a part."""
        return not self.parts or part in self.parts


@dataclass(frozen=True, slots=True)
class Worst:
    """The worst row of one part, load case and criterion, as found."""

    part: str
    load_case: str
    applied: float
    row: int = 0
    row_name: str = ""
    below_one: int = 0
    components: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Case:
    """A worst row with the criterion that it is judged by and the factors that apply."""

    bar: Bar
    worst: Worst
    factored: Factored
    file: str = ""
    applied_from: str = ""


def cell(one: Case) -> Cell:
    """The worst row as it is published."""
    factored, solved = one.factored, one.bar.stress in SOLVED_STRESSES
    needed = reserve_sheet.needed(factored.put_on)
    reserve = reserve_of(one)
    return Cell(
        one.worst.part, one.worst.load_case, one.bar.criterion,
        None if reserve is None else numbers.published(reserve, solved=solved),
        numbers.published(one.worst.applied, solved=solved),
        numbers.published(one.bar.allowable.value),
        one.bar.allowable.unit,
        tuple(factor.name for factor in factored.already),
        tuple(factor.name for factor in factored.put_on),
        numbers.published(needed),
        one.file, one.worst.row, one.worst.row_name, one.worst.below_one, one.bar.allowable.record,
    )  # fmt: skip


def reserve_of(one: Case) -> float | None:
    """The reserve factor of a worst row; None where the applied value cannot cause that failure."""
    if one.worst.applied <= 0:
        return None
    return float(
        stress.reserve_factor(
            one.bar.allowable.value,
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
    yield from (factor.name for factor in one.factored.put_on)
    yield from one.bar.allowable.factors


def _not_governed(factors: tuple[str, ...]) -> dict[str, ResultValue]:
    outcome = reserve_factors.not_governed()
    return {
        spec.name: ResultValue(
            outcome.values[spec.name], "", factors=factors, whole=spec.whole,
            why_not=outcome.why_not[spec.name].text if spec.name in outcome.why_not else "",
        )
        for spec in METHOD.results
    }  # fmt: skip


def sheet_of(one: Case) -> Sheet:
    """The governing cell told step by step."""
    where = f"{one.file}, row {one.worst.row}" if one.worst.row else ""
    return reserve_sheet.sheet(
        Applied(
            one.bar.criterion, one.worst.applied, one.bar.allowable.unit, one.bar.allowable.value,
            one.factored.already, one.factored.put_on, one.bar.stress, one.worst.components,
            where, one.applied_from, one.bar.allowable.record, one.bar.allowable.written,
        )
    )  # fmt: skip
