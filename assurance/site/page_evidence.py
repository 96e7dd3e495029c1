"""An evidence record on its own page."""

from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model.engineering_records import EvidenceRecord, TestedPart, TypedResult
from assurance.site import marks, wording
from assurance.site.around import Around, around
from assurance.site.links import result_anchor
from assurance.site.pieces import anchor, span
from assurance.site.sentences import record_sentence
from assurance.site.view import CauseRow, Fact, View, as_said
from assurance.site.written import Written


@dataclass(frozen=True, slots=True)
class TypedRow:
    """A value read from the report."""

    anchor: str
    name: str
    value: str
    where: str
    tag: str


@dataclass(frozen=True, slots=True)
class FileRow:
    """A file of the record, with what it holds today."""

    name: str
    digest: str
    state: str
    same: bool


@dataclass(frozen=True, slots=True)
class EvidencePage:
    """What `evidence.html` shows."""

    title: str
    css: str
    mark: Markup
    word: str
    sentence: Markup
    causes: tuple[CauseRow, ...]
    results: tuple[TypedRow, ...]
    files: tuple[FileRow, ...]
    parts_named: tuple[Markup, ...]
    anomalies: tuple[tuple[str, str], ...]
    facts: tuple[Fact, ...]
    around: Around
    written: Written


def evidence_page(view: View, id_: str, record: EvidenceRecord) -> EvidencePage:
    """The page of one evidence record."""
    verdict = view.links.verdict(id_)
    return EvidencePage(
        title=record.title,
        css=marks.css_class(verdict),
        mark=marks.plain_mark(verdict, size=17),
        word=wording.label(verdict.word),
        sentence=record_sentence(view, id_, "It is issued, and its files are those it was issued with."),
        causes=view.cause_rows(id_),
        results=tuple(_typed(view, name, one, record) for name, one in record.results.items()),
        files=tuple(_file(view, id_, one.file, one.sha256) for one in record.files),
        parts_named=tuple(_part(view, one) for one in record.parts),
        anomalies=tuple((one.what, one.disposition or "") for one in record.anomalies),
        facts=_facts(view, id_, record),
        around=around(view, id_),
        written=view.written(id_),
    )


def _typed(view: View, name: str, result: TypedResult, record: EvidenceRecord) -> TypedRow:
    reader = result.read_by or record.producer
    return TypedRow(
        anchor=result_anchor(name),
        name=wording.label(name),
        value=str(result.value),
        where=result.where or "",
        tag=f"judged by {view.who(reader)}" if reader else "judged",
    )


def _file(view: View, id_: str, name: str, stated: str | None) -> FileRow:
    fact = view.case.files.get((id_, name))
    found = fact.sha256 if fact else ""
    if fact is None or fact.fault:
        return FileRow(name, "", fact.fault if fact else "not looked at", same=False)
    if not stated:
        return FileRow(name, found[:12], "no digest is stated", same=False)
    same = stated == found
    state = "the digest agrees" if same else f"changed: {stated[:12]} is stated"
    return FileRow(name, found[:12], state, same=same)


def _part(view: View, part: TestedPart) -> Markup:
    terms = (
        f"issue {part.issue}" if part.issue else "",
        f"serial {part.serial}" if part.serial else "",
        wording.counted(part.quantity, "piece") if part.quantity else "",
    )
    said = "".join(f", {term}" for term in terms if term)
    return view.links.say(f"`{part.part}`{said}")


def _facts(view: View, id_: str, record: EvidenceRecord) -> tuple[Fact, ...]:
    place = view.links.place(view.assessment.entries[id_].place, id_)
    facts = [
        Fact("Id", (span("id", id_),)),
        Fact("Written in", (anchor("#as-written", place.text, "place"),)),
        Fact("Kind", (escape(record.kind),)),
        Fact("State", (escape(record.state),)),
        Fact("Outcome", (escape(record.outcome),) if record.outcome else ()),
        Fact("Date", (escape(wording.day(record.date)),) if record.date else ()),
        Fact("Revision", (escape(record.revision),) if record.revision else ()),
        Fact("Producer", (escape(view.who(record.producer)),) if record.producer else ()),
        Fact("Quantity", as_said(record.quantity)),
        Fact("Superseded by", (view.links.say(f"`{record.superseded_by}`"),) if record.superseded_by else ()),
    ]
    return tuple(fact for fact in facts if fact.values)
