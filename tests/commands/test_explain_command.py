import pytest
from click.testing import CliRunner

from assurance.cli import main

HEAD = "case:\n  step: {title: Step, as_of: 2026-03-12, top_claims: {use: c0}}\nclaims:\n"


@pytest.fixture(autouse=True)
def own_cache(tmp_path_factory, monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path_factory.mktemp("cache")))


def explain(folder, text, name):
    (folder / "claims").mkdir()
    (folder / "claims" / "case.yml").write_text(text)
    return CliRunner().invoke(main, ["explain", name, "--case", str(folder)], catch_exceptions=False)


def test_a_chain_deeper_than_calls_may_be_nested_is_told_to_its_end(tmp_path):
    claims = [f"  c{n}: {{statement: S, argument: {{rests_on: [c{n + 1}]}}}}\n" for n in range(2000)]
    ran = explain(tmp_path, HEAD + "".join(claims) + "  c2000: {statement: S}\n", "c0")
    assert ran.exit_code == 0
    assert "needs c2000: open" in ran.output


def test_reasons_are_told_in_the_order_in_which_they_were_found_each_record_once(tmp_path):
    claims = (
        "  c0: {statement: S, argument: {rests_on: [a, b]}}\n  a: {statement: S, argument: {rests_on: [b]}}\n"
    )
    told = explain(tmp_path, HEAD + claims + "  b: {statement: S}\n", "c0").output
    needs = [line.split(":")[0] for line in told.splitlines() if "needs " in line]
    assert needs == ["  needs a", "    needs b", "  needs b"]
    assert "(told above)" in told.splitlines()[-1]


def test_letters_that_turn_the_line_round_are_shown_as_signs(tmp_path):
    challenge = "challenges:\n  doubt: {against: c0, doubt: Is it\u202e?, owner: ann}\n"
    told = explain(tmp_path, HEAD + "  c0: {statement: S}\n" + challenge, "c0").output
    assert "\u202e" not in told
    assert "Is it<U+202E>?" in told
