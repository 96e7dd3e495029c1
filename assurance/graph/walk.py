"""The one walk over the graph of all records, and what would rise if one cause were gone."""

import heapq
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from assurance.graph.formula import NOTHING_GONE, Formula, floor, keys, links, verdict
from assurance.graph.order import components, turned
from assurance.model.verdicts import Verdict


def loop_key(members: tuple[str, ...]) -> str:
    """The key of the fault that these records rest on each other."""
    return "loop:" + members[0]


@dataclass(frozen=True)
class Graph:
    """All records with the formulas of their verdicts, in order of dependence."""

    formulas: Mapping[str, Formula]
    needs: Mapping[str, tuple[str, ...]]
    groups: tuple[tuple[str, ...], ...]
    group_of: Mapping[str, int]
    dependents: Mapping[str, list[str]]

    @cached_property
    def holders(self) -> Mapping[str, list[str]]:
        """The records whose verdict can depend on a fault, by the key of the fault."""
        found: dict[str, list[str]] = {}
        for id_, one in self.formulas.items():
            for key in dict.fromkeys(keys(one)):
                found.setdefault(key, []).append(id_)
        for group in self.loops():
            found.setdefault(loop_key(group), []).extend(group)
        return found

    @cached_property
    def floors(self) -> Mapping[str, Verdict]:
        """For each record: the verdict that it is not better than, whichever one cause laid on it is gone."""
        return {id_: floor(one) for id_, one in self.formulas.items()}

    def loops(self) -> list[tuple[str, ...]]:
        """The loops, each with its members in order."""
        return [group for group in self.groups if self.is_loop(group)]

    def is_loop(self, group: tuple[str, ...]) -> bool:
        """Whether these records rest on each other, or one on itself."""
        return len(group) > 1 or group[0] in self.needs[group[0]]


def needs_of(formulas: Mapping[str, Formula]) -> dict[str, tuple[str, ...]]:
    """What each record needs directly, in order of writing."""
    return {id_: tuple(dict.fromkeys([link.id for link in links(one)])) for id_, one in formulas.items()}


def graph_of(formulas: Mapping[str, Formula], needs: Mapping[str, tuple[str, ...]] | None = None) -> Graph:
    """The graph of these formulas; `needs` is what each of them needs, where that is known already.

    A link to an id that has no formula is a mistake of the caller.
    """
    needs = needs_of(formulas) if needs is None else needs
    groups = tuple(components(list(formulas), needs))
    group_of = {member: index for index, group in enumerate(groups) for member in group}
    return Graph(formulas, needs, groups, group_of, turned(needs))


def walk(graph: Graph) -> dict[str, Verdict]:
    """The verdict of every record."""
    verdicts: dict[str, Verdict] = {}
    for group in graph.groups:
        verdicts.update(_judge(graph, group, verdicts, NOTHING_GONE))
    return verdicts


def _judge(
    graph: Graph, group: tuple[str, ...], verdicts: Mapping[str, Verdict], gone: frozenset[str]
) -> dict[str, Verdict]:
    if not graph.is_loop(group):
        return {group[0]: verdict(graph.formulas[group[0]], verdicts, gone)}
    inside = Verdict.HOLDS if loop_key(group) in gone else Verdict.OPEN
    seen = {**{need: verdicts[need] for one in group for need in graph.needs[one] if need not in group},
            **dict.fromkeys(group, inside)}  # fmt: skip
    worst = max(inside, *(verdict(graph.formulas[one], seen, gone) for one in group))
    return dict.fromkeys(group, worst)


def rises(graph: Graph, verdicts: Mapping[str, Verdict], key: str) -> list[str]:
    """The records whose verdict would be better if this one fault were gone.

    Only what lies above the fault is judged again, in order, and only while something changes; never a
    record that other causes keep where it is, of which a hundred may be laid on every claim.
    """
    gone = frozenset([key])
    changed: dict[str, Verdict] = {}
    view = _Overlay(verdicts, changed)
    holders = graph.holders.get(key, ())
    waiting = sorted({graph.group_of[id_] for id_ in holders if _may_rise(graph, verdicts, id_)})
    queued = set(waiting)
    while waiting:
        group = graph.groups[heapq.heappop(waiting)]
        for id_, now in _judge(graph, group, view, gone).items():
            if now == verdicts[id_]:
                continue
            changed[id_] = now
            for above in graph.dependents.get(id_, ()):
                index = graph.group_of[above]
                if index not in queued and _may_rise(graph, verdicts, above):
                    queued.add(index)
                    heapq.heappush(waiting, index)
    return sorted(id_ for id_, now in changed.items() if now < verdicts[id_])


def _may_rise(graph: Graph, verdicts: Mapping[str, Verdict], id_: str) -> bool:
    alone = graph.floors[id_] < verdicts[id_]
    return alone or graph.is_loop(graph.groups[graph.group_of[id_]])


class _Overlay(dict[str, Verdict]):
    """The verdicts with those changed so far laid over them."""

    def __init__(self, under: Mapping[str, Verdict], over: Mapping[str, Verdict]) -> None:
        self._under, self._over = under, over

    def __getitem__(self, id_: str) -> Verdict:
        return self._over.get(id_, self._under[id_])
