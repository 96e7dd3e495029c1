"""A record as it stands in its file, line by line, with the lines that something points at."""

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.site import wording


@dataclass(frozen=True, slots=True)
class Written:
    """A record as it stands in its file; each line has an address of its own."""

    place: str
    lines: str
    text: Markup
    open: bool  # whether a line of it is pointed at


@dataclass(frozen=True, slots=True)
class Span:
    """The lines of a record in its file, from `first`; the text is empty where it cannot be found again."""

    file: str
    first: int
    text: str

    def __contains__(self, line: int) -> bool:
        return bool(self.text) and self.first <= line <= self.first + self.text.count("\n")


def line_anchor(line: int) -> str:
    """The address of a line on the page of its record."""
    return f"L{line}"


def written(span: Span, at: Mapping[int, str]) -> Written:
    """The record with its lines numbered; `at` gives the kind of mark of each line pointed at."""
    lines = span.text.split("\n") if span.text else []
    shown = [_line(number, line, at.get(number, "")) for number, line in enumerate(lines, span.first)]
    return Written(
        f"{span.file}:{span.first}",
        wording.counted(len(lines), "line"),
        Markup("\n".join(shown)),
        open=any(number in span for number in at),
    )


def _line(number: int, line: str, css: str) -> str:
    kind = f' class="at {css}"' if css else ""
    return f'<span id="{line_anchor(number)}" data-line="{number}"{kind}>{escape(line)}</span>'
