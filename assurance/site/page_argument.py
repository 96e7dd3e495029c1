"""The Argument page: the whole drawn from the conclusion to the evidence, and as an outline."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model.assessment import Assessment
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.argument_tree import Branch, children_of, counts_below, tree
from assurance.site.drawings_argument import whole
from assurance.site.links import Named
from assurance.site.rows import MOST_ROWS
from assurance.site.view import View

MOST_LINES = 600  # lines of the outline
_CLOSE = "</li></ul></details>"  # what a line that opens is closed with, before its own end


@dataclass(frozen=True, slots=True)
class OutlineLine:
    """One line of the outline; what it opens is closed after its last line."""

    number: str
    mark: Markup
    text: Markup
    id: str
    href: str
    said: bool
    note: str
    opens: bool
    open: bool
    closing: Markup


@dataclass(frozen=True, slots=True)
class ArgumentPage:
    """What `argument.html` shows."""

    drawing: Markup | None
    summary: str
    outline: tuple[OutlineLine, ...]
    more: str
    apart: tuple[Named, ...]
    empty: Markup


def argument_page(view: View) -> ArgumentPage:
    """The Argument page of a case."""
    assessment = view.assessment
    tops = [one for one in dict.fromkeys(assessment.top_claims.values()) if one in assessment.entries]
    claims = assessment.of_kind("claims")
    if not tops:
        apart = view.links.each(tuple(claims)[:MOST_ROWS])
        return ArgumentPage(None, "", (), "", apart, view.links.say(_empty(bool(claims))))
    branches = tree(assessment, tops[0])
    shown = {branch.id for branch in branches}
    troubled = sum(view.links.verdict(id_) is not Verdict.HOLDS for id_ in claims)
    return ArgumentPage(
        drawing=whole(assessment, view.links, branches),
        summary=f"{troubled} of {wording.counted(len(claims), 'claim')} {wording.do_not_hold(troubled)}",
        outline=_outline(view, branches[:MOST_LINES]),
        more=f"{len(branches) - MOST_LINES:,} more lines, each on its own page"
        if len(branches) > MOST_LINES
        else "",
        apart=view.links.each(tuple(one for one in claims if one not in shown)[:MOST_ROWS]),
        empty=Markup(""),
    )


def _empty(any_claim: bool) -> str:
    if any_claim:
        return "No claim concludes. Name one under `top_claims` of the case."
    return "No claim yet. Write one under `claims`."


def _outline(view: View, branches: Sequence[Branch]) -> tuple[OutlineLine, ...]:
    lines = []
    for position, branch in enumerate(branches):
        following = branches[position + 1].depth if position + 1 < len(branches) else 0
        opens = position + 1 < len(branches) and following > branch.depth
        closed = 0 if opens else branch.depth - following
        lines.append(_line(view, branch, opens=opens, closed=closed))
    return tuple(lines)


def _line(view: View, branch: Branch, *, opens: bool, closed: int) -> OutlineLine:
    note = f"see {branch.see}" if branch.see else counts_below(branch)
    return OutlineLine(
        number=branch.number,
        mark=marks.mark(branch.verdict),
        text=_outline_text(view, branch),
        id=branch.id,
        href=view.links.record(branch.id),
        said=not branch.missing,
        note="" if branch.missing else note,
        opens=opens,
        open=branch.troubled or branch.depth == 0,
        closing=Markup(_CLOSE * closed),
    )


def _outline_text(view: View, branch: Branch) -> Markup:
    if branch.missing:
        return view.about(branch.id, f"Missing: {branch.missing}")
    return escape(view.links.name(branch.id))


def reached_through(assessment: Assessment) -> dict[str, str]:
    """For each record beneath a top claim, the one through which it is reached by the shortest way."""
    above: dict[str, str] = {}
    level = sorted(set(assessment.top_claims.values()))
    seen = set(level)
    while level:
        beneath = []
        for here in level:
            for child in children_of(assessment, here):
                if child not in seen:
                    seen.add(child)
                    above[child] = here
                    beneath.append(child)
        level = beneath
    return above
