"""Nobody gains by leaving something out: one deletion or one retyped word does not lift the top claim.

`open` and `fails` count alike here, since neither allows a use: whatever a failing check needs may
be left out, and then the check cannot be made.
"""

import os
import random
import re
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from plain_case import PlainCase
from random_cases import random_case

from assurance.assess import assess
from assurance.reading import read_case

CASES = int(os.environ.get("HOLDWATER_LEAVING_OUT_CASES", "160"))
AT_ONCE = 20
EDITS_EACH = 4
Way = tuple[str | int, ...]

# What may lift the top claim when it is left out, because a case without it is a case somebody could
# have written honestly. Only an earlier state of the case would show it. Nothing else may lift it.
MAY_LIFT = {
    r"(challenges|actions)\.\*": "a doubt or a task that nothing else names",
    r"actions\.\*\.needed_before": "the word that makes a task hold up the use",
    r"(claims|hazards|assumptions|failure_modes|evidence)\.\*": "a whole record that nothing names",
    r"(conditions|load_cases|parts|factors)\.\*": "a whole record that nothing names but all must meet",
    r"evidence\.\*\.(anomalies|anomalies\.\*|state|superseded_by)": "a word against the evidence",
    r"evidence\.\*\.(files|files\.\*|files\.\*\.sha256)": "a file that is gone or differs, or its digest",
    r"assumptions\.\*\.(review_date|state)": "a date that is past, the word `refuted`",
    r"claims\.\*\.(argument|arguments\.\*)\.(rests_on|checks)(\.\*)?": "one support among several",
    r"claims\.\*\.(argument|arguments\.\*)\.over(\..*)?": "the set that the argument says it covers",
    r"claims\.\*\.(argument|arguments\.\*)\.checks\.\*\.judge_by": "`nominal` without a reason",
    r"claims\.\*\.arguments(\..*)?": "an alternative, or what makes it fail",
    r"claims\.\*\.(about|context)(\.\*)?": "the part or context in doubt that the claim names",
    r"claims\.\*\.undeveloped": "the admission that an argument given is not all",
    r"(claims|hazards|assumptions|failure_modes)\.\*\.retired(\..*)?": "a record taken back into the case",
    r"hazards\.\*\.(claim|controls\.\*|causes|causes\.\*|causes\.\*\.record)": "one link of several",
    r"(evidence|calculations)\.\*\.(parts|load_cases)(\.\*)?": "the part or load case in doubt it names",
    r"(failure_modes\.\*\.scale|load_cases\.\*\.already_in(\.\*)?)": "the scale or factor in doubt it names",
    r"materials\.\*\.properties\.\*\.origin": "the report in doubt that it names",
}
NAMED = {"results", "properties", "controls", "arguments", "people"}  # mappings by a free name


def deletions(records: dict[str, Any]) -> list[Way]:
    """Every record, field and list entry that can be taken out."""

    def below(node: Any, way: Way) -> list[Way]:
        items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
        return [found for key, inner in items for found in [(*way, key), *below(inner, (*way, key))]]

    return [way for way in below(records, ()) if len(way) > 2 or (len(way) == 2 and way[0] != "case")]


def without(case: PlainCase, way: Way) -> PlainCase:
    """The case with one thing taken out."""
    edited = deepcopy(case)
    holder: Any = edited.records
    for key in way[:-1]:
        holder = holder[key]
    del holder[way[-1]]
    return edited


def kind_of(way: Way) -> str:
    """A way with ids and positions left open: `claims.*.argument.rests_on.*`."""
    words = [
        "*" if isinstance(key, int) or way[i] in NAMED or i == 0 else str(key)
        for i, key in enumerate(way[1:])
    ]
    return ".".join([str(way[0]), *words])


def may_lift(way: Way) -> bool:
    return any(re.fullmatch(pattern, kind_of(way)) for pattern in MAY_LIFT)


def badness(case: PlainCase, folder: Path) -> int:
    """0 where the top claim holds, 3 where it is open, fails or is not named."""
    built = assess(read_case(case.write(folder)))
    tops = list(built.top_claims.values())
    return min(3, max((int(built.verdicts.get(top, 3)) for top in tops), default=3))


def whole_cases(first: int) -> list[tuple[int, PlainCase]]:
    """Random cases of which every record can be read, so that a deletion mends no input."""
    cases = [(seed, random_case(seed)) for seed in range(first, min(first + AT_ONCE, CASES))]
    return [(seed, case) for seed, case in cases if not (case.misspelt or case.dangling or case.unreadable)]


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, CASES, AT_ONCE))
def test_one_deletion_does_not_lift_the_top_claim(first: int, tmp_path: Path) -> None:
    lifted = []
    for seed, case in whole_cases(first):
        before = badness(case, tmp_path / f"{seed}")
        ways = [way for way in deletions(case.records) if before and not may_lift(way)]
        for i, way in enumerate(random.Random(seed).sample(ways, min(EDITS_EACH, len(ways)))):
            if badness(without(case, way), tmp_path / f"{seed}-{i}") < before:
                lifted.append((seed, way))
    assert lifted == []


def retypings(case: PlainCase) -> list[tuple[PlainCase, PlainCase]]:
    """The case with one word typed that has no ground, beside the case without the word."""
    edits = {
        "evidence": (("files", "results"), {"state": "draft"}, {"state": "issued"}),
        "assumptions": (("confirmed_by",), {"state": "unconfirmed"}, {"state": "confirmed"}),
        "challenges": (("answer_rests_on",), {"state": "raised"}, {"state": "answered", "answer": "It is."}),
        "actions": (("closing_evidence",), {}, {"done": "2026-02-02"}),
    }
    found = []
    for kind, (grounds, plain, word) in edits.items():
        for i in case.records.get(kind, {}):
            bare, typed = deepcopy(case), deepcopy(case)
            for edited, words in ((bare, plain), (typed, word)):
                record = edited.records[kind][i]
                for ground in (*grounds, "done"):
                    record.pop(ground, None)
                record.update(words)
            found.append((bare, typed))
    return found


def passed_without_more(case: PlainCase) -> list[tuple[PlainCase, PlainCase]]:
    """A test with an anomaly beside the same test with the word `passed`."""
    found = []
    for i in case.records["evidence"]:
        bare = deepcopy(case)
        bare.records["evidence"][i] |= {
            "kind": "test",
            "outcome": "failed",
            "anomalies": [{"what": "a crack"}],
        }
        typed = deepcopy(bare)
        typed.records["evidence"][i]["outcome"] = "passed"
        found.append((bare, typed))
    return found


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, CASES, AT_ONCE))
def test_a_typed_word_without_its_ground_does_not_lift_the_top_claim(first: int, tmp_path: Path) -> None:
    lifted = []
    for seed, case in whole_cases(first):
        pairs = retypings(case) + passed_without_more(case)
        for i, (bare, typed) in enumerate(random.Random(seed).sample(pairs, min(2, len(pairs)))):
            before, after = (badness(c, tmp_path / f"{seed}-{i}-{n}") for n, c in enumerate((bare, typed)))
            if after < before:
                lifted.append((seed, i))
    assert lifted == []
