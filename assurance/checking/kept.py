"""An answer of `check` as plain JSON and back; anything of another shape is not there."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from assurance.checking.followed import Named
from assurance.model.checked import Checked, ClaimVerdict
from assurance.model.verdicts import Finding, Place, Verdict, Weight


@dataclass(frozen=True, slots=True)
class Kept:
    """An answer with what it follows from: the texts, the files that they name, and their facts."""

    texts: str
    named: tuple[Named, ...]
    files: str
    answer: Checked


def to_plain(kept: Kept) -> dict[str, Any]:
    """A kept answer as JSON objects, lists, text and numbers."""
    answer = kept.answer
    return {
        "texts": kept.texts,
        "named": [list(one) for one in kept.named],
        "files": kept.files,
        "case": answer.case,
        "as_of": answer.as_of.isoformat() if answer.as_of else "",
        "top_claims": dict(answer.top_claims),
        "claims": [[one.id, int(one.verdict), *_plain_place(one.place)] for one in answer.claims],
        "findings": [_plain_finding(one) for one in answer.findings],
    }


def _plain_finding(one: Finding) -> list[str | int]:
    return [one.rule, one.weight.value, one.record, *_plain_place(one.place), one.message, one.remedy]


def _plain_place(place: Place) -> list[str | int]:
    return [place.file, place.line, place.column]


def from_plain(plain: Mapping[str, Any]) -> Kept | None:
    """A kept answer from JSON, or None where any part is not as it must be."""
    try:
        named = tuple((_text(start), _text(name)) for start, name in _list(plain["named"]))
        return Kept(_text(plain["texts"]), named, _text(plain["files"]), _answer(plain))
    except (KeyError, TypeError, ValueError):
        return None


def _answer(plain: Mapping[str, Any]) -> Checked:
    day = _text(plain["as_of"])
    claims = tuple([_claim(*one) for one in _list(plain["claims"])])
    tops = _tops(plain["top_claims"])
    if not {one.id for one in claims}.issuperset(tops.values()):
        raise ValueError("a top claim is no claim")
    return Checked(
        _text(plain["case"]),
        date.fromisoformat(day) if day else None,
        tops,
        claims,
        tuple([_finding(*one) for one in _list(plain["findings"])]),
    )


def _tops(given: object) -> dict[str, str]:
    if type(given) is not dict:
        raise TypeError("not a mapping")
    return {stage: _text(claim) for stage, claim in given.items()}


def _claim(id_: object, verdict: object, *place: object) -> ClaimVerdict:
    return ClaimVerdict(_text(id_), Verdict(_number(verdict)), _place(*place))


def _finding(
    rule: object, weight: object, record: object, file: object, line: object, column: object,
    message: object, remedy: object,
) -> Finding:  # fmt: skip
    place = _place(file, line, column)
    return Finding(_text(rule), Weight(_text(weight)), _text(record), place, _text(message), _text(remedy))


def _place(file: object, line: object, column: object) -> Place:
    return Place(_text(file), _number(line), _number(column))


def _list(given: object) -> list[Any]:
    if type(given) is not list:
        raise TypeError("not a list")
    return given


def _text(given: object) -> str:
    if type(given) is not str:
        raise TypeError("not a text")
    return given


def _number(given: object) -> int:
    if type(given) is not int or given < 0:
        raise TypeError("not a count")
    return given
