"""What can be found on the site by an id or a word: every record, page, rule, method and heading."""

import re
from collections.abc import Iterable, Iterator, Mapping
from html import unescape
from typing import Any

from pydantic import BaseModel

from assurance.model.assessment import Assessment
from assurance.model.kinds import KINDS, SINGULAR
from assurance.model.verdicts import ReasonKind, Verdict
from assurance.site import marks, wording
from assurance.site.links import name_of
from assurance.site.script_data import as_script
from assurance.site.sections import GROUPS

ADDRESS = "assets/find-data.js"
MOST_WORDS = 600  # characters of a record beside its id and name
ALL_WORDS = 2_000_000  # characters of all records together; more records, fewer of each
FEWEST_WORDS = 120
_HEADING = re.compile(r'<h([1-4])[^>]*?\bid="([^"]+)"[^>]*>(.*?)</h\1>', re.DOTALL)
_TAG = re.compile(r"<[^>]+>")
_BLANK = re.compile(r"\s+")
_LABELS = {"reading/rules": "Rule", "reading/methods": "Method"}


def find_script(assessment: Assessment, guide: Mapping[str, str]) -> str:
    """The data of the search as a script. `guide` holds the pages of text as HTML, by address."""
    return as_script("holdwaterFind", _data(assessment, guide))


def _data(assessment: Assessment, guide: Mapping[str, str]) -> dict[str, Any]:
    return {
        "kinds": [[kind, wording.label(SINGULAR[kind]), _states(kind)] for kind in KINDS],
        "verdicts": [[one.word, marks.css_class(one), marks.VERDICT_PATHS[one]] for one in Verdict],
        "records": list(_records(assessment)),
        "pages": [*_sections(), *_headings(guide)],
    }


def _states(kind: str) -> int:
    """Whether a record of the kind is named by a statement, not by a title."""
    return int("statement" in KINDS[kind].model_fields)


def _records(assessment: Assessment) -> Iterator[list[Any]]:
    """Kind, verdict, id, name, words that a person wrote, and words that were built of each record.

    Kinds stand in the order in which a case is read.
    """
    most = max(FEWEST_WORDS, min(MOST_WORDS, ALL_WORDS // max(1, len(assessment.entries))))
    for number, kind in enumerate(KINDS):
        for id_, entry in assessment.of_kind(kind).items():
            verdict = assessment.verdicts.get(id_)
            name = name_of(assessment, id_)
            said = _cut(_joined(text for text in _texts(entry.record) if text != name), most)
            built = _cut(_joined(_wrong(assessment, id_)), most // 2)
            yield [number, -1 if verdict is None else int(verdict), id_, name, said, built]


def _wrong(assessment: Assessment, id_: str) -> Iterator[str]:
    """What is wrong with a record itself, and what would put it right."""
    for reason in assessment.reasons.get(id_, ()):
        if reason.kind is not ReasonKind.NEEDS:
            yield from (reason.text, reason.remedy)


def _joined(texts: Iterable[str]) -> str:
    return _BLANK.sub(" ", " · ".join(dict.fromkeys(texts)))


def _texts(given: object) -> Iterator[str]:
    """Every text of a record, in the order of its fields."""
    if isinstance(given, str):
        yield given
    elif isinstance(given, BaseModel):
        for value in given.__dict__.values():
            yield from _texts(value)
    elif isinstance(given, Mapping):
        for key, value in given.items():
            yield str(key)
            yield from _texts(value)
    elif isinstance(given, tuple):
        for value in given:
            yield from _texts(value)


def _cut(text: str, most: int) -> str:
    """The text up to the last word that fits."""
    return text if len(text) <= most else text[:most].rpartition(" ")[0] or text[:most]


def _sections() -> Iterator[list[str]]:
    for group in GROUPS:
        for section in group.sections:
            yield ["Page", section.title, f"{section.name}.html"]


def _headings(guide: Mapping[str, str]) -> Iterator[list[str]]:
    """The headings of the pages of text, each with its address."""
    for name in sorted(guide):
        for _, anchor, html in _HEADING.findall(guide[name]):
            title = _BLANK.sub(" ", unescape(_TAG.sub("", html))).strip()
            if title:
                yield [_LABELS.get(name, "Guide"), title, f"{name}.html#{unescape(anchor)}"]
