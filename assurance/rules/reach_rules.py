"""Rules about what the top claim does not reach. Of a chain that hangs loose only its head is reported."""

from collections.abc import Iterator

from assurance.graph.order import components
from assurance.model.argument_records import ClaimRecord
from assurance.model.fields import Record
from assurance.model.risk_records import FailureMode, Hazard
from assurance.model.verdicts import ReasonKind
from assurance.rules.seen import Seen, living
from assurance.rules.view import View


def hazard_without_claim(view: View) -> Iterator[Seen]:
    """No claim addresses a hazard.

    Why: Its controls may be good, and nothing concludes that they are enough.

    Put right: Name the claim that concludes on it under `claim`.

    Bad::

        hazards:
          pinch:  # here
            title: A finger is pinched
            harm: A bruise
            exposed: the person on the step
            causes: [the rail swings in]
            before: {severity: Negligible, likelihood: Occasional}
            controls:
              gap:
                text: A gap of 30 mm
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Negligible, likelihood: Remote, controls: [gap]}
            owner: ann
        claims:
          fall-held-back:
            statement: A person on the step can neither fall nor be pinched.
            about: [pinch]
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            owner: ann

    Good::

        hazards:
          pinch:
            title: A finger is pinched
            harm: A bruise
            exposed: the person on the step
            causes: [the rail swings in]
            before: {severity: Negligible, likelihood: Occasional}
            controls:
              gap:
                text: A gap of 30 mm
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Negligible, likelihood: Remote, controls: [gap]}
            claim: fall-held-back
            owner: ann
    """
    for id_, hazard in living(view, Hazard):
        if hazard.claim is None:
            yield Seen(
                id_, (), f"No claim addresses the hazard `{id_}`.",
                "Name the claim that concludes on it under `claim`.",
            )  # fmt: skip


def hazard_not_reached(view: View) -> Iterator[Seen]:
    """The claim of a hazard does not lead to the top claim.

    Why: What is concluded about the hazard does not count in the conclusion.

    Put right: Let its claim be one beneath the top claim.

    Bad::

        hazards:
          pinch:
            title: A finger is pinched
            harm: A bruise
            exposed: the person on the step
            causes: [the rail swings in]
            before: {severity: Negligible, likelihood: Occasional}
            controls:
              gap:
                text: A gap of 30 mm
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Negligible, likelihood: Remote, controls: [gap]}
            claim: gap-kept  # here
            owner: ann
        claims:
          gap-kept:
            statement: The gap is 30 mm.
            argument: {because: It was measured., rests_on: [rail-inspection]}
            retired: {because: the rail is new, by: ann, date: 2026-02-01}
            owner: ann
          fall-held-back:
            statement: A person on the step can neither fall nor be pinched.
            about: [pinch]
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            owner: ann

    Good::

        hazards:
          pinch:
            title: A finger is pinched
            harm: A bruise
            exposed: the person on the step
            causes: [the rail swings in]
            before: {severity: Negligible, likelihood: Occasional}
            controls:
              gap:
                text: A gap of 30 mm
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Negligible, likelihood: Remote, controls: [gap]}
            claim: fall-held-back
            owner: ann
    """
    named = set(_named_as_not_argued(view))
    for id_ in _heads(view, Hazard):
        hazard = view.assessment.entries[id_].record
        claim = hazard.claim if isinstance(hazard, Hazard) else None
        if claim is not None and id_ not in named:
            yield Seen(
                id_, ("claim",), f"The claim `{claim}` of the hazard `{id_}` does not lead to the top claim.",
                "Name a claim beneath the top claim.",
            )  # fmt: skip


def _named_as_not_argued(view: View) -> Iterator[str]:
    """The members that a cause already names: the last part of its key."""
    for reason in view.causes.get(ReasonKind.MEMBER_NOT_ARGUED, ()):
        yield reason.key.rpartition(":")[2]


def claim_not_reached(view: View) -> Iterator[Seen]:
    """The top claim does not rest on a claim, directly or through others.

    Why: Either a link is missing, or the claim is no longer part of the argument. Until that is said,
    the top claim needs it.

    Put right: Name it under `rests_on`, or retire it with a reason.

    Bad::

        claims:
          step-clean:  # here
            statement: The step is free of oil.
            argument: {because: It was inspected., rests_on: [rail-inspection]}
            owner: ann

    Good::

        claims:
          step-clean:
            statement: The step is free of oil.
            argument: {because: It was inspected., rests_on: [rail-inspection]}
            owner: ann
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument:
              because: The rail was inspected, and nobody slips.
              rests_on: [rail-inspection, step-clean]
            owner: ann
    """
    for id_ in _heads(view, ClaimRecord):
        yield Seen(
            id_, (), f"The top claim does not rest on `{id_}`.", "Name it under `rests_on`, or retire it."
        )


def failure_mode_not_reached(view: View) -> Iterator[Seen]:
    """No hazard that the top claim reaches names a failure mode as a cause.

    Why: What can break has no bearing on the conclusion, or nobody has said which.

    Put right: Name it under `causes` of the hazard that it leads to, or retire it with a reason.

    Bad::

        failure_modes:
          rail-bends:  # here
            title: The rail bends
            item: rail
            scale: team-scale
            effects: [{text: The person leans out, severity: 6}]
            causes: {impact: {text: The boat hits the rail, occurrence: 2, detection: 3}}
            owner: ben

    Good::

        failure_modes:
          rail-bends:
            title: The rail bends
            item: rail
            scale: team-scale
            effects: [{text: The person leans out, severity: 6}]
            causes: {impact: {text: The boat hits the rail, occurrence: 2, detection: 3}}
            owner: ben
        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}, {record: rail-bends}]
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
    for id_ in _heads(view, FailureMode):
        yield Seen(
            id_, (), f"The top claim does not reach the failure mode `{id_}`.",
            "Name it under `causes` of the hazard that it leads to, or retire it.",
        )  # fmt: skip


def _heads(view: View, kind: type[Record]) -> tuple[str, ...]:
    """Records of a kind that the top claim does not reach, and that nothing else out of reach needs.

    Of records that rest on each other the first is the head.
    """
    if not view.assessment.top_claims:
        return ()
    loose = [id_ for each in (ClaimRecord, Hazard, FailureMode) for id_, _ in living(view, each)
             if id_ not in view.assessment.reached]  # fmt: skip
    inside = set(loose)
    needs = {id_: [one for one in view.assessment.depends.get(id_, ()) if one in inside] for id_ in loose}
    groups = components(loose, needs)
    beneath = {need for group in groups for one in group for need in needs[one] if need not in group}
    heads = [group[0] for group in groups if not beneath.intersection(group)
             and not any(view.may_be_named(one) for one in group)]  # fmt: skip
    return tuple(id_ for id_ in sorted(heads) if isinstance(view.assessment.entries[id_].record, kind))
