"""Where there is nothing to show, a page says so and what to do; it never shows an empty table."""

import re

import pytest
from published_demo import ONE_OF_EACH, Tags, publish_text

NOTHING = "case: {one: {title: Only a case, as_of: 2026-03-12}}\n"
BARE = """\
case: {one: {title: A bare case, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: {name: Lead}}}}
claims:
  top: {statement: It holds., owner: lead, argument: {because: Shown., rests_on: [note]}}
  alone: {statement: Nothing is under it., owner: lead}
evidence:
  note: {title: Note, kind: procedure, state: issued, date: 2026-01-01, results: {r: 2 kN}}
"""
SAYS = {
    "index": "No conditions yet. Nothing says where the item may be used. Add conditions .",
    "argument": "No claim yet. Start one: holdwater new claim .",
    "evidence": "No evidence yet. Start a record: holdwater new evidence .",
    "hazards": "No hazard yet. Start one: holdwater new hazard .",
    "failure-modes": "No failure mode yet. Start one: holdwater new failure-mode .",
    "strength": "No reserve factor yet. Add a calculation with the method reserve_factors .",
    "calculations": "No calculation yet. Start one: holdwater new calculation .",
}
OF_A_BARE_CASE = ("hazards", "failure-modes", "strength", "calculations")


def words(site, name):
    text = (site / f"{name}.html").read_text("utf-8").split("<main", 1)[1]
    return re.sub(r"\s+", " ", re.sub("<[^>]+>", " ", text))


@pytest.fixture(scope="module")
def nothing(tmp_path_factory):
    return publish_text(NOTHING, tmp_path_factory.mktemp("nothing")).site


@pytest.fixture(scope="module")
def bare(tmp_path_factory):
    return publish_text(BARE, tmp_path_factory.mktemp("bare")).site


@pytest.mark.parametrize("name", sorted(SAYS))
def test_a_case_with_nothing_but_its_name_says_on_each_page_what_to_do(nothing, name):
    assert SAYS[name] in words(nothing, name)


@pytest.mark.parametrize("name", sorted(OF_A_BARE_CASE))
def test_a_case_without_hazard_mode_or_sum_says_so_on_their_pages(bare, name):
    assert SAYS[name] in words(bare, name)


def test_a_claim_with_nothing_under_it_says_what_to_name(bare):
    assert "Nothing supports this claim yet. Name evidence under rests_on , or mark it undeveloped" in words(
        bare, "claims/alone"
    )


def test_no_gap_says_that_every_claim_holds_and_on_which_day(bare):
    assert "Every claim" not in words(bare, "gaps")  # one of them does not


@pytest.mark.parametrize("name", ONE_OF_EACH)
def test_no_page_shows_a_table_without_a_row_nor_controls_for_one(nothing, bare, name):
    for site in (nothing, bare):
        text = (site / f"{name}.html").read_text("utf-8")
        for body in re.findall(r"<tbody[^>]*>(.*?)</tbody>", text, re.DOTALL):
            assert "<tr" in body, name
        for tag, attributes in Tags(text).found:
            script = attributes.get("data-script")
            assert not script or (site / script).is_file(), (tag, attributes)
