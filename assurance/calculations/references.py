"""Follows what an input names to a number: a typed value, a result, a property, a factor, a load case."""

from collections.abc import Mapping
from dataclasses import replace

from assurance.calculations.bound import BoundNumber, Found, Path, lacking, nearest
from assurance.calculations.properties import from_material, has_own_fault
from assurance.methods.reserve_factors import NOT_GOVERNED
from assurance.model import numbers
from assurance.model.assessment import ResultValue
from assurance.model.case import CaseText
from assurance.model.engineering_records import Allowable, FactorRecord, Input, LoadCaseRecord
from assurance.model.quantity import Quantity

LEAST_FACTOR, MOST_FACTOR = 0.001, 1000.0  # anything beyond is a slip of the pen
Results = Mapping[str, ResultValue]
NUMBER_FIELDS = ("value", "result", "material", "factor", "load_case")
INPUT_FIELDS = (*NUMBER_FIELDS, "text", "file")


def stated_fields(given: Input | Allowable) -> list[str]:
    """Which of the fields that say where a value comes from are filled in."""
    return [name for name in INPUT_FIELDS if getattr(given, name, None) is not None]


def number_of(given: Input | Allowable, path: Path, case: CaseText, results: Results) -> Found:
    """The number that an input or an allowable leads to."""
    stated = stated_fields(given)
    if len(stated) != 1:
        what = " and ".join(f"`{name}`" for name in stated) if stated else "no value"
        remedy = f"give exactly one of {', '.join(f'`{name}`' for name in NUMBER_FIELDS)}"
        return lacking(path, f"`{path[-1]}` gives {what}", remedy)
    name = stated[0]
    if name == "value" and given.value is not None:
        return Found(typed(given.value))
    if name not in NUMBER_FIELDS:
        found = getattr(given, name)
        return lacking((*path, name), f"`{found}` is not a number", "give a number with its unit")
    return _followed(name, str(getattr(given, name)), (*path, name), case, results)


def _followed(name: str, named: str, path: Path, case: CaseText, results: Results) -> Found:
    if name == "result":
        return from_result(named, path, case, results)
    if name == "material":
        return from_material(named, path, case, results)
    if name == "factor":
        return from_factor(named, path, case)
    return from_load_case(named, path, case, results)


def typed(value: Quantity) -> BoundNumber:
    """A number as the record states it, with the ends of its interval."""
    width = value.half_width
    if width is None:
        return BoundNumber(value.value, value.unit)
    ends = (numbers.published(value.value - width), numbers.published(value.value + width))
    return BoundNumber(value.value, value.unit, *ends)


def from_result(named: str, path: Path, case: CaseText, results: Results) -> Found:
    """The number of `record.result`."""
    found = results.get(named)
    if found is None and has_own_fault(named, case):
        return Found(why_not=f"`{named}` has no value")
    if found is None:
        return lacking(
            path, f"`{named}` is no result", f"name a result as `record.result`{nearest(named, results)}"
        )
    if found.value is None:
        why = f"`{named}` has no value: {found.why_not}".rstrip(": ")
        if found.undefined:
            return lacking(path, why, NOT_GOVERNED.remedy)
        return Found(why_not=why)
    return Found(BoundNumber(
        found.value, found.unit, found.lower, found.upper, named, found.basis, found.factors,
        found.tag == "judged",
    ))  # fmt: skip


def from_factor(named: str, path: Path, case: CaseText) -> Found:
    """The value of a factor: a plain number, of a size that a factor can have."""
    entry = case.entries.get(named)
    if entry is None or entry.kind != "factors":
        known = nearest(named, case.of_kind("factors"))
        return lacking(path, f"`{named}` is no factor", f"name a record under `factors`{known}")
    if not isinstance(entry.record, FactorRecord):
        return Found(why_not=f"factor `{named}` cannot be read whole")
    value = entry.record.value
    if value.half_width is not None:
        text = f"factor `{named}` is `{value}`; a factor is one number, without an uncertainty"
        return lacking(path, text, f"give `{named}` the higher end, or a value such as `1.5`")
    if value.dimension != "plain number" or not LEAST_FACTOR <= value.within("").value <= MOST_FACTOR:
        text = f"factor `{named}` is `{value}`, not a plain number from {LEAST_FACTOR:g} to {MOST_FACTOR:g}"
        return lacking(path, text, f"give `{named}` a value such as `1.5`")
    return Found(BoundNumber(value.within("").value, record=named, factors=(named,)))


def from_load_case(named: str, path: Path, case: CaseText, results: Results) -> Found:
    """The limit load of a load case, with the factors that it says are in it already."""
    entry = case.entries.get(named)
    if entry is None or entry.kind != "load_cases":
        known = nearest(named, case.of_kind("load_cases"))
        return lacking(path, f"`{named}` is no load case", f"name a record under `load_cases`{known}")
    record = entry.record
    if not isinstance(record, LoadCaseRecord):
        return Found(why_not=f"load case `{named}` cannot be read whole")
    if record.value is not None and record.result is not None:
        text = f"load case `{named}` states a `value` and the `result` that it comes from"
        return lacking(path, text, f"keep one of the two in `{named}`")
    if record.value is not None:
        return Found(replace(typed(record.value), record=named, factors=record.already_in))
    if record.result is None:
        text = f"load case `{named}` states neither a `value` nor the `result` it comes from"
        return lacking(path, text, f"give `{named}` its limit load")
    found = from_result(record.result, path, case, results)
    if found.number is None:
        return found
    inside = tuple(dict.fromkeys((*found.number.factors, *record.already_in)))
    return Found(replace(found.number, record=named, basis="", factors=inside))
