"""The Hazards page: every hazard by risk now, and all of them in the matrix."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.site import wording
from assurance.site.risk_rows import (
    UNREAD,
    LevelCount,
    Matrix,
    level_counts,
    matrix,
    risk_now_first,
    risk_shown,
)
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class HazardRow:
    """One hazard of the case."""

    mark: Markup
    title: str
    id: str
    href: str
    before: Markup
    now: Markup
    after: Markup
    controls: str
    why: Markup


@dataclass(frozen=True, slots=True)
class HazardsPage:
    """What `hazards.html` shows."""

    levels: tuple[LevelCount, ...]
    matrix: Matrix
    rows: tuple[HazardRow, ...]
    more: str
    own_scheme: bool
    caution: str


def hazards_page(view: View) -> HazardsPage:
    """The Hazards page of a case."""
    ids = risk_now_first(view.assessment)
    return HazardsPage(
        levels=level_counts(view.assessment),
        matrix=matrix(view.assessment, view.links),
        rows=tuple(_row(view, id_) for id_ in ids[:MOST_ROWS]),
        more=more_rows(len(ids)),
        own_scheme=view.assessment.scheme.own,
        caution=wording.CAUTION,
    )


def _row(view: View, id_: str) -> HazardRow:
    outcome = view.assessment.hazards.get(id_, UNREAD)
    scheme = view.assessment.scheme
    named = view.links.named(id_)
    total = len(outcome.counted) + len(outcome.lifted)
    return HazardRow(
        mark=named.mark,
        title=named.name,
        id=id_,
        href=named.href,
        before=risk_shown(outcome.before, scheme),
        now=risk_shown(outcome.now, scheme),
        after=risk_shown(outcome.after, scheme),
        controls=f"{len(outcome.counted)} of {total}",
        why=view.links.say(wording.sentence(outcome.why)),
    )
