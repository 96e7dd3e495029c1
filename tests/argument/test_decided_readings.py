"""The decided readings of the rules of verdicts, each as a few lines of YAML and what must follow."""

import pytest
from written_case import HEAD, SOUND, assess_text, claim

from assurance.model.verdicts import ReasonKind, Verdict

HOLDS, PROVISIONAL, OUT_OF_DATE, OPEN, FAILS = Verdict
TOP = "claims:\n" + claim("top")


def check(limit, more="because: agreed"):
    return (
        "claims:\n  top:\n    statement: It is so.\n    owner: ann\n    argument:\n      because: Shown.\n"
        f"      checks: [{{result: report.load, {limit}{', ' + more if more else ''}}}]\n"
    )


def report(fields):
    return f"evidence:\n  report: {{title: A report, kind: analysis, state: issued, {fields}}}\n"


def verdict_of(folder, *text):
    return assess_text(folder, text).verdicts["top"]


def kinds(assessment, record="top"):
    return {reason.kind for reason in assessment.reasons.get(record, ())}


def test_a_claim_on_sound_evidence_holds(tmp_path):
    assert verdict_of(tmp_path, TOP, SOUND) == HOLDS


@pytest.mark.parametrize(
    ("limit", "verdict"),
    [
        ("at_least: 5 kN", HOLDS),
        ("at_least: 5000.0001 N", FAILS),
        ("at_most: 0.005 MN", HOLDS),
        ("at_least: 4 kN, at_most: 4.9 kN", FAILS),
        ("at_least: 5 MPa", OPEN),
        ("at_least: nowhere", OPEN),
    ],
)
def test_a_check_compares_in_one_unit_and_is_open_where_it_cannot(tmp_path, limit, verdict):
    assert verdict_of(tmp_path, check(limit), SOUND) == verdict


@pytest.mark.parametrize(
    ("more", "verdict"),
    [
        ("because: agreed", FAILS),
        ("because: the mean is asked, judge_by: nominal", HOLDS),
        ("judge_by: nominal", FAILS),
    ],
)
def test_the_adverse_end_of_an_interval_is_compared_unless_a_reason_is_given(tmp_path, more, verdict):
    text = (check("at_least: 4.9 kN", more), report("results: {load: 5 +/- 0.2 kN}"))
    assert verdict_of(tmp_path, *text) == verdict


def test_a_limit_without_a_reason_is_open_and_a_failing_one_still_fails(tmp_path):
    assert verdict_of(tmp_path, check("at_least: 4 kN", ""), SOUND) == OPEN
    assert verdict_of(tmp_path, check("at_least: 6 kN", ""), SOUND) == FAILS


@pytest.mark.parametrize(
    ("fields", "verdict"),
    [
        ("results: {load: 5 kN}", HOLDS),
        ("revision: A", PROVISIONAL),  # issued, but neither file nor result: read as a draft
        ("results: {load: 5 kN}, superseded_by: newer", OUT_OF_DATE),
        ("results: {load: 5 kN}, outcome: inconclusive", OPEN),
        ("results: {load: 5 kN}, outcome: stopped early", OPEN),
        ("results: {load: 5 kN}, anomalies: [{what: noise, disposition: harmless}]", OPEN),
        ("files: [gone.csv]", OPEN),
    ],
)
def test_what_evidence_says_of_itself_reaches_the_claim(tmp_path, fields, verdict):
    newer = "evidence:\n  newer: {title: New, kind: analysis, state: issued, results: {load: 5 kN}}\n"
    assert verdict_of(tmp_path, TOP, report(fields), newer) == verdict


def test_a_file_without_digest_is_provisional_and_with_another_out_of_date(tmp_path):
    (tmp_path / "claims").mkdir()
    (tmp_path / "claims" / "data.csv").write_text("a\n1\n")
    assert verdict_of(tmp_path, TOP, report("files: [data.csv]")) == PROVISIONAL
    digest = "0" * 64
    named = report(f"files: [{{file: data.csv, sha256: '{digest}'}}]")
    assert verdict_of(tmp_path, TOP, named) == OUT_OF_DATE


def test_a_test_that_leaves_out_its_serial_opens_what_rests_on_it(tmp_path):
    fields = "outcome: passed, date: 2026-01-01, results: {load: 5 kN}, parts: [{part: p, issue: A%s}]"
    parts = "parts:\n  p: {title: P}\n"
    text = report(fields).replace("analysis", "test")
    assert verdict_of(tmp_path, TOP, text % "", parts) == OPEN
    assert verdict_of(tmp_path, TOP, text % ", serial: S1", parts) == HOLDS


def test_adverse_evidence_opens_claims_of_its_part_that_do_not_rest_on_it(tmp_path):
    parts = "parts:\n  p: {title: P, part_of: whole}\n  q: {title: Q}\n  whole: {title: W}\n"
    claims = "claims:\n" + claim("top", rests_on="on-p, on-q, on-whole, other")
    claims += claim("on-p", "about: [p], quantity: strength") + claim("on-q", "about: [q]")
    claims += claim("on-whole", "about: [whole]") + claim("other", "about: [p], quantity: grip")
    bad = "evidence:\n  bad: {title: Bad, kind: test, outcome: failed, state: withdrawn, quantity: strength, "
    bad += "date: 2026-01-01, parts: [{part: p, issue: A, serial: '1'}]}\n"
    found = assess_text(tmp_path, (claims, SOUND, parts, bad)).verdicts
    assert [found[one] for one in ("top", "on-p", "on-whole")] == [OPEN] * 3
    assert [found[one] for one in ("on-q", "other")] == [HOLDS] * 2


@pytest.mark.parametrize(
    ("state", "verdict"),
    [
        ("state: raised", OPEN),
        ("state: upheld", FAILS),
        ("state: answered", OPEN),
        ("state: answered, answer_rests_on: [report]", HOLDS),
        ("state: answered, answer_rests_on: [draft]", PROVISIONAL),
    ],
)
def test_a_challenge_opens_fails_or_frees_its_claim(tmp_path, state, verdict):
    doubt = f"challenges:\n  d: {{against: top, doubt: Is it?, owner: ben, {state}}}\n"
    draft = "evidence:\n  draft: {title: D, kind: analysis, results: {load: 1 kN}}\n"
    assert verdict_of(tmp_path, TOP, SOUND, doubt, draft) == verdict


def test_a_doubt_about_a_part_can_be_answered_by_evidence_about_that_part(tmp_path):
    parts = "parts:\n  p: {title: P}\n"
    about = report("results: {load: 5 kN}, parts: [p]")
    doubt = "challenges:\n  d: {against: p, doubt: Is it?, owner: ben, state: %s}\n"
    assert verdict_of(tmp_path, TOP, about, parts, doubt % "raised") == OPEN
    answered = doubt % "answered, answer_rests_on: [report]"
    assert verdict_of(tmp_path, TOP, about, parts, answered) == HOLDS


@pytest.mark.parametrize(
    ("state", "verdict"),
    [
        ("state: unconfirmed", PROVISIONAL),
        ("state: confirmed", PROVISIONAL),
        ("state: confirmed, confirmed_by: [report]", HOLDS),
        ("state: confirmed, confirmed_by: [report], review_date: 2026-03-12", HOLDS),
        ("state: confirmed, confirmed_by: [report], review_date: 2026-03-11", OUT_OF_DATE),
        ("state: refuted", OPEN),
    ],
)
def test_an_assumption_is_worth_what_confirms_it(tmp_path, state, verdict):
    assumed = f"assumptions:\n  a: {{statement: It is dry., owner: ben, {state}}}\n"
    text = "claims:\n" + claim("top", "assumes: [a]")
    assert verdict_of(tmp_path, text, SOUND, assumed) == verdict


def test_a_refuted_assumption_opens_the_claims_beneath_as_well(tmp_path):
    claims = "claims:\n" + claim("top", "assumes: [a]", rests_on="below") + claim("below")
    refuted = "assumptions:\n  a: {statement: It is dry., owner: ben, state: refuted}\n"
    assert assess_text(tmp_path, (claims, SOUND, refuted)).verdicts["below"] == OPEN


def test_what_no_link_reaches_the_top_claim_needs_all_the_same(tmp_path):
    claims = TOP + "  lost: {statement: Not argued., owner: ann, undeveloped: {because: later}}\n"
    found = assess_text(tmp_path, (claims, SOUND))
    assert found.verdicts["top"] == OPEN
    retired = claims.replace(
        "undeveloped", "retired: {because: gone, by: ann, date: 2026-01-01}, undeveloped"
    )
    assert verdict_of(tmp_path, retired, SOUND) == HOLDS


def test_a_load_case_that_nothing_beneath_speaks_of_opens_the_top_claim(tmp_path):
    cases = "load_cases:\n  lc: {title: Landing}\n"
    found = assess_text(tmp_path, (TOP, SOUND, cases))
    assert kinds(found) == {ReasonKind.MEMBER_NOT_ARGUED}
    assert verdict_of(tmp_path, "claims:\n" + claim("top", "about: [lc]"), SOUND, cases) == HOLDS


def test_no_day_opens_the_top_claim(tmp_path):
    head = HEAD.replace("    as_of: 2026-03-12\n", "")
    found = assess_text(tmp_path, (TOP, SOUND), head=head)
    assert kinds(found) == {ReasonKind.DATE_MISSING}


def test_without_an_owner_a_claim_is_open(tmp_path):
    assert verdict_of(tmp_path, TOP.replace("owner: ann, ", ""), SOUND) == OPEN


def test_of_alternatives_one_that_fails_keeps_the_claim_open(tmp_path):
    text = (
        "claims:\n  top:\n    statement: It is so.\n    owner: ann\n    holds_if: any\n    arguments:\n"
        "      one: {because: Shown., rests_on: [report]}\n"
        "      two: {because: Shown., checks: [{result: report.load, at_least: %s, because: agreed}]}\n"
    )
    assert verdict_of(tmp_path, text % "4 kN", SOUND) == HOLDS
    failing = assess_text(tmp_path, (text % "6 kN", SOUND))
    assert failing.verdicts["top"] == OPEN
    assert [one.kind for one in failing.missing] == [ReasonKind.ALTERNATIVE_FAILS]


def test_an_action_needed_first_opens_its_target_until_it_is_shown(tmp_path):
    action = "actions:\n  a: {what: Do it, on: top, owner: ben, needed_before: use%s}\n"
    assert verdict_of(tmp_path, TOP, SOUND, action % "") == OPEN
    assert verdict_of(tmp_path, TOP, SOUND, action % ", done: 2026-03-01") == OPEN
    shown = ", done: 2026-03-01, closing_evidence: [report]"
    assert verdict_of(tmp_path, TOP, SOUND, action % shown) == HOLDS
    assert verdict_of(tmp_path, TOP, SOUND, action % shown.replace("03-01", "03-13")) == OPEN


def test_missing_lists_the_worst_first_and_counts_what_each_frees(tmp_path):
    claims = "claims:\n" + claim("top", rests_on="one, two") + claim("one", rests_on="draft")
    claims += claim("two", rests_on="withdrawn") + claim("three", rests_on="withdrawn")
    bad = "evidence:\n  draft: {title: D, kind: analysis, results: {load: 1 kN}}\n"
    bad += "  withdrawn: {title: W, kind: analysis, results: {load: 1 kN}, state: withdrawn}\n"
    found = assess_text(tmp_path, (claims, bad))
    assert [(one.record, one.frees) for one in found.missing] == [("withdrawn", 3), ("draft", 1)]
    assert [one.claim for one in found.missing] == ["three", "one"]


def test_a_retirement_counts_from_its_date_on(tmp_path):
    text = TOP + (
        "  lost: {statement: Not argued., owner: ann, undeveloped: {because: later}, "
        "retired: {because: gone, by: ann, date: %s}}\n"
    )
    assert verdict_of(tmp_path, text % "2026-03-12", SOUND) == HOLDS
    assert verdict_of(tmp_path, text % "2026-03-13", SOUND) == OPEN


def test_a_hazard_that_a_living_claim_speaks_of_cannot_be_retired(tmp_path):
    claims = "claims:\n" + claim("top", "about: [h]")
    hazard = "hazards:\n  h: {title: H, owner: ann, retired: {because: gone, by: ann, date: 2026-01-01}}\n"
    assert assess_text(tmp_path, (claims, SOUND, hazard)).verdicts["h"] == OPEN
    assert verdict_of(tmp_path, claims, SOUND, hazard) == OPEN


def test_evidence_dated_after_the_day_is_not_there_yet(tmp_path):
    assert verdict_of(tmp_path, TOP, report("date: 2026-03-12, results: {load: 5 kN}")) == HOLDS
    assert verdict_of(tmp_path, TOP, report("date: 2026-03-13, results: {load: 5 kN}")) == OPEN


@pytest.mark.parametrize("against", ["d", "lonely", "p9"])
def test_a_doubt_that_nothing_passes_on_reaches_the_top_claim(tmp_path, against):
    lonely = "evidence:\n  lonely: {title: L, kind: analysis, state: issued, results: {load: 1 kN}}\n"
    parts = "parts:\n  p9: {title: P}\n"
    doubt = f"challenges:\n  d: {{against: {against}, doubt: Is it?, owner: ben}}\n"
    assert verdict_of(tmp_path, TOP, SOUND, lonely, parts, doubt) == OPEN


def test_a_limit_is_one_number(tmp_path):
    assert verdict_of(tmp_path, check("at_least: 4 +/- 1 kN"), SOUND) == OPEN
    required = "requirements:\n  least: {statement: Least., value: 4 +/- 1 kN}\n"
    assert verdict_of(tmp_path, check("at_least: least", ""), SOUND, required) == OPEN


BY_HAND = """\
parts:
  p: {title: P, load_path: redundant}
materials:
  m: {title: M, properties: {s: {value: 300 MPa, basis: A, source: agreed}}}
factors:
  f: {title: F, kind: safety, value: 1.5, source: agreed}
load_cases:
  lc: {title: Landing}
calculations:
  sum:
    title: By hand
    method: reserve_factors
    inputs: {applied: %s, allowable: {material: m.s}, part: p, load_case: lc, criterion: ultimate}
claims:
  top:
    statement: It is strong.
    owner: ann
    argument:
      because: By hand.
      over: load_cases
      checks: [{result: sum.least_reserve_factor, at_least: 1.0, because: agreed}]
"""


def test_a_check_of_a_result_that_is_not_defined_does_not_hold(tmp_path):
    assert verdict_of(tmp_path, BY_HAND % "100 MPa") == HOLDS
    pushed = assess_text(tmp_path, (BY_HAND % "-100 MPa",))
    assert pushed.verdicts["top"] == OPEN
    assert [one.kind for one in pushed.missing] == [ReasonKind.CHECK_CANNOT_BE_MADE]
    assert pushed.missing[0].frees == 1


def test_a_calculation_that_fails_is_one_thing_to_put_right(tmp_path):
    broken = assess_text(tmp_path, (BY_HAND % "100 kg",))
    assert [(one.kind, one.frees) for one in broken.missing] == [(ReasonKind.RESULT_NOT_WORKED_OUT, 1)]


def test_no_claim_holds_while_a_check_of_it_was_not_made(tmp_path):
    for applied in ("100 MPa", "0 MPa", "-5 MPa", "1 kg", "{result: report.load}", "{result: no.such}"):
        found = assess_text(tmp_path, (BY_HAND % applied, SOUND))
        made = {one.verdict for one in found.checks.get("top", ())}
        assert found.verdicts["top"] != HOLDS or made == {HOLDS}
