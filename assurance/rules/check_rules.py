"""Rules about checks: a result beside its limit, and what the limit comes from."""

from collections.abc import Iterable, Iterator

from assurance.model.argument_records import Requirement
from assurance.model.assessment import CheckOutcome
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, living, nobody_names
from assurance.rules.view import View, from_causes

LEAST_SAFE = {"least_reserve_factor": 1.0, "margin_of_safety": 0.0}  # the part falls short below


def check_fails(view: View) -> Iterator[Finding]:
    """A result lies on the wrong side of its limit.

    Why: The claim says that the limit is kept, and the number says that it is not. Where the result
    has an interval, the end that speaks against the claim is compared.

    Put right: Change the design until the check passes. A limit is changed only with its source.

    Bad::

        claims:
          step-strong:
            statement: The step keeps a reserve factor of at least 1.0 on landing.
            about: [step, landing]
            argument:
              because: Stress by hand, and the set that was measured after the test.
              checks:
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
                - {result: step-test.permanent_set, at_most: 0.01 mm, because: twice the gauge}  # here
            owner: ben

    Good::

        claims:
          step-strong:
            statement: The step keeps a reserve factor of at least 1.0 on landing.
            about: [step, landing]
            argument:
              because: Stress by hand, and the set that was measured after the test.
              checks:
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
                - {result: step-test.permanent_set, at_most: 0.05 mm, because: twice the gauge}
            owner: ben
    """
    yield from from_causes(view, ReasonKind.CHECK_FAILS)


def check_cannot_be_made(view: View) -> Iterator[Finding]:
    """A check has no result, no limit, no value, or compares two different dimensions.

    Why: A comparison that nobody can make shows nothing, so the claim stays open.

    Put right: Name a result and a limit of the same dimension.

    Bad::

        claims:
          step-strong:
            statement: The step keeps its shape.
            about: [step, landing]
            argument:
              because: The set was measured after the test.
              checks:
                - {result: step-test.permanent_set, at_most: 0.1 kN, because: twice the gauge}  # here
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
            owner: ben

    Good::

        claims:
          step-strong:
            statement: The step keeps its shape.
            about: [step, landing]
            argument:
              because: The set was measured after the test.
              checks:
                - {result: step-test.permanent_set, at_most: 0.1 mm, because: twice the gauge}
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
            owner: ben
    """
    yield from from_causes(view, ReasonKind.CHECK_CANNOT_BE_MADE)


def limit_without_reason(view: View) -> Iterator[Finding]:
    """A limit is a bare number, or the nominal value is judged, and nobody says why.

    Why: A number without a source can be moved until the check passes.

    Put right: Say under `because` where it comes from, or name a requirement.

    Bad::

        claims:
          step-strong:
            statement: The step keeps a reserve factor of at least 1.0 on landing.
            about: [step, landing]
            argument:
              because: Stress by hand, and the set that was measured after the test.
              checks:
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
                - {result: step-test.permanent_set, at_most: 0.1 mm}  # here
            owner: ben

    Good::

        claims:
          step-strong:
            statement: The step keeps a reserve factor of at least 1.0 on landing.
            about: [step, landing]
            argument:
              because: Stress by hand, and the set that was measured after the test.
              checks:
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
                - {result: step-test.permanent_set, at_most: 0.1 mm, because: twice the gauge}
            owner: ben
    """
    yield from from_causes(view, ReasonKind.LIMIT_WITHOUT_REASON)


def factor_counted_twice(view: View) -> Iterator[Finding]:
    """A factor is inside a result and is its limit as well.

    Why: Asked for twice, a factor gives a number that means something else than it seems to.

    Put right: Put the factor on once, and name a requirement such as 1.0 for the reserve factor.

    Bad::

        claims:
          step-strong:
            statement: The step keeps a reserve factor of at least 1.0 on landing.
            about: [step, landing]
            argument:
              because: Stress by hand against the A-basis yield strength.
              checks:
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
                - {result: step-strength.least_reserve_factor, at_least: ultimate}  # here
              rests_on: [step-test]
            owner: ben

    Good::

        claims:
          step-strong:
            statement: The step keeps a reserve factor of at least 1.0 on landing.
            about: [step, landing]
            argument:
              because: Stress by hand against the A-basis yield strength.
              checks:
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
              rests_on: [step-test]
            owner: ben
    """
    yield from from_causes(view, ReasonKind.FACTOR_COUNTED_TWICE)


def requirement_without_source(view: View) -> Iterator[Seen]:
    """A requirement has a value that checks may use, and does not say who asks for it.

    Why: A bare number under another name is still a bare number: nobody can look up whether it is right.

    Put right: Give `source`, with `edition` and `clause` where there are some.

    Bad::

        requirements:
          reserve-policy:  # here
            statement: Every reserve factor is at least 1.0.
            value: 1.0

    Good::

        requirements:
          reserve-policy:
            statement: Every reserve factor is at least 1.0.
            value: 1.0
            source: Design policy of the works
    """
    for id_, record in living(view, Requirement):
        if record.value is not None and not record.source:
            yield Seen(
                id_, (), f"The requirement `{id_}` ({record.value}) names no source.",
                "Say who asks for it under `source`.",
            )  # fmt: skip


def requirement_nobody_checks(view: View) -> Iterator[Seen]:
    """A requirement has a value, and no check compares anything with it.

    Why: What is asked for and never checked is easily taken for met.

    Put right: Name it as the limit of a check.

    Bad::

        requirements:
          greatest-sag:  # here
            statement: The step sags by no more than 5 mm.
            value: 5 mm
            source: Client specification, clause 4.2

    Good::

        requirements:
          greatest-sag:
            statement: The step sags by no more than 5 mm.
            value: 5 mm
            source: Client specification, clause 4.2
        claims:
          safe:
            statement: The step is safe to stand on.
            argument:
              because: The step is strong and stiff, and the one hazard is held back.
              rests_on: [step-strong, fall-held-back]
              checks: [{result: step-test.permanent_set, at_most: greatest-sag}]
            owner: ann
    """
    for id_, record in living(view, Requirement):
        if record.value is not None and nobody_names(view, id_):
            yield Seen(
                id_, (), f"No check compares anything with `{id_}` ({record.value}).",
                "Name it as the limit of a check.",
            )  # fmt: skip


def reserve_checked_on_the_unsafe_side(view: View) -> Iterator[Seen]:
    """A reserve factor or margin of safety has no lower limit, or one that lets a part fall short.

    Why: A part carries its load where the reserve factor is at least 1, which is a margin of at least
    0. A check that only asks for at most, or for less, passes when the part breaks.

    Put right: Ask for `at_least` 1 of a reserve factor, or 0 of a margin, or more.

    Bad::

        requirements:
          reserve-policy: {statement: The reserve is kept., value: 1.7, source: Design policy}
        claims:
          step-strong:
            statement: The step keeps a reserve factor of at least 1.0 on landing.
            about: [step, landing]
            argument:
              because: Stress by hand against the A-basis yield strength.
              checks:
                - {result: step-strength.least_reserve_factor, at_most: reserve-policy}  # here
              rests_on: [step-test]
            owner: ben

    Good::

        claims:
          step-strong:
            statement: The step keeps a reserve factor of at least 1.0 on landing.
            about: [step, landing]
            argument:
              because: Stress by hand against the A-basis yield strength.
              checks:
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
              rests_on: [step-test]
            owner: ben
    """
    for id_, outcomes in sorted(view.assessment.checks.items()):
        for place, result, limit in _reserves(outcomes):
            least = LEAST_SAFE[result.partition(".")[2]]
            if limit is None or limit < least:
                yield Seen(
                    id_, _check_path(view, id_, place),
                    f"A check of `{result}` lets it fall below {least:g}.",
                    f"Ask for `at_least` {least:g} or more.",
                )  # fmt: skip


def _reserves(
    outcomes: Iterable[CheckOutcome],
) -> Iterator[tuple[tuple[str, int], str, float | None]]:
    """Each check of a reserve factor or margin by argument and number, with its lower limit if any."""
    found: dict[tuple[str, int], tuple[str, float | None]] = {}
    for one in outcomes:
        if one.result.partition(".")[2] in LEAST_SAFE and one.limit is not None:
            place = (one.argument, one.index)
            lower = one.limit if one.bound == "at least" else None
            found[place] = (one.result, lower if lower is not None else found.get(place, ("", None))[1])
    for place, (result, limit) in found.items():
        yield place, result, limit


def _check_path(view: View, claim: str, place: tuple[str, int]) -> tuple[str | int, ...]:
    record = view.assessment.entries[claim].record
    single = place[0] == "argument" and getattr(record, "argument", None) is not None
    return (*(("argument",) if single else ("arguments", place[0])), "checks", place[1])
