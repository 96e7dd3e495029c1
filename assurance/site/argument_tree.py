"""The argument as one numbered tree: what each claim rests on, each record once, shared ones named again."""

from dataclasses import dataclass, field

from assurance.model.argument_records import Challenge, ClaimRecord
from assurance.model.assessment import Assessment
from assurance.model.engineering_records import Calculation
from assurance.model.verdicts import ReasonKind, Verdict
from assurance.site import wording
from assurance.site.cards import Card, CardKind
from assurance.site.check_rows import comparison, tightest
from assurance.site.links import Links, name_of
from assurance.site.result_rows import result_phrase

DEEPEST = 24  # levels shown in one tree; what lies deeper continues on its own page
SUPPORT = ("claims", "evidence", "calculations", "hazards")
_LINES_OF_A_CARD = ("assumptions", "contexts", "challenges", "actions")
_ABSENT = (ReasonKind.UNDEVELOPED, ReasonKind.NOTHING_SUPPORTS_IT, ReasonKind.MEMBER_NOT_ARGUED)
_CARDS: dict[str, CardKind] = {"claims": "claim", "evidence": "evidence", "calculations": "calculation"}


@dataclass(slots=True)
class Branch:
    """One place in the tree; a record that stands elsewhere already is a `see` of that place."""

    id: str
    parent: int
    depth: int
    number: str
    verdict: Verdict
    see: str = ""
    children: list[int] = field(default_factory=list)
    below: int = 0  # records beneath it
    troubled_below: int = 0
    missing: str = ""  # what is missing here, where it stands for something absent
    cause: bool = False  # whether a reason of its own starts here
    causes_below: int = 0  # places beneath it at which a cause starts

    @property
    def troubled(self) -> bool:
        """Whether it, or something beneath it, does not hold."""
        return self.verdict is not Verdict.HOLDS or self.troubled_below > 0


def children_of(assessment: Assessment, id_: str) -> list[str]:
    """What a record rests on, in the order written.

    What only narrows or limits (a requirement, a factor, a part) is named where it does not hold.
    """
    found: dict[str, None] = {}
    for needed in assessment.depends.get(id_, ()):
        name = needed if needed in assessment.entries else needed.partition(".")[0]
        entry = assessment.entries.get(name)
        if entry is None or name == id_:
            continue
        troubled = assessment.verdicts.get(name, Verdict.HOLDS) is not Verdict.HOLDS
        if entry.kind in SUPPORT or (troubled and entry.kind not in _LINES_OF_A_CARD):
            found[name] = None
    return list(found)


def absent_of(assessment: Assessment, id_: str) -> list[tuple[str, Verdict]]:
    """What is missing beneath a claim, in words."""
    return [
        (reason.text, reason.verdict)
        for reason in assessment.reasons.get(id_, ())
        if reason.kind in _ABSENT and reason.record == id_
    ]


def starts_here(assessment: Assessment, id_: str) -> bool:
    """Whether a record does not hold for a reason of its own, and not only for what stands beneath it.

    An assumption or a challenge is a line of its card, so that its trouble starts there too.
    """
    return any(
        reason.kind is not ReasonKind.NEEDS or _is_a_line(assessment, reason.record)
        for reason in assessment.reasons.get(id_, ())
        if reason.verdict is not Verdict.HOLDS
    )


def _is_a_line(assessment: Assessment, id_: str) -> bool:
    entry = assessment.entries.get(id_)
    return entry is not None and entry.kind in _LINES_OF_A_CARD


def first_top(assessment: Assessment) -> str:
    """The claim that concludes, where the case names one that exists."""
    return next((one for one in assessment.top_claims.values() if one in assessment.entries), "")


def tree(assessment: Assessment, top: str) -> list[Branch]:
    """The tree beneath a claim, each branch after its parent, in the order of its numbers.

    A record that several rest on stands at the first place to which trouble comes, else at the first.
    """
    branches: list[Branch] = []
    numbers: dict[str, str] = {}
    homes = _places_of_trouble(assessment, top)
    waiting = [(top, -1, 0, "1")]
    while waiting:
        id_, parent, depth, number = waiting.pop()
        verdict = assessment.verdicts.get(id_, Verdict.HOLDS)
        here = Branch(id_, parent, depth, number, verdict)
        branches.append(here)
        if parent >= 0:
            branches[parent].children.append(len(branches) - 1)
            if id_ in numbers or homes.get(id_, branches[parent].id) != branches[parent].id:
                here.see = id_  # its number may still have to be given
        if here.see or depth >= DEEPEST:
            continue
        numbers[id_] = number
        position = len(branches) - 1
        absent = absent_of(assessment, id_)
        for count, (text, worth) in enumerate(absent, 1):
            branches.append(Branch(id_, position, depth + 1, f"{number}.{count}", worth, missing=text))
            here.children.append(len(branches) - 1)
        below = children_of(assessment, id_)
        waiting += [
            (one, position, depth + 1, f"{number}.{count}")
            for count, one in reversed(list(enumerate(below, len(absent) + 1)))
        ]
    for branch in branches:
        branch.see = numbers.get(branch.see, "")
        branch.cause = not branch.see and (bool(branch.missing) or starts_here(assessment, branch.id))
    _count_below(branches)
    return branches


def _places_of_trouble(assessment: Assessment, top: str) -> dict[str, str]:
    """Above which record each stands first, for all that is reached through nothing but trouble."""
    homes = {top: ""}
    waiting = [(top, 0)]
    while waiting:
        id_, depth = waiting.pop()
        if depth + 1 >= DEEPEST or assessment.verdicts.get(id_, Verdict.HOLDS) is Verdict.HOLDS:
            continue
        below = [one for one in children_of(assessment, id_) if one not in homes]
        homes.update(dict.fromkeys(below, id_))
        waiting += [(one, depth + 1) for one in reversed(below)]
    return homes


def _count_below(branches: list[Branch]) -> None:
    for branch in reversed(branches):
        if branch.parent < 0 or branch.see:
            continue
        above = branches[branch.parent]
        above.below += branch.below + (not branch.missing)
        above.troubled_below += branch.troubled_below + (branch.verdict is not Verdict.HOLDS)
        above.causes_below += branch.causes_below + branch.cause


def any_of(assessment: Assessment, id_: str) -> bool:
    """Whether one of several arguments is enough for a claim."""
    entry = assessment.entries.get(id_)
    record = None if entry is None else entry.record
    return isinstance(record, ClaimRecord) and record.holds_if == "any" and len(record.each_argument()) > 1


def card_of(assessment: Assessment, links: Links, id_: str, *, here: bool = False) -> Card:
    """A record as a card or slip."""
    entry = assessment.entries[id_]
    return Card(
        kind=_CARDS.get(entry.kind, "other"),
        verdict=assessment.verdicts.get(id_, Verdict.HOLDS),
        text=name_of(assessment, id_),
        id=id_,
        href="" if here else links.record(id_),
        lines=_card_lines(assessment, id_) if entry.kind == "claims" else (),
        here=here,
    )


def missing_card(text: str, verdict: Verdict) -> Card:
    """Something that is not there, drawn as a thing."""
    return Card("missing", verdict, f"Missing: {text.replace('`', '')}", said=False)


def counts_below(branch: Branch) -> str:
    """How many records stand beneath, and how many of them do not hold."""
    if not branch.below:
        return ""
    if branch.troubled_below:
        return f"{branch.troubled_below:,} of {branch.below:,} {wording.do_not_hold(branch.troubled_below)}"
    return f"{branch.below:,} below"


def _called(assessment: Assessment, reference: str) -> str:
    """A result in the words of its method, or by its key."""
    id_, _, name = reference.partition(".")
    record = assessment.entries[id_].record if id_ in assessment.entries else None
    return result_phrase(record.method if isinstance(record, Calculation) else "", name)


def _card_lines(assessment: Assessment, id_: str) -> tuple[tuple[str, str], ...]:
    lines = []
    closest = tightest(assessment.checks.get(id_, ()))
    if closest is not None:
        name = _called(assessment, closest.result)
        lines.append((comparison(closest, name), "b" if closest.verdict is Verdict.FAILS else ""))
    for needed in assessment.depends.get(id_, ()):
        entry = assessment.entries.get(needed)
        if entry is None or entry.record is None:
            continue
        if isinstance(entry.record, Challenge) and entry.record.state != "answered":
            lines.append((f"Challenge: {needed}", "b"))
        elif entry.kind == "assumptions":
            state = assessment.verdicts.get(needed, Verdict.OPEN)
            suffix = "" if state is Verdict.HOLDS else f" ({state.word})"
            lines.append((wording.label("assumes") + f": {needed}{suffix}", ""))
    return tuple(lines[:4])
