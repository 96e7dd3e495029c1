"""A hazard on its own page: risk, lanes, controls and its place in the matrix."""

from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model.argument_records import PRECEDENCE
from assurance.model.assessment import HazardOutcome
from assurance.model.risk_records import Control, Hazard, HazardCause
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.around import Around, around
from assurance.site.drawings_hazard import Lane, Plate, hazard_lanes
from assurance.site.links import Named
from assurance.site.pieces import anchor, span
from assurance.site.risk_rows import NOT_RATED, UNREAD, Matrix, matrix, risk_shown
from assurance.site.sentences import record_sentence
from assurance.site.view import CauseRow, Fact, View, as_said, more_causes
from assurance.site.written import Written

LEGEND = (
    "A solid plate is a control shown to hold, not certain to. A control of the record stands across "
    "every cause."
)


@dataclass(frozen=True, slots=True)
class ControlRow:
    """One control of a hazard."""

    number: str
    text: str
    type: str
    reduces: str
    counts: str
    counted: bool
    mark: Markup
    there: tuple[Named, ...]
    works: tuple[Named, ...]
    interval: str


@dataclass(frozen=True, slots=True)
class LaneRow:
    """What can lead to the hazard: a failure mode, words, or both."""

    mode: Named | None
    text: str


@dataclass(frozen=True, slots=True)
class RiskLine:
    """The risk before, now or after."""

    when: str
    level: Markup
    words: str


@dataclass(frozen=True, slots=True)
class HazardPage:
    """What `hazard.html` shows."""

    title: str
    harm: str
    exposed: str
    css: str
    mark: Markup
    word: str
    sentence: Markup
    risks: tuple[RiskLine, ...]
    why: Markup
    causes: tuple[CauseRow, ...]
    more_causes: str
    drawing: Markup
    legend: str
    lanes: tuple[LaneRow, ...]
    lanes_summary: str
    controls: tuple[ControlRow, ...]
    controls_summary: str
    refused: tuple[Markup, ...]
    rejected: tuple[str, ...]
    matrix: Matrix
    facts: tuple[Fact, ...]
    around: Around
    written: Written
    caution: str


def hazard_page(view: View, id_: str, record: Hazard) -> HazardPage:
    """The page of one hazard."""
    outcome = view.assessment.hazards.get(id_, UNREAD)
    verdict = view.links.verdict(id_)
    causes = view.causes(id_)
    controls = _in_order(record)
    total = len(controls)
    return HazardPage(
        title=record.title,
        harm=record.harm or "",
        exposed=record.exposed or "",
        css=marks.css_class(verdict),
        mark=marks.plain_mark(verdict, size=17),
        word=wording.label(verdict.word),
        sentence=record_sentence(view, id_, "Everything that shows its controls is current."),
        risks=_risks(view, outcome),
        why=view.links.say(wording.sentence(outcome.why)),
        causes=view.cause_rows(id_),
        more_causes=more_causes(causes),
        drawing=_drawing(view, record, outcome, controls),
        legend=LEGEND,
        lanes=tuple(_lane_row(view, one) for one in record.causes),
        lanes_summary=wording.counted(len(record.causes), "cause") if record.causes else "",
        controls=tuple(
            _control(view, number, name, control, outcome)
            for number, (name, control) in enumerate(controls, 1)
        ),
        controls_summary=f"{len(outcome.counted)} of {total} count" if total else "",
        refused=tuple(view.links.say(wording.sentence(one)) for one in outcome.refused),
        rejected=record.options_rejected,
        matrix=matrix(view.assessment, view.links, only=id_ if id_ in view.assessment.hazards else ""),
        facts=_facts(view, id_, record),
        around=around(view, id_),
        written=view.written(id_),
        caution=wording.CAUTION,
    )


def _in_order(record: Hazard) -> list[tuple[str, Control]]:
    """Controls in order of precedence, those without a type last."""
    return sorted(
        record.controls.items(),
        key=lambda one: PRECEDENCE.index(one[1].type) if one[1].type else len(PRECEDENCE),
    )


def _risks(view: View, outcome: HazardOutcome) -> tuple[RiskLine, ...]:
    scheme = view.assessment.scheme
    return tuple(
        RiskLine(
            when,
            risk_shown(rated, scheme),
            f"{rated.severity}, {rated.likelihood}".lower() if rated else NOT_RATED,
        )
        for when, rated in (("before", outcome.before), ("now", outcome.now), ("after", outcome.after))
    )


def _shown_by(view: View, control: Control) -> Verdict:
    """The worst verdict among what shows a control; `open` where something is missing."""
    if not control.implemented_by or not control.effective_by:
        return Verdict.OPEN
    return max(view.links.verdict(one) for one in (*control.implemented_by, *control.effective_by))


def _drawing(
    view: View, record: Hazard, outcome: HazardOutcome, controls: list[tuple[str, Control]]
) -> Markup:
    plates = [
        Plate(
            number,
            control.text,
            control.type or "",
            name in outcome.counted,
            _shown_by(view, control),
            prevents="likelihood" in control.reduces or not control.reduces,
            mitigates="severity" in control.reduces,
        )
        for number, (name, control) in enumerate(controls, 1)
    ]
    lanes = [_lane(view, cause) for cause in record.causes]
    says = f"{len(lanes)} causes, {len(plates)} controls, of which {len(outcome.counted)} count now"
    return hazard_lanes(record.title, record.harm or "", lanes, plates, says=says)


def _lane(view: View, cause: HazardCause) -> Lane:
    if cause.record:
        return Lane(cause.text or view.links.name(cause.record), view.links.record(cause.record))
    return Lane(cause.text or "Not named")


def _lane_row(view: View, cause: HazardCause) -> LaneRow:
    named = view.links.each((cause.record,)) if cause.record else ()
    return LaneRow(named[0] if named else None, cause.text or "")


def _control(view: View, number: int, name: str, control: Control, outcome: HazardOutcome) -> ControlRow:
    counted = name in outcome.counted
    return ControlRow(
        number=str(number),
        text=control.text,
        type=control.type or "no type stated",
        reduces=" and ".join(control.reduces) or "nothing stated",
        counts="counts" if counted else "does not count",
        counted=counted,
        mark=marks.mark(_shown_by(view, control)),
        there=view.links.each(control.implemented_by),
        works=view.links.each(control.effective_by),
        interval=control.check_interval or "",
    )


def _facts(view: View, id_: str, record: Hazard) -> tuple[Fact, ...]:
    links = view.links
    place = links.place(view.assessment.entries[id_].place, id_)
    facts = [
        Fact("Owner", (escape(view.who(record.owner or "")),)),
        Fact("Id", (span("id", id_),)),
        Fact("Written in", (anchor("#as-written", place.text, "place"),)),
        Fact("Claim", (links.say(f"`{record.claim}`"),) if record.claim else ()),
        Fact("Life phase", as_said(record.life_phase)),
        Fact("Risk scheme", (escape(view.assessment.scheme.title),)),
    ]
    return tuple(fact for fact in facts if fact.values)
