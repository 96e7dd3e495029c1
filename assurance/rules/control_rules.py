"""Rules about the controls of hazards: that they are shown, of which kind they are, that they are kept up."""

from collections.abc import Iterator

from assurance.model.risk_records import Control, Hazard
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, listed, living, quoted
from assurance.rules.view import View, from_causes

ADVICE = ("warning", "procedure", "protective")
GRAVE = 2  # the first severities of a scheme: Catastrophic and Critical in MIL-STD-882


def control_not_shown(view: View) -> Iterator[Finding]:
    """Nothing shows that a control is there, or that it works.

    Why: A control counts only when both are shown; else the risk falls back.

    Put right: Name what shows it under `implemented_by` and under `effective_by`.

    Bad::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Probable}
            controls:
              rail:  # here
                text: A rail on three sides
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
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
    yield from from_causes(view, ReasonKind.CONTROL_NOT_SHOWN)


def control_without_type(view: View) -> Iterator[Seen]:
    """A control does not say of which kind it is.

    Why: The order of precedence (MIL-STD-882E 4.3.4) is design, safeguard, warning, procedure,
    protective equipment; what a control may lower depends on it.

    Put right: Give `type`.

    Bad::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Probable}
            controls:
              rail:  # here
                text: A rail on three sides
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
    for id_, name, control in _controls(view):
        if control.type is None:
            yield Seen(
                id_, ("controls", name), f"The control `{name}` of `{id_}` has no `type`.",
                "Give `design`, `safeguard`, `warning`, `procedure` or `protective`.",
            )  # fmt: skip


def safeguard_without_check_interval(view: View) -> Iterator[Seen]:
    """A safeguard does not say how often it is checked.

    Why: A device that waits for its moment can fail unseen. For safety devices provision is to be made
    for periodic functional checks (USAF System Safety Handbook, p. 30).

    Put right: Give `check_interval`.

    Bad::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Probable}
            controls:
              rail:
                text: A rail that swings in
                type: safeguard  # here
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
                text: A rail that swings in
                type: safeguard
                reduces: [likelihood]
                check_interval: before each trial
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Critical, likelihood: Remote, controls: [rail]}
            claim: fall-held-back
            owner: ann
    """
    for id_, name, control in _controls(view):
        if control.type == "safeguard" and not control.check_interval:
            yield Seen(
                id_, ("controls", name, "type"),
                f"The safeguard `{name}` of `{id_}` does not say how often it is checked.",
                "Give `check_interval`.",
            )  # fmt: skip


def one_record_for_both_proofs(view: View) -> Iterator[Seen]:
    """The records that show that a control works are the same that show that it is there.

    Why: That a rail is fitted says little about whether it holds. One record rarely shows both, and a
    name that is written twice looks like two proofs.

    Put right: Name what shows that it works, such as a test. Where one record does show both, write a
    claim for each proof that says which part of the record shows it.

    Bad::

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
                effective_by: [rail-inspection]  # here
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
    for id_, name, control in _controls(view):
        works, there = set(control.effective_by), set(control.implemented_by)
        if works and works <= there:
            yield Seen(
                id_, ("controls", name, "effective_by"),
                f"The control `{name}` of `{id_}` is shown to be there and to work by one and the same: "
                f"{quoted(control.effective_by)}.",
                "Name what shows that it works, or a claim that says which part of the record does.",
            )  # fmt: skip


def only_advice_holds_it_back(view: View) -> Iterator[Seen]:
    """A grave hazard is held back by warnings, procedures and protective equipment alone.

    Why: For catastrophic and critical hazards MIL-STD-882D 4.4 says to avoid warnings and other
    written advice as the only way to reduce the risk.

    Put right: Add a change of the design, or a safeguard.

    Bad::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Probable}
            controls:  # here
              sign:
                text: A sign says to hold on
                type: warning
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Critical, likelihood: Occasional, controls: [sign]}
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
              sign:
                text: A sign says to hold on
                type: warning
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Critical, likelihood: Remote, controls: [rail, sign]}
            claim: fall-held-back
            owner: ann
    """
    grave = view.assessment.scheme.severities[:GRAVE]
    for id_, hazard in living(view, Hazard):
        outcome = view.assessment.hazards.get(id_)
        before = outcome.before if outcome else None
        types = [control.type for control in hazard.controls.values()]
        if before and before.severity in grave and types and all(one in ADVICE for one in types):
            yield Seen(
                id_, ("controls",),
                f"The hazard `{id_}` is {before.severity}, and only {quoted(hazard.controls)} of type "
                f"{listed(dict.fromkeys(str(one) for one in types))} holds it back.",
                "Add a change of the design, or a safeguard.",
            )  # fmt: skip


def _controls(view: View) -> Iterator[tuple[str, str, Control]]:
    for id_, hazard in living(view, Hazard):
        for name, control in hazard.controls.items():
            yield id_, name, control
