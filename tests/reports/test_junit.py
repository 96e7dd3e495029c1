"""JUnit XML: by the schema of a build server, and so that its failures agree with the exit code."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree
from reported import answer, claim, finding

from assurance.model.verdicts import Verdict, Weight
from assurance.reports.junit import junit_text
from assurance.reports.weights import failing_weights

SCHEMA = etree.XMLSchema(etree.parse(Path(__file__).parent / "schemas" / "junit-10.xsd"))
FAIL_ON = ["blocking", "caution", "note", "never"]


def listed(checked, fail_on="blocking"):
    root = etree.fromstring(junit_text(checked, fails=failing_weights(fail_on)).encode("utf-8"))
    SCHEMA.assertValid(root)
    return root


def outcome(test):
    return next((kind for kind in ("failure", "skipped") if test.find(kind) is not None), "passed")


def outcomes(checked, fail_on="blocking"):
    return {test.get("name"): outcome(test) for test in listed(checked, fail_on).iter("testcase")}


def test_a_claim_is_a_test_in_the_file_that_it_is_written_in():
    test = listed(answer(claims=[claim("rail-holds")])).find(".//testcase")
    assert (test.get("classname"), test.get("name")) == ("claims/rail.yml", "rail-holds")


@pytest.mark.parametrize(
    ("fail_on", "wanted"),
    [
        ("blocking", {"fails": "failure", "open": "skipped", "late": "skipped", "maybe": "skipped"}),
        ("caution", {"fails": "failure", "open": "failure", "late": "failure", "maybe": "skipped"}),
        ("note", {"fails": "failure", "open": "failure", "late": "failure", "maybe": "failure"}),
        ("never", {"fails": "skipped", "open": "skipped", "late": "skipped", "maybe": "skipped"}),
    ],
)
def test_a_claim_that_does_not_hold_is_never_shown_as_passed(fail_on, wanted):
    words = {"fails": Verdict.FAILS, "open": Verdict.OPEN, "late": Verdict.OUT_OF_DATE,
             "maybe": Verdict.PROVISIONAL, "sound": Verdict.HOLDS}  # fmt: skip
    checked = answer(finding("check-fails", record="fails"), claims=[claim(*one) for one in words.items()])
    assert outcomes(checked, fail_on) == {**wanted, "sound": "passed"}


def test_a_finding_without_a_claim_is_a_test_named_by_rule_and_record():
    checked = answer(finding("action-late", "caution", "bolt-rail"), finding("case-missing", record=""))
    assert outcomes(checked) == {"action-late bolt-rail": "skipped", "case-missing": "failure"}


def test_findings_of_one_rule_and_record_are_one_test_that_tells_them_all():
    checked = answer(finding(message="First.", record="x"), finding(message="Second.", record="x"))
    (test,) = listed(checked).iter("testcase")
    assert "First." in test.find("failure").text
    assert "Second." in test.find("failure").text


WORDS = st.text(max_size=20)
FINDINGS = st.builds(
    finding,
    st.sampled_from(["key-unknown", "action-late"]),
    st.sampled_from(["blocking", "caution", "note"]),
    st.sampled_from(["a", "b", ""]),
    message=WORDS, remedy=WORDS, at=st.tuples(WORDS, st.integers(0, 3), st.integers(0, 3)),
)  # fmt: skip
CLAIMS = st.lists(
    st.builds(claim, st.sampled_from("abcd"), st.sampled_from(Verdict)), unique_by=lambda one: one.id
)


@given(st.lists(FINDINGS, max_size=5), CLAIMS, st.sampled_from(FAIL_ON))
def test_there_is_a_failure_exactly_where_check_exits_with_1(findings, claims, fail_on):
    # The rule of --fail-on, written out again: at least one finding as heavy as the word.
    order = ["blocking", "caution", "note"]
    heavy = fail_on != "never" and any(order.index(one.weight) <= order.index(fail_on) for one in findings)
    tests = listed(answer(*findings, claims=claims), fail_on).iter("testcase")
    assert ("failure" in map(outcome, tests)) == heavy


@given(st.lists(FINDINGS, max_size=5), CLAIMS, st.sampled_from(FAIL_ON))
def test_the_counts_are_those_of_the_tests_and_no_name_comes_twice(findings, claims, fail_on):
    root = listed(answer(*findings, claims=claims), fail_on)
    tests = list(root.iter("testcase"))
    named = [(test.get("classname"), test.get("name")) for test in tests]
    assert len(set(named)) == len(named)
    for counted in (root, root[0]):
        assert int(counted.get("tests")) == len(tests)
        assert int(counted.get("failures")) == sum(outcome(test) == "failure" for test in tests)
    assert int(root[0].get("skipped")) == sum(outcome(test) == "skipped" for test in tests)


def test_characters_that_xml_does_not_know_are_shown_as_signs():
    # XML 1.0, 2.2: no character below U+0020 but tab, line feed and return; no surrogate, no U+FFFE.
    text = junit_text(
        answer(finding(message="a\0b\x1b\ufffe\ud800]]><x>&")), fails=failing_weights("blocking")
    )
    failure = etree.fromstring(text.encode("utf-8")).find(".//failure")
    assert failure.get("message") == "a␀b␛<U+FFFE><U+D800>]]><x>&"


def test_the_text_is_the_same_each_time_and_knows_no_clock_and_no_host():
    checked = answer(finding(), claims=[claim("a")])
    text, again = (junit_text(checked, fails=frozenset(Weight)) for _ in range(2))
    assert text == again
    assert "timestamp" not in text
    assert "hostname" not in text
    assert 'value="2026-03-12"' in text
