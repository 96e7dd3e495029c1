"""Reserve factors from a result table: the worst row of each part, load case and criterion."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path as FilePath

from assurance.calculations import data_files, stored, tables
from assurance.calculations.bound import LARGEST, Found, Inputs, fault, listed, within_reach
from assurance.calculations.cells import Bar, Case
from assurance.calculations.criteria import misspelt
from assurance.calculations.envelope import Plan, Worsts, envelope
from assurance.calculations.factors import Factored, all_factors, already_in_load_case, factors_for
from assurance.calculations.keys import key_of, plain_number
from assurance.calculations.properties import weak_basis
from assurance.calculations.references import from_factor, number_of
from assurance.calculations.reserve import METHOD, worked
from assurance.calculations.table_faults import TableError
from assurance.calculations.uses import load_cases_of, parts_of
from assurance.methods import reserve_sheet, stress, stress_steps
from assurance.model import units
from assurance.model.assessment import Fault, ResultValue, Worked
from assurance.model.case import CaseText, FileFact
from assurance.model.engineering_records import Calculation, Criterion, FactorRecord, ResultTable
from assurance.model.methods import Remark
from assurance.model.verdicts import ReasonKind
from assurance.store import Store

Results = Mapping[str, ResultValue]
HEADINGS = 8  # that a message names
NO_CRITERION = "say under `criteria` which stress is compared with which allowable"


@dataclass(frozen=True, slots=True)
class Prepared:
    """Everything that the scan of a table needs, or why it cannot start."""

    plan: Plan
    fact: FileFact
    faults: tuple[Fault, ...] = ()
    why_not: str = ""


def work_out(
    id_: str, calculation: Calculation, case: CaseText, results: Results, store: Store | None
) -> Worked:
    """Reserve factors of every cell of the table, with the least and the count below 1."""
    table = calculation.table
    assert table is not None
    ready = _prepare(id_, calculation, table, case, results)
    blocking = [one for one in ready.faults if one.kind is not ReasonKind.BASIS_TOO_WEAK]
    if blocking or ready.why_not:
        return stored.nothing(id_, METHOD, ready.faults, ready.why_not)
    key = key_of(METHOD, Inputs(), _plain(ready, case, table))
    kept = stored.fetch(store, key, id_, METHOD)
    if kept is None:
        kept = _scan(id_, ready, table, case)
        if kept.cells:
            stored.keep(store, key, kept, read=[(ready.fact.absolute, ready.fact.sha256)])
    weak = _weak(kept, ready.plan, case)
    unlisted = data_files.of_no_evidence(id_, calculation, case) if kept.cells else ()
    faults = stored.unique((*kept.faults, *ready.faults, *weak, *unlisted))
    return replace(kept, key=key, files=(ready.fact.path,), faults=faults)


def _prepare(
    id_: str, calculation: Calculation, table: ResultTable, case: CaseText, results: Results
) -> Prepared:
    fact = case.files.get((id_, table.file), FileFact(table.file, fault="is not in the case folder"))
    found = [
        _bar(one, at, table, case, results) if table.unit in units.units() else (None, Found())
        for at, one in enumerate(calculation.criteria)
    ]
    plan = Plan(
        {str(name): heading for name, heading in table.columns.items()},
        tuple(bar for bar, _ in found if bar is not None),
        table.parts, table.load_cases,
        parts_of(calculation, case), load_cases_of(calculation, case),
        calculation.parts, calculation.load_cases,
    )  # fmt: skip
    faults = (
        *_as_stated(calculation, table),
        *_misspelt(calculation, case),
        *_file_fault(table, fact),
        *(one for _, value in found for one in value.faults),
    )
    why = next((value.why_not for _, value in found if value.number is None and value.why_not), "")
    return Prepared(plan, fact, faults, why)


def _misspelt(calculation: Calculation, case: CaseText) -> tuple[Fault, ...]:
    return tuple(
        found
        for at, one in enumerate(calculation.criteria)
        for found in misspelt(one.criterion, ("criteria", at, "criterion"), case)
    )


def _file_fault(table: ResultTable, fact: FileFact) -> tuple[Fault, ...]:
    if not fact.fault:
        return ()
    text = f"file `{table.file}` {fact.fault}"
    return (fault(("table", "file"), text, "put the file in its place, or name another"),)


def _as_stated(calculation: Calculation, table: ResultTable) -> tuple[Fault, ...]:
    """What is wrong with the record itself."""
    found = [
        fault(("inputs", name), "a calculation from a table takes no `inputs`", f"take `{name}` away")
        for name in calculation.inputs
    ]
    if not calculation.criteria:
        found.append(fault(("criteria",), "the table is judged by no criterion", NO_CRITERION))
    if table.unit not in units.units():
        text = f"`{table.unit}` is not a unit of the list{units.nearest_unit(table.unit)}"
        found.append(fault(("table", "unit"), text, "give the unit of the stress columns, such as `MPa`"))
    return (
        *found,
        *_named_twice(calculation),
        *_without_component(calculation, table),
        *_one_of(calculation, table, "part"),
        *_one_of(calculation, table, "load_case"),
    )


def _named_twice(calculation: Calculation) -> list[Fault]:
    """A part may be judged by one criterion of a name; the name may come again for other parts."""
    found = []
    for at, one in enumerate(calculation.criteria):
        for before in calculation.criteria[:at]:
            apart = one.parts and before.parts and not set(one.parts) & set(before.parts)
            if before.criterion == one.criterion and not apart:
                text = f"criterion `{one.criterion}` is given twice for the same part"
                remedy = "give each its own name, or name other `parts` under each"
                found.append(fault(("criteria", at, "criterion"), text, remedy))
    return found


def _without_component(calculation: Calculation, table: ResultTable) -> Iterator[Fault]:
    """A stress that is worked out needs the three components in a plane; what is left out is no zero."""
    missing = [name for name in stress_steps.IN_PLANE if name not in table.columns]
    worked_out = [one for one in calculation.criteria if one.stress in stress.STRESSES]
    if missing and worked_out:
        named = listed(missing)
        yield fault(
            ("table", "columns"),
            f"criterion `{worked_out[0].criterion}` needs the stresses `sxx`, `syy` and `sxy`, and no "
            f"column is named for {named}",
            f"name the column of {named}, or judge a column of its own under `stress`",
        )


def _one_of(calculation: Calculation, table: ResultTable, column: str) -> tuple[Fault, ...]:
    """Without a column for it, the table speaks of the one part or load case that the record names."""
    if column in table.columns:
        return ()
    named = calculation.parts if column == "part" else calculation.load_cases
    if len(named) == 1:
        return ()
    words = column.replace("_", " ")
    text = f"the table has no column for the {words}, and the record names {len(named)} of them"
    return (fault(("table", "columns"), text, f"name the column, or one {words} under `{column}s`"),)


def _bar(
    one: Criterion, at: int, table: ResultTable, case: CaseText, results: Results
) -> tuple[Bar | None, Found]:
    path = ("criteria", at, "allowable")
    found = number_of(one.allowable, path, case, results)
    if found.number is None:
        return None, found
    number = found.number
    if not units.same_dimension(number.unit, table.unit):
        has, wanted = units.unit(number.unit).dimension, units.unit(table.unit).dimension
        named = f" `{number.record}`" if number.record else ""
        text = f"the allowable{named} is in `{number.unit or '1'}`, which is {has}; the table holds {wanted}"
        return None, Found(faults=(fault(path, text, f"give an allowable in a unit of {wanted}"),))
    converted = number.in_unit(table.unit)
    if converted.least <= 0 or not within_reach(converted.least):
        text = (
            f"the allowable is `{number.least:g} {number.unit}`; it must be above 0 and at most {LARGEST:g}"
        )
        return None, Found(faults=(fault(path, text, "give an allowable of that size"),))
    return Bar(one.criterion, one.stress, converted, path, one.parts), found


def _plain(ready: Prepared, case: CaseText, table: ResultTable) -> list[object]:
    """What the cells follow from, beside the file: the mapping of words, the criteria, the factors."""
    plan = ready.plan
    return [
        ready.fact.sha256, ready.fact.path, dict(plan.columns), dict(plan.parts), dict(plan.load_cases),
        plan.known_parts, plan.known_load_cases, plan.only_parts, plan.only_load_cases,
        [[bar.criterion, bar.stress, plain_number(bar.allowable), bar.parts] for bar in plan.bars],
        [_plain_factor(name, case) for name in all_factors(case)],
        [[name, already_in_load_case(case, name)] for name in plan.known_load_cases],
        table.already_in,
    ]  # fmt: skip


def _plain_factor(name: str, case: CaseText) -> list[object]:
    record = case.entries[name].record
    if not isinstance(record, FactorRecord):
        return [name]
    where = record.applies_to
    number = from_factor(name, (), case).number
    value = repr(number.value) if number else str(record.value)
    return [name, record.kind, value, record.title, where.criteria, where.parts, where.load_cases]


def _scan(id_: str, ready: Prepared, table: ResultTable, case: CaseText) -> Worked:
    known, factored = all_factors(case), dict[tuple[int, str, str], Factored]()

    def factors_at(at: int, part: str, load_case: str) -> tuple[float, float]:
        bar = ready.plan.bars[at]
        one = factored[at, part, load_case] = factors_for(
            case, known, criterion=bar.criterion, part=part, load_case=load_case,
            already_in=table.already_in, path=("criteria", at, "criterion"),
        )  # fmt: skip
        return reserve_sheet.inside(one.already), reserve_sheet.needed(one.put_on)

    try:
        worsts = envelope(FilePath(ready.fact.absolute), ready.plan, factors_at)
    except TableError as found:
        wrong = fault(("table", "file"), f"`{ready.fact.path}`: {found.text}", found.remedy)
        return stored.nothing(id_, METHOD, (wrong,), "")
    return _from_worsts(id_, ready, worsts, factored)


def _from_worsts(
    id_: str,
    ready: Prepared,
    worsts: Worsts,
    factored: Mapping[tuple[int, str, str], Factored],
) -> Worked:
    faults = stored.unique(tuple(one for at in worsts for one in factored[at].faults))
    why = next((factored[at].why_not for at in worsts if factored[at].why_not), "")
    if not worsts:
        text = f"no row of `{ready.fact.path}` speaks of the parts and load cases that the record names"
        faults = (fault(("table", "file"), text, "name parts and load cases that the table holds"),)
    if faults or why:
        return stored.nothing(id_, METHOD, faults, why)
    found = [
        Case(ready.plan.bars[at[0]], worst, factored[at], ready.fact.path) for at, worst in worsts.items()
    ]
    done = worked(id_, found)
    remarks = (*done.remarks, *_without_criterion(ready.plan, worsts), *_taken_as_zero(ready))
    return replace(done, empty_cells=_empty(ready.plan, worsts), remarks=remarks)


def _taken_as_zero(ready: Prepared) -> Iterator[Remark]:
    """A caution where a stress without a column may stand under a heading that nothing names."""
    missing = ready.plan.taken_as_zero()
    if not missing:
        return
    headings = tables.number_columns(FilePath(ready.fact.absolute))
    unnamed = [name for name in headings if name not in ready.plan.named()]
    if unnamed:
        zero, shown = listed(missing), listed(unnamed[:HEADINGS])
        yield Remark(
            "every stress of the table is named",
            f"The stresses {zero} are taken as zero, and the table has columns of numbers that nothing "
            f"names: {shown}.",
            "Name under `table.columns` those that hold a stress.", False,
        )  # fmt: skip


def _empty(plan: Plan, worsts: Worsts) -> tuple[tuple[str, str, str], ...]:
    """Cells without any row: of what the record names, or else of what the table holds."""
    parts = sorted(plan.only_parts or {part for _, part, _ in worsts} | set(plan.parts.values()))
    load_cases = sorted(
        plan.only_load_cases or {load_case for _, _, load_case in worsts} | set(plan.load_cases.values())
    )
    return tuple(
        (part, load_case, bar.criterion)
        for part in parts
        for load_case in load_cases
        for at, bar in enumerate(plan.bars)
        if bar.speaks_of(part) and (at, part, load_case) not in worsts
    )


def _without_criterion(plan: Plan, worsts: Worsts) -> tuple[Remark, ...]:
    parts = sorted({*plan.only_parts, *plan.parts.values(), *(part for _, part, _ in worsts)})
    missed = [part for part in parts if not any(bar.speaks_of(part) for bar in plan.bars)]
    return tuple(
        Remark(
            "a criterion for each part", f"No criterion speaks of part `{part}`.",
            f"Give a criterion for `{part}`, or leave it out of `parts`.", False,
        )
        for part in missed
    )  # fmt: skip


def _weak(kept: Worked, plan: Plan, case: CaseText) -> tuple[Fault, ...]:
    found: list[Fault] = []
    for bar in plan.bars:
        parts = {one.part for one in kept.cells if one.criterion == bar.criterion and bar.speaks_of(one.part)}
        found += weak_basis(bar.allowable, parts, bar.path, case) if parts else ()
    return tuple(found)
