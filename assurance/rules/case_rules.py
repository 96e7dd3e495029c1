"""Rules about the case itself: its day, its top claim, its conditions, its risk scheme."""

from collections.abc import Iterator

from assurance.model.argument_records import Condition
from assurance.model.risk_records import Hazard
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, listed, living, the_case
from assurance.rules.view import View, from_causes


def date_missing(view: View) -> Iterator[Finding]:
    """The case names no day for which it is judged.

    Why: Whether a review has passed or an action is late depends on the day. The clock of a computer
    is not asked, so that the same case always gives the same result.

    Put right: Give `as_of`, or use `--on`.

    Bad::

        case:
          step-case:  # here
            title: Box step
            top_claims: {use: safe}
            organisations: {works: The works}
            people:
              ann: {name: Ann, roles: [safety-lead]}
              ben: {name: Ben, roles: [stress-lead]}
              cleo: {name: Cleo}

    Good::

        case:
          step-case:
            title: Box step
            top_claims: {use: safe}
            as_of: 2026-03-01
            organisations: {works: The works}
            people:
              ann: {name: Ann, roles: [safety-lead]}
              ben: {name: Ben, roles: [stress-lead]}
              cleo: {name: Cleo}
    """
    yield from from_causes(view, ReasonKind.DATE_MISSING)


def top_claim_missing(view: View) -> Iterator[Seen]:
    """The case does not say which claim concludes.

    Why: Without it nothing is concluded, and nothing can be missing.

    Put right: Name the claim: `top_claims: {use: ID}`.

    Bad::

        case:
          step-case:  # here
            title: Box step
            as_of: 2026-03-01
            organisations: {works: The works}
            people:
              ann: {name: Ann, roles: [safety-lead]}
              ben: {name: Ben, roles: [stress-lead]}
              cleo: {name: Cleo}

    Good::

        case:
          step-case:
            title: Box step
            top_claims: {use: safe}
            as_of: 2026-03-01
            organisations: {works: The works}
            people:
              ann: {name: Ann, roles: [safety-lead]}
              ben: {name: Ben, roles: [stress-lead]}
              cleo: {name: Cleo}
    """
    case = the_case(view)
    if case is not None and not case.top_claims:
        yield Seen(
            view.assessment.case, (), f"The case `{view.assessment.case}` names no claim that concludes.",
            "Name it: `top_claims: {use: ID}`.",
        )  # fmt: skip


def condition_without_limits(view: View) -> Iterator[Seen]:
    """A condition of use states neither a range nor the values that are allowed.

    Why: Nobody can tell on the day whether the use lies inside.

    Put right: Give `range` with its unit, or `values`.

    Bad::

        conditions:
          waves:  # here
            title: Height of the waves
            kept_by: the supervisor
            measured_by: the buoy

    Good::

        conditions:
          waves:
            title: Height of the waves
            range: 0 to 1.5 m
            kept_by: the supervisor
            measured_by: the buoy
    """
    for id_, record in living(view, Condition):
        if record.range is None and not record.values:
            yield Seen(
                id_, (), f"The condition `{id_}` states neither a range nor allowed values.",
                "Give `range` with its unit, or `values`.",
            )  # fmt: skip


def condition_nobody_keeps(view: View) -> Iterator[Seen]:
    """A condition of use does not say what keeps the use inside, or how that is measured.

    Why: A limit that nobody measures on the day is a hope.

    Put right: Give `kept_by` and `measured_by`.

    Bad::

        conditions:
          waves:  # here
            title: Height of the waves
            range: 0 to 1.5 m
            kept_by: the supervisor

    Good::

        conditions:
          waves:
            title: Height of the waves
            range: 0 to 1.5 m
            kept_by: the supervisor
            measured_by: the buoy
    """
    for id_, record in living(view, Condition):
        lacking = [f"`{word}`" for word in ("kept_by", "measured_by") if not getattr(record, word)]
        if lacking:
            yield Seen(
                id_, (), f"The condition `{id_}` has no {listed(lacking)}.",
                "Say what keeps the use inside, and how that is measured.",
            )  # fmt: skip


def case_without_hazards(view: View) -> Iterator[Seen]:
    """The case names no hazard that still counts.

    Why: Every hazard has to be argued, and none is the easiest to argue. A device that a person uses
    has some.

    Put right: Write down what can hurt someone, under `hazards`, in a file in `hazards/`.

    Bad::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            owner: ann
            retired: {because: The step is now too low to fall from., by: ann, date: 2026-02-01}  # here

    Good::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Probable}
            controls:
              rail:
                text: A rail on three sides
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Critical, likelihood: Remote, controls: [rail]}
            claim: fall-held-back
            owner: ann
    """
    named = view.assessment.of_kind("hazards")
    unread = any(entry.record is None for entry in named.values())
    if unread or not view.assessment.case or any(True for _ in living(view, Hazard)):
        return
    record = next(iter(named), view.assessment.case)
    path = ("retired",) if named else ()
    text = "The case names no hazard that still counts."
    yield Seen(record, path, text, "Write down what can hurt someone, under `hazards`.")


def record_retired(view: View) -> Iterator[Seen]:
    """A record no longer counts.

    Why: It is kept to be read, and whoever reviews the case should see that it was set aside.

    Put right: Nothing, where that is right; else take `retired` out.

    Bad::

        assumptions:
          dry-step:
            statement: The step stays dry.
            owner: ann
            state: unconfirmed
            retired: {because: The step was covered with grit., by: ann, date: 2026-02-01}  # here

    Good::

        contexts: {}
    """
    for id_ in sorted(view.retired):
        if not _still_needed(view, id_):
            word = view.assessment.verdicts[id_].word
            yield Seen(
                id_, ("retired",), f"`{id_}` is retired and does not count; by itself it would be judged "
                f"`{word}`.",
                "Take `retired` out if it is to count again.",
            )  # fmt: skip


def _still_needed(view: View, id_: str) -> bool:
    reasons = view.assessment.reasons.get(id_, ())
    return any(reason.kind is ReasonKind.RETIRED_BUT_NEEDED for reason in reasons)
