"""Rules about people: who answers for a record, who worked a number out, who looked at it."""

from collections.abc import Iterator

from assurance.model.argument_records import Challenge
from assurance.model.engineering_records import Calculation
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, living, quoted, the_case
from assurance.rules.view import View, from_causes


def owner_missing(view: View) -> Iterator[Finding]:
    """A claim, hazard, assumption, action or challenge has no owner.

    Why: What is nobody's does not get done, and nobody can be asked.

    Put right: Name a person or a role under `owner`.

    Bad::

        claims:
          fall-held-back:  # here
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}

    Good::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            owner: safety-lead
    """
    yield from from_causes(view, ReasonKind.OWNER_MISSING)


def calculation_without_author(view: View) -> Iterator[Seen]:
    """A calculation does not say who chose its method and inputs.

    Why: The tool does the sum; somebody answers for its being the right sum.

    Put right: Name a person or a role under `author`.

    Bad::

        calculations:
          step-strength:  # here
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:
              applied: 100 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: step
              load_case: landing
            checker: ann

    Good::

        calculations:
          step-strength:
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:
              applied: 100 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: step
              load_case: landing
            author: stress-lead
            checker: ann
    """
    for id_, record in living(view, Calculation):
        if not record.author:
            yield Seen(
                id_, (), f"`{id_}` does not say who answers for its method and inputs.",
                "Name a person or a role under `author`.",
            )  # fmt: skip


def calculation_without_checker(view: View) -> Iterator[Seen]:
    """Nobody but its author has checked a calculation.

    Why: The mistakes one makes oneself are the hardest to see.

    Put right: Have it checked, and name who did under `checker`.

    Bad::

        calculations:
          step-strength:  # here
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:
              applied: 100 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: step
              load_case: landing
            author: ben

    Good::

        calculations:
          step-strength:
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:
              applied: 100 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: step
              load_case: landing
            author: ben
            checker: ann
    """
    for id_, record in living(view, Calculation):
        if not record.checker:
            yield Seen(id_, (), f"Nobody has checked `{id_}`.", "Name who checked it under `checker`.")


def checker_is_the_author(view: View) -> Iterator[Seen]:
    """The checker of a calculation is its author, also where one of the two is named by a role.

    Why: A check by the author is no second look.

    Put right: Have it checked by somebody else.

    Bad::

        calculations:
          step-strength:
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:
              applied: 100 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: step
              load_case: landing
            author: ben
            checker: stress-lead  # here

    Good::

        calculations:
          step-strength:
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:
              applied: 100 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: step
              load_case: landing
            author: ben
            checker: safety-lead
    """
    for id_, record in living(view, Calculation):
        both = _people(view, record.author) & _people(view, record.checker)
        if both:
            yield Seen(
                id_, ("checker",), f"The checker of `{id_}` is its author: both are {quoted(sorted(both))}.",
                "Have it checked by somebody else.",
            )  # fmt: skip


def challenge_closed_by_its_owner(view: View) -> Iterator[Seen]:
    """Whoever had to answer a challenge also closed it.

    Why: Nobody is the best judge of an answer of their own.

    Put right: Have it closed by whoever raised it, or by somebody else who knows the matter.

    Bad::

        challenges:
          wet-rail:
            against: fall-held-back
            doubt: A wet hand slips off the rail.
            state: answered
            raised_by: cleo
            owner: ann
            answer: The rail was pulled with a wet glove.
            answer_rests_on: [rail-pull-test]
            closed_by: safety-lead  # here

    Good::

        challenges:
          wet-rail:
            against: fall-held-back
            doubt: A wet hand slips off the rail.
            state: answered
            raised_by: cleo
            owner: ann
            answer: The rail was pulled with a wet glove.
            answer_rests_on: [rail-pull-test]
            closed_by: cleo
    """
    for id_, record in living(view, Challenge):
        both = _people(view, record.owner) & _people(view, record.closed_by)
        if record.state == "answered" and both:
            yield Seen(
                id_, ("closed_by",),
                f"The challenge `{id_}` was closed by {quoted(sorted(both))}, who had to answer it.",
                "Have it closed by somebody else.",
            )  # fmt: skip


def _people(view: View, name: str | None) -> frozenset[str]:
    """The people whom a name stands for: one person, or all who have the role; an organisation is itself."""
    case = the_case(view)
    if not name:
        return frozenset()
    holders = {id_ for id_, person in case.people.items() if name in person.roles} if case else set()
    return frozenset(holders or {name})
