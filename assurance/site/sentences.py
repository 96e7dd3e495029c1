"""The verdict of a record in one sentence, written by the kind of what keeps it from holding."""

from collections.abc import Sequence

from markupsafe import Markup

from assurance.model.assessment import CheckOutcome
from assurance.model.verdicts import Reason, ReasonKind, Verdict
from assurance.site import wording
from assurance.site.view import View

MOST_NAMED = 2  # records of one kind and verdict named in one sentence
_STATES: dict[ReasonKind, str] = {
    ReasonKind.ASSUMPTION_UNCONFIRMED: "which nobody has confirmed",
    ReasonKind.ASSUMPTION_REFUTED: "which was refuted",
    ReasonKind.ASSUMPTION_REVIEW_PASSED: "whose review date has passed",
    ReasonKind.EVIDENCE_DRAFT: "which is a draft",
    ReasonKind.EVIDENCE_SUPERSEDED: "which has been superseded",
    ReasonKind.EVIDENCE_WITHDRAWN: "which has been withdrawn",
    ReasonKind.EVIDENCE_ADVERSE: "which speaks against it",
    ReasonKind.EVIDENCE_DATED_AFTER_THE_CASE: "which is dated after the day of the case",
    ReasonKind.EVIDENCE_INCONCLUSIVE: "which was inconclusive",
    ReasonKind.EVIDENCE_INCOMPLETE: "which does not say all that it must",
    ReasonKind.FILE_MISSING: "a file of which is missing",
    ReasonKind.FILE_CHANGED: "a file of which has changed",
    ReasonKind.FILE_WITHOUT_DIGEST: "a file of which has no digest",
    ReasonKind.RESULT_NOT_WORKED_OUT: "which cannot be worked out",
    ReasonKind.OUTSIDE_METHOD_LIMITS: "which lies outside the limits of its method",
    ReasonKind.BASIS_TOO_WEAK: "which has too weak a basis",
    ReasonKind.INPUT_BROKEN: "which cannot be read whole",
    ReasonKind.RETIRED_BUT_NEEDED: "which has been retired",
}
_VERBS = {"assumptions": "assumes", "claims": "rests on", "evidence": "rests on", "calculations": "rests on"}


def claim_sentence(view: View, id_: str, verdict: Verdict) -> Markup:
    """The verdict of a claim in one sentence: what its checks say, then what keeps it from holding."""
    checks = view.assessment.checks.get(id_, ())
    passed = len(checks) > 0 and all(one.verdict is Verdict.HOLDS for one in checks)
    if verdict is Verdict.HOLDS:
        head = f"{_all_pass(checks)} and everything" if passed else "Everything"
        return view.links.say(f"{head} it rests on is current.")
    phrase, sentence = _worst(view, id_)
    if passed and verdict is not Verdict.FAILS:
        joined = f", but {phrase}." if phrase else f". {sentence}"
        return view.about(id_, _all_pass(checks) + joined)
    return view.about(id_, sentence)


def record_sentence(view: View, id_: str, otherwise: str) -> Markup:
    """What keeps a record from holding in one sentence, or what is said where nothing does."""
    return view.about(id_, _worst(view, id_)[1] or otherwise)


def _all_pass(checks: Sequence[CheckOutcome]) -> str:
    count = len(checks)
    return {1: "The check passes", 2: "Both checks pass"}.get(
        count, f"All {wording.in_words(count).lower()} checks pass"
    )


def _worst(view: View, id_: str) -> tuple[str, str]:
    """The worst reason: as a phrase where it is a need, and as a sentence."""
    reasons = sorted(view.assessment.reasons.get(id_, ()), key=lambda one: -one.verdict)
    if not reasons:
        return "", ""
    first = reasons[0]
    if first.kind is not ReasonKind.NEEDS:
        return "", wording.sentence(first.text)
    phrase = _need(view, first, _alike(view, first, reasons))
    return phrase, wording.sentence(phrase)


def _alike(view: View, first: Reason, reasons: Sequence[Reason]) -> list[str]:
    """The records needed that are of the same kind and stand the same way as the first."""
    kind, state = _kind(view, first.record), _state(view, first)
    return [
        one.record
        for one in reasons
        if one.kind is ReasonKind.NEEDS
        and one.verdict is first.verdict
        and _kind(view, one.record) == kind
        and _state(view, one) == state
    ]


def _need(view: View, reason: Reason, ids: Sequence[str]) -> str:
    """What is needed and does not hold, as a phrase that can follow `but`."""
    kind, id_ = _kind(view, reason.record), reason.record
    if kind == "challenges":
        return f"the challenge `{id_}` {_challenge(view, id_)}"
    if kind == "actions":
        return f"the action `{id_}` is not done"
    if kind == "hazards":
        noun = "hazard" if len(ids) == 1 else "hazards"
        return f"the {noun} {_named(ids)} {_is(reason.verdict, several=len(ids) > 1)}"
    state = _state(view, reason)
    if len(ids) > 1 and not state:
        return f"it {_VERBS.get(kind, 'uses')} {_named(ids)}, which {_is(reason.verdict, several=True)}"
    return f"it {_VERBS.get(kind, 'uses')} `{id_}`, {state or f'which {_is(reason.verdict)}'}"


def _challenge(view: View, id_: str) -> str:
    own = {one.kind for one in view.assessment.reasons.get(id_, ())}
    if ReasonKind.CHALLENGE_UPHELD in own:
        return "is upheld"
    return "has no answer" if ReasonKind.CHALLENGE_RAISED in own else "has an answer that does not hold"


def _state(view: View, reason: Reason) -> str:
    """How the needed record stands, from the worst of its own reasons; nothing where it only inherits."""
    if _kind(view, reason.record) not in ("assumptions", "evidence", "calculations"):
        return ""
    own = sorted(view.assessment.reasons.get(reason.record, ()), key=lambda one: -one.verdict)
    return _STATES.get(own[0].kind, "") if own and own[0].verdict is reason.verdict else ""


def _named(ids: Sequence[str]) -> str:
    named = [f"`{one}`" for one in ids[:MOST_NAMED]]
    if len(ids) > MOST_NAMED:
        named.append(f"{wording.in_words(len(ids) - MOST_NAMED).lower()} more")
    return " and ".join((", ".join(named[:-1]), named[-1])) if len(named) > 1 else named[0]


def _is(verdict: Verdict, *, several: bool = False) -> str:
    if verdict is Verdict.FAILS:
        return "fail" if several else "fails"
    return f"{'are' if several else 'is'} {verdict.word}"


def _kind(view: View, id_: str) -> str:
    entry = view.assessment.entries.get(id_)
    return "" if entry is None else entry.kind
