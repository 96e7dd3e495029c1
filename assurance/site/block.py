"""The title block on top of every page and the counts of the rail."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from assurance.model.argument_records import Case
from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.links import Links
from assurance.site.sections import GROUPS

LONGEST_ITEM = 40  # characters
LEAST_RESERVE = 1.0  # with every factor put on, a reserve factor below this does not carry the load


_NOTICE = Markup('<aside class="notice said" aria-label="Notice">{}</aside>')
_UNREAD = Markup(
    '<aside class="notice unread" aria-label="Not read whole"><b>The case cannot be read whole.</b> '
    '<span class="place">{place}</span> {fault} {more}'
    'The claim that concludes stays open until this is put right: see <a href="{root}gaps.html">Gaps</a>.'
    "</aside>"
)


@dataclass(frozen=True, slots=True)
class Unread:
    """The first thing that could not be read, and how much more there is."""

    place: str
    say: Callable[[str], Markup]  # the fault, by where the top of the site is
    more: str


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What the title block says, and how much trouble each page of the rail holds."""

    item: str
    issue: str
    answer: str
    answer_mark: Markup
    as_of: str
    notice: str
    unread: Unread | None
    counts: Mapping[str, int]

    def slots(self) -> dict[str, str]:
        """The slots of a frame that are the same on every page."""
        return {
            "item": str(escape(self.item)),
            "issue": str(escape(self.issue or "none")),
            "answer": str(self.answer_mark + escape(self.answer)),
            "as-of": str(escape(self.as_of)),
            **{f"count:{name}": _count(self.counts.get(name, 0)) for name in _section_names()},
        }

    def notices(self, root: str) -> str:
        """What stands under the block: what could not be read, then the notice of the case."""
        said = ""
        if self.unread is not None:
            fault = self.unread.say(root)
            said = str(_UNREAD.format(root=root, place=self.unread.place, fault=fault, more=self.unread.more))
        if self.notice:
            said += str(_NOTICE.format(self.notice))
        return said


def title_block(assessment: Assessment, case: CaseText) -> TitleBlock:
    """The title block of a case."""
    entry = assessment.entries.get(assessment.case)
    record = entry.record if entry is not None and isinstance(entry.record, Case) else None
    verdict = use_verdict(assessment)
    name = case.settings.site_name or case.folder.name
    return TitleBlock(
        item=_item(record) or name,
        issue=(record.issue if record else "") or "",
        answer=wording.short_answer(verdict),
        answer_mark=marks.plain_mark(verdict, size=14),
        as_of=wording.day(assessment.as_of) or "no day stated",
        notice=(record.notice if record else "") or "",
        unread=_unread(assessment),
        counts=_counts(assessment),
    )


def _unread(assessment: Assessment) -> Unread | None:
    """What the reading could not take whole, the first place by name."""
    faults = sorted(assessment.input_findings, key=lambda one: one.place)
    if not faults:
        return None
    place = faults[0].place
    more = len(faults) - 1
    return Unread(
        place=f"{place.file}:{place.line}" if place.line else place.file or "mkdocs.yml",
        say=lambda root: Links(assessment, root).say(wording.sentence(faults[0].message)),
        more=f"{wording.counted(more, 'more place')} cannot be read. " if more else "",
    )


def _item(record: Case | None) -> str:
    """The item where its name is short enough for the block, else the title of the case."""
    if record is None:
        return ""
    return record.item if record.item and len(record.item) <= LONGEST_ITEM else record.title


def use_verdict(assessment: Assessment) -> Verdict:
    """The verdict of the claim that concludes about use; `open` where there is none."""
    top = assessment.top_claims.get("use")
    return Verdict.OPEN if top is None else assessment.verdicts.get(top, Verdict.OPEN)


def _counts(assessment: Assessment) -> dict[str, int]:
    """What does not hold on each page."""
    of_kind = {
        "argument": "claims",
        "evidence": "evidence",
        "hazards": "hazards",
        "failure-modes": "failure_modes",
        "calculations": "calculations",
    }
    trouble = dict.fromkeys(of_kind.values(), 0)
    for id_, entry in assessment.entries.items():
        if entry.kind in trouble and assessment.verdicts.get(id_, Verdict.HOLDS) is not Verdict.HOLDS:
            trouble[entry.kind] += 1
    below = sum(
        1 for work in assessment.worked.values() for cell in work.cells
        if cell.reserve_factor is not None and cell.reserve_factor < LEAST_RESERVE
    )  # fmt: skip
    return {name: trouble[kind] for name, kind in of_kind.items()} | {
        "gaps": len(assessment.missing),
        "strength": below,
    }


def _count(count: int) -> str:
    return f'{count:,}<span class="hide"> not settled</span>' if count else ""


def _section_names() -> list[str]:
    return [section.name for group in GROUPS for section in group.sections]
