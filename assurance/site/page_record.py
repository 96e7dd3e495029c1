"""The page of any record without a page of its own design."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup, escape
from pydantic import BaseModel

from assurance.model import kinds, quantity
from assurance.model.engineering_records import Material
from assurance.site import marks, wording
from assurance.site.around import Around, around
from assurance.site.links import result_anchor
from assurance.site.pieces import anchor, span
from assurance.site.sentences import record_sentence
from assurance.site.view import CauseRow, Fact, View
from assurance.site.written import Written

DEEPEST = 4  # levels of nesting shown as fields; the rest stands under As written
MOST_FIELDS = 120


@dataclass(frozen=True, slots=True)
class FieldRow:
    """One field as written."""

    anchor: str
    label: str
    value: Markup


@dataclass(frozen=True, slots=True)
class RecordPage:
    """What `record.html` shows."""

    kind: str
    title: str
    said: bool  # whether a person gave it a name; else its id stands there
    css: str
    mark: Markup
    word: str
    sentence: Markup
    causes: tuple[CauseRow, ...]
    fields: tuple[FieldRow, ...]
    facts: tuple[Fact, ...]
    around: Around
    written: Written


def record_page(view: View, id_: str) -> RecordPage:
    """The page of one record."""
    entry = view.assessment.entries[id_]
    verdict = view.links.verdict(id_)
    judged = id_ in view.assessment.verdicts
    name = view.links.name(id_)
    return RecordPage(
        kind=wording.label(kinds.SINGULAR[entry.kind]),
        title=name,
        said=name != id_,
        css=marks.css_class(verdict) if judged else "",
        mark=marks.plain_mark(verdict, size=17),
        word=wording.label(verdict.word),
        sentence=record_sentence(view, id_, _nothing_against(entry.record)),
        causes=view.cause_rows(id_),
        fields=tuple(_fields(view, entry.record))[:MOST_FIELDS],
        facts=_facts(view, id_),
        around=around(view, id_),
        written=view.written(id_),
    )


def _nothing_against(record: object) -> str:
    return "The record cannot be read whole." if record is None else "Nothing stands against it."


def _facts(view: View, id_: str) -> tuple[Fact, ...]:
    entry = view.assessment.entries[id_]
    place = view.links.place(entry.place, id_)
    owner = getattr(entry.record, "owner", None)
    facts = [
        Fact("Kind", (escape(kinds.SINGULAR[entry.kind]),)),
        Fact("Id", (span("id", id_),)),
        Fact("Written in", (anchor("#as-written", place.text, "place"),)),
        Fact("Owner", (escape(view.who(owner)),) if owner else ()),
    ]
    return tuple(fact for fact in facts if fact.values)


def _fields(view: View, record: BaseModel | None) -> Iterable[FieldRow]:
    """Every field that is filled, a nested one with the words that lead to it."""
    if record is None:
        return
    properties: set[str] = set()
    for path, value in _leaves(record, ()):
        anchor = f"field-{'-'.join(path)}"
        if isinstance(record, Material) and path[0] == "properties" and path[1] not in properties:
            properties.add(path[1])
            anchor = result_anchor(path[1])  # the place that a number from a material leads to
        yield FieldRow(anchor, wording.label(", ".join(path)), _shown(view, value))


def _leaves(value: object, path: tuple[str, ...]) -> Iterable[tuple[tuple[str, ...], object]]:
    if isinstance(value, BaseModel):
        inner: Iterable[tuple[str, object]] = (
            (name, getattr(value, name)) for name in type(value).model_fields
        )
    elif isinstance(value, dict):
        inner = ((str(name), one) for name, one in value.items())
    elif isinstance(value, tuple) and any(isinstance(one, BaseModel) for one in value):
        inner = ((str(position), one) for position, one in enumerate(value, 1))
    else:
        if value is not None and value != ():
            yield path, value
        return
    if len(path) < DEEPEST:
        for name, one in inner:
            yield from _leaves(one, (*path, name))


def _shown(view: View, value: object) -> Markup:
    if isinstance(value, tuple):
        return Markup(", ").join(_shown(view, one) for one in value)
    if isinstance(value, date):
        return escape(wording.day(value))
    if isinstance(value, (quantity.Quantity, quantity.Range)):
        return span("nb", str(value))
    text = str(value)
    head = text.partition(".")[0]
    if text in view.assessment.entries or (head in view.assessment.entries and " " not in text):
        return view.links.say(f"`{text}`")
    return span("said", text)
