"""The Hazards page: every hazard by risk now, and all of them in the matrix."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.assessment import HazardOutcome, Rated
from assurance.site import wording
from assurance.site.cells import counted_line, named_cell
from assurance.site.risk_rows import (
    NOT_RATED,
    UNREAD,
    LevelCount,
    Matrix,
    level_counts,
    matrix,
    risk_now_first,
    risk_shown,
)
from assurance.site.table_groups import Grouping
from assurance.site.tables import Column, Field, Table, TableOf, table
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class HazardsPage:
    """What `hazards.html` shows."""

    levels: tuple[LevelCount, ...]
    matrix: Matrix
    hazards: Table | None
    own_scheme: bool
    caution: str


def hazards_page(view: View) -> HazardsPage:
    """The Hazards page of a case."""
    ids = risk_now_first(view.assessment)
    return HazardsPage(
        levels=level_counts(view.assessment),
        matrix=matrix(view.assessment, view.links),
        hazards=table("hazards", _hazards_table(view), ids, root=view.links.root),
        own_scheme=view.assessment.scheme.own,
        caution=wording.CAUTION,
    )


def _hazards_table(view: View) -> TableOf[str]:
    """How hazards are shown: the worst risk now first."""
    return TableOf(
        caption="Hazards by risk now",
        columns=_columns(view),
        fields=_fields(view),
        groupings=(Grouping("risk now", lambda id_: _level(_outcome(view, id_).now), _level_line),),
        nothing="No hazard matches.",
    )


def _columns(view: View) -> tuple[Column[str], ...]:
    links, scheme = view.links, view.assessment.scheme
    return (
        Column("Verdict", lambda id_: links.named(id_).mark, lambda id_: -links.verdict(id_), "mk",
               unseen=True),
        Column("Hazard", lambda id_: named_cell(links.named(id_)), links.name, "what", names_row=True),
        Column("Before", lambda id_: risk_shown(_outcome(view, id_).before, scheme),
               lambda id_: _rank(view, _outcome(view, id_).before), word="Before"),
        Column("Now", lambda id_: _now(view, id_), lambda id_: _rank(view, _outcome(view, id_).now),
               word="Now"),
        Column("After", lambda id_: risk_shown(_outcome(view, id_).after, scheme),
               lambda id_: _rank(view, _outcome(view, id_).after), word="After"),
        Column("Controls that count", lambda id_: _controls(_outcome(view, id_)),
               lambda id_: len(_outcome(view, id_).counted), word="Controls"),
        Column("Why", lambda id_: links.say(wording.sentence(_outcome(view, id_).why)), word="Why"),
    )  # fmt: skip


def _fields(view: View) -> tuple[Field[str], ...]:
    return (
        Field("verdict", lambda id_: view.links.verdict(id_).word),
        Field("id", lambda id_: id_),
        Field("title", view.links.name),
        *_risk_fields(view),
        Field("controls that count", lambda id_: len(_outcome(view, id_).counted)),
        Field("controls that do not count", lambda id_: len(_outcome(view, id_).lifted)),
        Field("why", lambda id_: wording.sentence(_outcome(view, id_).why)),
        Field("file", lambda id_: view.assessment.entries[id_].place.file),
        Field("line", lambda id_: view.assessment.entries[id_].place.line),
    )


def _risk_fields(view: View) -> tuple[Field[str], ...]:
    return (
        Field("risk before", lambda id_: _level(_outcome(view, id_).before)),
        Field("risk now", lambda id_: _level(_outcome(view, id_).now)),
        Field("severity now", lambda id_: _severity(_outcome(view, id_).now)),
        Field("likelihood now", lambda id_: _likelihood(_outcome(view, id_).now)),
        Field("risk after", lambda id_: _level(_outcome(view, id_).after)),
    )


def _outcome(view: View, id_: str) -> HazardOutcome:
    return view.assessment.hazards.get(id_, UNREAD)


def _now(view: View, id_: str) -> Markup:
    return Markup("<b>{}</b>").format(risk_shown(_outcome(view, id_).now, view.assessment.scheme))


def _controls(outcome: HazardOutcome) -> str:
    return f"{len(outcome.counted)} of {len(outcome.counted) + len(outcome.lifted)}"


def _rank(view: View, rated: Rated | None) -> int:
    """By what risks sort: the worst first, and before all what is not rated."""
    return -rated.rank if rated else -len(view.assessment.scheme.levels)


def _level(rated: Rated | None) -> str:
    return rated.level.lower() if rated else NOT_RATED


def _severity(rated: Rated | None) -> str:
    return rated.severity if rated else ""


def _likelihood(rated: Rated | None) -> str:
    return rated.likelihood if rated else ""


def _level_line(key: str, rows: Sequence[str]) -> Markup:
    return counted_line(wording.label(key), wording.counted(len(rows), "hazard"))
