"""The commands as a newcomer meets them, wrong input included."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from assurance.cli import main


@pytest.fixture(autouse=True)
def own_cache(tmp_path_factory, monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path_factory.mktemp("cache")))


def run(*words):
    return CliRunner().invoke(main, list(words))


@pytest.fixture
def case(tmp_path):
    assert run("new", "case", str(tmp_path / "mine")).exit_code == 0
    return tmp_path / "mine"


def test_a_new_case_holds_and_has_no_finding(case):
    data = json.loads(run("check", str(case), "--format", "json").stdout)
    assert {one["verdict"] for one in data["claims"].values()} == {"holds"}
    assert data["findings"] == []
    assert data["missing"] == []


def test_a_new_case_is_not_written_over_something(case):
    ran = run("new", "case", str(case))
    assert ran.exit_code == 1
    assert "already holds something" in ran.output


def test_a_new_case_builds_a_site_and_says_where_it_is(case):
    ran = run("build", str(case))
    assert ran.exit_code == 0
    assert "the top claim bracket-fit-for-use holds" in ran.output
    assert (case / "site" / "index.html").is_file()


def test_a_folder_without_a_case_publishes_nothing_and_exits_2(tmp_path):
    ran = run("build", str(tmp_path))
    assert ran.exit_code == 2
    assert "case-missing" in ran.output
    assert not (tmp_path / "site").exists()


def test_a_broken_case_record_leaves_the_last_good_site(case):
    run("build", str(case))
    before = (case / "site" / "index.html").read_bytes()
    path = case / "claims" / "case.yml"
    path.write_text(path.read_text().replace("case:", "cases:", 1))
    assert run("build", str(case)).exit_code == 2
    assert (case / "site" / "index.html").read_bytes() == before


def test_broken_input_elsewhere_still_publishes_and_exits_0(case):
    (case / "claims" / "odd.yml").write_text("claims: {odd: {statment: Misspelt}}\n")
    ran = run("build", str(case))
    assert ran.exit_code == 0
    assert "key-unknown" in ran.output
    assert "is open" in ran.output


@pytest.mark.parametrize(("fail_on", "code"), [("blocking", 0), ("caution", 1), ("note", 1), ("never", 0)])
def test_check_exits_with_1_where_a_finding_is_heavy_enough(case, fail_on, code):
    text = "contexts: {unused: {statement: Nobody reads claims within this.}}\n"
    (case / "claims" / "more.yml").write_text(text)
    assert run("check", str(case), "--fail-on", fail_on).exit_code == code


def test_a_day_can_be_named(case):
    path = case / "claims" / "case.yml"
    lines = [line for line in path.read_text().splitlines() if "as_of" not in line]
    path.write_text("\n".join(lines) + "\n")
    assert "date-missing" in run("check", str(case)).output
    assert run("check", str(case), "--on", "2026-03-12").exit_code == 0
    assert "date-missing" not in run("check", str(case), "--on", "2026-03-12").output


def test_a_day_that_is_none_is_a_usage_message(case):
    ran = run("check", str(case), "--on", "12.3.2026")
    assert ran.exit_code == 2
    assert "not a date such as 2026-03-12" in ran.output


def test_explain_tells_a_rule_with_its_examples():
    ran = run("explain", "hazard-without-control")
    assert ran.exit_code == 0
    assert all(word in ran.output for word in ("Why:", "Put right:", "Bad:", "Good:"))


def test_explain_tells_a_rule_of_the_reading():
    assert "not a field of the record" in run("explain", "key-unknown").output


def test_explain_tells_the_reasons_of_a_record_as_a_tree(case):
    path = case / "claims" / "bracket.yml"
    path.write_text(path.read_text().replace("outcome: passed", "outcome: failed", 1))
    ran = run("explain", "bracket-fit-for-use", "--case", str(case))
    assert "evidence-adverse" in ran.output
    assert "needs bars: open" in ran.output
    assert "To put right:" in ran.output


def test_explain_offers_the_nearest_name(case):
    ran = run("explain", "braket-reserve", "--case", str(case))
    assert ran.exit_code == 1
    assert "Did you mean `bracket-reserve`" in ran.output


def test_the_schemas_are_json_and_speak_of_their_kinds():
    records = json.loads(run("schema").output)
    assert {"claims", "hazards", "evidence"} <= set(records["properties"])
    assert "missing" in json.loads(run("schema", "--assessment").output)["properties"]


def test_a_misspelt_key_in_a_challenge_does_not_make_it_disappear(case):
    # With the challenge whole the top claim is open; with its key misspelt it must not hold.
    text = "challenges:\n  doubt: {KEY: bracket-strong-enough, doubt: Is it?, owner: designer}\n"
    for key in ("against", "againts"):
        (case / "claims" / "doubt.yml").write_text(text.replace("KEY", key))
        data = json.loads(run("check", str(case), "--format", "json").stdout)
        assert data["claims"]["bracket-fit-for-use"]["verdict"] == "open"


def test_a_module_in_the_case_folder_is_never_imported(case):
    for name in ("yaml", "jinja2", "numpy", "scipy", "polars"):
        (case / f"{name}.py").write_text("raise SystemExit('ran code of the case')\n")
    for command in ([sys.executable, "-m", "assurance.cli"], [Path(sys.executable).parent / "holdwater"]):
        ran = subprocess.run([*command, "build"], cwd=case, capture_output=True, text=True, check=False)
        assert ran.returncode == 0, ran.stdout + ran.stderr
