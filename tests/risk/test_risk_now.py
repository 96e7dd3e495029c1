"""Risk now: which stated rating stands for the controls that count, and what they may lower."""

import pytest
from written_case import SOUND, assess_text, claim

TOP = "claims:\n" + claim("top")
DRAFT = "evidence:\n  draft: {title: D, kind: analysis, results: {load: 1 kN}}\n"
HAZARD = """\
hazards:
  h:
    title: It falls
    owner: ann
    claim: top
    before: {severity: Critical, likelihood: Probable}
    controls:
      a: {text: A, type: %s, reduces: [%s], implemented_by: [report], effective_by: [report]}
      b: {text: B, type: procedure, reduces: [likelihood], implemented_by: [%s], effective_by: [report]}
    after: {severity: %s, likelihood: %s, controls: [a, b]}
"""


def hazard(kind="design", reduces="likelihood", proof="report", after=("Critical", "Remote"), more=""):
    return HAZARD % (kind, reduces, proof, *after) + more


def now(folder, text, *more):
    rated = assess_text(folder, (TOP, SOUND, DRAFT, text, *more)).hazards["h"].now
    return (rated.severity, rated.likelihood, rated.level)


def test_with_every_control_shown_the_risk_after_stands(tmp_path):
    assert now(tmp_path, hazard()) == ("Critical", "Remote", "Medium")


def test_with_one_control_lost_the_risk_before_stands_unless_the_rest_is_rated(tmp_path):
    rated = "    risk_with: [{severity: Critical, likelihood: Occasional, controls: [a]}]\n"
    assert now(tmp_path, hazard(proof="draft")) == ("Critical", "Probable", "High")
    assert now(tmp_path, hazard(proof="draft", more=rated)) == ("Critical", "Occasional", "Serious")


@pytest.mark.parametrize(
    ("kind", "reduces", "severity"),
    [
        ("design", "severity", "Marginal"),
        ("safeguard", "severity", "Marginal"),
        ("design", "likelihood", "Critical"),
        ("warning", "severity", "Critical"),  # MIL-STD-882E 4.3.3.b and 4.3.4, quoted in public texts
    ],
)
def test_severity_falls_by_design_or_a_safeguard_that_reduces_it(tmp_path, kind, reduces, severity):
    assert now(tmp_path, hazard(kind, reduces, after=("Marginal", "Remote")))[0] == severity


@pytest.mark.parametrize(("kind", "likelihood"), [("design", "Eliminated"), ("safeguard", "Probable")])
def test_only_design_eliminates(tmp_path, kind, likelihood):
    assert now(tmp_path, hazard(kind, after=("Critical", "Eliminated")))[1] == likelihood


def test_of_two_ratings_for_one_set_the_worse_stands(tmp_path):
    twice = "    risk_with: [{severity: Critical, likelihood: Occasional, controls: [b, a]}]\n"
    assert now(tmp_path, hazard(more=twice)) == ("Critical", "Occasional", "Serious")


@pytest.mark.parametrize("against", ["h", "h.a"])
def test_a_challenge_to_the_hazard_or_to_a_control_brings_the_risk_back(tmp_path, against):
    doubt = f"challenges:\n  d: {{against: {against}, doubt: Does it?, owner: ben}}\n"
    assert now(tmp_path, hazard(), doubt) == ("Critical", "Probable", "High")


def test_a_scheme_in_which_worse_is_milder_cannot_be_used(tmp_path):
    scheme = (
        "risk_scheme:\n  own: {title: Own, severities: [Critical, Slight], likelihoods: [Probable, Remote], "
        "levels: [Stop, Go], matrix: {Probable: [Go, Stop], Remote: [Stop, Go]}}\n"
    )
    found = assess_text(tmp_path, (TOP, SOUND, DRAFT, hazard(), scheme))
    assert found.scheme.title == "MIL-STD-882E"
    assert "milder" in found.reasons["own"][0].text
