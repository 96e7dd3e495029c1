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
    """The factors inside an applied value and those put on, or why they cannot be told."""

    already: tuple[PutOn, ...] = ()
    put_on: tuple[PutOn, ...] = ()
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
    """All factors of one cell: each is put on exactly once, what is in the value already taken out first.

    `known` is what `all_factors` gives for the case.
    """
    names = tuple(dict.fromkeys((*already_in, *already_in_load_case(case, load_case))))
    pertinent = [id_ for id_, where in known.items() if pertains(where, criterion, part, load_case)]
    already, faults, why = _values(names, path, case)
    put_on, more, why_too = _values(pertinent, path, case)
    return Factored(already, put_on, (*faults, *more, *_one_safety_factor(put_on, path)), why or why_too)


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
    names = [one.name for one in put_on if one.kind == "safety"]
    if len(names) < 2:
        return ()
    listed = " and ".join(f"`{name}`" for name in names)
    remedy = "narrow each under `applies_to`, and name the criterion, so that one factor of safety applies"
    return (fault(path, f"{len(names)} factors of safety apply at once: {listed}", remedy),)
