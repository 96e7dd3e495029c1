"""The Conclusion page: may a person use it today, within what, and if not, what is missing."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import islice

from markupsafe import Markup

from assurance.model.argument_records import Condition
from assurance.model.assessment import HazardOutcome
from assurance.model.risk_records import Hazard
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.block import use_verdict
from assurance.site.gap_rows import OwnerRows, by_owner
from assurance.site.links import Link
from assurance.site.risk_rows import LevelCount, level_counts, risk_now_first, risk_shown
from assurance.site.view import View

SHORTEST = 8  # things shown here; the rest stand on Gaps
MOST_HAZARDS = 6
NAMED = 2  # claims quoted under the answer


@dataclass(frozen=True, slots=True)
class ConditionRow:
    """One parameter of the conditions of use."""

    title: str
    href: str
    allowed: str
    words: bool  # whether a person wrote what is allowed in words


@dataclass(frozen=True, slots=True)
class HazardLine:
    """A hazard that weighs most now."""

    level: Markup
    title: str
    href: str
    why: Markup


@dataclass(frozen=True, slots=True)
class Tally:
    """How many claims have a verdict."""

    count: str
    word: Markup
    none: bool


@dataclass(frozen=True, slots=True)
class ConclusionPage:
    """What `conclusion.html` shows."""

    css: str
    mark: Markup
    answer: str
    long_answer: bool
    lead: Markup
    claim: Link | None
    tally: tuple[Tally, ...]
    conditions: tuple[ConditionRow, ...]
    owners: tuple[OwnerRows, ...]
    none_missing: Markup
    all_gaps: str
    levels: tuple[LevelCount, ...]
    hazards: tuple[HazardLine, ...]
    all_hazards: str
    scheme: str
    caution: str


def conclusion_page(view: View) -> ConclusionPage:
    """The Conclusion page of a case."""
    assessment = view.assessment
    verdict = use_verdict(assessment)
    answer = wording.answer(verdict)
    top = assessment.top_claims.get("use", "")
    hazards = len(assessment.of_kind("hazards"))
    gaps = len(assessment.missing)
    return ConclusionPage(
        css=marks.css_class(verdict),
        mark=marks.plain_mark(verdict, size=34),
        answer=answer,
        long_answer=len(answer) > 20,
        lead=_lead(view, verdict, top),
        claim=Link(top, view.links.record(top)) if top in assessment.entries else None,
        tally=_tally(view),
        conditions=tuple(_conditions(view)),
        owners=by_owner(view, assessment.missing[:SHORTEST]),
        none_missing=view.links.say(wording.none_missing(verdict, concluding=top in assessment.entries)),
        all_gaps=f"all {wording.counted(gaps, 'gap')}" if gaps > 1 else "the gap" if gaps else "",
        levels=level_counts(assessment),
        hazards=tuple(islice(_hazards(view), MOST_HAZARDS)),
        all_hazards=f"all {hazards:,}" if hazards > 1 else "the hazard" if hazards else "",
        scheme=assessment.scheme.title,
        caution=wording.CAUTION,
    )


def _lead(view: View, verdict: Verdict, top: str) -> Markup:
    """Why, and how many things stand between today and the use."""
    if not top or top not in view.assessment.entries:
        return view.links.say("No claim concludes about use. Name one under `top_claims` of the case.")
    if verdict is Verdict.HOLDS:
        return view.links.say(
            "Every claim beneath the conclusion holds. The statement of fitness for use is not issued."
        )
    missing = view.assessment.missing
    stand = "thing stands" if len(missing) == 1 else "things stand"
    left = f"{wording.in_words(len(missing))} {stand} between today and the use." if missing else ""
    return Markup("{} {}").format(_not_settled(view, top), left)


def _not_settled(view: View, top: str) -> Markup:
    """The claims at which the causes lie, in their own words."""
    claims = [one.claim for one in view.assessment.missing if one.claim in view.assessment.entries]
    distinct = [one for one in dict.fromkeys(claims) if one != top]
    if not distinct:
        causes = view.causes(top)
        return view.links.say(wording.sentence(causes[0].text) if causes else "")
    quote = Markup('“<a class="said" href="{}">{}</a>”').format
    said = [quote(view.links.record(one), view.links.name(one).rstrip(".")) for one in distinct[:NAMED]]
    if len(distinct) > NAMED:
        said.append(Markup("{} more").format(wording.in_words(len(distinct) - NAMED).lower()))
    listed = Markup(" and ").join((Markup(", ").join(said[:-1]), said[-1])) if len(said) > 1 else said[0]
    return Markup("Not settled: {}.").format(listed)


def _tally(view: View) -> tuple[Tally, ...]:
    verdicts = [view.links.verdict(id_) for id_ in view.assessment.of_kind("claims")]
    if not verdicts:
        return ()
    return tuple(
        Tally(f"{verdicts.count(one):,}", marks.verdict_word(one), one not in verdicts) for one in Verdict
    )


def _conditions(view: View) -> Iterable[ConditionRow]:
    for id_, entry in view.assessment.of_kind("conditions").items():
        if isinstance(entry.record, Condition):
            record = entry.record
            allowed = str(record.range) if record.range else ", ".join(record.values)
            words = not record.range and bool(record.values)
            yield ConditionRow(record.title, view.links.record(id_), allowed or "no limit stated", words)


def _hazards(view: View) -> Iterable[HazardLine]:
    """The hazards of the two worst levels, and those that are not rated."""
    assessment = view.assessment
    worst = len(assessment.scheme.levels) - 2
    for id_ in risk_now_first(assessment):
        outcome = assessment.hazards.get(id_)
        if outcome is None or outcome.now is None or outcome.now.rank >= worst:
            yield HazardLine(
                level=risk_shown(outcome.now if outcome else None, assessment.scheme),
                title=_title(view, id_),
                href=view.links.record(id_),
                why=view.links.say(_why(outcome)),
            )


def _title(view: View, id_: str) -> str:
    record = view.assessment.entries[id_].record
    return record.title if isinstance(record, Hazard) else id_


def _why(outcome: HazardOutcome | None) -> str:
    if outcome is None:
        return "The record cannot be read whole."
    before = f"Before {outcome.before.level.lower()}" if outcome.before else "Before not rated"
    after = f"after {outcome.after.level.lower()}" if outcome.after else "after not rated"
    return f"{wording.sentence(outcome.why)} {before}, {after}.".strip()
