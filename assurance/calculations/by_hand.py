"""Reserve factors from one applied and one allowable value."""

from collections.abc import Mapping
from dataclasses import replace

from assurance.calculations import inputs, reserve, stored
from assurance.calculations.bound import Inputs
from assurance.calculations.criteria import misspelt
from assurance.calculations.factors import Factored, all_factors, factors_for
from assurance.calculations.keys import key_of, plain_factors
from assurance.calculations.properties import weak_basis
from assurance.calculations.reserve import Bar, Case, Worst
from assurance.calculations.uses import load_cases_of, parts_of
from assurance.methods import reserve_sheet
from assurance.model.assessment import Fault, ResultValue, Worked
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation
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
    """One reserve factor for each part and load case that the values are stated for."""
    given = inputs.bind(id_, calculation, METHOD, case, results)
    slips = misspelt(given.words.get("criterion", ""), ("inputs", "criterion"), case)
    refused = (*given.faults, *inputs.no_table(calculation, METHOD), *slips)
    blocking = [one for one in refused if one.kind is not ReasonKind.BASIS_TOO_WEAK]
    if blocking or given.why_not:
        return stored.nothing(id_, METHOD, refused, given.why_not, calculation)
    found = _cases(calculation, given, case)
    faults = tuple(fault for one in found for fault in one.factored.faults)
    why = next((one.factored.why_not for one in found if one.factored.why_not), "")
    if faults or why:
        return stored.nothing(id_, METHOD, faults, why, calculation)
    weak = _weak(calculation, given, case)
    key = key_of(METHOD, given, [_plain(one) for one in found])
    kept = stored.fetch(store, key, id_, METHOD)
    if kept is None:
        kept = reserve.worked(id_, found)
        stored.keep(store, key, kept)
    return replace(kept, key=key, faults=stored.unique((*kept.faults, *given.faults, *weak)))


def _cases(calculation: Calculation, given: Inputs, case: CaseText) -> list[Case]:
    known = all_factors(case)
    criterion = given.words.get("criterion", "")
    applied = given.numbers["applied"]
    bar = Bar(criterion or UNNAMED, "", given.numbers["allowable"], ("inputs", "allowable"))
    found = []
    for part in parts_of(calculation, case) or ("",):
        for load_case in load_cases_of(calculation, case) or ("",):
            factored = factors_for(
                case, known, criterion=criterion, part=part, load_case=load_case,
                already_in=applied.factors, path=("inputs", "applied"),
            )  # fmt: skip
            worst = Worst(part, load_case, applied.value, below_one=_below_one(bar, applied.value, factored))
            found.append(Case(bar, worst, factored, applied_from=applied.record))
    return found


def _below_one(bar: Bar, applied: float, factored: Factored) -> int:
    reserve_factor = reserve.reserve_of(Case(bar, Worst("", "", applied), factored))
    return int(reserve_factor is not None and reserve_sheet.falls_short(reserve_factor))


def _weak(calculation: Calculation, given: Inputs, case: CaseText) -> tuple[Fault, ...]:
    path = ("inputs", "allowable")
    return weak_basis(given.numbers["allowable"], parts_of(calculation, case), path, case)


def _plain(one: Case) -> list[object]:
    return [
        one.worst.part,
        one.worst.load_case,
        plain_factors(one.factored.already),
        plain_factors(one.factored.put_on),
    ]
