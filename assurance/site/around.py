"""What stands around any record: who relies on it, findings about it, doubts, actions."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.argument_records import Action, Challenge
from assurance.site import marks, wording
from assurance.site.links import Link, Named
from assurance.site.rows import MOST_ROWS
from assurance.site.view import View

MOST_ABOVE = 2_000  # records looked at above one


@dataclass(frozen=True, slots=True)
class AboutRow:
    """A finding about the record that is not a cause of its verdict."""

    weight: Markup
    message: Markup
    remedy: Markup
    line: Link


@dataclass(frozen=True, slots=True)
class ChallengeRow:
    """A doubt, with its answer and what the answer rests on."""

    doubt: str
    against: Markup
    state: str
    href: str
    answer: str
    rests_on: tuple[Named, ...]
    dissent: str
    open: bool


@dataclass(frozen=True, slots=True)
class ActionRow:
    """Something to do on the record."""

    what: str
    href: str
    terms: str
    late: str
    shown_by: tuple[Named, ...]


@dataclass(frozen=True, slots=True)
class Around:
    """What stands around one record; `above` counts what relies on it by way of others."""

    relied_on: tuple[Named, ...]
    above: str
    nothing: str
    findings: tuple[AboutRow, ...]
    challenges: tuple[ChallengeRow, ...]
    challenges_summary: str
    actions: tuple[ActionRow, ...]


def around(view: View, id_: str) -> Around:
    """Who relies on a record, with the findings, challenges and actions about it."""
    doubts = [(one, record) for one, record in view.naming(id_) if isinstance(record, Challenge)]
    actions = [(one, record) for one, record in view.naming(id_) if isinstance(record, Action)]
    users = view.assessment.used_by.get(id_, ())
    concluded = id_ in view.assessment.top_claims.values()
    return Around(
        relied_on=view.links.each(users[:MOST_ROWS]),
        above=_above(view, users),
        nothing="The conclusion rests on it." if concluded else "Nothing relies on it.",
        findings=tuple(_findings(view, id_)),
        challenges=tuple(_challenge(view, one, record, id_) for one, record in doubts),
        challenges_summary=_counts(record.state for _, record in doubts),
        actions=tuple(_action(view, one, record) for one, record in actions),
    )


def _above(view: View, users: Sequence[str]) -> str:
    """How many claims and hazards rely on a record by way of those that rely on it themselves."""
    seen, waiting = set(users), list(users)
    while waiting and len(seen) <= MOST_ABOVE:
        new = [one for one in view.assessment.used_by.get(waiting.pop(), ()) if one not in seen]
        seen.update(new)
        waiting += new
    further = [view.assessment.entries[one].kind for one in seen - set(users)]
    counts = [(further.count("claims"), "claim"), (further.count("hazards"), "hazard")]
    counted = " and ".join(wording.counted(count, word) for count, word in counts if count)
    if not counted:
        return ""
    return f"and above it {'at least ' if waiting else ''}{counted}"


def _findings(view: View, id_: str) -> Iterable[AboutRow]:
    told = {(one.kind.value, one.record) for one in view.causes(id_)}
    for finding in view.findings_about(id_):
        if (finding.rule, finding.record) not in told:
            yield AboutRow(
                weight=marks.weight_word(finding.weight),
                message=view.about(id_, wording.sentence(finding.message)),
                remedy=view.links.say(wording.sentence(finding.remedy)),
                line=view.links.place(finding.place, id_),
            )


def _counts(states: Iterable[str]) -> str:
    """How many doubts are in each state, in the order in which a doubt goes through them."""
    found = list(states)
    counted = [(found.count(state), state) for state in ("raised", "answered", "upheld")]
    return ", ".join(f"{count} {state}" for count, state in counted if count)


def _challenge(view: View, challenge: str, record: Challenge, id_: str) -> ChallengeRow:
    parts = (record.state, wording.day(record.date), _by("by", view, record.raised_by))
    closed = _by("closed by", view, record.closed_by)
    return ChallengeRow(
        doubt=record.doubt,
        against=view.links.say(f"against `{record.against}`" if record.against != id_ else ""),
        state=", ".join(part for part in (" ".join(one for one in parts if one), closed) if part),
        href=view.links.record(challenge),
        answer=record.answer or "",
        rests_on=view.links.each(record.answer_rests_on),
        dissent=record.dissent or "",
        open=record.state != "answered",
    )


def _by(word: str, view: View, person: str | None) -> str:
    return f"{word} {view.who(person)}" if person else ""


def _action(view: View, action: str, record: Action) -> ActionRow:
    done = f"done {wording.day(record.done)}" if record.done else ""
    due = f"due {wording.day(record.due)}" if record.due and not record.done else ""
    owner = f"Owner: {view.who(record.owner or '')}"
    needed = f"needed before {record.needed_before}" if record.needed_before else ""
    return ActionRow(
        what=record.what,
        href=view.links.record(action),
        terms=wording.sentence(", ".join(part for part in (owner, due, needed, done) if part)),
        late="" if record.done else wording.late(record.due, as_of=view.assessment.as_of),
        shown_by=view.links.each(record.closing_evidence),
    )
