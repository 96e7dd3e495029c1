"""Where every record, result and line has its address, and how a text with ids becomes linked prose."""

import re
from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model.assessment import Assessment
from assurance.model.engineering_records import Material
from assurance.model.verdicts import Place, Verdict
from assurance.site import marks

_QUOTED = re.compile(r"`([^`]*)`")


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

    def __init__(self, assessment: Assessment, root: str) -> None:
        self.root = root
        self._assessment = assessment
        self._entries = assessment.entries

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

    def name(self, id_: str) -> str:
        """The title of a record, or its statement, or its id."""
        return name_of(self._assessment, id_)

    def verdict(self, id_: str) -> Verdict:
        """The verdict of a record; `open` where it has none."""
        return self._assessment.verdicts.get(id_, Verdict.OPEN)

    def named(self, id_: str) -> Named:
        """A record as a row of a list."""
        return Named(id_, self.name(id_), self.record(id_), marks.mark(self.verdict(id_)))

    def each(self, ids: tuple[str, ...]) -> tuple[Named, ...]:
        """Records as rows of a list, those that exist, in the order given."""
        return tuple(self.named(id_) for id_ in ids if id_ in self._entries)

    def place(self, place: Place, id_: str) -> Link:
        """A place in a file, leading to the record as written there."""
        return Link(f"{place.file}:{place.line}" if place.line else place.file, self.written(id_))

    def say(self, text: str) -> Markup:
        """A built text in which ids between backticks lead to their records."""
        parts = _QUOTED.split(text)
        if len(parts) == 1:
            return escape(text)
        return Markup("").join(
            self._quoted(part) if position % 2 else escape(part) for position, part in enumerate(parts)
        )

    def _quoted(self, text: str) -> Markup:
        head = text.partition(".")[0]
        if text in self._entries:
            return Markup('<a href="{}"><code>{}</code></a>').format(self.record(text), text)
        if head in self._entries and self._entries[head].kind in ("calculations", "evidence", "materials"):
            return Markup('<a href="{}"><code>{}</code></a>').format(self.result(text), text)
        return Markup("<code>{}</code>").format(text)


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
