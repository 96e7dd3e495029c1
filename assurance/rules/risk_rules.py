"""Rules about ratings: of hazards by the scheme, of failure modes by their scale."""

from collections.abc import Iterator

from assurance.model.risk_records import Hazard
from assurance.model.verdicts import Finding, ReasonKind
from assurance.risk.hazards import allowed, stated_now, stated_risks
from assurance.rules.seen import Seen, living, quoted
from assurance.rules.view import View, from_causes


def risk_not_rated(view: View) -> Iterator[Finding]:
    """A hazard has no risk before, a word of its risk is not of the scheme, or the scheme is not whole.

    Why: A risk that has no cell in the matrix has no level, and nobody can accept it.

    Put right: Use the words or codes of the scheme; MIL-STD-882E applies where the case brings none.

    Bad::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Now and then}  # here
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
            before: {severity: Critical, likelihood: Occasional}
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
    yield from from_causes(view, ReasonKind.RISK_NOT_RATED)


def rating_may_not_fall(view: View) -> Iterator[Seen]:
    """A stated rating is lower than its controls or actions may make it, so it is not taken.

    Why: Only design and safeguards make the harm less severe, and only design eliminates a hazard: no
    amount of warning, training or protective equipment does (MIL-STD-882E 4.3.3.b).

    Put right: Rate it as the controls allow, or change the design.

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
                effective_by: [rail-pull-test]
            after: {severity: Marginal, likelihood: Remote, controls: [rail]}  # here
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
    yield from _refused_risks(view)
    yield from _refused_ratings(view)


def _refused_risks(view: View) -> Iterator[Seen]:
    for id_, hazard in living(view, Hazard):
        outcome = view.assessment.hazards.get(id_)
        for path, stated in stated_risks(hazard):
            before = outcome.before if outcome else None
            _, refused = allowed(hazard, stated, before, view.assessment.scheme)
            known = set(stated.controls) <= set(hazard.controls)
            for text in refused if stated.controls and known else ():
                yield Seen(
                    id_, path, f"The risk of `{id_}`: {text}.", "Rate it so, or add a control that lowers it."
                )


def _refused_ratings(view: View) -> Iterator[Seen]:
    for id_, causes in sorted(view.assessment.failure_modes.items()):
        for one in causes:
            for text in one.refused:
                yield Seen(
                    id_, ("causes", one.id), f"The cause `{one.id}` of `{id_}`: {text}.",
                    "Leave `severity` out of `then`, or change the design.",
                )  # fmt: skip


def rating_without_controls(view: View) -> Iterator[Seen]:
    """A risk after its controls does not say which controls it counts on.

    Why: Nobody can tell whether it stands once one of them falls away, so it never becomes the risk now.

    Put right: Name them under `controls` of the rating.

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
                effective_by: [rail-pull-test]
            after: {severity: Critical, likelihood: Remote}  # here
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
        for path, stated in stated_risks(hazard):
            if not stated.controls:
                word = "after" if path == ("after",) else "risk_with"
                yield Seen(
                    id_, path, f"`{word}` of `{id_}` does not say which controls it counts on.",
                    "Name them under its `controls`.",
                )  # fmt: skip


def risk_after_missing(view: View) -> Iterator[Seen]:
    """A hazard has controls, and the risk with all of them is not stated.

    Why: Nobody can tell whether the controls are meant to be enough, and the risk before stands.

    Put right: Give `after` with its `controls`.

    Bad::

        hazards:
          fall:  # here
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
        if hazard.controls and hazard.after is None:
            yield Seen(
                id_, (), f"The risk of `{id_}` with all its controls is not stated.",
                "Give `after: {severity: ..., likelihood: ..., controls: [...]}`.",
            )  # fmt: skip


def risk_not_stated_for_these_controls(view: View) -> Iterator[Seen]:
    """Some controls of a hazard count and some do not, and no risk is stated for those that count.

    Why: The risk before stands then, as if none of them were there.

    Put right: State the risk for that set under `risk_with`, or show the others.

    Bad::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Probable}
            controls:  # here
              rail:
                text: A rail on three sides
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
              grit:
                text: Grit on the step
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
            after: {severity: Critical, likelihood: Improbable, controls: [rail, grit]}
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
              grit:
                text: Grit on the step
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
            after: {severity: Critical, likelihood: Improbable, controls: [rail, grit]}
            risk_with:
              - {severity: Critical, likelihood: Remote, controls: [rail]}
            claim: fall-held-back
            owner: ann
    """
    for id_, hazard in living(view, Hazard):
        outcome = view.assessment.hazards.get(id_)
        if not outcome or not outcome.counted or not outcome.lifted:
            continue
        if stated_now(hazard, outcome.counted, outcome.before, view.assessment.scheme) is None:
            yield Seen(
                id_, ("controls",),
                f"Of the controls of `{id_}` only {quoted(outcome.counted)} {_counts(outcome.counted)}, "
                "and no risk is stated for that.",
                f"Add to `risk_with` a rating with `controls: [{', '.join(outcome.counted)}]`.",
            )  # fmt: skip


def _counts(names: tuple[str, ...]) -> str:
    return "counts" if len(names) == 1 else "count"
