"""The answer of `check` for a reader: each finding with its line of the file, then how the case stands."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import groupby

from assurance.model.checked import Checked
from assurance.model.verdicts import Finding, Place, Weight
from assurance.reading.source_lines import value_end
from assurance.reports.shown import excerpt, shown_text
from assurance.reports.summary import count_line, tally_line, top_lines

INDENT = "    "
NARROWEST = 40  # columns that an excerpt takes at least, however narrow the terminal

Paint = Callable[[str, str], str]
"""Gives a text in the manner of its role: a weight, `place` or `carets`."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """How to write: columns there are, how a role is painted, where the lines of the files come from."""

    width: int
    paint: Paint
    line_at: Callable[[Place], str | None]


def unpainted(text: str, _role: str) -> str:
    """The text as it is, as for a file or a pipe."""
    return text


def check_lines(checked: Checked, sheet: Sheet) -> Iterator[str]:
    """Every finding, heaviest first, then by file and line; those of one spot share the line shown."""
    for (_, place), together in groupby(checked.findings, key=_spot):
        yield from _at_one_spot(place, list(together), sheet)
        yield ""
    yield from summary_lines(checked)


def summary_lines(checked: Checked) -> Iterator[str]:
    """How the case stands: its top claims, its claims counted, its findings counted."""
    verdicts = {one.id: one.verdict for one in checked.claims}
    yield from top_lines(checked.top_claims, verdicts)
    yield tally_line(verdicts.values())
    yield count_line(checked.findings)


def _spot(finding: Finding) -> tuple[Weight, Place]:
    return finding.weight, finding.place


def _at_one_spot(place: Place, findings: list[Finding], sheet: Sheet) -> Iterator[str]:
    for number, finding in enumerate(findings):
        yield _headline(finding, sheet.paint)
        if number == 0:
            yield from _source(place, sheet)
        if finding.remedy:
            yield INDENT + shown_text(finding.remedy)


def _headline(finding: Finding, paint: Paint) -> str:
    place = f"{paint(shown_text(str(finding.place)), 'place')}: " if finding.place.file else ""
    weight = paint(finding.weight.value, finding.weight.value)
    return f"{place}{weight} [{finding.rule}] {shown_text(finding.message)}"


def _source(place: Place, sheet: Sheet) -> Iterator[str]:
    line = sheet.line_at(place)
    if line is None or not line.strip():
        return
    end = value_end(line, place.column)
    cut = excerpt(line, place.column, end, width=max(sheet.width, NARROWEST) - len(INDENT))
    yield INDENT + cut.line
    yield INDENT + sheet.paint(cut.carets, "carets")
