"""Reserve factors from one applied and one allowable value."""

from collections.abc import Mapping
from dataclasses import replace

from assurance.calculations import inputs, reserve, stored
from assurance.calculations.bound import BoundNumber, Inputs, fault, listed, sentence
from assurance.calculations.cells import Bar, Case, Worst
from assurance.calculations.criteria import misspelt
from assurance.calculations.factors import Factored, all_factors, factors_for
from assurance.calculations.keys import key_of, plain_factors
from assurance.calculations.properties import weak_basis
from assurance.calculations.uses import parts_of
from assurance.methods import reserve_sheet
from assurance.model.assessment import Fault, ResultValue, Worked
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation
from assurance.model.methods import Remark
from assurance.model.verdicts import ReasonKind
from assurance.store import Store

METHOD = reserve.METHOD
UNNAMED = "strength"  # what a criterion without a name is called; any narrowed factor may be meant for it


def work_out(
    id_: str,
    calculation: Calculation,
    case: CaseText,
    results: Mapping[str, ResultValue],
    store: Store | None,
) -> Worked:
    """One reserve factor, of the part and the load case that the inputs name.

    Values with an uncertainty are taken at their adverse ends: what is applied at the upper one, what
    is allowed at the lower.
    """
    given = inputs.bind(id_, calculation, METHOD, case, results)
    slips = misspelt(given.words.get("criterion", ""), ("inputs", "criterion"), case)
    apart = (*_apart(calculation, "part"), *_apart(calculation, "load_case"))
    refused = (*given.faults, *inputs.no_table(calculation, METHOD), *slips, *apart)
    blocking = [one for one in refused if one.kind is not ReasonKind.BASIS_TOO_WEAK]
    if blocking or given.why_not:
        return stored.nothing(id_, METHOD, refused, given.why_not)
    found = _case(calculation, given, case)
    if found.factored.faults or found.factored.why_not:
        return stored.nothing(id_, METHOD, found.factored.faults, found.factored.why_not)
    weak = _weak(calculation, given, case)
    key = key_of(METHOD, given, _plain(found))
    kept = stored.fetch(store, key, id_, METHOD)
    if kept is None:
        kept = reserve.worked(id_, [found])
        stored.keep(store, key, kept)
    remarks = (*kept.remarks, *_several(calculation, "part"), *_several(calculation, "load_case"))
    faults = stored.unique((*kept.faults, *given.faults, *weak))
    return replace(kept, key=key, faults=faults, remarks=remarks)


def _in_inputs(calculation: Calculation, name: str) -> tuple[str, ...]:
    """The parts or load cases that the inputs name."""
    given = calculation.inputs.get(name)
    named = [given.text] if given and given.text else []
    if name == "load_case":
        named += [one.load_case for one in calculation.inputs.values() if one.load_case]
    return tuple(dict.fromkeys(named))


def _beside(calculation: Calculation, name: str) -> tuple[str, ...]:
    """The parts or load cases that the record names beside its inputs."""
    return calculation.parts if name == "part" else calculation.load_cases


def _apart(calculation: Calculation, name: str) -> tuple[Fault, ...]:
    """A fault where the record names other parts or load cases than its inputs do."""
    named, beside = _in_inputs(calculation, name), _beside(calculation, name)
    words = name.replace("_", " ")
    if len(named) > 1:
        text = f"the inputs name {len(named)} {words}s: {listed(named)}"
        return (fault(("inputs", name), text, f"name the one {words} that the values are of"),)
    if not named or not beside or set(beside) == set(named):
        return ()
    text = f"`{name}s` names {listed(beside)}, and the inputs name {listed(named)}"
    return (fault((f"{name}s",), text, f"write a calculation for each {words}, with the values of that one"),)


def _several(calculation: Calculation, name: str) -> tuple[Remark, ...]:
    """A caution where one value is said to be of several parts or load cases: it counts for none."""
    beside = _beside(calculation, name)
    if _in_inputs(calculation, name) or len(beside) < 2:
        return ()
    words = name.replace("_", " ")
    text = f"`{name}s` names {listed(beside)}, and one value is of one {words}: it counts for none of them"
    remedy = f"write a calculation for each {words}, and name it under the input `{name}`"
    return (Remark(f"one {words}", sentence(text), sentence(remedy), False),)


def _one(calculation: Calculation, name: str) -> str:
    """The part or load case that the values are of; nothing where the record does not say so."""
    named = _in_inputs(calculation, name) or _beside(calculation, name)
    return named[0] if len(named) == 1 else ""


def _case(calculation: Calculation, given: Inputs, case: CaseText) -> Case:
    criterion, applied = given.words.get("criterion", ""), given.numbers["applied"]
    part, load_case = _one(calculation, "part"), _one(calculation, "load_case")
    bar = Bar(criterion or UNNAMED, "", given.numbers["allowable"], ("inputs", "allowable"))
    factored = factors_for(
        case, all_factors(case), criterion=criterion, part=part, load_case=load_case,
        already_in=applied.factors, path=("inputs", "applied"),
    )  # fmt: skip
    below_one = _below_one(bar, applied, factored)
    worst = Worst(part, load_case, applied.most, below_one=below_one, stated=applied.value)
    return Case(bar, worst, factored, applied_from=applied.record)


def _below_one(bar: Bar, applied: BoundNumber, factored: Factored) -> int:
    reserve_factor = reserve.reserve_of(Case(bar, Worst("", "", applied.most), factored))
    return int(reserve_factor is not None and reserve_sheet.falls_short(reserve_factor))


def _weak(calculation: Calculation, given: Inputs, case: CaseText) -> tuple[Fault, ...]:
    path = ("inputs", "allowable")
    return weak_basis(given.numbers["allowable"], parts_of(calculation, case), path, case)


def _plain(one: Case) -> list[object]:
    factors = (one.factored.already, one.factored.put_on, one.factored.left_in)
    return [one.worst.part, one.worst.load_case, *(plain_factors(some) for some in factors)]
