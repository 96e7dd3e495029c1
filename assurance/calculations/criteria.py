"""The criteria that calculations name, and factors that miss one of them by a slip of the pen."""

from difflib import SequenceMatcher
from functools import cache

from assurance.calculations.bound import Path, fault
from assurance.calculations.factors import all_factors
from assurance.model.assessment import Fault
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation

ALIKE = 0.85  # of their letters; two words that share as many are taken to mean the same


def criteria_names(calculation: Calculation) -> tuple[str, ...]:
    """The criteria by name; by hand the one of the input `criterion`."""
    if calculation.criteria:
        return tuple(one.criterion for one in calculation.criteria)
    given = calculation.inputs.get("criterion")
    return (given.text,) if given and given.text else ()


def misspelt(criterion: str, path: Path, case: CaseText) -> tuple[Fault, ...]:
    """A fault for each factor that a slip of the pen keeps off a criterion.

    Such a factor stands under a word that no calculation of the case uses and that reads almost like
    the criterion. Left alone, the reserve factor would look better than it is.
    """
    return tuple(
        _slip(id_, word, criterion, path)
        for id_, where in all_factors(case).items()
        if criterion and criterion not in where.criteria
        for word in where.criteria
        if _alike(word, criterion) and not _is_used(word, case)
    )


def _slip(id_: str, word: str, criterion: str, path: Path) -> Fault:
    text = f"factor `{id_}` applies to `{word}`, which no calculation names; did you mean `{criterion}`?"
    remedy = f"write `{criterion}` in `applies_to` of `{id_}`, or name the criterion as the factor does"
    return fault(path, text, remedy)


@cache
def _alike(one: str, other: str) -> bool:
    first, second = ("".join(filter(str.isalnum, word.casefold())) for word in (one, other))
    same_letters = sorted(first) == sorted(second)
    return same_letters or SequenceMatcher(None, first, second, autojunk=False).ratio() >= ALIKE


def _is_used(word: str, case: CaseText) -> bool:
    records = (entry.record for entry in case.of_kind("calculations").values())
    return any(isinstance(record, Calculation) and word in criteria_names(record) for record in records)
