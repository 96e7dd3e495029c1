"""What a change to the demonstration case does to its verdicts, its missing things and its exit code."""

import pytest
from case_copy import check, copy_demo, edit, find

TOP = "fit-for-supervised-use"


@pytest.fixture
def demo(tmp_path):
    return copy_demo(tmp_path)


def above(data, claim):
    """The claims that need a claim, as far up as the top, by their own reasons."""
    found, waiting = set(), [claim]
    while waiting:
        below = waiting.pop()
        for id_, one in data["claims"].items():
            if id_ not in found and any(
                r["record"] == below and r["kind"] == "needs" for r in one["reasons"]
            ):
                found.add(id_)
                waiting.append(id_)
    return found


def test_the_demo_itself_has_no_blocking_finding_and_is_open(demo):
    data, code = check(demo)
    assert code == 0
    assert data["claims"][TOP]["verdict"] == "open"
    assert not [one for one in data["findings"] if one["weight"] == "blocking"]


def test_raising_one_limit_fails_its_claim_and_everything_above_and_stands_first(demo):
    edit(demo, "claims/motion.yml", "at_least: 1000 mm", "at_least: 1100 mm")
    data, code = check(demo)
    first = data["missing"][0]
    assert code == 1
    assert first["verdict"] == "fails"
    assert "1,100" in first["text"]
    failing = {id_ for id_, one in data["claims"].items() if one["verdict"] == "fails"}
    assert failing == {first["claim"], *above(data, first["claim"])}
    assert TOP in failing
    assert data["missing"][0]["line"] == line_of(demo, "claims/motion.yml", "at_least: 1100 mm")


def line_of(folder, file, text):
    lines = (folder / file).read_text("utf-8").splitlines()
    return next(number for number, line in enumerate(lines, 1) if text in line)


def test_a_misspelt_key_in_a_challenge_opens_the_top_claim_at_that_line(demo):
    edit(demo, "claims/durability.yml", "    raised_by: additive-lead\n", "    raised_bi: additive-lead\n")
    data, code = check(demo)
    assert code == 1
    broken = [one for one in data["claims"][TOP]["reasons"] if one["kind"] == "input-broken"]
    assert data["claims"][TOP]["verdict"] == "open"
    assert [one["line"] for one in broken] == [line_of(demo, "claims/durability.yml", "raised_bi")]


def test_a_deleted_data_file_opens_what_rests_on_it_and_is_no_traceback(demo):
    (demo / "claims/data/blade-rig.csv").unlink()
    data, _ = check(demo)
    assert data["results"]["blade-agreement.ratio"]["value"] is None
    assert data["claims"]["blade-model-agrees"]["verdict"] == "open"
    missing = {one["record"] for one in data["findings"] if one["rule"] == "file-missing"}
    assert "blade-rig-test" in missing


def test_a_broken_unit_is_a_finding_with_its_line(demo):
    edit(demo, "claims/motion.yml", "at_least: 1000 mm", "at_least: 1000 mn")
    data, code = check(demo)
    found = [one for one in data["findings"] if one["weight"] == "blocking"]
    assert code == 1
    assert [one["line"] for one in found] == [line_of(demo, "claims/motion.yml", "1000 mn")]
    assert "`mn`" in found[0]["message"]


def test_withdrawing_the_evidence_of_a_control_raises_the_risk_and_opens_the_claim(demo):
    before, _ = check(demo)
    evidence, hazard = control_evidence(before)
    withdraw(demo / find(demo, f"\n  {evidence}:\n"), evidence)
    after, _ = check(demo)
    rank = ["Eliminated", "Low", "Medium", "Serious", "High"]
    levels = [rank.index(one["hazards"][hazard]["risk_now"]["level"]) for one in (before, after)]
    assert levels[1] > levels[0]
    assert after["verdicts"][hazard] == "open"


def control_evidence(data):
    """An evidence record and a hazard that holds today and rests on it."""
    for evidence, one in sorted(data["evidence"].items()):
        for user in one["used_by"]:
            if user in data["hazards"] and data["verdicts"][user] == "holds":
                return evidence, user
    raise AssertionError("no hazard of the demo rests on evidence")


def withdraw(path, evidence):
    before, head, after = path.read_text("utf-8").partition(f"\n  {evidence}:\n")
    assert head
    path.write_text(before + head + after.replace("state: issued", "state: withdrawn", 1), "utf-8")
