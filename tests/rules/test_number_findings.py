"""Findings about numbers in a whole case: one fault is told once, and what is left out lifts nothing."""

from base_case import assessed

from assurance.model.verdicts import Verdict, Weight

COUPONS = """
calculations:
  coupon-strength:
    title: Strength of twenty coupons
    method: allowables
    inputs:
      values: {file: data/coupons.csv, column: strength, unit: MPa}
      batch: {file: data/coupons.csv, column: plate}
    author: ben
    checker: ann
materials:
  plate:
    title: Aluminium plate
    properties: {yield_strength: {result: coupon-strength.a_basis, basis: A, origin: plate-certificate}}
"""
LISTED = """
evidence:
  plate-certificate:
    title: Twenty coupons cut from the plate
    kind: data
    state: issued
    producer: cleo
    files: [{file: data/coupons.csv}]
"""


def told(assessment):
    return [(one.rule, one.record) for one in assessment.findings]


def test_a_data_file_that_no_evidence_lists_makes_the_top_claim_provisional(tmp_path):
    found = assessed(tmp_path / "case", COUPONS)
    assert told(found) == [("file-without-digest", "coupon-strength")]
    assert found.findings[0].weight is Weight.NOTE
    assert found.verdicts["safe"] is Verdict.PROVISIONAL


def test_a_data_file_listed_without_a_digest_is_told_of_its_evidence_alone(tmp_path):
    found = assessed(tmp_path / "case", COUPONS + LISTED)
    assert told(found) == [("file-without-digest", "plate-certificate")]
    assert found.verdicts["safe"] is Verdict.PROVISIONAL


def test_a_file_that_is_gone_is_told_once_of_the_calculation(tmp_path):
    found = assessed(tmp_path / "case", COUPONS.replace("data/coupons.csv", "data/gone.csv"))
    assert told(found).count(("result-not-worked-out", "coupon-strength")) == 1


def test_without_a_factor_of_safety_the_top_claim_is_open(tmp_path):
    special = "factors: {ultimate: {title: One, kind: special, value: 1.5, source: Policy}}\n"
    found = assessed(tmp_path / "case", special)
    assert told(found) == [("outside-method-limits", "step-strength")]
    assert found.verdicts["safe"] is Verdict.OPEN


def test_a_check_of_what_is_not_governed_is_not_made(tmp_path):
    squeezed = """
calculations:
  step-strength:
    title: Reserve factor of the step by hand
    method: reserve_factors
    inputs: {applied: -100 MPa, allowable: {material: plate.yield_strength}, part: step, load_case: landing}
    author: ben
    checker: ann
"""
    found = assessed(tmp_path / "case", squeezed)
    assert ("check-cannot-be-made", "step-strong") in told(found)
    assert found.verdicts["safe"] is Verdict.OPEN
