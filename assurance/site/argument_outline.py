"""The argument as nested lines: the way to every cause open, what holds folded to one line with its count."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.site import marks
from assurance.site.argument_tree import Branch, counts_below
from assurance.site.view import View

ROOM = 190_000  # bytes of markup, so that the page of any case stays under 300 kB
_A_LINE = 420  # bytes of a line around its text
_CLOSE = "</li></ul></details>"  # what a line that opens is closed with, before its own end


@dataclass(frozen=True, slots=True)
class OutlineLine:
    """One line of the outline; what it opens is closed after its last line."""

    anchor: str
    number: str
    mark: Markup
    text: Markup
    id: str
    href: str
    said: bool
    see: str
    see_href: str
    note: str
    opens: bool
    open: bool
    closing: Markup


def outline(view: View, branches: Sequence[Branch]) -> tuple[OutlineLine, ...]:
    """The lines in the order of their numbers, those first that lead to a cause where not all fit."""
    kept = sorted(_kept(view, branches))
    homes = {one.number: f"at-{one.number}" for one in (branches[at] for at in kept) if not one.see}
    depths = [branches[at].depth for at in kept] + [0]
    lines = []
    for order, position in enumerate(kept):
        here, following = depths[order], depths[order + 1]
        opens = following > here
        closing = Markup(_CLOSE * (0 if opens else here - following))
        lines.append(_line(view, branches[position], homes, opens=opens, closing=closing))
    return tuple(lines)


def _kept(view: View, branches: Sequence[Branch]) -> set[int]:
    """The places listed: whole groups of siblings, the ways to causes first, then from the top down."""
    kept, room = ({0} if branches else set()), ROOM
    parents = [at for at, one in enumerate(branches) if one.children]
    for parent in sorted(parents, key=lambda at: (not branches[at].causes_below, branches[at].depth, at)):
        children = branches[parent].children
        cost = sum(_A_LINE + len(view.links.name(branches[one].id)) for one in children)
        if parent in kept and cost <= room:
            kept.update(children)
            room -= cost
    return kept


def _line(view: View, branch: Branch, homes: dict[str, str], *, opens: bool, closing: Markup) -> OutlineLine:
    return OutlineLine(
        anchor=f"at-{branch.number}",
        number=branch.number,
        mark=marks.mark(branch.verdict),
        text=_text(view, branch),
        id="" if branch.missing else branch.id,
        href=view.links.record(branch.id),
        said=not branch.missing,
        see=branch.see,
        see_href=f"#{homes[branch.see]}" if branch.see in homes else view.links.record(branch.id),
        note="" if branch.missing else counts_below(branch),
        opens=opens,
        open=branch.causes_below > 0 or branch.depth == 0,
        closing=closing,
    )


def _text(view: View, branch: Branch) -> Markup:
    if branch.missing:
        return view.about(branch.id, f"Missing: {branch.missing}")
    return escape(view.links.name(branch.id))
