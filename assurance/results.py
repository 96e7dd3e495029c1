"""The results of a case: what evidence states, and what each calculation gives, each after those it needs."""

from collections.abc import Mapping
from dataclasses import dataclass

from assurance.calculations.binding import in_a_loop, work_out
from assurance.calculations.uses import depends
from assurance.graph.order import components
from assurance.model import engineering_records
from assurance.model.assessment import ResultValue, Worked
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation, LoadCaseRecord, Material
from assurance.model.entry import Entry
from assurance.model.kinds import KINDS
from assurance.standing.gather import typed_results
from assurance.store import Store

READ = frozenset(kind for kind, record in KINDS.items() if record.__module__ == engineering_records.__name__)


@dataclass(frozen=True, slots=True)
class Results:
    """What each calculation uses, every result by `record.result`, and the calculations as worked out."""

    uses: Mapping[str, tuple[str, ...]]
    values: Mapping[str, ResultValue]
    worked: Mapping[str, Worked]


def gives_the_same(case: CaseText, before: CaseText) -> bool:
    """Whether a case must give the results that it gave before, so that they need not be worked out again.

    Calculations read the engineering records and the files that are named; of all other records they
    know no more than id and kind, and whether they could be read.
    """
    if case.entries.keys() != before.entries.keys() or case.files != before.files:
        return False
    return all(_alike(entry, before.entries[id_]) for id_, entry in case.entries.items())


def _alike(entry: Entry, before: Entry) -> bool:
    if entry is before:
        return True
    if entry.kind in READ or before.kind in READ:
        return entry == before
    return entry.kind == before.kind and (entry.record is None) == (before.record is None)


def work_out_case(case: CaseText, store: Store | None) -> Results:
    """The results of evidence and of every calculation, each after those it takes values from."""
    uses = {id_: depends(entry.record, case, id=id_) for id_, entry in case.of_kind("calculations").items()
            if isinstance(entry.record, Calculation)}  # fmt: skip
    results = typed_results(case)
    worked: dict[str, Worked] = {}
    edges = _value_edges(case, uses)
    for group in components(list(uses), edges):
        calculation = case.entries[group[0]].record
        assert isinstance(calculation, Calculation)
        if len(group) > 1 or group[0] in edges.get(group[0], ()):
            worked.update({one: in_a_loop(one, case, group) for one in group})
        else:
            worked[group[0]] = work_out(group[0], calculation, case, results, store)
        results.update(
            {f"{one}.{name}": value for one in group for name, value in worked[one].results.items()}
        )
    return Results(uses, results, worked)


def _value_edges(case: CaseText, uses: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """From calculation to calculation, straight, or through a material property or a load case."""
    edges = {}
    for id_, used in uses.items():
        found: list[str] = []
        for one in used:
            found += [one] if one in uses else _through(case, one)
        edges[id_] = tuple(one for one in dict.fromkeys(found) if one in uses)
    return edges


def _through(case: CaseText, used: str) -> list[str]:
    material, _, name = used.partition(".")
    record = case.entries[material].record if material in case.entries else None
    if isinstance(record, Material) and name in record.properties:
        return [(record.properties[name].result or "").partition(".")[0]]
    if isinstance(record, LoadCaseRecord) and record.result:
        return [record.result.partition(".")[0]]
    return []
