"""Rules about typed words that need a ground: confirmed, answered, retired."""

from collections.abc import Iterator
from typing import Any, cast

from assurance.model.argument_records import Assumption
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, living, quoted
from assurance.rules.view import View, from_causes
from assurance.standing.facts import RETIRABLE


def assumption_unconfirmed(view: View) -> Iterator[Finding]:
    """An assumption that claims rest on is not confirmed, or nothing confirms it.

    Why: The word `confirmed` alone shows nothing. What rests on the assumption is provisional.

    Put right: Confirm it with evidence under `confirmed_by`, or argue without it.

    Bad::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: confirmed  # here
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann

    Good::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: confirmed
            confirmed_by: [rail-inspection]
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann
    """
    yield from from_causes(view, ReasonKind.ASSUMPTION_UNCONFIRMED)


def assumption_refuted(view: View) -> Iterator[Finding]:
    """An assumption has been refuted.

    Why: Every claim that declares it, and every claim beneath those, was argued on something untrue.

    Put right: Argue without it, or assume what is true.

    Bad::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: refuted  # here
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann

    Good::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: refuted
            retired: {because: the rail holds on a wet deck too, by: ann, date: 2026-02-20}
    """
    yield from from_causes(view, ReasonKind.ASSUMPTION_REFUTED)


def assumption_review_passed(view: View) -> Iterator[Finding]:
    """The day on which an assumption was to be reviewed has passed.

    Why: What was true when it was written down may have changed since.

    Put right: Review it, and set the next date.

    Bad::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: confirmed
            confirmed_by: [rail-inspection]
            review_date: 2026-02-28  # here
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann

    Good::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: confirmed
            confirmed_by: [rail-inspection]
            review_date: 2026-03-01
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann
    """
    yield from from_causes(view, ReasonKind.ASSUMPTION_REVIEW_PASSED)


def assumption_without_review_date(view: View) -> Iterator[Seen]:
    """Nobody has confirmed an assumption, and no day is set to look at it again.

    Why: An assumption that is never looked at again turns into a fact by habit.

    Put right: Give `review_date`.

    Bad::

        assumptions:
          dry-deck: {statement: The deck is dry., owner: ann}  # here
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann

    Good::

        assumptions:
          dry-deck: {statement: The deck is dry., owner: ann, review_date: 2026-04-01}
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann
    """
    for id_, record in living(view, Assumption):
        if record.state == "unconfirmed" and record.review_date is None:
            yield Seen(
                id_, (), f"The unconfirmed assumption `{id_}` has no day on which it is looked at again.",
                "Give `review_date`.",
            )  # fmt: skip


def retired_but_needed(view: View) -> Iterator[Finding]:
    """A record is retired, and something still rests on it.

    Why: Either it still counts, or what rests on it lost its ground.

    Put right: Take out the links to it, or bring it back.

    Bad::

        claims:
          safe:
            statement: The step is safe to stand on.
            argument:
              because: The step is strong, clean, and the one hazard is held back.
              rests_on: [step-strong, step-clean, fall-held-back]
            owner: ann
          step-clean:
            statement: The step is free of oil.
            argument: {because: It was inspected., rests_on: [rail-inspection]}
            retired:  # here
              {because: the grit makes it unimportant, by: ann, date: 2026-02-01}
            owner: ann

    Good::

        claims:
          safe:
            statement: The step is safe to stand on.
            argument:
              because: The step is strong, and the one hazard is held back.
              rests_on: [step-strong, fall-held-back]
            owner: ann
          step-clean:
            statement: The step is free of oil.
            argument: {because: It was inspected., rests_on: [rail-inspection]}
            retired: {because: the grit makes it unimportant, by: ann, date: 2026-02-01}
            owner: ann
    """
    yield from from_causes(view, ReasonKind.RETIRED_BUT_NEEDED)


def retired_without_reason(view: View) -> Iterator[Seen]:
    """A record is called retired without reason, person or date, so it still counts.

    Why: Nothing leaves the argument without somebody who says why, and when.

    Put right: Give `because`, `by` and `date`.

    Bad::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: confirmed
            confirmed_by: [rail-inspection]
            retired: {because: the rail holds on a wet deck too}  # here
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann

    Good::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: confirmed
            confirmed_by: [rail-inspection]
            retired: {because: the rail holds on a wet deck too, by: ann, date: 2026-02-20}
    """
    entries = [entry for kind in RETIRABLE for entry in view.case.of_kind(kind).values()]
    for id_, record in ((entry.id, cast(Any, entry.record)) for entry in entries if entry.record):
        retired = record.retired
        lacking = [word for word in ("because", "by", "date") if retired and not getattr(retired, word)]
        if lacking:
            yield Seen(
                id_, ("retired",),
                f"`{id_}` is called retired without {quoted(lacking)}, so it still counts.",
                f"Give {quoted(lacking)}.",
            )  # fmt: skip
