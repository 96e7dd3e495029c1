"""Rules about arguments: that there is one, that it is whole, and that it says why."""

from collections.abc import Iterator

from assurance.model.argument_records import ClaimRecord
from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen, listed, living
from assurance.rules.view import View, from_causes


def undeveloped(view: View) -> Iterator[Finding]:
    """A claim is marked as still to be argued.

    Why: It says what is missing openly, and what rests on it stays open until then.

    Put right: Argue it: name evidence or a check.

    Bad::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail is there and holds., rests_on: [rail-inspection, rail-holds]}
            owner: ann
          rail-holds:
            statement: The rail holds whoever leans on it.
            undeveloped: {because: the second pull test is to come, owner: ben, due: 2026-04-10}  # here
            owner: ben

    Good::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail is there and holds., rests_on: [rail-inspection, rail-holds]}
            owner: ann
          rail-holds:
            statement: The rail holds whoever leans on it.
            argument: {because: It was pulled., rests_on: [rail-pull-test]}
            owner: ben
    """
    yield from from_causes(view, ReasonKind.UNDEVELOPED)


def undeveloped_without_plan(view: View) -> Iterator[Seen]:
    """A claim is marked as still to be argued, without reason, owner or day.

    Why: What nobody has promised by a day tends to stay undone.

    Put right: Give `because`, `owner` and `due`.

    Bad::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail is there and holds., rests_on: [rail-inspection, rail-holds]}
            owner: ann
          rail-holds:
            statement: The rail holds whoever leans on it.
            undeveloped: {because: the second pull test is to come}  # here
            owner: ben

    Good::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail is there and holds., rests_on: [rail-inspection, rail-holds]}
            owner: ann
          rail-holds:
            statement: The rail holds whoever leans on it.
            undeveloped: {because: the second pull test is to come, owner: ben, due: 2026-04-10}
            owner: ben
    """
    for id_, claim in living(view, ClaimRecord):
        mark = claim.undeveloped
        lacking = [word for word in ("because", "owner", "due") if mark and not getattr(mark, word)]
        if lacking:
            yield Seen(
                id_, ("undeveloped",), f"`{id_}` is marked undeveloped without {listed(lacking)}.",
                "Say why, who argues it and by when.",
            )  # fmt: skip


def undeveloped_with_argument(view: View) -> Iterator[Seen]:
    """A claim has an argument and is marked as still to be argued.

    Why: One of the two is out of date, and a reader cannot tell which. The claim stays open.

    Put right: Take out `undeveloped` once the argument is whole.

    Bad::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            undeveloped: {because: the rail is new, owner: ann, due: 2026-04-10}  # here
            owner: ann

    Good::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            owner: ann
    """
    for id_, claim in living(view, ClaimRecord):
        if claim.undeveloped is not None and claim.each_argument():
            yield Seen(
                id_, ("undeveloped",), f"`{id_}` has an argument and is marked undeveloped.",
                "Take out `undeveloped`, or the argument.",
            )  # fmt: skip


def nothing_supports_it(view: View) -> Iterator[Finding]:
    """A claim has no argument, or an argument names neither evidence nor a check.

    Why: A claim that rests on nothing is an assertion. Contexts and assumptions are not support.

    Put right: Name evidence under `rests_on` or a check, or mark the claim `undeveloped`.

    Bad::

        claims:
          fall-held-back:  # here
            statement: A person on the step cannot fall off it.
            owner: ann

    Good::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            owner: ann
    """
    yield from from_causes(view, ReasonKind.NOTHING_SUPPORTS_IT)


def argument_without_because(view: View) -> Iterator[Seen]:
    """An argument does not say why its grounds show the claim.

    Why: A list of documents is no argument; ISO/IEC/IEEE 15026-2 asks that the method of reasoning
    be justified.

    Put right: Say it in one sentence under `because`.

    Bad::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument:  # here
              rests_on: [rail-inspection]
            owner: ann

    Good::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument:
              because: The rail is on the step as built, and was seen to be.
              rests_on: [rail-inspection]
            owner: ann
    """
    for id_, claim in living(view, ClaimRecord):
        for name, argument in claim.each_argument().items():
            if not argument.because and (argument.rests_on or argument.checks):
                path = ("arguments", name) if name in claim.arguments else ("argument",)
                yield Seen(
                    id_, path,
                    f"The argument `{name}` of `{id_}` does not say why its grounds show the claim.",
                    "Say it in one sentence under `because`.",
                )  # fmt: skip


def member_not_argued(view: View) -> Iterator[Finding]:
    """A load case, hazard or part of the set that is spoken of is not argued.

    Why: "In every load case" is true only once each of them has been looked at. Every hazard and
    every load case of the case must be argued beneath the top claim.

    Put right: Name it under `about` of a claim beneath, or check a result worked out for it.

    Bad::

        claims:
          safe:
            statement: The step is safe to stand on in every load case.
            argument:
              because: Each load case and the one hazard are argued.
              over: load_cases  # here
              rests_on: [step-strong, fall-held-back]
            owner: ann
        load_cases:
          sideways: {title: A push from the side, value: 0.4 kN}

    Good::

        claims:
          safe:
            statement: The step is safe to stand on in every load case.
            argument:
              because: Each load case and the one hazard are argued.
              over: load_cases
              rests_on: [step-strong, fall-held-back]
            owner: ann
    """
    if not view.argued_is_unknown:
        yield from from_causes(view, ReasonKind.MEMBER_NOT_ARGUED)


def loop(view: View) -> Iterator[Finding]:
    """Records rest on each other.

    Why: A circular argument shows nothing: each part borrows its strength from the others.

    Put right: Take out the link that closes the loop.

    Bad::

        claims:
          fall-held-back:  # here
            statement: A person on the step cannot fall off it.
            argument: {because: The rail is strong., rests_on: [rail-strong]}
            owner: ann
          rail-strong:
            statement: The rail holds whoever leans on it.
            argument: {because: Nobody can fall., rests_on: [fall-held-back]}
            owner: ben

    Good::

        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail is strong., rests_on: [rail-strong]}
            owner: ann
          rail-strong:
            statement: The rail holds whoever leans on it.
            argument: {because: It was pulled., rests_on: [rail-pull-test]}
            owner: ben
    """
    yield from from_causes(view, ReasonKind.LOOP)
