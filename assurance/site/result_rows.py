"""Results for a reader: their names in words, their values on the careful side, and who uses them."""

from collections.abc import Iterable, Sequence

from assurance.methods.registry import METHODS
from assurance.model import numbers
from assurance.model.assessment import CheckOutcome, ResultValue
from assurance.model.engineering_records import Calculation, LoadCaseRecord, Material
from assurance.model.methods import ResultSpec
from assurance.site import wording
from assurance.site.view import View

ROUNDED_DOWN = ("least_reserve_factor", "margin_of_safety")


def result_name(method: str, name: str) -> str:
    """A result in the words of its method; with its symbol where two have the same words."""
    words = result_words(method, name)
    shared = sum(result_words(method, one) == words for one in _specs(method)) > 1
    return f"{words} {result_symbol(method, name)}" if shared else words


def result_words(method: str, name: str) -> str:
    """What a result is, in the words of its method."""
    spec = _specs(method).get(name)
    return wording.label(spec.short if spec else name)


def result_phrase(method: str, name: str) -> str:
    """What a result is, as it stands inside a line."""
    spec = _specs(method).get(name)
    return spec.short if spec else name.replace("_", " ")


def result_symbol(method: str, name: str) -> str:
    """The symbol of a result, as its method writes it."""
    spec = _specs(method).get(name)
    return spec.symbol if spec else ""


def _specs(method: str) -> dict[str, ResultSpec]:
    known = METHODS.get(method)
    return {one.name: one for one in known.results} if known else {}


def listed_value(name: str, value: ResultValue, bounds: Iterable[str] = ()) -> str:
    """A result as a list prints it: a reserve factor or margin with two decimals, rounded down."""
    if name in ROUNDED_DOWN and value.value is not None:
        return numbers.with_unit(numbers.reserve(value.value), value.unit)
    return sheet_value(name, value, bounds)


def sheet_value(name: str, value: ResultValue, bounds: Iterable[str] = ()) -> str:
    """A result as its sheet prints it, rounded to the side of its limit; a reserve factor down."""
    return wording.value(value, toward=_side(name, set(bounds)))


def _side(name: str, bounds: set[str]) -> str:
    if name in ROUNDED_DOWN or bounds == {"at least"}:
        return "down"
    return "up" if bounds == {"at most"} else "nearest"


def checks_by_result(view: View) -> dict[str, list[CheckOutcome]]:
    """The checks that compare each result."""
    found: dict[str, list[CheckOutcome]] = {}
    for id_ in sorted(view.assessment.checks):
        for check in view.assessment.checks[id_]:
            found.setdefault(check.result, []).append(check)
    return found


def used_elsewhere(view: View) -> set[str]:
    """The results that a calculation, a material or a load case takes."""
    found: set[str] = set()
    for entry in view.assessment.entries.values():
        found.update(one for one in _taken(entry.record) if one)
    return found


def _taken(record: object) -> Sequence[str | None]:
    if isinstance(record, Calculation):
        given = [one.result for one in record.inputs.values()]
        return [*given, *(one.allowable.result for one in record.criteria)]
    if isinstance(record, Material):
        return [one.result for one in record.properties.values()]
    return [record.result] if isinstance(record, LoadCaseRecord) else []
