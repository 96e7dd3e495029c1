"""SARIF 2.1.0, OASIS standard of 27 March 2020: by its own schema, and by rules of its text from memory."""

import json
from pathlib import Path
from urllib.parse import unquote

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reported import answer, claim, finding

from assurance.model.verdicts import Verdict, Weight
from assurance.reading.rules import INPUT_RULES
from assurance.reports.rule_texts import rule_texts
from assurance.reports.sarif import Origin, sarif_text, utf16_units
from assurance.rules.registry import RULES

SCHEMA = json.loads((Path(__file__).parent / "schemas" / "sarif-2.1.0.json").read_text("utf-8"))
VALIDATOR = jsonschema.Draft4Validator(SCHEMA)


def no_line(_place):
    return None


def log(*findings, line_at=no_line, folder="", **fields):
    made = json.loads(sarif_text(answer(*findings, **fields), Origin("0.1.0", folder, line_at)))
    assert not [fault.message for fault in VALIDATOR.iter_errors(made)]
    return made["runs"][0]


def results(*findings, **fields):
    return log(*findings, **fields)["results"]


def place_of(result):
    return result["locations"][0]["physicalLocation"]


def test_the_schema_refuses_what_is_no_sarif():
    made = json.loads(sarif_text(answer(finding()), Origin("0.1.0", "", no_line)))
    made["runs"][0]["results"][0]["level"] = "blocking"
    assert list(VALIDATOR.iter_errors(made))


def test_a_case_without_findings_is_a_run_without_results():
    run = log(claims=[claim("rail", Verdict.HOLDS)])
    assert run["results"] == []
    assert run["invocations"] == [{"executionSuccessful": True}]


@pytest.mark.parametrize(
    ("weight", "level"), [("blocking", "error"), ("caution", "warning"), ("note", "note")]
)
def test_a_weight_becomes_a_level(weight, level):
    assert results(finding(weight=weight))[0]["level"] == level


def test_a_result_names_its_rule_by_id_and_by_index():
    # 3.27.6 and 3.52.4, from memory: ruleIndex is the place of the rule in the rules of the driver.
    run = log(finding("key-unknown"), finding("challenge-raised"), finding("key-unknown", record="step"))
    rules = run["tool"]["driver"]["rules"]
    assert [rules[one["ruleIndex"]]["id"] for one in run["results"]] == [
        one["ruleId"] for one in run["results"]
    ]
    assert len({rule["id"] for rule in rules}) == len(rules) == 2


def test_every_rule_says_what_it_looks_for_and_how_to_put_it_right():
    names = {*(rule.name for rule in RULES), *(name for name, _ in INPUT_RULES), "input-broken"}
    rules = log(*(finding(name) for name in sorted(names)))["tool"]["driver"]["rules"]
    assert {rule["id"] for rule in rules} == names == set(rule_texts())
    for rule in rules:
        assert rule["shortDescription"]["text"].endswith(".")
        assert len(rule["fullDescription"]["text"]) <= 1024, rule["id"]  # what a code host shows, from memory
        assert rule["help"]["text"]


def test_the_message_carries_the_remedy():
    assert results(finding())[0]["message"]["text"] == "`statment` is not a field. Did you mean `statement`?"


def test_columns_count_units_of_utf_16_and_end_after_the_value():
    # 3.14.17 and 3.30.6 to 3.30.8, from memory. A letter beyond U+FFFF takes two units.
    line = "    𝄞: ann"
    region = place_of(results(finding(at=("a.yml", 2, 8)), line_at=lambda _: line)[0])["region"]
    assert region == {"startLine": 2, "startColumn": 9, "endColumn": 12}
    assert log(finding())["columnKind"] == "utf16CodeUnits"


def test_a_finding_without_its_line_has_a_region_of_the_line_only():
    assert place_of(results(finding())[0])["region"] == {"startLine": 3}


def test_a_finding_without_a_place_has_no_location():
    assert results(finding(at=("", 0, 0)))[0]["locations"] == []


@pytest.mark.parametrize(
    "name", ["claims/Lüfter 2.yml", "claims/100%.yml", "a:b.yml", "claims/#1?.yml", "日本.yml"]
)
def test_a_path_is_a_relative_uri_with_every_other_character_encoded(name):
    # RFC 3986, 4.2 and 2.1: a relative reference has no colon in its first segment.
    found = place_of(results(finding(at=(name, 1, 1)))[0])["artifactLocation"]
    assert found["uri"].isascii()
    assert not set(found["uri"]) & set(' :?#"<>')
    assert unquote(found["uri"]) == name
    assert found["uriBaseId"] == "%SRCROOT%"


def test_a_case_below_the_folder_of_the_report_is_named_with_its_way():
    assert place_of(results(finding(), folder="cases/step")[0])["artifactLocation"]["uri"] == (
        "cases/step/claims/rail.yml"
    )


def mark(**fields):
    return results(finding(**fields))[0]["partialFingerprints"]


def test_a_fingerprint_stays_when_lines_move_and_days_pass():
    assert mark(at=("claims/rail.yml", 30, 9), message="13 days late") == mark(message="14 days late")


@pytest.mark.parametrize(
    "other", [{"rule": "key-twice"}, {"record": "step"}, {"message": "`stale` is no field."}]
)
def test_a_fingerprint_tells_findings_apart(other):
    assert mark(**other) != mark()


def test_equal_findings_have_fingerprints_of_their_own():
    one, other = (each["partialFingerprints"] for each in results(finding(), finding(at=("b.yml", 1, 1))))
    assert one != other


def test_the_same_findings_give_the_same_text_which_names_no_machine():
    texts = {sarif_text(answer(finding()), Origin("0.1.0", "", no_line)) for _ in range(2)}
    assert len(texts) == 1
    assert str(Path.cwd()) not in texts.pop()


WORDS = st.text(max_size=40)


@given(rule=st.sampled_from(sorted(rule_texts())), message=WORDS, remedy=WORDS, file=WORDS, record=WORDS,
       line=st.integers(0, 9), column=st.integers(0, 99), written=st.none() | WORDS,
       weight=st.sampled_from(list(Weight)))  # fmt: skip
def test_any_finding_gives_sarif(rule, message, remedy, file, record, line, column, written, weight):
    one = finding(rule, weight, record, message=message, remedy=remedy, at=(file, line, column))
    results(one, line_at=lambda _: written)


def test_units_of_utf_16_are_counted():
    # RFC 2781, 2.1: a character beyond U+FFFF is a pair.
    assert [utf16_units(text) for text in ("", "ab", "é", "𝄞", "\ud800")] == [0, 2, 1, 2, 1]
