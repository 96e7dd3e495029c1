"""Where every record, result and line has its address, and how a text with ids becomes linked prose."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup, escape

from assurance.methods.registry import METHODS
from assurance.model.assessment import Assessment
from assurance.model.engineering_records import Material
from assurance.model.verdicts import Place, Verdict
from assurance.site import marks, wording
from assurance.site.pieces import code
from assurance.site.written import Span, line_anchor

_QUOTED = re.compile(r"`([^`]*)`")
_DATE = re.compile(r"(?<![\w.-])\d{4}-\d{2}-\d{2}(?![\w-])")


@dataclass(frozen=True, slots=True)
class Link:
    """A named address."""

    text: str
    href: str


@dataclass(frozen=True, slots=True)
class Named:
    """A record as a row of a list: its mark, name, id and address."""

    id: str
    name: str
    href: str
    mark: Markup


class Links:
    """Addresses as seen from a page; `root` leads from that page to the top of the site."""

    def __init__(
        self, assessment: Assessment, root: str, *, span: Callable[[str], Span] | None = None
    ) -> None:
        self.root = root
        self._span = span
        self._assessment = assessment
        self._entries = assessment.entries
        self._named: dict[str, Named] = {}
        self._said: dict[str, Markup] = {}

    def record(self, id_: str) -> str:
        """The address of a record's page, or of nothing where there is no such record."""
        entry = self._entries.get(id_)
        return "" if entry is None else f"{self.root}{address(entry.kind, id_)}"

    def result(self, reference: str) -> str:
        """The address of `record.result` or `material.property`: the line that gives it."""
        id_, _, name = reference.partition(".")
        page = self.record(id_)
        there = reference in self._assessment.results or self._has_property(id_, name)
        return f"{page}#{result_anchor(name)}" if page and there else page

    def _has_property(self, id_: str, name: str) -> bool:
        entry = self._entries.get(id_)
        return entry is not None and isinstance(entry.record, Material) and name in entry.record.properties

    def written(self, id_: str) -> str:
        """The address of the record as it is written."""
        page = self.record(id_)
        return f"{page}#as-written" if page else ""

    def rule(self, name: str) -> str:
        """The address of what is said about a rule."""
        return f"{self.root}reading/rules.html#{name}"

    def method(self, name: str) -> str:
        """The address of what is said about a method, or of nothing where there is no such method."""
        return f"{self.root}reading/methods.html#{name}" if name in METHODS else ""

    def name(self, id_: str) -> str:
        """The title of a record, or its statement, or its id."""
        return name_of(self._assessment, id_)

    def verdict(self, id_: str) -> Verdict:
        """The verdict of a record; `open` where it has none."""
        return self._assessment.verdicts.get(id_, Verdict.OPEN)

    def named(self, id_: str) -> Named:
        """A record as a row of a list."""
        found = self._named.get(id_)
        if found is None:
            found = Named(id_, self.name(id_), self.record(id_), marks.mark(self.verdict(id_)))
            self._named[id_] = found
        return found

    def each(self, ids: tuple[str, ...]) -> tuple[Named, ...]:
        """Records as rows of a list, those that exist, in the order given."""
        return tuple(self.named(id_) for id_ in ids if id_ in self._entries)

    def place(self, place: Place, id_: str) -> Link:
        """A place in a file, leading to that line of the record as it is written there."""
        return Link(f"{place.file}:{place.line}" if place.line else place.file, self._line(place, id_))

    def _line(self, place: Place, id_: str) -> str:
        page = self.record(id_)
        if not page or self._span is None:
            return self.written(id_)
        span = self._span(id_)
        there = span.file == place.file and place.line in span
        return f"{page}#{line_anchor(place.line)}" if there else self.written(id_)

    def say(self, text: str) -> Markup:
        """A built text in which ids between backticks lead to their records."""
        found = self._said.get(text)
        if found is None:
            found = self._said[text] = self._linked(text)
        return found

    def _linked(self, text: str) -> Markup:
        parts = _QUOTED.split(text)
        if len(parts) == 1:
            return escape(_with_days(text))
        return Markup(
            "".join(
                self._quoted(part) if position % 2 else escape(_with_days(part))
                for position, part in enumerate(parts)
            )
        )

    def _quoted(self, text: str) -> Markup:
        head = text.partition(".")[0]
        if text in self._entries:
            return code(text, self.record(text))
        if head in self._entries and self._entries[head].kind in ("calculations", "evidence", "materials"):
            return code(text, self.result(text))
        return code(text)


def _with_days(text: str) -> str:
    """Dates as they read elsewhere on the pages."""
    return _DATE.sub(_day_shown, text) if "-" in text else text


def _day_shown(found: re.Match[str]) -> str:
    try:
        return wording.day(date.fromisoformat(found[0]))
    except ValueError:
        return found[0]


def address(kind: str, id_: str) -> str:
    """The address of a record's page from the top of the site."""
    return f"{kind}/{id_}.html"


def result_anchor(name: str) -> str:
    """The anchor of a result on the page of its record."""
    return "result-" + re.sub(r"[^A-Za-z0-9_-]", "_", name)


def name_of(assessment: Assessment, id_: str) -> str:
    """The title of a record, or its statement, or its id."""
    entry = assessment.entries.get(id_)
    record = None if entry is None else entry.record
    for field in ("title", "statement", "what", "doubt"):
        found = getattr(record, field, None)
        if found:
            return str(found)
    return id_
