"""Typed words and what they are worth: confirmed, answered, done. A word counts only with its ground."""

from collections.abc import Iterable, Iterator, Mapping

from assurance.graph.formula import (
    ALL_MUST_HOLD,
    GROUND_OF_A_CONFIRMATION,
    GROUND_OF_A_WORD,
    All,
    Formula,
    Laid,
    Link,
    Through,
)
from assurance.model.argument_records import Action, Assumption, Challenge
from assurance.model.verdicts import Cause, ReasonKind, Verdict
from assurance.standing.facts import Facts, cause, common, upheld_against

ADVERSE_GROUND: Through = (Verdict.HOLDS, Verdict.PROVISIONAL, Verdict.OPEN, Verdict.OPEN, Verdict.OPEN)


def assumption_formula(facts: Facts, id_: str) -> Formula:
    """The formula of an assumption: `confirmed` counts only while all that confirms it holds."""
    record = facts.record(id_)
    own: Iterable[Formula] = ()
    if isinstance(record, Assumption):
        own = [*_state_of(facts, id_, record), *_review(facts, id_, record)]
    return All((*common(facts, id_), *own))


def _state_of(facts: Facts, id_: str, record: Assumption) -> Iterator[Formula]:
    due = record.review_date
    if record.state == "refuted":
        yield Laid(cause(
            facts, id_, ReasonKind.ASSUMPTION_REFUTED, Verdict.OPEN,
            f"The assumption `{id_}` has been refuted.",
            "Argue without it, or assume what is true.", path=("state",), due=due,
        ))  # fmt: skip
    elif record.state == "unconfirmed":
        yield Laid(_unconfirmed(facts, id_, f"Nobody has confirmed the assumption `{id_}`.", ("state",)))
    elif not facts.known(record.confirmed_by):
        text = f"The assumption `{id_}` is called confirmed, but names nothing that confirms it."
        yield Laid(_unconfirmed(facts, id_, text, ("state",)))
    else:
        for ground in facts.known(record.confirmed_by):
            through = ADVERSE_GROUND if facts.adverse.get(ground) else GROUND_OF_A_CONFIRMATION
            yield Link(ground, through)


def _unconfirmed(facts: Facts, id_: str, text: str, path: tuple[str, ...]) -> Cause:
    return cause(
        facts, id_, ReasonKind.ASSUMPTION_UNCONFIRMED, Verdict.PROVISIONAL, text,
        "Confirm it with evidence under `confirmed_by`, or argue without it.",
        path=path, due=facts.record(id_).review_date,
    )  # fmt: skip


def _review(facts: Facts, id_: str, record: Assumption) -> Iterator[Formula]:
    if record.review_date and facts.as_of and record.review_date < facts.as_of:
        yield Laid(cause(
            facts, id_, ReasonKind.ASSUMPTION_REVIEW_PASSED, Verdict.OUT_OF_DATE,
            f"The assumption `{id_}` was to be reviewed by {record.review_date.isoformat()}.",
            "Review it, and set the next date.", path=("review_date",), due=record.review_date,
        ))  # fmt: skip


def challenge_formula(facts: Facts, id_: str) -> Formula:
    """The formula of a challenge: what its target gets from it."""
    record = facts.record(id_)
    own: Iterable[Formula] = ()
    if isinstance(record, Challenge):
        own = _answered(facts, id_, record) if record.state == "answered" else [_standing(facts, id_, record)]
    return All((*common(facts, id_), *own))


def _answered(facts: Facts, id_: str, record: Challenge) -> Iterator[Formula]:
    grounds = facts.known(record.answer_rests_on)
    for ground in grounds:
        yield Link(ground, GROUND_OF_A_WORD)
    if not grounds:
        text = f"The challenge `{id_}` is called answered, but names nothing that the answer rests on."
        yield Laid(_doubt(facts, id_, record, ReasonKind.CHALLENGE_RAISED, Verdict.OPEN, text))


def _standing(facts: Facts, id_: str, record: Challenge) -> Formula:
    if record.state == "upheld":
        fails = facts.kind(record.against) == "claims"
        verdict = Verdict.FAILS if fails else Verdict.OPEN
        text = f"The challenge `{id_}` against `{record.against}` has been upheld: {_end(record.doubt)}"
        return Laid(_doubt(facts, id_, record, ReasonKind.CHALLENGE_UPHELD, verdict, text))
    text = f"The challenge `{id_}` against `{record.against}` has no answer: {_end(record.doubt)}"
    return Laid(_doubt(facts, id_, record, ReasonKind.CHALLENGE_RAISED, Verdict.OPEN, text))


def _end(sentence: str) -> str:
    trimmed = " ".join(sentence.split())
    return trimmed if trimmed.endswith((".", "?", "!")) else trimmed + "."


def _doubt(facts: Facts, id_: str, record: Challenge, kind: ReasonKind, verdict: Verdict, text: str) -> Cause:
    remedy = "Answer it with evidence: `state: answered` and `answer_rests_on`."
    if kind is ReasonKind.CHALLENGE_UPHELD:
        remedy = "Put right what it shows, or argue without what it is against."
    return cause(facts, id_, kind, verdict, text, remedy, path=("state",), due=record.due)


def action_formula(facts: Facts, id_: str) -> Formula:
    """The formula of an action: it opens its target only where it is needed first and not done."""
    record = facts.record(id_)
    own: Iterable[Formula] = ()
    if isinstance(record, Action) and record.needed_before:
        own = _needed(facts, id_, record)
    return All((*common(facts, id_), *own))


def _needed(facts: Facts, id_: str, record: Action) -> Iterator[Formula]:
    if called_done(facts, record):
        for ground in facts.known(record.closing_evidence):
            yield Link(ground, ALL_MUST_HOLD)
        return
    yield Laid(cause(
        facts, id_, ReasonKind.ACTION_NEEDED, Verdict.OPEN,
        f"The action `{id_}` is needed before {record.needed_before} and is not done: {_end(record.what)}",
        "Do it, then give the day under `done` and the record under `closing_evidence`.",
        path=("needed_before",), due=record.due,
    ))  # fmt: skip


def called_done(facts: Facts, record: Action) -> bool:
    """Whether an action has a day on which it was done, not after today, and names what shows it."""
    if record.done is None or (facts.as_of and record.done > facts.as_of):
        return False
    return bool(facts.known(record.closing_evidence))


def is_done(facts: Facts, id_: str, verdicts: Mapping[str, Verdict]) -> bool:
    """Whether an action counts: done, shown by evidence that holds, and not itself in doubt."""
    record = facts.record(id_)
    if not isinstance(record, Action) or not called_done(facts, record):
        return False
    grounds = facts.known(record.closing_evidence)
    return all(verdicts[one] == Verdict.HOLDS for one in (*grounds, id_))


def refuted(facts: Facts) -> dict[str, list[Cause]]:
    """By assumption or context: the facts that open every claim which declares or inherits it."""
    found: dict[str, list[Cause]] = {}
    for id_, entry in facts.case.entries.items():
        if entry.kind not in ("assumptions", "contexts"):
            continue
        if isinstance(entry.record, Assumption) and entry.record.state == "refuted":
            found.setdefault(id_, []).extend(
                one.cause for one in _state_of(facts, id_, entry.record) if isinstance(one, Laid)
            )
        for challenge in upheld_against(facts, id_):
            standing = _standing(facts, challenge, facts.record(challenge))
            if isinstance(standing, Laid):
                found.setdefault(id_, []).append(standing.cause)
    return found
