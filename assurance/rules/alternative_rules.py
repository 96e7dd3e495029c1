"""Rules about claims with several arguments of which any will do."""

from collections.abc import Iterator

from assurance.model.argument_records import ClaimRecord
from assurance.model.verdicts import Finding, ReasonKind, Verdict
from assurance.rules.seen import Seen, living
from assurance.rules.view import View, from_causes


def alternative_fails(view: View) -> Iterator[Finding]:
    """Of several arguments, one fails or rests on adverse evidence.

    Why: One that holds does not outweigh one that speaks against the claim: the two cannot both be
    right.

    Put right: Find out which is wrong, and put that one right.

    Bad::

        claims:
          step-strong:
            statement: The step carries the landing load.
            about: [step, landing]
            arguments:
              by-analysis:
                because: Stress by hand against the A-basis yield strength.
                checks: [{result: step-strength.least_reserve_factor, at_least: reserve-policy}]
              by-test:  # here
                because: The step keeps its shape under 1.5 times limit load.
                checks: [{result: step-test.permanent_set, at_most: 0.01 mm, because: gauge}]
            holds_if: any
            owner: ben

    Good::

        claims:
          step-strong:
            statement: The step carries the landing load.
            about: [step, landing]
            arguments:
              by-analysis:
                because: Stress by hand against the A-basis yield strength.
                checks: [{result: step-strength.least_reserve_factor, at_least: reserve-policy}]
              by-test:
                because: The step keeps its shape under 1.5 times limit load.
                checks: [{result: step-test.permanent_set, at_most: 0.05 mm, because: gauge}]
            holds_if: any
            owner: ben
    """
    yield from from_causes(view, ReasonKind.ALTERNATIVE_FAILS)


def weaker_alternative(view: View) -> Iterator[Seen]:
    """Of several arguments of which any will do, one is weaker than the one the claim stands on.

    Why: The claim stands on fewer legs than it seems to.

    Put right: Put the weaker one right, or take it out.

    Bad::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            arguments:
              by-inspection: {because: The rail was inspected., rests_on: [rail-inspection]}
              by-review:  # here
                because: The drawing was reviewed.
                rests_on: [rail-drawing]
            holds_if: any
            owner: ann
        evidence:
          rail-drawing: {title: Drawing of the rail, kind: analysis, state: draft, producer: ben}

    Good::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            arguments:
              by-inspection: {because: The rail was inspected., rests_on: [rail-inspection]}
              by-test: {because: The rail was pulled., rests_on: [rail-pull-test]}
            holds_if: any
            owner: ann
    """
    failing = {reason.key for reason in view.causes.get(ReasonKind.ALTERNATIVE_FAILS, ())}
    for id_, claim in living(view, ClaimRecord):
        outcomes = view.assessment.arguments.get(id_, ())
        if claim.holds_if != "any" or len(outcomes) < 2:
            continue
        best = min(outcomes, key=lambda one: one.verdict)
        held = sum(one.verdict == Verdict.HOLDS for one in outcomes)
        for one in outcomes:
            if one.verdict > best.verdict and f"{id_}:alternative-fails:arguments:{one.name}" not in failing:
                yield Seen(
                    id_, ("arguments", one.name),
                    f"The alternative `{one.name}` of `{id_}` is {one.verdict.word}; the claim stands on "
                    f"`{best.name}` ({held} of {len(outcomes)} hold).",
                    "Put it right, or take it out.",
                )  # fmt: skip
