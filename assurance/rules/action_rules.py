"""Rules about actions: late, needed first, or done without anything that shows it."""

from collections.abc import Iterator

from assurance.model.argument_records import Action
from assurance.model.verdicts import Finding, ReasonKind, Verdict
from assurance.rules.seen import Seen, living, quoted
from assurance.rules.view import View, from_causes


def action_needed(view: View) -> Iterator[Finding]:
    """An action is needed before use and is not done.

    Why: Somebody has decided that nobody may use the item before it is.

    Put right: Do it, then give the day under `done` and the record under `closing_evidence`.

    Bad::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: fall
            owner: ben
            due: 2026-03-20
            needed_before: use  # here

    Good::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: fall
            owner: ben
            due: 2026-03-20
            needed_before: use
            done: 2026-02-10
            closing_evidence: [rail-inspection]
    """
    yield from from_causes(view, ReasonKind.ACTION_NEEDED)


def action_late(view: View) -> Iterator[Seen]:
    """An action was due before the day of the case and is not done.

    Why: Somebody counts on it being done by then.

    Put right: Do it, or agree a new day with those who count on it.

    Bad::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: step-breaks
            owner: ben
            due: 2026-02-20  # here

    Good::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: step-breaks
            owner: ben
            due: 2026-03-01
    """
    day = view.assessment.as_of
    for id_, action in living(view, Action):
        done = action.done is not None and (day is None or action.done <= day)
        if day and action.due and action.due < day and not done:
            late = (day - action.due).days
            yield Seen(
                id_, ("due",),
                f"The action `{id_}` is {late} {'day' if late == 1 else 'days'} late: it was due "
                f"{action.due.isoformat()}.",
                "Do it, or agree a new day.",
            )  # fmt: skip


def action_without_date(view: View) -> Iterator[Seen]:
    """An action that is not done has no day by which it is due.

    Why: Without a day it is never late.

    Put right: Give `due`.

    Bad::

        actions:
          bolt-rail:  # here
            what: Bolt the rail with lock nuts.
            on: step-breaks
            owner: ben

    Good::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: step-breaks
            owner: ben
            due: 2026-03-20
    """
    for id_, action in living(view, Action):
        if action.due is None and action.done is None:
            yield Seen(id_, (), f"The action `{id_}` has no day by which it is due.", "Give `due`.")


def action_done_without_evidence(view: View) -> Iterator[Seen]:
    """An action is called done, and nothing that holds shows it.

    Why: The word alone changes no rating: the action does not count until it is shown.

    Put right: Name evidence that holds under `closing_evidence`.

    Bad::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: step-breaks
            then: {occurrence: 2}
            owner: ben
            due: 2026-02-20
            done: 2026-02-10  # here

    Good::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: step-breaks
            then: {occurrence: 2}
            owner: ben
            due: 2026-02-20
            done: 2026-02-10
            closing_evidence: [rail-inspection]
    """
    already = {reason.record for reason in view.causes.get(ReasonKind.ACTION_NEEDED, ())}
    for id_, action in living(view, Action):
        if action.done is None or id_ in already or _after_the_case(view, action):
            continue
        weak = _not_holding(view, action)
        if weak or not action.closing_evidence:
            why = (
                f"{quoted(weak)} {'does' if len(weak) == 1 else 'do'} not hold"
                if weak
                else "nothing shows it"
            )
            yield Seen(
                id_, ("closing_evidence",) if weak else ("done",),
                f"The action `{id_}` is called done, but {why}, so it does not count.",
                "Name evidence that holds under `closing_evidence`.",
            )  # fmt: skip


def _not_holding(view: View, action: Action) -> list[str]:
    verdicts = view.assessment.verdicts
    return [one for one in action.closing_evidence if verdicts.get(one, Verdict.OPEN) != Verdict.HOLDS]


def action_done_after_the_case(view: View) -> Iterator[Seen]:
    """An action is called done on a day after the day of the case.

    Why: It has not been done yet, so it does not count: one of the two dates is wrong.

    Put right: Correct the day, or `as_of` of the case.

    Bad::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: step-breaks
            owner: ben
            due: 2026-03-20
            done: 2026-03-02  # here
            closing_evidence: [rail-inspection]

    Good::

        actions:
          bolt-rail:
            what: Bolt the rail with lock nuts.
            on: step-breaks
            owner: ben
            due: 2026-03-20
            done: 2026-03-01
            closing_evidence: [rail-inspection]
    """
    for id_, action in living(view, Action):
        day = view.assessment.as_of
        if day and action.done and _after_the_case(view, action):
            yield Seen(
                id_, ("done",),
                f"The action `{id_}` is called done on {action.done.isoformat()}, after the day "
                f"of the case, {day.isoformat()}.",
                "Correct the day, or `as_of` of the case.",
            )  # fmt: skip


def _after_the_case(view: View, action: Action) -> bool:
    day = view.assessment.as_of
    return bool(day and action.done and action.done > day)
