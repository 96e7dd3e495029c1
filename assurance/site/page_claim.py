"""A claim on its own page: what is concluded, why, where it sits, its checks and what it rests on."""

from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model.argument_records import Challenge, ClaimRecord
from assurance.model.assessment import ArgumentOutcome
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.argument_tree import any_of
from assurance.site.check_rows import CheckRow, check_row
from assurance.site.drawings_argument import neighbourhood
from assurance.site.grounds import GroundRow, ground_rows
from assurance.site.links import Link, Named
from assurance.site.pieces import anchor, span
from assurance.site.rows import MOST_ROWS, more_rows
from assurance.site.sentences import claim_sentence
from assurance.site.view import CauseRow, Fact, View, Written, as_said, more_causes

LONGEST_PATH = 8


@dataclass(frozen=True, slots=True)
class ArgumentRow:
    """One argument of the claim."""

    name: str
    verdict: Markup
    because: Markup
    stands: bool


@dataclass(frozen=True, slots=True)
class ChallengeRow:
    """A doubt, with its answer where there is one."""

    doubt: str
    state: str
    href: str
    answer: str
    open: bool


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
    arguments: tuple[ArgumentRow, ...]
    how: str
    checks: tuple[CheckRow, ...]
    checks_summary: str
    grounds: tuple[GroundRow, ...]
    more_grounds: str
    any_date: bool
    any_revision: bool
    any_shows: bool
    challenges: tuple[ChallengeRow, ...]
    challenges_summary: str
    facts: tuple[Fact, ...]
    relied_on: tuple[Named, ...]
    written: Written


def claim_page(view: View, id_: str, record: ClaimRecord, *, above: dict[str, str]) -> ClaimPage:
    """The page of one claim. `above` names, for each record, the one through which it is reached."""
    verdict = view.links.verdict(id_)
    causes = view.causes(id_)
    checks = view.assessment.checks.get(id_, ())
    grounds = ground_rows(view, id_)
    challenges = _challenges(view, id_)
    failing = sum(one.verdict is Verdict.FAILS for one in checks)
    passing = sum(one.verdict is Verdict.HOLDS for one in checks)
    return ClaimPage(
        path=_path(view, id_, above),
        statement=record.statement,
        css=marks.css_class(verdict),
        mark=marks.plain_mark(verdict, size=17),
        word=wording.label(verdict.word),
        sentence=claim_sentence(view, id_, verdict),
        causes=view.cause_rows(causes),
        more_causes=more_causes(causes),
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
        challenges=challenges,
        challenges_summary=wording.counted(len(challenges), "challenge"),
        facts=_facts(view, id_, record),
        relied_on=view.links.each(view.assessment.used_by.get(id_, ())[:MOST_ROWS]),
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


def _challenges(view: View, id_: str) -> tuple[ChallengeRow, ...]:
    found = []
    for needed in view.assessment.depends.get(id_, ()):
        entry = view.assessment.entries.get(needed)
        if entry is not None and isinstance(entry.record, Challenge):
            record = entry.record
            found.append(
                ChallengeRow(
                    doubt=record.doubt,
                    state=" ".join(part for part in (record.state, wording.day(record.date)) if part),
                    href=view.links.record(needed),
                    answer=record.answer or "",
                    open=record.state != "answered",
                )
            )
    return tuple(found)


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
    return named.mark + " " + anchor(named.href, named.name, "said")
