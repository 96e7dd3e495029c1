"""Every page of the site: its address, the frame it goes into, and its body."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields
from typing import Any

from assurance.model.argument_records import ClaimRecord
from assurance.model.assessment import Assessment, CheckOutcome
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation, EvidenceRecord
from assurance.model.kinds import SINGULAR, Entry
from assurance.model.risk_records import Hazard
from assurance.site import wording
from assurance.site.links import address
from assurance.site.page_argument import argument_page, reached_through
from assurance.site.page_calculation import calculation_page
from assurance.site.page_calculations import calculations_page
from assurance.site.page_claim import claim_page
from assurance.site.page_conclusion import conclusion_page
from assurance.site.page_evidence import evidence_page
from assurance.site.page_evidences import evidences_page
from assurance.site.page_failure_modes import failure_modes_page
from assurance.site.page_gaps import gaps_page
from assurance.site.page_hazard import hazard_page
from assurance.site.page_hazards import hazards_page
from assurance.site.page_record import record_page
from assurance.site.page_records import records_page
from assurance.site.page_strength import strength_page
from assurance.site.sections import section_of
from assurance.site.tables import Table
from assurance.site.view import View


@dataclass(frozen=True, slots=True)
class Page:
    """One page before it is poured into its frame, with the data of its tables by address."""

    address: str
    section: str
    title: str
    body: str
    beside: tuple[tuple[str, str], ...] = ()


Render = Callable[[str, Any], str]
_SECTION_PAGES: tuple[tuple[str, str, str, Callable[[View], Any]], ...] = (
    ("index", "Conclusion", "conclusion.html", conclusion_page),
    ("gaps", "Gaps", "gaps.html", gaps_page),
    ("argument", "Argument", "argument.html", argument_page),
    ("evidence", "Evidence", "evidences.html", evidences_page),
    ("hazards", "Hazards", "hazards.html", hazards_page),
    ("failure-modes", "Failure modes", "failure-modes.html", failure_modes_page),
    ("strength", "Strength", "strength.html", strength_page),
    ("calculations", "Calculations", "calculations.html", calculations_page),
    ("records", "All records", "records.html", records_page),
)


def each_page(case: CaseText, assessment: Assessment, *, render: Render) -> Iterator[Page]:
    """The section pages, then one page for every record, in order of their ids."""
    view = View(case, assessment, "")
    for name, title, template, build in _SECTION_PAGES:
        context = build(view)
        yield Page(f"{name}.html", name, title, render(template, context), _beside(context))
    build_record = _RecordPages(View(case, assessment, "../"))
    for id_ in sorted(assessment.entries):
        entry = assessment.entries[id_]
        template, context = build_record(id_, entry)
        title = f"{wording.label(SINGULAR[entry.kind])} {id_}"
        body = render(template, context)
        yield Page(address(entry.kind, id_), section_of(entry.kind), title, body, _beside(context))


def _beside(context: Any) -> tuple[tuple[str, str], ...]:
    """The files that are published with the tables of a page."""
    given = (getattr(context, one.name) for one in fields(context))
    return tuple(file for one in given if isinstance(one, Table) for file in one.beside)


class _RecordPages:
    """Chooses the page of a record by what the record is."""

    def __init__(self, view: View) -> None:
        self._view = view
        self._above = reached_through(view.assessment)
        self._checks: dict[str, list[CheckOutcome]] = {}
        for id_ in sorted(view.assessment.checks):
            for check in view.assessment.checks[id_]:
                self._checks.setdefault(check.result.partition(".")[0], []).append(check)

    def __call__(self, id_: str, entry: Entry) -> tuple[str, Any]:
        view, record = self._view, entry.record
        if isinstance(record, ClaimRecord):
            return "claim.html", claim_page(view, id_, record, above=self._above)
        if isinstance(record, Hazard):
            return "hazard.html", hazard_page(view, id_, record)
        if isinstance(record, EvidenceRecord):
            return "evidence.html", evidence_page(view, id_, record)
        if isinstance(record, Calculation):
            checks = self._checks.get(id_, ())
            return "calculation.html", calculation_page(view, id_, record, checks=checks)
        return "record.html", record_page(view, id_)
