"""Rules about hazards as they are described."""

from collections.abc import Iterator

from assurance.model.risk_records import Hazard
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, listed, living
from assurance.rules.view import View, from_causes


def hazard_without_control(view: View) -> Iterator[Finding]:
    """Nothing holds a hazard back.

    Why: The risk before is the risk now.

    Put right: Add a control under `controls`, by design where that is possible.

    Bad::

        hazards:
          fall:  # here
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Probable}
            claim: fall-held-back
            owner: ann

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
    yield from from_causes(view, ReasonKind.HAZARD_WITHOUT_CONTROL)


def hazard_not_described(view: View) -> Iterator[Seen]:
    """A hazard does not say what harm it does, to whom, or what leads to it.

    Why: Nobody can judge how severe and how likely something is that is not described.

    Put right: Give `harm`, `exposed` and `causes`.

    Bad::

        hazards:
          fall:  # here
            title: A fall from the step
            harm: Broken bones
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
    for id_, hazard in living(view, Hazard):
        lacking = [f"`{word}`" for word in ("harm", "exposed", "causes") if not getattr(hazard, word)]
        if lacking:
            yield Seen(
                id_, (), f"The hazard `{id_}` has no {listed(lacking)}.",
                "Say what harm it does, to whom, and what leads to it.",
            )  # fmt: skip
