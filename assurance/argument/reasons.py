"""Why each record has its verdict, and the list of what stands between today and the top claim."""

from collections.abc import Mapping
from datetime import date

from assurance.graph.formula import Formula, Guard, Laid, Link, Unless, grounds, links, verdict
from assurance.graph.walk import Graph, loop_key, rises
from assurance.model.case import CaseText
from assurance.model.verdicts import Cause, Missing, Place, Reason, ReasonKind, Verdict
from assurance.standing.facts import Facts
from assurance.standing.words import called_done

Causes = Mapping[str, tuple[Cause, ...]]
Needs = Mapping[str, tuple[str, ...]]


def record_of(id_: str) -> str:
    """The record that a node of the graph belongs to: a property belongs to its material."""
    return id_.partition(".")[0] if "." in id_ else id_


def own_causes(graph: Graph, verdicts: Mapping[str, Verdict], facts: Facts) -> dict[str, tuple[Cause, ...]]:
    """The causes at each record that does not hold, worst first."""
    loops = {one: loop_cause(facts, group) for group in graph.loops() for one in group}
    found = {}
    for id_, formula in graph.formulas.items():
        if verdicts[id_] == Verdict.HOLDS:
            continue
        causes = {one.cause.key: one.cause for one in _grounds(graph, id_, formula, verdicts)
                  if isinstance(one, (Laid, Guard, Unless))}  # fmt: skip
        if id_ in loops:
            causes[loops[id_].key] = loops[id_]
        found[id_] = tuple(sorted(causes.values(), key=lambda one: -one.verdict))
    return found


def needs_that_do_not_hold(graph: Graph, verdicts: Mapping[str, Verdict]) -> dict[str, tuple[str, ...]]:
    """For each record that does not hold: what it needs that lowers it, worst first."""
    found = {}
    for id_, formula in graph.formulas.items():
        if verdicts[id_] == Verdict.HOLDS:
            continue
        needed = dict.fromkeys(
            one.id for one in _grounds(graph, id_, formula, verdicts) if isinstance(one, Link)
        )
        found[id_] = tuple(sorted(needed, key=lambda one: -verdicts[one]))
    return found


def _grounds(
    graph: Graph, id_: str, formula: Formula, verdicts: Mapping[str, Verdict]
) -> list[Laid | Link | Guard | Unless]:
    """The grounds of a verdict; in a loop every link counts, since none of its members stands alone."""
    found = list(grounds(formula, verdicts))
    if graph.is_loop(graph.groups[graph.group_of[id_]]):
        taken = {one.id for one in found if isinstance(one, Link)}
        found += [one for one in links(formula) if one.id not in taken and verdict(one, verdicts)]
    return found


def loop_cause(facts: Facts, group: tuple[str, ...]) -> Cause:
    """The cause that records rest on each other."""
    named = " and ".join(f"`{one}`" for one in group)
    text = f"{named} rest on each other." if len(group) > 1 else f"{named} rests on itself."
    return Cause(
        loop_key(group), ReasonKind.LOOP, Verdict.OPEN, record_of(group[0]), text,
        "Take out the link that closes the loop.", owner=facts.owner(record_of(group[0])),
    )  # fmt: skip


class Places:
    """Looks up where causes stand; each place once, since a file is composed again for it."""

    def __init__(self, case: CaseText) -> None:
        self._case = case
        self._known: dict[str, Place] = {}

    def of(self, cause: Cause) -> Place:
        """The place of a cause: the field at fault, else the id of its record."""
        if cause.place is not None:
            return cause.place
        if cause.key not in self._known:
            self._known[cause.key] = self._case.locate(record_of(cause.record), cause.path)
        return self._known[cause.key]


def reasons(
    verdicts: Mapping[str, Verdict], causes: Causes, needs: Needs, case: CaseText, places: Places
) -> dict[str, tuple[Reason, ...]]:
    """The reasons behind each verdict: own causes first, then one for each need that does not hold."""
    found: dict[str, tuple[Reason, ...]] = {}
    for id_ in causes:
        own = [_from_cause(one, places) for one in causes[id_]]
        found[id_] = (*own, *(_from_need(one, verdicts[one], case) for one in needs[id_]))
    return found


def _from_cause(one: Cause, places: Places) -> Reason:
    return Reason(one.record, one.kind, one.verdict, one.text, places.of(one), one.remedy, one.key)


def _from_need(id_: str, its_verdict: Verdict, case: CaseText) -> Reason:
    record = record_of(id_)
    text = f"It needs `{id_}`, which {_is(its_verdict)}."
    return Reason(record, ReasonKind.NEEDS, its_verdict, text, case.entries[record].place)


def _is(its_verdict: Verdict) -> str:
    return "fails" if its_verdict == Verdict.FAILS else f"is {its_verdict.word}"


def missing(
    graph: Graph,
    verdicts: Mapping[str, Verdict],
    causes: Causes,
    needs: Needs,
    facts: Facts,
    places: Places,
) -> tuple[Missing, ...]:
    """Every cause beneath the top claims: worst first, then most freed, then due, then id."""
    found: dict[str, tuple[Cause, set[str]]] = {}
    for top in sorted(set(facts.top_claims.values())):
        for id_, claim in _with_nearest_claim(top, needs, facts):
            for cause in causes.get(id_, ()):
                found.setdefault(cause.key, (cause, set()))[1].add(claim)
    tops = set(facts.top_claims.values())
    listed = []
    for key, (cause, claims) in found.items():
        nearest = min(claims, key=lambda claim: (claim in tops, claim))
        freed = sum(facts.kind(id_) == "claims" for id_ in rises(graph, verdicts, key))
        listed.append(Missing(
            cause.record, nearest, cause.kind, cause.text, cause.remedy, cause.owner,
            cause.due or _due_of_actions(facts, cause.record), cause.verdict, freed, places.of(cause),
        ))  # fmt: skip
    return tuple(sorted(listed, key=_rank))


def _due_of_actions(facts: Facts, record: str) -> date | None:
    """The first day by which an action that is still to be done is to work on a record."""
    actions = [facts.record(one) for one in facts.actions.get(record, ())]
    return min((one.due for one in actions if one.due and not called_done(facts, one)), default=None)


def _rank(one: Missing) -> tuple[object, ...]:
    due = one.due.isoformat() if one.due else "9999"
    return (-one.verdict, -one.frees, due, one.record, one.place, one.text)


def _with_nearest_claim(top: str, needs: Needs, facts: Facts) -> list[tuple[str, str]]:
    """Everything beneath a claim that does not hold, with the claim that needs it first."""
    seen: set[tuple[str, str]] = set()
    waiting = [(top, top)]
    found = []
    while waiting:
        id_, claim = waiting.pop()
        nearest = id_ if facts.kind(id_) == "claims" else claim
        if (id_, nearest) in seen:
            continue
        seen.add((id_, nearest))
        found.append((id_, nearest))
        waiting.extend((need, nearest) for need in needs.get(id_, ()))
    return found
