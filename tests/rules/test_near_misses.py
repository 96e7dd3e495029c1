"""What the rules must not report, and what they say where one thing follows from another."""

from base_case import assessed

RETIRED = "retired: {because: no longer built, by: ann, date: 2026-02-01}"


def rules_found(folder, example, **narrowed):
    findings = assessed(folder / "case", example).findings
    return [one.rule for one in findings if all(getattr(one, k) == v for k, v in narrowed.items())]


def messages(folder, example, rule):
    return [one.message for one in assessed(folder / "case", example).findings if one.rule == rule]


def test_a_retired_record_that_nothing_needs_is_noted_and_no_more(tmp_path):
    example = f"""
claims:
  step-clean: {{statement: The step is clean., {RETIRED}}}
hazards:
  pinch: {{title: A finger is pinched, {RETIRED}}}
failure_modes:
  rail-bends: {{title: The rail bends, {RETIRED}}}
assumptions:
  dry: {{statement: It is dry., state: refuted, {RETIRED}}}
"""
    assert rules_found(tmp_path, example) == ["record-retired"] * 4


def test_adverse_evidence_that_nobody_relies_on_is_no_orphan(tmp_path):
    example = """
evidence:
  second-pull: {title: Second pull, kind: test, outcome: failed, state: issued, date: 2026-02-01,
    producer: cleo, parts: [{part: rail, issue: A, serial: R-002}], results: {set: 3 mm}}
"""
    assert rules_found(tmp_path, example) == ["evidence-adverse"]


def test_withdrawn_evidence_that_nobody_relies_on_is_only_withdrawn(tmp_path):
    example = "evidence: {old: {title: Old report, kind: analysis, state: withdrawn, producer: ben}}\n"
    assert rules_found(tmp_path, example) == ["evidence-withdrawn"]


def test_of_a_chain_out_of_reach_only_the_head_is_reported(tmp_path):
    example = """
claims:
  head: {statement: Head., argument: {because: It follows., rests_on: [middle]}, owner: ann}
  middle: {statement: Middle., argument: {because: It follows., rests_on: [end]}, owner: ann}
  end: {statement: End., argument: {because: It was inspected., rests_on: [rail-inspection]}, owner: ann}
"""
    assert rules_found(tmp_path, example) == ["claim-not-reached"]


def test_a_loop_out_of_reach_is_reported_once_as_out_of_reach(tmp_path):
    example = """
claims:
  one: {statement: One., argument: {because: It follows., rests_on: [two]}, owner: ann}
  two: {statement: Two., argument: {because: It follows., rests_on: [one]}, owner: ann}
"""
    assert sorted(rules_found(tmp_path, example)) == ["claim-not-reached", "loop"]


def test_a_claim_that_is_not_read_whole_makes_no_orphans(tmp_path):
    example = """
claims:
  fall-held-back:
    statemnt: A person on the step cannot fall off it.
    argument: {because: The rail was inspected and pulled., rests_on: [rail-inspection, rail-pull-test]}
    owner: ann
evidence:
  grit-report: {title: Grit, kind: analysis, state: issued, producer: cleo, results: {rough: 0.4 mm}}
"""
    orphans = [one for one in assessed(tmp_path / "case", example).findings if "nobody" in one.rule]
    assert [one.record for one in orphans] == ["grit-report"]


def test_a_misspelt_name_does_not_make_what_was_meant_an_orphan(tmp_path):
    example = """
claims:
  fall-held-back:
    statement: A person on the step cannot fall off it.
    argument: {because: The rail is there., rests_on: [rail-inspection, gritreport]}
    owner: ann
evidence:
  grit-report: {title: Grit, kind: analysis, state: issued, producer: cleo, results: {rough: 0.4 mm}}
"""
    assert rules_found(tmp_path, example) == ["reference-unknown"]


def test_without_a_top_claim_nothing_is_called_out_of_reach(tmp_path):
    example = "case: {step-case: {title: Box step, as_of: 2026-03-01, organisations: {works: Works}}}\n"
    found = set(rules_found(tmp_path, example))
    assert "top-claim-missing" in found
    assert not {one for one in found if one.endswith("-not-reached")}


def test_a_top_claim_that_is_not_there_is_reported_once(tmp_path):
    example = """
case:
  step-case: {title: Box step, as_of: 2026-03-01, top_claims: {use: safee}, organisations: {works: Works},
    people: {ann: {name: Ann, roles: [safety-lead]}, ben: Ben, cleo: Cleo}}
"""
    assert rules_found(tmp_path, example, record="step-case") == ["reference-unknown"]


def test_lateness_is_counted_in_days(tmp_path):
    example = """
actions:
  a: {what: Bolt it., on: step-breaks, owner: ben, due: 2026-02-28}
  b: {what: Bolt it., on: step-breaks, owner: ben, due: 2026-02-20}
"""
    assert messages(tmp_path, example, "action-late") == [
        "The action `a` is 1 day late: it was due 2026-02-28.",
        "The action `b` is 9 days late: it was due 2026-02-20.",
    ]


def test_an_action_closed_by_a_draft_does_not_count_and_says_so(tmp_path):
    example = """
actions:
  a: {what: Bolt it., on: step-breaks, owner: ben, due: 2026-02-28, done: 2026-02-20,
    closing_evidence: [photo]}
evidence:
  photo: {title: Photo, kind: data, state: draft, producer: ben}
"""
    assert messages(tmp_path, example, "action-done-without-evidence") == [
        "The action `a` is called done, but `photo` does not hold, so it does not count."
    ]


def test_an_action_without_ratings_that_lowers_severity_by_procedure_is_refused(tmp_path):
    example = """
actions:
  a: {what: Tell people., on: step-breaks, type: procedure, then: {severity: 5}, owner: ben,
    due: 2026-02-28, done: 2026-02-20, closing_evidence: [rail-inspection]}
"""
    assert messages(tmp_path, example, "rating-may-not-fall") == [
        "The cause `overload` of `step-breaks`: severity stays 9: `a` is no change of the design."
    ]


def test_two_people_of_one_organisation_are_two_people(tmp_path):
    calculation = """
calculations:
  step-strength:
    title: Reserve factor of the step by hand
    method: reserve_factors
    inputs: {applied: 100 MPa, allowable: {material: plate.yield_strength}, criterion: yield, part: step,
      load_case: landing}
    author: works
    checker: ben
"""
    assert rules_found(tmp_path, calculation) == []


def test_a_factor_that_is_only_a_limit_is_put_on_somewhere(tmp_path):
    example = """
factors:
  proof: {title: Proof factor, kind: special, value: 1.1, source: Policy, applies_to: {criteria: [proof]}}
claims:
  fall-held-back:
    statement: A person on the step cannot fall off it.
    argument:
      because: The rail was inspected, and the proof load was reached.
      checks: [{result: proof-load.ratio, at_least: proof}]
      rests_on: [rail-inspection]
    owner: ann
evidence:
  proof-load: {title: Proof load, kind: analysis, state: issued, producer: ben, results: {ratio: 1.2}}
"""
    assert rules_found(tmp_path, example) == []


def test_empty_cells_are_named_up_to_five_and_counted(tmp_path):
    parts = [f"p{i}" for i in range(4)]
    example = f"""
parts: {{{", ".join(f"{part}: {{title: Part, load_path: single}}" for part in parts)}}}
load_cases: {{push: {{title: A push, value: 1 kN}}}}
calculations:
  bracket-strength:
    title: Reserve factors
    method: reserve_factors
    table: {{file: data/hole.csv, columns: {{part: part, load_case: case}}, unit: MPa,
      load_cases: {{landing: landing, sideways: push}}}}
    criteria: [{{criterion: yield, stress: svm, allowable: plate.yield_strength}}]
    parts: [step, rail, {", ".join(parts)}]
    load_cases: [landing, push]
"""
    (message,) = messages(tmp_path, example, "empty-cell")
    assert "no row for 9 of its cells" in message
    assert message.count(" / `yield`") == 5
    assert message.endswith("and 4 more.")


def test_a_hazard_named_as_not_argued_is_not_reported_again_as_not_reached(tmp_path):
    example = f"""
hazards:
  pinch: {{title: A pinched finger, harm: A bruise, exposed: the user, causes: [the rail swings in],
    before: {{severity: Negligible, likelihood: Remote}}, claim: gap-kept, owner: ann,
    controls: {{gap: {{text: A gap, type: design, reduces: [likelihood], implemented_by: [rail-inspection],
      effective_by: [rail-pull-test]}}}},
    after: {{severity: Negligible, likelihood: Remote, controls: [gap]}}}}
claims:
  gap-kept: {{statement: The gap is kept., {RETIRED}}}
"""
    assert rules_found(tmp_path, example) == ["member-not-argued", "record-retired"]


def test_what_a_cause_weighs_follows_its_verdict(tmp_path):
    example = """
challenges:
  doubt: {against: rail-inspection, doubt: The gauge was old., state: upheld, owner: ann, raised_by: cleo}
"""
    (finding,) = assessed(tmp_path / "case", example).findings
    assert (finding.rule, finding.weight.value) == ("challenge-upheld", "caution")


def test_with_very_many_records_unread_nothing_is_called_an_orphan(tmp_path):
    stubs = "".join(f"  c{i}: {{misspelt: 1}}\n" for i in range(201))
    report = (
        "evidence: {grit: {title: Grit, kind: analysis, state: issued, producer: ben, results: {r: 1}}}\n"
    )
    assert "evidence-nobody-relies-on" in rules_found(tmp_path / "few", report + "claims: {}\n")
    assert "evidence-nobody-relies-on" not in rules_found(tmp_path / "many", report + "claims:\n" + stubs)


def test_a_reserve_factor_with_both_bounds_is_asked_on_the_safe_side(tmp_path):
    example = """
claims:
  step-strong:
    statement: The step keeps a reserve factor of at least 1.0 on landing.
    about: [step, landing]
    argument:
      because: Stress by hand against the A-basis yield strength.
      checks: [{result: step-strength.least_reserve_factor, at_least: 1.2, at_most: 9, because: policy}]
    owner: ben
"""
    assert "reserve-checked-on-the-unsafe-side" not in rules_found(tmp_path, example)
    unsafe = example.replace("at_least: 1.2, ", "")
    assert "reserve-checked-on-the-unsafe-side" in rules_found(tmp_path / "unsafe", unsafe)


def test_two_proofs_of_a_control_may_share_a_record_where_another_shows_that_it_works(tmp_path):
    example = """
hazards:
  fall:
    title: A fall from the step
    harm: Broken bones
    exposed: the person on the step
    causes: [{record: step-breaks}]
    before: {severity: Critical, likelihood: Probable}
    controls:
      rail: {text: A rail, type: design, reduces: [likelihood], implemented_by: [rail-inspection],
        effective_by: [rail-inspection, rail-pull-test]}
    after: {severity: Critical, likelihood: Remote, controls: [rail]}
    claim: fall-held-back
    owner: ann
"""
    assert rules_found(tmp_path, example) == []


def test_what_is_argued_is_not_reported_while_a_claim_cannot_be_read(tmp_path):
    example = """
claims:
  step-strong: {statement: It is strong., abuot: [step, landing], owner: ben}
"""
    assert "member-not-argued" not in rules_found(tmp_path, example)


def test_a_loop_of_calculations_is_told_once_and_not_at_the_checks_above_it(tmp_path):
    example = """
calculations:
  step-strength:
    title: Reserve factor of the step by hand
    method: reserve_factors
    inputs:
      applied: {result: step-strength.least_reserve_factor}
      allowable: {material: plate.yield_strength}
      part: step
      load_case: landing
    author: ben
    checker: ann
"""
    assert rules_found(tmp_path, example) == ["loop"]
