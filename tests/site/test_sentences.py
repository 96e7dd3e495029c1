"""The verdict of a claim in one sentence, by the kind of what keeps it from holding."""

import re

import pytest

from assurance.assess import assess
from assurance.reading import read_case
from assurance.site.sentences import claim_sentence
from assurance.site.view import View

CASE = """\
case: {c: {title: A case, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: {name: Lead}}}}
claims:
  top:
    statement: It holds.
    owner: lead
    {more}
    argument: {because: Shown., checks: {checks}, rests_on: [{rests_on}]}
evidence:
  good: {title: Good, kind: analysis, state: issued, date: 2026-01-01, results: {r: 2 kN, s: 3 kN}}
  draft: {title: Draft, kind: analysis, state: draft, date: 2026-01-01, results: {r: 2 kN}}
"""
ONE = "[{result: good.r, at_least: 1 kN, because: asked}]"
TWO = "[{result: good.r, at_least: 1 kN, because: asked}, {result: good.s, at_least: 1 kN, because: asked}]"
ASSUMED = "assumptions: {guess: {statement: So it is., owner: lead}}\n"
DOUBT = "challenges: {doubt: {against: top, doubt: Is it?, owner: lead}}\n"
UPHELD = "challenges: {doubt: {against: top, doubt: Is it?, owner: lead, state: upheld}}\n"
RISK = "hazards: {fall: {title: Fall, claim: top, before: {severity: Critical, likelihood: Remote}}}\n"
SUB = "  sub: {statement: Later., owner: lead, undeveloped: {because: later, owner: lead}}\n"
SAID = [
    (ONE, "good", "", "", "The check passes and everything it rests on is current."),
    ("[]", "good", "", "", "Everything it rests on is current."),
    (ONE, "good", "", DOUBT, "The check passes, but the challenge doubt has no answer."),
    (ONE, "good", "", UPHELD, "The challenge doubt is upheld."),
    (TWO, "good", "assumes: [guess]", ASSUMED,
     "Both checks pass, but it assumes guess, which nobody has confirmed."),
    ("[]", "draft", "", "", "It rests on draft, which is a draft."),
    (ONE, "draft", "", "", "The check passes, but it rests on draft, which is a draft."),
    (ONE, "good", "", RISK, "The check passes, but the hazard fall is open."),
]  # fmt: skip


def sentence(tmp_path, text):
    (tmp_path / "claims").mkdir()
    (tmp_path / "claims" / "case.yml").write_text(text)
    case = read_case(tmp_path)
    assert not case.findings
    assessment = assess(case)
    view = View(case, assessment, "")
    return re.sub("<[^>]+>", "", claim_sentence(view, "top", assessment.verdicts["top"]))


@pytest.mark.parametrize(("checks", "rests_on", "more", "records", "said"), SAID)
def test_the_sentence_names_what_is_in_the_way_by_its_kind(tmp_path, checks, rests_on, more, records, said):
    text = CASE.replace("{checks}", checks).replace("{rests_on}", rests_on)
    text = text.replace("    {more}\n", f"    {more}\n" if more else "")
    assert sentence(tmp_path, text + records) == said


def test_a_claim_beneath_is_named_with_its_verdict(tmp_path):
    text = CASE.replace("{checks}", ONE).replace("{rests_on}", "sub, good").replace("    {more}\n", "")
    text = text.replace("evidence:\n", SUB + "evidence:\n")
    assert sentence(tmp_path, text) == "The check passes, but it rests on sub, which is open."


def test_several_claims_beneath_stand_in_one_sentence(tmp_path):
    more = SUB.replace("sub:", "other:") + SUB.replace("sub:", "third:")
    text = (
        CASE.replace("{checks}", "[]").replace("{rests_on}", "sub, other, third").replace("    {more}\n", "")
    )
    text = text.replace("evidence:\n", SUB + more + "evidence:\n")
    assert sentence(tmp_path, text) == "It rests on sub, other and one more, which are open."
