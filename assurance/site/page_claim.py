"""A claim on its own page: what is concluded, why, where it sits, its checks and what it rests on."""

from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model.argument_records import ClaimRecord
from assurance.model.assessment import ArgumentOutcome
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.argument_tree import any_of
from assurance.site.around import Around, around
from assurance.site.check_rows import CheckRow, check_row
from assurance.site.drawings_argument import neighbourhood
from assurance.site.grounds import GroundRow, ground_rows
from assurance.site.links import Link
from assurance.site.pieces import anchor, span
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.sentences import claim_sentence
from assurance.site.view import CauseRow, Fact, View, as_said, more_causes
from assurance.site.written import Written

LONGEST_PATH = 8


@dataclass(frozen=True, slots=True)
class ArgumentRow:
    """One argument of the claim."""

    name: str
    verdict: Markup
    because: Markup
    stands: bool


@dataclass(frozen=True, slots=True)
class ClaimPage:
    """What `claim.html` shows."""

    path: tuple[Link, ...]
    statement: str
    css: str
    mark: Markup
    word: str
    sentence: Markup
    causes: tuple[CauseRow, ...]
    more_causes: str
    drawing: Markup
    on_map: str  # where the map of the argument shows this claim, if a top claim reaches it
    arguments: tuple[ArgumentRow, ...]
    how: str
    checks: tuple[CheckRow, ...]
    checks_summary: str
    grounds: tuple[GroundRow, ...]
    more_grounds: str
    any_date: bool
    any_revision: bool
    any_shows: bool
    facts: tuple[Fact, ...]
    around: Around
    written: Written


def claim_page(view: View, id_: str, record: ClaimRecord, *, above: dict[str, str]) -> ClaimPage:
    """The page of one claim. `above` names, for each record, the one through which it is reached."""
    verdict = view.links.verdict(id_)
    causes = view.causes(id_)
    checks = view.assessment.checks.get(id_, ())
    grounds = ground_rows(view, id_)
    failing = sum(one.verdict is Verdict.FAILS for one in checks)
    passing = sum(one.verdict is Verdict.HOLDS for one in checks)
    return ClaimPage(
        path=_path(view, id_, above),
        statement=record.statement,
        css=marks.css_class(verdict),
        mark=marks.plain_mark(verdict, size=17),
        word=wording.label(verdict.word),
        sentence=claim_sentence(view, id_, verdict),
        causes=view.cause_rows(id_),
        more_causes=more_causes(causes),
        on_map=f"{view.links.root}argument.html#at={id_}" if id_ in view.assessment.reached else "",
        drawing=neighbourhood(view.assessment, view.links, id_),
        arguments=tuple(_argument(view, one) for one in view.assessment.arguments.get(id_, ())),
        how="any one of these is enough" if any_of(view.assessment, id_) else "",
        checks=tuple(check_row(one, view) for one in checks),
        checks_summary=f"{passing} pass, {failing} fail" if checks else "",
        grounds=grounds[:MOST_ROWS],
        more_grounds=more_rows(len(grounds)),
        any_date=any(one.date for one in grounds),
        any_revision=any(one.revision for one in grounds),
        any_shows=any(one.shows for one in grounds),
        facts=_facts(view, id_, record),
        around=around(view, id_),
        written=view.written(id_),
    )


def _path(view: View, id_: str, above: dict[str, str]) -> tuple[Link, ...]:
    """From the conclusion down to the claim, by the shortest way."""
    steps: list[str] = []
    here = above.get(id_, "")
    while here and len(steps) < LONGEST_PATH:
        steps.append(here)
        here = above.get(here, "")
    up = [Link(one, view.links.record(one)) for one in reversed(steps)]
    return (Link("Conclusion", f"{view.links.root}index.html"), *up)


def _argument(view: View, outcome: ArgumentOutcome) -> ArgumentRow:
    return ArgumentRow(
        name=wording.label(outcome.name),
        verdict=marks.verdict_word(outcome.verdict),
        because=view.links.say(outcome.because),
        stands=outcome.stands,
    )


def _facts(view: View, id_: str, record: ClaimRecord) -> tuple[Fact, ...]:
    links = view.links
    place = links.place(view.assessment.entries[id_].place, id_)
    facts = [
        Fact("Owner", (escape(view.who(record.owner or "")),)),
        Fact("Id", (span("id", id_),)),
        Fact("Written in", (anchor("#as-written", place.text, "place"),)),
        Fact("About", tuple(links.say(f"`{one}`") for one in record.about)),
        Fact("Quantity", as_said(record.quantity)),
        Fact("Context", tuple(links.say(f"`{one}`") for one in record.context)),
        Fact("Assumes", tuple(_assumed(view, one) for one in record.assumes)),
    ]
    return tuple(fact for fact in facts if fact.values)


def _assumed(view: View, id_: str) -> Markup:
    named = view.links.named(id_)
    state = getattr(view.assessment.entries[id_].record, "state", "") if named.href else ""
    return named.mark + " " + anchor(named.href, named.name, "said") + escape(f", {state}" if state else "")
