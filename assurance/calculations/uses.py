"""What a calculation depends on, told from the records alone."""

from collections.abc import Iterable

from assurance.calculations.criteria import criteria_names
from assurance.calculations.factors import already_in_load_case, possible_factors
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation, EvidenceRecord


def depends(calculation: Calculation, case: CaseText, *, id: str = "") -> tuple[str, ...]:
    """Everything a calculation uses, in order of writing, each once.

    Record ids, `material.property`, the factors that may apply, parts and load cases, and every
    evidence record that lists a data file which the calculation reads. Give the `id` of the
    calculation where it names data files.
    """
    names = [
        *_inputs(calculation),
        *_criteria(calculation),
        *parts_of(calculation, case),
        *load_cases_of(calculation, case),
        *_factors(calculation, case),
        *_evidence_of_files(calculation, case, id),
    ]
    return tuple(dict.fromkeys(name for name in names if name))


def _inputs(calculation: Calculation) -> Iterable[str]:
    for given in calculation.inputs.values():
        yield from (given.material or "", given.factor or "", given.load_case or "")
        yield (given.result or "").partition(".")[0]


def _criteria(calculation: Calculation) -> Iterable[str]:
    for criterion in calculation.criteria:
        yield criterion.allowable.material or ""
        yield (criterion.allowable.result or "").partition(".")[0]


def parts_of(calculation: Calculation, case: CaseText) -> tuple[str, ...]:
    """The parts that a calculation may speak of; all of the case where its table is not narrowed."""
    table = calculation.table
    named = [*calculation.parts, *_word(calculation, "part", case, "parts")]
    if named or table is None or "part" not in table.columns:
        return tuple(dict.fromkeys(named))
    mapped = [*table.parts.values()]
    if not mapped:
        return tuple(case.of_kind("parts"))
    return tuple(dict.fromkeys([*mapped, *(part for one in calculation.criteria for part in one.parts)]))


def load_cases_of(calculation: Calculation, case: CaseText) -> tuple[str, ...]:
    """The load cases that a calculation may speak of."""
    table = calculation.table
    named = [*calculation.load_cases, *_word(calculation, "load_case", case, "load_cases")]
    named += [given.load_case for given in calculation.inputs.values() if given.load_case]
    if named or table is None or "load_case" not in table.columns:
        return tuple(dict.fromkeys(named))
    return tuple(dict.fromkeys(table.load_cases.values())) or tuple(case.of_kind("load_cases"))


def _word(calculation: Calculation, name: str, case: CaseText, kind: str) -> list[str]:
    given = calculation.inputs.get(name)
    word = given.text if given else None
    return [word] if word and word in case.entries and case.entries[word].kind == kind else []


def _factors(calculation: Calculation, case: CaseText) -> Iterable[str]:
    if calculation.method != "reserve_factors":
        return
    yield from (calculation.table.already_in if calculation.table else ())
    load_cases = load_cases_of(calculation, case)
    for load_case in load_cases:
        yield from already_in_load_case(case, load_case)
    yield from possible_factors(
        case,
        criteria=criteria_names(calculation),
        parts=parts_of(calculation, case),
        load_cases=load_cases,
    )


def files_read(calculation: Calculation) -> dict[str, tuple[str, ...]]:
    """Each data file that a calculation reads, with the field that names it first."""
    found: dict[str, tuple[str, ...]] = {}
    if calculation.table is not None:
        found[calculation.table.file] = ("table", "file")
    for name, given in calculation.inputs.items():
        if given.file:
            found.setdefault(given.file, ("inputs", name, "file"))
    return found


def _evidence_of_files(calculation: Calculation, case: CaseText, id_: str) -> Iterable[str]:
    """Evidence that lists a file which is read here: who withdraws it withdraws the data."""
    names = files_read(calculation)
    owners = [id_] if id_ else [key for key, entry in case.entries.items() if entry.record is calculation]
    facts = [case.files.get((owner, name)) for owner in owners for name in names]
    read = {fact.absolute for fact in facts if fact and fact.absolute}
    if not read:
        return
    listing = {owner for (owner, _), fact in case.files.items() if fact.absolute in read}
    for owner in sorted(listing):
        if owner in case.entries and isinstance(case.entries[owner].record, EvidenceRecord):
            yield owner
