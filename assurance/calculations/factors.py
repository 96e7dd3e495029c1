"""Which factors apply to a criterion, part and load case, and which an applied value holds already."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assurance.calculations.bound import Path, fault
from assurance.calculations.references import from_factor
from assurance.methods.reserve_sheet import PutOn
from assurance.model.assessment import Fault
from assurance.model.case import CaseText
from assurance.model.engineering_records import AppliesTo, FactorRecord, LoadCaseRecord


@dataclass(frozen=True, slots=True)
class Factored:
    """The factors inside an applied value and those put on, or why they cannot be told.

    Those in `already` are taken out of the value; those in `left_in` are in it too, and stay there.
    """

    already: tuple[PutOn, ...] = ()
    put_on: tuple[PutOn, ...] = ()
    left_in: tuple[PutOn, ...] = ()
    faults: tuple[Fault, ...] = ()
    why_not: str = ""


def factors_for(
    case: CaseText,
    known: Mapping[str, AppliesTo],
    *,
    criterion: str,
    part: str,
    load_case: str,
    already_in: Iterable[str],
    path: Path,
) -> Factored:
    """All factors of one cell, each put on exactly once. `known` is what `all_factors` gives for the case.

    What the value holds already is taken out of it where it comes back: a factor that is put on in
    this cell, or a factor of safety where another factor of safety is put on in its place, as for
    yield under an ultimate load. A special or further factor that does not come back stays in, which
    is the safe side.
    """
    names = tuple(dict.fromkeys((*already_in, *already_in_load_case(case, load_case))))
    pertinent = [id_ for id_, where in known.items() if pertains(where, criterion, part, load_case)]
    held, faults, why = _values(names, path, case)
    put_on, more, why_too = _values(pertinent, path, case)
    already = tuple(one for one in held if _comes_back(one, put_on))
    left_in = tuple(one for one in held if one not in already)
    slips = (*_one_in(held, path), *_one_safety_factor(put_on, path), *_below_one(put_on, path))
    return Factored(already, put_on, left_in, (*faults, *more, *slips), why or why_too)


def _comes_back(one: PutOn, put_on: tuple[PutOn, ...]) -> bool:
    return any(one.name == other.name or one.kind == other.kind == "safety" for other in put_on)


def all_factors(case: CaseText) -> dict[str, AppliesTo]:
    """Every factor; one that cannot be read whole is taken to apply everywhere."""
    return {
        id_: entry.record.applies_to if isinstance(entry.record, FactorRecord) else AppliesTo()
        for id_, entry in case.of_kind("factors").items()
    }


def pertains(where: AppliesTo, criterion: str, part: str, load_case: str) -> bool:
    """Whether a factor applies; what it leaves out is not narrowed, and what is unknown may be meant."""
    pairs = ((where.criteria, criterion), (where.parts, part), (where.load_cases, load_case))
    return all(not narrowed or not name or name in narrowed for narrowed, name in pairs)


def possible_factors(
    case: CaseText, *, criteria: Iterable[str], parts: Iterable[str], load_cases: Iterable[str]
) -> tuple[str, ...]:
    """The factors that apply to any of these; an empty group is not narrowed."""
    groups = (tuple(criteria) or ("",), tuple(parts) or ("",), tuple(load_cases) or ("",))
    return tuple(
        id_
        for id_, where in all_factors(case).items()
        if any(pertains(where, one, "", "") for one in groups[0])
        and any(pertains(where, "", one, "") for one in groups[1])
        and any(pertains(where, "", "", one) for one in groups[2])
    )


def already_in_load_case(case: CaseText, load_case: str) -> tuple[str, ...]:
    """The factors that a load case says are in its loads already."""
    entry = case.entries.get(load_case)
    return entry.record.already_in if entry and isinstance(entry.record, LoadCaseRecord) else ()


def _values(
    names: Iterable[str], path: Path, case: CaseText
) -> tuple[tuple[PutOn, ...], tuple[Fault, ...], str]:
    found: list[PutOn] = []
    faults: list[Fault] = []
    why = ""
    for name in names:
        value = from_factor(name, path, case)
        entry = case.entries.get(name)
        if value.number is not None and entry is not None and isinstance(entry.record, FactorRecord):
            found.append(PutOn(name, entry.record.kind, value.number.value, entry.record.title))
        faults += value.faults
        why = why or value.why_not
    return tuple(found), tuple(faults), why


def _one_safety_factor(put_on: tuple[PutOn, ...], path: Path) -> tuple[Fault, ...]:
    listed = _safety(put_on)
    if not listed:
        return ()
    remedy = "narrow each under `applies_to`, and name the criterion, so that one factor of safety applies"
    return (fault(path, f"{listed[0]} factors of safety apply at once: {listed[1]}", remedy),)


def _one_in(held: tuple[PutOn, ...], path: Path) -> tuple[Fault, ...]:
    listed = _safety(held)
    if not listed:
        return ()
    text = f"{listed[0]} factors of safety are said to be in one value already: {listed[1]}"
    return (fault(path, text, "keep under `already_in` the one that the value holds"),)


def _safety(factors: tuple[PutOn, ...]) -> tuple[int, str] | None:
    """How many factors of safety there are, and which, where there are several."""
    names = [f"`{one.name}`" for one in factors if one.kind == "safety"]
    return (len(names), " and ".join(names)) if len(names) > 1 else None


def _below_one(put_on: tuple[PutOn, ...], path: Path) -> tuple[Fault, ...]:
    """A factor of safety or a special factor is there to raise the load."""
    words = {"safety": "factor of safety", "special": "special factor"}
    return tuple(
        fault(path, f"{words[one.kind]} `{one.name}` is `{one.value:g}`; it must be at least 1",
              f"give `{one.name}` the value that its source states")
        for one in put_on if one.kind in words and one.value < 1
    )  # fmt: skip
