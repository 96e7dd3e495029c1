"""The Evidence page: what there is, what is not current, and what nobody relies on."""

from dataclasses import dataclass

from markupsafe import Markup

from assurance.model.engineering_records import EvidenceRecord
from assurance.model.verdicts import Verdict
from assurance.site import wording
from assurance.site.links import Named
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class EvidenceRow:
    """One evidence record of the case."""

    mark: Markup
    title: str
    id: str
    href: str
    kind: str
    date: str
    revision: str
    current: str
    used_by: str


@dataclass(frozen=True, slots=True)
class EvidencesPage:
    """What `evidences.html` shows."""

    count: str
    not_current: str
    drafts: str
    rows: tuple[EvidenceRow, ...]
    more: str
    alone: tuple[Named, ...]


def evidences_page(view: View) -> EvidencesPage:
    """The Evidence page of a case."""
    entries = view.assessment.of_kind("evidence")
    ids = sorted(entries, key=lambda id_: (-view.links.verdict(id_), id_))
    not_current = sum(view.links.verdict(id_) is not Verdict.HOLDS for id_ in ids)
    drafts = sum(
        isinstance(one.record, EvidenceRecord) and one.record.state == "draft" for one in entries.values()
    )
    alone = tuple(id_ for id_ in ids if not view.assessment.used_by.get(id_))
    return EvidencesPage(
        count=wording.counted(len(ids), "record"),
        not_current=f"{not_current:,} not current" if not_current else "all current",
        drafts=f"{drafts:,} draft" if drafts else "",
        rows=tuple(_row(view, id_) for id_ in ids[:MOST_ROWS]),
        more=more_rows(len(ids)),
        alone=view.links.each(alone[:MOST_ROWS]),
    )


def _row(view: View, id_: str) -> EvidenceRow:
    record = view.assessment.entries[id_].record
    named = view.links.named(id_)
    used = f"{len(view.assessment.used_by.get(id_, ())):,}"
    if not isinstance(record, EvidenceRecord):
        return EvidenceRow(named.mark, named.name, id_, named.href, "", "", "", "cannot be read whole", used)
    return EvidenceRow(
        mark=named.mark,
        title=record.title,
        id=id_,
        href=named.href,
        kind=record.kind,
        date=wording.day(record.date),
        revision=record.revision or "",
        current=_current(view, id_),
        used_by=used,
    )


def _current(view: View, id_: str) -> str:
    """Why a record is not current, or that it is."""
    reasons = sorted(view.assessment.reasons.get(id_, ()), key=lambda one: -one.verdict)
    return wording.sentence(reasons[0].text.replace("`", "")) if reasons else "current"
