"""What is to be told of the cells of a reserve factor: factors missing, odd or left in, cells not judged."""

from collections.abc import Iterable, Iterator, Sequence

from assurance.calculations.bound import Path, sentence
from assurance.calculations.cells import Case
from assurance.methods.reserve_sheet import PutOn
from assurance.model.assessment import Cell, Fault
from assurance.model.methods import Remark
from assurance.model.verdicts import ReasonKind

MOST_IN_WORDS = 3  # cells that a message names; the others it counts


def without_safety_factor(found: Sequence[Case]) -> tuple[Fault, ...]:
    """A fault for each criterion with a cell that no factor of safety applies to.

    Neither is one put on, nor does the applied value hold one. What is left out would raise every
    reserve factor and be missed by nobody, so whoever needs none says so with a factor of 1.
    """
    without: dict[Path, list[Case]] = {}
    for one in found:
        factors = (*one.factored.put_on, *one.factored.left_in)
        if not any(factor.kind == "safety" for factor in factors):
            without.setdefault(one.bar.path, []).append(one)
    return tuple(_no_safety_factor(path, cases, found) for path, cases in without.items())


def _no_safety_factor(path: Path, cases: list[Case], found: Sequence[Case]) -> Fault:
    every = len(cases) == sum(one.bar.path == path for one in found)
    names = [_shown(one.worst.part, one.worst.load_case) for one in cases]
    where = "" if every and len(cases) > 1 else _listed([name for name in names if name])
    text = f"no factor of safety applies to criterion `{cases[0].bar.criterion}`" + (where and f": {where}")
    remedy = "Give a factor of `kind: safety` with its source; where none is asked for, one of `1.0` says so."
    return Fault(ReasonKind.OUTSIDE_METHOD_LIMITS, path, sentence(text), remedy)


def of_cells(found: Sequence[Case], cells: Sequence[Cell]) -> tuple[Remark, ...]:
    """What whoever signs for the result should have read of its factors and cells."""
    remarks = (*_left_in(found), *_taken_out(found), *_lowers(found), *_not_judged(cells))
    return tuple(dict.fromkeys(remarks))


def _left_in(found: Iterable[Case]) -> Iterator[Remark]:
    for factor in _factors(factor for one in found for factor in one.factored.left_in):
        yield _caution(
            "what is taken out comes back",
            f"factor {_with_value(factor)} is said to be in the applied value and is not put on: it stays in",
            f"correct what `{factor.name}` stands under in `applies_to`, or take it out of `already_in`",
        )


def _taken_out(found: Sequence[Case]) -> Iterator[Remark]:
    """A factor of safety that is taken out and put on in no cell: another one stands in its place."""
    back = {factor.name for one in found for factor in one.factored.put_on}
    for factor in _factors(factor for one in found for factor in one.factored.already):
        if factor.name not in back:
            yield _caution(
                "what is taken out comes back",
                f"factor of safety {_with_value(factor)} is taken out of the applied value, which makes it "
                f"{factor.value:g} times smaller, and another one is put on in its place",
                f"make sure that the applied value holds `{factor.name}`",
            )


def _lowers(found: Iterable[Case]) -> Iterator[Remark]:
    for factor in _factors(factor for one in found for factor in one.factored.put_on):
        if factor.value < 1:
            yield _caution(
                "no factor lowers the load",
                f"factor {_with_value(factor)} is below 1: it makes the load smaller",
                "give the source that allows it, or state the smaller load in a load case of its own",
            )


def _not_judged(cells: Sequence[Cell]) -> Iterator[Remark]:
    """Parts in a load case whose every cell is not governed, while others are."""
    judged = {(one.part, one.load_case) for one in cells if one.reserve_factor is not None}
    places = dict.fromkeys((one.part, one.load_case) for one in cells)
    missed = [_shown(*place) for place in places if place not in judged]
    if judged and missed:
        yield _caution(
            "a criterion that can govern",
            f"no criterion can govern here, since no applied value is above zero: {_listed(missed)}",
            "judge it by a criterion for that load as well, such as `von_mises` or one for compression",
        )


def _factors(factors: Iterable[PutOn]) -> tuple[PutOn, ...]:
    return tuple(dict.fromkeys(factors))


def _with_value(factor: PutOn) -> str:
    return f"`{factor.name}` (`{factor.value:g}`)"


def _shown(part: str, load_case: str) -> str:
    return " in ".join(f"`{word}`" for word in (part, load_case) if word)


def _listed(names: list[str]) -> str:
    more = len(names) - MOST_IN_WORDS
    return ", ".join(names[:MOST_IN_WORDS]) + (f" and {more} more" if more > 0 else "")


def _caution(limit: str, text: str, remedy: str) -> Remark:
    return Remark(limit, sentence(text), sentence(remedy), False)
