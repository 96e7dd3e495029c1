"""The findings as SARIF 2.1.0 (OASIS standard, 27 March 2020), which code hosts show beside the lines.

The numbers in comments are sections of that standard, from memory.
"""

import hashlib
import json
import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from assurance.model.checked import Checked
from assurance.model.verdicts import Finding, Place, Weight
from assurance.reading.source_lines import value_end
from assurance.reports.rule_texts import RuleText, rule_texts

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
LEVELS = {Weight.BLOCKING: "error", Weight.CAUTION: "warning", Weight.NOTE: "note"}  # 3.27.10
BASE = "%SRCROOT%"  # the usual name of the folder that the source tree lies in (3.14.14)
FINGERPRINT = "finding/v1"  # 3.27.17
COUNTED = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class Origin:
    """What the report says of its making: the version, and how the files of the case are found.

    `folder` leads from the folder that the report is read in to the case; empty where they are one.
    """

    version: str
    folder: str
    line_at: Callable[[Place], str | None]


def sarif_text(checked: Checked, origin: Origin) -> str:
    """The findings of a case as one SARIF log, the same text for the same findings."""
    rules = sorted({one.rule for one in checked.findings})
    run = {
        "tool": {"driver": _driver(rules, origin.version)},
        "columnKind": "utf16CodeUnits",
        "invocations": [{"executionSuccessful": True}],
        "results": list(_results(checked.findings, rules, origin)),
        "properties": {
            "case": checked.case,
            "asOf": checked.as_of.isoformat() if checked.as_of else None,
        },
    }
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(log, indent=1, ensure_ascii=False) + "\n"


def _driver(rules: Sequence[str], version: str) -> dict[str, Any]:
    texts = rule_texts()
    described = [{"id": name, **(_described(texts[name]) if name in texts else {})} for name in rules]
    return {"name": "Holdwater", "version": version, "rules": described}


def _described(rule: RuleText) -> dict[str, Any]:
    return {
        "shortDescription": {"text": rule.what},
        "fullDescription": {"text": f"{rule.what} {rule.why}"},
        "help": {"text": rule.help},
        "defaultConfiguration": {"level": LEVELS[rule.weight]},
    }


def _results(findings: Sequence[Finding], rules: Sequence[str], origin: Origin) -> Iterator[dict[str, Any]]:
    index = {name: number for number, name in enumerate(rules)}
    for finding, mark in zip(findings, fingerprints(findings), strict=True):
        yield {
            "ruleId": finding.rule,
            "ruleIndex": index[finding.rule],
            "level": LEVELS[finding.weight],
            "message": {"text": f"{finding.message} {finding.remedy}".strip()},
            "locations": list(_locations(finding.place, origin)),
            "partialFingerprints": {FINGERPRINT: mark},
            "properties": {"record": finding.record},
        }


def _locations(place: Place, origin: Origin) -> Iterator[dict[str, Any]]:
    if not place.file:
        return
    file = f"{origin.folder}/{place.file}" if origin.folder else place.file
    physical: dict[str, Any] = {"artifactLocation": {"uri": as_uri(file), "uriBaseId": BASE}}
    if place.line:
        physical["region"] = _region(place, origin.line_at(place))
    yield {"physicalLocation": physical}


def _region(place: Place, line: str | None) -> Mapping[str, int]:
    """Where the guilty value is; columns count units of UTF-16, and the end is the one after it (3.30)."""
    if line is None or not place.column:
        return {"startLine": place.line}
    end = value_end(line, place.column)
    return {
        "startLine": place.line,
        "startColumn": utf16_units(line[: place.column - 1]) + 1,
        "endColumn": utf16_units(line[: end - 1]) + 1,
    }


def utf16_units(text: str) -> int:
    """How many 16-bit units a text takes in UTF-16."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def as_uri(file: str) -> str:
    """A path as a relative URI reference (RFC 3986): every other character is percent-encoded."""
    return quote(file, safe="/", errors="surrogateescape")


def fingerprints(findings: Sequence[Finding]) -> Iterator[str]:
    """A mark for each finding that stays when lines move: rule, record or file, and words without numbers.

    Equal ones are told apart by their order.
    """
    met: Counter[tuple[str, ...]] = Counter()
    for one in findings:
        words = COUNTED.sub("0", one.message)
        named = (one.rule, one.record or one.place.file, words)
        met[named] += 1
        yield hashlib.sha256("\0".join((*named, str(met[named]))).encode("utf-8", "replace")).hexdigest()
