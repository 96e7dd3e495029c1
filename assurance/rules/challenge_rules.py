"""Rules about doubts: raised, upheld, or answered without words or without anybody who judged the answer."""

from collections.abc import Iterator

from assurance.model.argument_records import Challenge
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, living
from assurance.rules.view import View, from_causes


def challenge_raised(view: View) -> Iterator[Finding]:
    """A doubt has no answer, or its answer rests on nothing.

    Why: Somebody who looked has a reason to doubt. Until it is met, what it is against is open.

    Put right: Answer it with evidence: `state: answered` and `answer_rests_on`.

    Bad::

        challenges:
          wet-rail:
            against: fall-held-back
            doubt: A wet hand slips off the rail.
            state: raised  # here
            raised_by: cleo
            owner: ann

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
    yield from from_causes(view, ReasonKind.CHALLENGE_RAISED)


def challenge_upheld(view: View) -> Iterator[Finding]:
    """A doubt has been found to be right.

    Why: A claim against which a doubt is upheld fails; anything else that it is against is open.

    Put right: Put right what it shows, or argue without what it is against.

    Bad::

        challenges:
          wet-rail:
            against: fall-held-back
            doubt: A wet hand slips off the rail.
            state: upheld  # here
            raised_by: cleo
            owner: ann

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
    yield from from_causes(view, ReasonKind.CHALLENGE_UPHELD)


def challenge_answered_without_words(view: View) -> Iterator[Seen]:
    """A challenge is called answered and names what the answer rests on, but does not give the answer.

    Why: A reader sees a report and has to guess how it meets the doubt.

    Put right: Say it in a sentence under `answer`.

    Bad::

        challenges:
          wet-rail:
            against: fall-held-back
            doubt: A wet hand slips off the rail.
            state: answered  # here
            raised_by: cleo
            owner: ann
            answer_rests_on: [rail-pull-test]
            closed_by: cleo

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
        if record.state == "answered" and not record.answer and record.answer_rests_on:
            yield Seen(
                id_, ("state",), f"The challenge `{id_}` is called answered, and the answer is not there.",
                "Say under `answer` how the doubt is met.",
            )  # fmt: skip


def challenge_closed_by_nobody(view: View) -> Iterator[Seen]:
    """A challenge is answered, and nobody is named who closed it.

    Why: Whether an answer meets a doubt is for somebody to judge who can be asked.

    Put right: Name who judged the answer under `closed_by`: best whoever raised the doubt.

    Bad::

        challenges:
          wet-rail:
            against: fall-held-back
            doubt: A wet hand slips off the rail.
            state: answered  # here
            raised_by: cleo
            owner: ann
            answer: The rail was pulled with a wet glove.
            answer_rests_on: [rail-pull-test]

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
        if record.state == "answered" and record.answer_rests_on and not record.closed_by:
            yield Seen(
                id_, ("state",), f"The challenge `{id_}` is answered, and nobody has closed it.",
                "Name who judged the answer under `closed_by`.",
            )  # fmt: skip
