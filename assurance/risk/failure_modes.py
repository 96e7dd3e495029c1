"""One failure mode: the formula of its verdict, and RPN before and now of each cause."""

from collections.abc import Mapping

from assurance.graph.formula import All, Formula, Link
from assurance.model.argument_records import Action
from assurance.model.assessment import CauseOutcome
from assurance.model.risk_records import FailureMode
from assurance.model.verdicts import Verdict
from assurance.standing.facts import Facts, common, laid_on_part
from assurance.standing.words import is_done

Ratings = tuple[int, int, int]


def failure_mode_formula(facts: Facts, id_: str) -> Formula:
    """It holds unless it is challenged, its scale is, or an action on it is needed first."""
    record = facts.record(id_)
    own: list[Formula] = []
    if isinstance(record, FailureMode):
        if record.scale and facts.kind(record.scale):
            own.append(Link(record.scale))
        for name in record.causes:
            own += laid_on_part(facts, id_, name)
    return All((*common(facts, id_), *own))


def cause_outcomes(
    facts: Facts, id_: str, record: FailureMode, verdicts: Mapping[str, Verdict]
) -> tuple[CauseOutcome, ...]:
    """S, O and D of each cause before any action, and now with every action that counts."""
    return tuple(_cause(facts, id_, record, name, verdicts) for name in record.causes)


def severity(record: FailureMode) -> int | None:
    """The severity of a mode: that of its worst effect."""
    return max((effect.severity for effect in record.effects if effect.severity), default=None)


def _cause(
    facts: Facts, id_: str, record: FailureMode, name: str, verdicts: Mapping[str, Verdict]
) -> CauseOutcome:
    one, worst = record.causes[name], severity(record)
    before = None
    if worst is not None and one.occurrence is not None and one.detection is not None:
        before = (worst, one.occurrence, one.detection)
    actions = _actions(facts, id_, record, name)
    counted = tuple(action for action in actions if is_done(facts, action, verdicts))
    waiting = tuple(action for action in actions if action not in counted)
    doubted = [*facts.challenges.get(id_, ()), *facts.challenges.get(f"{id_}.{name}", ())]
    if any(verdicts[doubt] != Verdict.HOLDS for doubt in doubted):
        return CauseOutcome(name, one.text, before, before, (), actions)
    now, refused = (None, ()) if before is None else with_actions(facts, before, counted)
    return CauseOutcome(name, one.text, before, now, counted, waiting, refused)


def _actions(facts: Facts, id_: str, record: FailureMode, name: str) -> tuple[str, ...]:
    named = facts.actions.get(f"{id_}.{name}", ())
    return (*named, *facts.actions.get(id_, ())) if len(record.causes) == 1 else named


def with_actions(facts: Facts, before: Ratings, counted: tuple[str, ...]) -> tuple[Ratings, tuple[str, ...]]:
    """The ratings with all counted actions applied, and what an action may not change.

    Where two change the same rating the worse value counts. Severity is lowered only by a change of
    the design.
    """
    refused: list[str] = []
    changed: dict[str, int] = {}
    for action in counted:
        record = facts.record(action)
        then = record.then if isinstance(record, Action) else None
        for word in ("severity", "occurrence", "detection"):
            value = getattr(then, word, None)
            if value is None:
                continue
            if word == "severity" and value < before[0] and record.type != "design":
                refused.append(f"severity stays {before[0]}: `{action}` is no change of the design")
                continue
            changed[word] = max(value, changed.get(word, 0))
    words = zip(("severity", "occurrence", "detection"), before, strict=True)
    severity_now, occurrence_now, detection_now = (changed.get(word, rating) for word, rating in words)
    return (severity_now, occurrence_now, detection_now), tuple(refused)
