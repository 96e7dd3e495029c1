import json

from published_demo import ROOT, demo

from assurance.model.assessment import ResultValue
from assurance.model.verdicts import ReasonKind
from assurance.site.data_out import _result, as_text, assessment_json
from assurance.site.published import PublishedAssessment, published_schema, schema_text


def data():
    return json.loads((demo().site / "assessment.json").read_text("utf-8"))


def test_the_data_of_the_demo_fit_the_published_description():
    PublishedAssessment.model_validate_json((demo().site / "assessment.json").read_text("utf-8"))


def test_the_text_is_json_of_the_same_data():
    wanted = assessment_json(demo().assessment, demo().case)
    assert json.loads(as_text(wanted)) == json.loads(json.dumps(wanted))


def test_the_schema_file_is_in_step_with_the_models():
    file = ROOT / "site_templates" / "assets" / "assessment.schema.json"
    assert file.read_text("utf-8") == schema_text()


def test_the_kinds_of_reasons_are_a_closed_list_in_the_schema():
    assert published_schema()["$defs"]["ReasonKind"]["enum"] == [kind.value for kind in ReasonKind]


def test_every_claim_has_a_verdict_and_reasons_at_a_line_of_a_file():
    for claim in data()["claims"].values():
        assert claim["verdict"] == "holds" or claim["reasons"]
        for reason in claim["reasons"]:
            assert (ROOT / reason["file"]).is_file()
            assert reason["line"] > 0


def test_a_result_that_cannot_be_worked_out_is_null_with_its_reason():
    results = data()["results"]
    without = [one for one in results.values() if one["value"] is None]
    assert without
    assert all(one["why_not"] for one in without)


def test_a_number_that_json_cannot_hold_is_null():
    assert _result(ResultValue(float("inf"), "kN"))["value"] is None


def test_a_solved_number_is_published_with_nine_digits():
    # 1/3 to nine and to twelve significant digits
    assert _result(ResultValue(1 / 3, "", solved=True))["value"] == 0.333333333
    assert _result(ResultValue(1 / 3, ""))["value"] == 0.333333333333


def test_risks_carry_severity_likelihood_and_level():
    hazards = data()["hazards"]
    assert len(hazards) >= 10
    assert all(set(one["risk_now"]) == {"severity", "likelihood", "level"} for one in hazards.values())
