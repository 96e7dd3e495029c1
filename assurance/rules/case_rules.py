"""Rules about the case itself: its day, its top claim, its conditions, its risk scheme."""

from collections.abc import Iterator

from assurance.model.argument_records import Condition
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
