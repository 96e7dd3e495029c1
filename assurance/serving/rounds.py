"""One round of work after an edit: read and assess again, publish, and say what came of it."""

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.model.verdicts import Finding, Weight
from assurance.reading.settings import SETTINGS_FILE
from assurance.serving.news import FoundLine, News, PageLink
from assurance.site.links import address
from assurance.site.marks import WEIGHT_PATHS
from assurance.site.sections import FIRST_PAGE

MOST_FINDINGS = 50  # told in the browser; the rest is counted
MOST_PAGES = 12
SLOW = 1.0  # s of publishing from which on findings are told before it
Assessed = tuple[CaseText, Assessment]


class Rounds:
    """Works a case out again and again.

    `again` reads and assesses it; `publish` publishes it and gives the number of pages, or raises
    `ValueError` or `OSError` with the reason why it could not. Where publishing takes its time,
    `meanwhile` is told what was found.
    """

    def __init__(
        self,
        again: Callable[[], Assessed],
        publish: Callable[[CaseText, Assessment], int],
        *,
        meanwhile: Callable[[News], None] = lambda _: None,
        slow: float = SLOW,
    ) -> None:
        self._again = again
        self._publish = publish
        self._meanwhile = meanwhile
        self._slow = slow
        self._before: CaseText | None = None
        self._took = 0.0  # s that the last publishing took

    def work(self, edited: tuple[str, ...]) -> tuple[CaseText, News]:
        """Works the case out after an edit of these files, and publishes it where it can be read."""
        case, assessment = self._again()
        if case.entries.get(assessment.case) is None:
            said = "No `case` record could be read, so the site stays as it was."
            return case, _news(case, case.findings, None, edited, said)
        found = _news(case, assessment.findings, edited, edited, "")
        if self._took > self._slow:
            self._meanwhile(replace(found, publishing=True, said="The site is being published."))
        try:
            said = self._published(case, assessment)
        except (ValueError, OSError) as why:
            said = f"The site was not written and stays as it was: {why}"
            return case, _news(case, assessment.findings, None, edited, said)
        pages = _changed_pages(self._before, case, edited)[:MOST_PAGES]
        self._before = case
        return case, replace(found, published=True, said=said, pages=pages)

    def _published(self, case: CaseText, assessment: Assessment) -> str:
        started = time.monotonic()
        pages = self._publish(case, assessment)
        self._took = time.monotonic() - started
        return f"{pages:,} pages published in {self._took:.1f} s."


def _news(
    case: CaseText,
    findings: tuple[Finding, ...],
    files: tuple[str, ...] | None,
    edited: tuple[str, ...],
    said: str,
) -> News:
    """What was found in these files, or in all of them, in a round that has not published anything yet."""
    here, elsewhere = _parted(case, findings, files)
    told = tuple(_line(case, one) for one in here[:MOST_FINDINGS])
    left_out = len(here) - len(told)
    return News(said=said, edited=edited, findings=told, left_out=left_out, elsewhere=_counted(elsewhere))


def _parted(
    case: CaseText, findings: tuple[Finding, ...], edited: tuple[str, ...] | None
) -> tuple[list[Finding], list[Finding]]:
    """The findings of the edited files, and of the records that name them; and all others."""
    if edited is None:
        return list(findings), []
    naming = _records_naming(case, edited)
    here = [one for one in findings if one.place.file in edited or one.record in naming]
    there = [one for one in findings if one.place.file not in edited and one.record not in naming]
    return here, there


def _records_naming(case: CaseText, edited: tuple[str, ...]) -> set[str]:
    return {record for (record, _), fact in case.files.items() if fact.path in edited}


def _counted(elsewhere: list[Finding]) -> str:
    blocking = sum(one.weight is Weight.BLOCKING for one in elsewhere)
    if not blocking:
        return ""
    return f"{blocking} blocking finding{'s' * (blocking > 1)} in other files."


def _line(case: CaseText, finding: Finding) -> FoundLine:
    entry = case.entries.get(finding.record)
    href = f"{address(entry.kind, entry.id)}#as-written" if entry else ""
    place = str(finding.place) if finding.place.file else ""
    return FoundLine(
        finding.weight.value,
        WEIGHT_PATHS[finding.weight],
        place,
        finding.rule,
        finding.message,
        finding.remedy,
        href,
    )


def _changed_pages(before: CaseText | None, now: CaseText, edited: tuple[str, ...]) -> tuple[PageLink, ...]:
    """The pages of the records that were edited, in the order of the files."""
    if before is None:
        return ()
    return tuple(dict.fromkeys(_each_changed_page(before, now, edited)))


def _each_changed_page(before: CaseText, now: CaseText, edited: tuple[str, ...]) -> Iterator[PageLink]:
    naming = _records_naming(now, edited)
    entries = sorted(now.entries.values(), key=lambda entry: entry.place)
    for entry in entries:
        written = entry.place.file in edited and (
            entry.id not in before.entries or before.as_written(entry.id)[1] != now.as_written(entry.id)[1]
        )
        if written or entry.id in naming:
            yield PageLink(entry.id, address(entry.kind, entry.id))
    for file in edited:
        path = Path(file)
        if file == SETTINGS_FILE:
            yield PageLink(file, f"{FIRST_PAGE}.html")
        elif path.suffix == ".md" and path.is_relative_to(now.settings.docs_dir):
            inside = path.relative_to(now.settings.docs_dir).with_suffix(".html").as_posix()
            yield PageLink(file, f"guide/{inside}")
