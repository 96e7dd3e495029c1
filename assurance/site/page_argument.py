"""The Argument page: the outline from the conclusion to the evidence, and the frame that the map fills."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.assessment import Assessment
from assurance.model.verdicts import Verdict
from assurance.site import wording
from assurance.site.argument_gsn_drawing import gsn_files
from assurance.site.argument_gsn_modules import MOST_NODES, Modules, modules
from assurance.site.argument_outline import OutlineLine, outline
from assurance.site.argument_tree import children_of, first_top, tree
from assurance.site.links import Link, Named
from assurance.site.rows import MOST_ROWS
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class ArgumentPage:
    """What `argument.html` shows."""

    summary: str
    outline: tuple[OutlineLine, ...]
    more: str
    drawings: tuple[Link, ...]
    drawings_said: str
    apart: tuple[Named, ...]
    empty: Markup


def argument_page(view: View) -> ArgumentPage:
    """The Argument page of a case."""
    assessment = view.assessment
    top = first_top(assessment)
    claims = assessment.of_kind("claims")
    if not top:
        apart = view.links.each(tuple(claims)[:MOST_ROWS])
        return ArgumentPage("", (), "", (), "", apart, view.links.say(_empty(bool(claims))))
    branches = tree(assessment, top)
    shown = {branch.id for branch in branches}
    troubled = sum(view.links.verdict(id_) is not Verdict.HOLDS for id_ in claims)
    lines = outline(view, branches)
    found = modules(assessment, branches)
    return ArgumentPage(
        summary=f"{troubled:,} of {wording.counted(len(claims), 'claim')} {wording.do_not_hold(troubled)}",
        outline=lines,
        more=_more(len(branches) - len(lines)),
        drawings=_drawings(found),
        drawings_said=_drawings_said(found),
        apart=view.links.each(tuple(one for one in claims if one not in shown)[:MOST_ROWS]),
        empty=Markup(""),
    )


def _drawings(found: Modules) -> tuple[Link, ...]:
    return tuple(Link(file.root, file.address) for file in gsn_files(found))


def _drawings_said(found: Modules) -> str:
    """How the drawings hang together, and what is not on them."""
    said = "In goal structuring notation, each drawing with the published shapes, black on white. "
    if len(found.drawn) > 1:
        said += (
            f"An argument of more than {MOST_NODES} elements is drawn in parts: a goal with a foot is "
            "drawn on the drawing that its foot names. "
        )
    if found.left_out:
        said += f"{wording.counted(found.left_out, 'more part')} not drawn; the DOT text has them. "
    return said + "A goal that does not hold says so in words. Challenges and checks are not drawn."


def _more(count: int) -> str:
    if count <= 0:
        return ""
    return (
        f"{wording.counted(count, 'more line')} not listed here, beneath lines that show only a count; "
        "ways to trouble come first. The map has them all, and each record its own page."
    )


def _empty(any_claim: bool) -> str:
    if any_claim:
        return "No claim concludes. Name one under `top_claims` of the case."
    return "No claim yet. Start one: `holdwater new claim`."


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
