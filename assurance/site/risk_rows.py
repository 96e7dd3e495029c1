"""Risk levels, their counts, the matrix and its cells, for the pages that speak of hazards."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.assessment import Assessment, HazardOutcome, Rated, Scheme
from assurance.site import marks
from assurance.site.links import Link, Links
from assurance.site.pieces import span

NOT_RATED = "not rated"
UNREAD = HazardOutcome(None, None, None, (), (), "The record cannot be read whole.")


@dataclass(frozen=True, slots=True)
class LevelCount:
    """How many hazards stand at a level now."""

    css: str
    count: str
    level: str


@dataclass(frozen=True, slots=True)
class MatrixCell:
    """One cell of the matrix: its level, the hazards that are in it now, and how many were before."""

    css: str
    level: str
    now: tuple[Link, ...]
    more: str
    before: str
    here: bool


@dataclass(frozen=True, slots=True)
class MatrixRow:
    """One likelihood of the matrix."""

    likelihood: str
    cells: tuple[MatrixCell, ...]


@dataclass(frozen=True, slots=True)
class Matrix:
    """The whole matrix, likelihoods down and severities across."""

    title: str
    source: str
    severities: tuple[str, ...]
    rows: tuple[MatrixRow, ...]


def step_of(level: str, scheme: Scheme) -> int:
    """The gauge step of a level; levels are written worst first."""
    position = scheme.levels.index(level) if level in scheme.levels else 0
    return marks.risk_step(len(scheme.levels) - 1 - position, levels=len(scheme.levels))


def risk_shown(rated: Rated | None, scheme: Scheme) -> Markup:
    """Gauge and word of a risk, or that it is not rated."""
    if rated is None:
        return span("r quiet", NOT_RATED)
    return marks.risk_word(rated.level.lower(), step_of(rated.level, scheme))


def level_counts(assessment: Assessment) -> tuple[LevelCount, ...]:
    """Hazards by risk now, the worst level first, those not rated last."""
    now = [assessment.hazards.get(id_, UNREAD).now for id_ in assessment.of_kind("hazards")]
    counts = [
        LevelCount(f"l{step_of(level, assessment.scheme)}", f"{_count(now, level):,}", level.lower())
        for level in assessment.scheme.levels
        if step_of(level, assessment.scheme) > 0 or _count(now, level)
    ]
    unrated = now.count(None)
    return (*counts, LevelCount("l-none", f"{unrated:,}", NOT_RATED)) if unrated else tuple(counts)


def _count(now: list[Rated | None], level: str) -> int:
    return sum(1 for rated in now if rated is not None and rated.level == level)


def risk_now_first(assessment: Assessment) -> list[str]:
    """Hazards with the worst risk now first; one that is not rated stands before all."""

    def weight(id_: str) -> tuple[int, str]:
        outcome = assessment.hazards.get(id_)
        rated = outcome.now if outcome else None
        return (-rated.rank if rated else -len(assessment.scheme.levels), id_)

    return sorted(assessment.of_kind("hazards"), key=weight)


def matrix(assessment: Assessment, links: Links, *, only: str = "") -> Matrix:
    """The matrix with all hazards in it, or with one."""
    scheme = assessment.scheme
    ids = [only] if only else sorted(assessment.hazards)
    now = _placed(ids, [assessment.hazards[one].now for one in ids])
    before = _placed(ids, [assessment.hazards[one].before for one in ids])
    rows = tuple(
        MatrixRow(
            _coded(likelihood, scheme),
            tuple(
                _cell(scheme, links, (one, likelihood), now=now, before=before, alone=bool(only))
                for one in scheme.severities
            ),
        )
        for likelihood in scheme.likelihoods
    )
    return Matrix(scheme.title, scheme.source, tuple(_coded(one, scheme) for one in scheme.severities), rows)


_Placed = dict[tuple[str, str], list[str]]


def _placed(ids: list[str], rated: list[Rated | None]) -> _Placed:
    """The hazards by severity and likelihood."""
    found: _Placed = {}
    for id_, one in zip(ids, rated, strict=True):
        if one is not None:
            found.setdefault((one.severity, one.likelihood), []).append(id_)
    return found


def _coded(word: str, scheme: Scheme) -> str:
    code = next((code for code, named in scheme.codes.items() if named == word), "")
    return f"{code} {word}".strip()


_MOST_IN_A_CELL = 6


def _cell(
    scheme: Scheme, links: Links, at: tuple[str, str], *, now: _Placed, before: _Placed, alone: bool
) -> MatrixCell:
    level = scheme.matrix.get(at, "")
    here, were = now.get(at, []), len(before.get(at, ()))
    step = step_of(level, scheme)
    return MatrixCell(
        css=f"l{step}" if step else "l-none",
        level=level.lower(),
        now=tuple(Link(one, links.record(one)) for one in here[:_MOST_IN_A_CELL]),
        more=f"{len(here) - _MOST_IN_A_CELL} more" if len(here) > _MOST_IN_A_CELL else "",
        before=f"{were} before" if were else "",
        here=bool(here) and alone,
    )
