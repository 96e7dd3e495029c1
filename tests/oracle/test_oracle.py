"""The builder and a second, independent reading of the rules give the same verdicts."""

import os
from pathlib import Path
from typing import Any

import pytest
from oracle_facts import Facts
from plain_case import PlainCase
from random_cases import random_case
from risk_oracle import judge_case

from assurance.assess import assess
from assurance.reading import read_case

CASES = int(os.environ.get("HOLDWATER_ORACLE_CASES", "300"))
AT_ONCE = 25
BOX = {"title": "By hand", "top_claims": {"use": "top"}, "as_of": "2026-03-12"}
GOOD = {"title": "A report", "kind": "certificate", "state": "issued", "results": {"r": {"value": "5 mm"}}}


def claim(*rests_on: str, **more: Any) -> dict[str, Any]:
    argument = {"rests_on": [{"record": i} for i in rests_on]}
    return {"statement": "So.", "owner": "lead", "argument": argument, **more}


def oracle(**records: dict[str, Any]) -> dict[str, str]:
    return judge_case(Facts({"case": {"box": BOX}, "evidence": {"e": GOOD}, **records}))[0]


def hazard(**more: Any) -> dict[str, Any]:
    control = {"type": "design", "reduces": ["likelihood"],
               "implemented_by": ["e"], "effective_by": ["e"]}  # fmt: skip
    return {"title": "Falls", "owner": "lead", "claim": "top", "controls": {"rail": control},
            "before": {"severity": "Critical", "likelihood": "Probable"},
            "after": {"severity": "Critical", "likelihood": "Remote", "controls": ["rail"]},
            **more}  # fmt: skip


def test_a_claim_on_issued_evidence_holds() -> None:
    assert oracle(claims={"top": claim("e")}) == {"box": "holds", "e": "holds", "top": "holds"}


def test_issued_with_nothing_to_show_is_read_as_draft() -> None:
    empty = {"title": "A report", "kind": "certificate", "state": "issued"}
    assert oracle(claims={"top": claim("e")}, evidence={"e": empty})["top"] == "provisional"


def test_a_claim_nobody_rests_on_still_counts_against_the_top() -> None:
    claims = {"top": claim("e"), "aside": claim()}
    assert oracle(claims=claims)["top"] == "open"
    kept = {"because": "later", "by": "lead", "date": "2026-01-01"}
    assert oracle(claims={"top": claim("e"), "aside": claim(retired=kept)})["top"] == "holds"


def test_a_loop_is_open_as_a_whole() -> None:
    claims = {"top": claim("b"), "b": claim("top", "e"), "c": claim("e")}
    assert oracle(claims=claims) == {"box": "holds", "e": "holds", "top": "open", "b": "open", "c": "holds"}


def test_a_failed_test_opens_the_top_claim_though_nobody_rests_on_it() -> None:
    failed = {"title": "T", "kind": "test", "state": "issued", "outcome": "failed", "results": {"r": {}}}
    assert oracle(claims={"top": claim("e")}, evidence={"e": GOOD, "bad": failed})["top"] == "open"


def test_an_upheld_challenge_fails_its_claim_and_opens_an_argument() -> None:
    def doubted(against: str) -> str:
        doubt = {"against": against, "state": "upheld", "owner": "lead"}
        return oracle(claims={"top": claim("e")}, challenges={"d": doubt})["top"]

    assert (doubted("top"), doubted("top.argument"), doubted("e")) == ("fails", "open", "open")


def test_the_adverse_end_of_an_interval_is_compared() -> None:
    def checked(**check: Any) -> str:
        check = {"result": "e.r", "because": "agreed", **check}
        facts = Facts({"case": {"box": BOX}, "evidence": {"e": GOOD},
                       "claims": {"top": claim(argument={"checks": [check]})}},
                      results={"e.r": (5.0, "mm", 4.8, 5.2)})  # fmt: skip
        return judge_case(facts)[0]["top"]

    assert checked(at_least={"value": "4800 um"}) == "holds"
    assert checked(at_least={"value": "4.9 mm"}) == "fails"
    assert checked(at_least={"value": "4.9 mm"}, judge_by="nominal") == "holds"
    assert checked(at_most={"value": "5.1 mm"}) == "fails"
    assert checked(at_most={"value": "6 MPa"}) == "open"
    assert checked(at_most={"value": "6 mm"}, because=None) == "open"
    assert checked(at_most={"value": "5.1 mm"}, because=None) == "fails"


def test_a_failing_alternative_keeps_the_claim_open() -> None:
    either = claim(arguments={"one": {"rests_on": [{"record": "e"}]}, "two": {"rests_on": [{"record": "b"}]}},
                   argument=None, holds_if="any")  # fmt: skip
    doubt = {"against": "b", "state": "upheld", "owner": "lead"}
    assert oracle(claims={"top": either, "b": claim()})["top"] == "holds"
    assert oracle(claims={"top": either, "b": claim()}, challenges={"d": doubt})["top"] == "open"


def test_a_refuted_assumption_opens_every_claim_beneath_the_one_that_declares_it() -> None:
    refuted = {"statement": "Calm.", "owner": "lead", "state": "refuted"}
    claims = {"top": claim("b", assumes=["a"]), "b": claim("e")}
    assert oracle(claims=claims, assumptions={"a": refuted})["b"] == "open"


def test_an_action_needed_before_use_opens_the_argument_or_control_it_names() -> None:
    def waiting(on: str) -> str:
        action = {"what": "Inspect.", "on": on, "owner": "lead", "needed_before": "use"}
        records = {"claims": {"top": claim("e")}, "hazards": {"h": hazard()}, "actions": {"t": action}}
        return oracle(**records)["top"]

    assert (waiting("e"), waiting("top.argument"), waiting("h.rail")) == ("open", "open", "open")


def test_an_action_on_a_part_may_be_closed_by_evidence_on_that_part() -> None:
    action = {
        "on": "p",
        "owner": "lead",
        "needed_before": "use",
        "done": "2026-02-02",
        "closing_evidence": ["e"],
    }
    on_part = {**GOOD, "parts": [{"part": "p"}]}
    records: dict[str, Any] = {"parts": {"p": {}}, "evidence": {"e": on_part}, "actions": {"t": action}}
    assert set(oracle(claims={"top": claim("e")}, **records).values()) == {"holds"}


def test_risk_now_falls_back_when_a_proof_is_a_draft() -> None:
    draft = {"title": "A report", "kind": "certificate"}

    def now(proof: dict[str, Any]) -> Any:
        records: dict[str, Any] = {
            "case": {"box": BOX},
            "claims": {"top": claim("e")},
            "hazards": {"h": hazard()},
        }
        return judge_case(Facts({**records, "evidence": {"e": proof}}))[1]["h"]

    assert now(GOOD) == ("Critical", "Remote", "Medium")
    assert now(draft) == ("Critical", "Probable", "High")


def disagreements(case: PlainCase, folder: Path) -> list[str]:
    """Every verdict and every risk on which the builder and the oracle differ."""
    built = assess(read_case(case.write(folder)))
    verdicts, risks = judge_case(case.facts())
    said = {i: verdict.word for i, verdict in built.verdicts.items()}
    found = [
        f"`{i}`: builder {said.get(i)}, oracle {word}" for i, word in verdicts.items() if said.get(i) != word
    ]
    for i, risk in risks.items():
        now = built.hazards[i].now if i in built.hazards else None
        if (now and (now.severity, now.likelihood, now.level)) != risk:
            found.append(f"`{i}`: risk now, builder {now}, oracle {risk}")
    return found


@pytest.mark.parametrize("first", range(0, CASES, AT_ONCE))
def test_builder_and_oracle_agree_on_random_cases(first: int, tmp_path: Path) -> None:
    seeds = range(first, min(first + AT_ONCE, CASES))
    differ = {seed: disagreements(random_case(seed), tmp_path / str(seed)) for seed in seeds}
    assert {seed: found for seed, found in differ.items() if found} == {}


def test_random_cases_reach_every_verdict_at_the_top() -> None:
    reached = {judge_case(case.facts())[0][case.top] for case in map(random_case, range(300))}
    assert reached == {"holds", "provisional", "out of date", "open", "fails"}
