"""Material properties as numbers with a basis, and which basis a use needs."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from assurance.calculations.bound import BoundNumber, Found, Path, lacking, nearest, too_weak
from assurance.methods.registry import METHODS
from assurance.model.assessment import Fault, ResultValue
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation, Material, PartRecord, Property

SOURCE = "14 CFR 25.613"
GROUNDED = ("A", "B", "S")  # bases that a typed value has only with an origin or a source


def properties(case: CaseText, results: Mapping[str, ResultValue]) -> dict[str, ResultValue]:
    """Every property of every material that has a value, by `material.property`."""
    found = {}
    for id_, entry in case.of_kind("materials").items():
        names = entry.record.properties if isinstance(entry.record, Material) else {}
        for name in sorted(names):
            value = property_value(f"{id_}.{name}", case, results)
            if value is not None:
                found[f"{id_}.{name}"] = value
    return found


def property_value(name: str, case: CaseText, results: Mapping[str, ResultValue]) -> ResultValue | None:
    """One property as a result; None where there is no such property, or it does not state one value."""
    stated = stated_property(name, case)
    if stated is None or states_two(stated):
        return None
    if stated.value is not None:
        return _typed(stated)
    came_from = results.get(stated.result or "")
    if came_from is None:
        return None
    return replace(came_from, basis=stated.basis or came_from.basis)


def stated_property(name: str, case: CaseText) -> Property | None:
    """The property as the record states it."""
    material, _, wanted = name.partition(".")
    entry = case.entries.get(material)
    if entry is None or not isinstance(entry.record, Material):
        return None
    return entry.record.properties.get(wanted)


def states_two(stated: Property) -> bool:
    """Whether a property gives a number and a result too, so that nobody knows which of them counts."""
    return stated.value is not None and stated.result is not None


def without_ground(stated: Property) -> bool:
    """Whether a typed value claims a basis and names neither `origin` nor `source`: a mere word."""
    claims = stated.value is not None and stated.basis in GROUNDED
    return claims and stated.origin is None and stated.source is None


def _typed(stated: Property) -> ResultValue:
    """A typed value; it has the basis that it states where it says what that rests on."""
    quantity = stated.value
    assert quantity is not None
    basis = "" if without_ground(stated) else stated.basis or ""
    width = quantity.half_width
    lower = None if width is None else quantity.value - width
    upper = None if width is None else quantity.value + width
    return ResultValue(quantity.value, quantity.unit, lower, upper, "judged", basis=basis)


def from_material(name: str, path: Path, case: CaseText, results: Mapping[str, ResultValue]) -> Found:
    """The number of a material property, with a fault where its stated basis is not that of its result."""
    stated = stated_property(name, case)
    if stated is None:
        material, _, wanted = name.partition(".")
        return lacking(path, f"`{name}` is no property of a material", _remedy(material, wanted, case))
    if states_two(stated):
        text = f"material property `{name}` states a `value` and the `result` that it comes from"
        return lacking(path, text, f"keep one of the two in `{name}`")
    value = property_value(name, case, results)
    if value is None and stated.result is not None and has_own_fault(stated.result, case):
        return Found(why_not=f"`{name}` has no value, since `{stated.result}` has none")
    if value is None and stated.result is not None:
        text = f"material property `{name}` comes from `{stated.result}`, which is no result"
        return lacking(path, text, f"name a result as `record.result`{nearest(stated.result, results)}")
    if value is None:
        text = f"material property `{name}` states neither a `value` nor the `result` it comes from"
        return lacking(path, text, f"give `{name}` a value with its basis")
    if value.value is None and value.undefined:
        return lacking(path, f"`{name}` has no value: {value.why_not}", "name a property that has a value")
    if value.value is None:
        return Found(why_not=f"`{name}` has no value: {value.why_not}")
    number = BoundNumber(
        value.value, value.unit, value.lower, value.upper, name, value.basis, value.factors,
        value.tag == "judged",
    )  # fmt: skip
    return Found(number, _basis_differs(name, stated, path, results))


def has_own_fault(named: str, case: CaseText) -> bool:
    """Whether a result is missing for a reason that its own record states: a stub, or a loop."""
    id_, _, result = named.partition(".")
    entry = case.entries.get(id_)
    if entry is None or entry.kind not in ("evidence", "calculations"):
        return False
    if not isinstance(entry.record, Calculation):
        return entry.record is None
    method = METHODS.get(entry.record.method)
    return method is None or any(spec.name == result for spec in method.results)


def _remedy(material: str, wanted: str, case: CaseText) -> str:
    entry = case.entries.get(material)
    if entry is None or not isinstance(entry.record, Material):
        return f"name a property as `material.property`{nearest(material, case.of_kind('materials'))}"
    return f"name a property of `{material}`{nearest(wanted, entry.record.properties)}"


def _basis_differs(
    name: str, stated: Property, path: Path, results: Mapping[str, ResultValue]
) -> tuple[Fault, ...]:
    """A number that the builder worked out has the basis of its method, whatever the record says."""
    source = results.get(stated.result or "")
    if source is None or stated.basis is None or source.tag == "judged" or source.basis == stated.basis:
        return ()
    own = f"basis `{source.basis}`" if source.basis else "no basis"
    text = f"`{name}` states basis `{stated.basis}`, but `{stated.result}` has {own}"
    return (too_weak(path, text, f"name the {stated.basis}-basis result, or state its own basis"),)


def weak_basis(number: BoundNumber, parts: Iterable[str], path: Path, case: CaseText) -> tuple[Fault, ...]:
    """A fault where an allowable has a weaker basis than one of the parts needs (14 CFR 25.613).

    A single load path needs A; a redundant one takes A, B or a specification minimum S. A part that
    does not say counts as a single load path. A mean, or no basis, is never enough.
    """
    named = sorted(set(parts))
    enough = {part: _enough(part, case) for part in named} or {"": ("A",)}
    weak = [part for part, bases in enough.items() if number.basis not in bases]
    if not weak:
        return ()
    stated = stated_property(number.record, case)
    if stated is not None and without_ground(stated):
        text = f"`{number.record}` states basis `{stated.basis}` and not what that rests on"
        return (too_weak(path, text, "name the record under `origin`, or the document under `source`"),)
    has = f"basis `{number.basis}`" if number.basis else "no basis"
    shown = f"`{number.record}`" if number.record else "the typed allowable"
    text = f"{shown} has {has}; {_needs(weak, case)}"
    return (too_weak(path, text, "use an A-basis value, or show that the load path is redundant"),)


def _enough(part: str, case: CaseText) -> tuple[str, ...]:
    entry = case.entries.get(part)
    record = entry.record if entry else None
    if entry is not None and record is None:
        return ("A", "B", "S")  # the part could not be read, which is told of it
    redundant = isinstance(record, PartRecord) and record.load_path == "redundant"
    return ("A", "B", "S") if redundant else ("A",)


def _needs(weak: list[str], case: CaseText) -> str:
    single = [part for part in weak if len(_enough(part, case)) == 1]
    if not single:
        return f"a redundant load path needs A or B ({SOURCE})"
    named = ", ".join(f"`{part}`" for part in single if part)
    return f"a single load path{' (' + named + ')' if named else ''} needs A ({SOURCE})"
