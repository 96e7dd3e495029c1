"""Pages of cases that are empty, that hold, and that cannot be read whole."""

import re

import pytest
from published_demo import ONE_OF_EACH, publish_folder, publish_text, shared_cache

from assurance.scaffold import new_case

EMPTY = "case: {one: {title: Only a case, as_of: 2026-03-12}}\n"
BROKEN = """\
case: {c: {title: A case, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: {name: Lead}}}}
claims:
  top: {statement: It holds., owner: lead, argument: {because: Shown., rests_on: [report]}}
evidence:
  report: {title: Report, kind: analysis, state: issued, date: 2026-01-01, producer: lead, results: {r: 2 kN}}
challenges:
  doubt:
    against: top
    dout: Is it?
"""
REFUSED = """\
case: {c: {title: A case, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: {name: Lead}}}}
claims:
  top: {statement: It holds., owner: lead, about: [fall], argument: {because: Shown., rests_on: [report]}}
evidence:
  report: {title: Report, kind: procedure, state: issued, date: 2026-01-01, results: {r: 2 kN}}
failure_modes:
  crack: {title: A crack, owner: lead, causes: {wear: {text: Wear, occurrence: 3, detection: 3}}}
hazards:
  fall:
    title: A fall
    harm: Somebody is hurt.
    owner: lead
    claim: top
    causes: [{record: crack}]
    before: {severity: Critical, likelihood: Occasional}
    controls:
      drill:
        {text: Drill, type: procedure, reduces: [severity], implemented_by: [report], effective_by: [report]}
    after: {severity: Negligible, likelihood: Occasional, controls: [drill]}
"""


def body(site, name):
    text = (site / f"{name}.html").read_text("utf-8")
    return re.sub(r"\s+", " ", re.sub("<[^>]+>", " ", text.split("<main", 1)[1]))


def test_an_empty_case_shows_no_empty_table_no_sum_of_nothing_and_never_says_that_all_is_well(tmp_path):
    site = publish_text(EMPTY, tmp_path).site
    for name in ONE_OF_EACH:
        shown = "" if name == "reading-guide" else body(site, name)
        assert "0 of 0" not in shown
        assert "`" not in shown
        assert not re.search(r"\b0 (records|calculations|gaps|failure modes|holds)\b", shown), name
    for name in ("index", "gaps"):
        assert "No claim concludes yet" in body(site, name)
        assert "Nothing is missing" not in body(site, name)
        assert "Every" not in body(site, name)


def test_where_all_holds_the_answer_waits_for_the_statement_with_the_conditions_in_view(tmp_path):
    new_case(tmp_path / "case")
    site = publish_folder(tmp_path / "case", tmp_path / "site", shared_cache()).site
    shown = body(site, "index")
    assert "Not before the statement of fitness for use is issued." in shown
    assert shown.index("fitness for use is issued") < shown.index("Within what") < shown.index("0 to 6")
    assert "Nothing is missing. Ask for the statement of fitness for use." in shown
    assert "No gap." in body(site, "gaps")


@pytest.mark.parametrize("name", ["index", "gaps", "challenges/doubt", "claims/top", "evidence/report"])
def test_what_cannot_be_read_stands_at_the_top_of_every_page_with_file_and_line(tmp_path, name):
    published = publish_text(BROKEN, tmp_path)
    head = (published.site / f"{name}.html").read_text("utf-8").split("<main", 1)[0]
    assert "The case cannot be read whole." in head
    place = min(one.place for one in published.assessment.input_findings)
    assert f'<span class="place">claims/case.yml:{place.line}</span>' in head
    assert "<code>dout</code> is not a key of challenge" in head
    assert "gaps.html" in head


def test_a_fault_of_the_reading_is_listed_once_on_gaps(tmp_path):
    shown = body(publish_text(BROKEN, tmp_path).site, "gaps")
    assert shown.count("dout") == 1


def test_a_hazard_shows_what_was_refused_and_leads_to_the_modes_that_cause_it(tmp_path):
    text = (publish_text(REFUSED, tmp_path).site / "hazards" / "fall.html").read_text("utf-8")
    assert '<p class="refused"><b>Refused.</b> Severity stays Critical' in text
    causes = text.split("<h2>Causes</h2>")[1].split("</section>")[0]
    assert 'href="../failure_modes/crack.html"' in causes
