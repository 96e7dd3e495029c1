"""What can be found: every record with its words, every page, rule, method and heading."""

import json
from dataclasses import replace

from published_demo import demo, publish_text

from assurance.site.find_data import ADDRESS, find_script

LARGEST = 150_000  # bytes for the demonstration
CASE = """\
case: {c: {title: A case, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: {name: Lead}}}}
claims:
  top:
    statement: It holds.
    owner: lead
    argument: {because: The reason typed here., rests_on: [report]}
evidence:
  report: {title: A report, kind: test, anomalies: [{what: A creak, disposition: Left as it is}]}
"""


def data(site):
    script = (site / ADDRESS).read_text("utf-8")
    return json.loads(script.removeprefix("holdwaterFind(").removesuffix(");\n"))


def records(site):
    return {one[2]: one for one in data(site)["records"]}


def test_every_record_can_be_found_with_its_verdict():
    found, assessment = data(demo().site), demo().assessment
    assert [one[2] for one in found["records"]] != []
    assert {one[2] for one in found["records"]} == set(assessment.entries)
    for kind, verdict, id_, *_ in found["records"]:
        assert found["kinds"][kind][0] == assessment.entries[id_].kind
        assert verdict == assessment.verdicts.get(id_, -1)


def test_words_are_those_of_every_field_then_what_is_wrong(tmp_path):
    found = records(publish_text(CASE, tmp_path).site)
    assert "lead" in found["top"][4]
    assert "The reason typed here." in found["top"][4]
    assert "It holds." not in found["top"][4]  # it is the name already
    assert "A creak · Left as it is" in found["report"][4]
    assert "outcome" in found["report"][5]


def test_rules_methods_pages_and_headings_of_the_guide_can_be_found():
    site = demo().site
    pages = data(site)["pages"]
    assert ["Page", "Failure modes", "failure-modes.html"] in pages
    hrefs = {one[2] for one in pages}
    assert "reading/rules.html#check-fails" in hrefs
    assert "reading/methods.html#reserve_factors" in hrefs
    assert {one[0] for one in pages if one[2].startswith("reading/rules.html#check-")} == {"Rule"}


def test_every_address_leads_somewhere():
    site = demo().site
    texts = {}
    for _, _, href in data(site)["pages"]:
        path, _, anchor = href.partition("#")
        text = texts.setdefault(path, (site / path).read_text("utf-8"))
        assert not anchor or f'id="{anchor}"' in text, href


def test_the_data_of_the_demonstration_is_under_150_kb():
    assert (demo().site / ADDRESS).stat().st_size < LARGEST


def test_a_heading_reads_as_text_and_keeps_its_address():
    guide = {
        "reading/rules": '<h2 class="x" id="check-fails"><code>check-fails</code> a &amp; b</h2><h3>no</h3>'
    }
    script = find_script(demo().assessment, guide)
    assert '["Rule","check-fails a & b","reading/rules.html#check-fails"]' in script


def test_of_many_records_fewer_words_of_each_are_kept_so_that_10000_stay_under_5_mb():
    entry = demo().assessment.entries["bracket-breaks"]
    text = "word " * 400
    record = entry.record.model_copy(update={"harm": text})
    many = {f"h{n}": replace(entry, id=f"h{n}", record=record) for n in range(10_000)}
    script = find_script(replace(demo().assessment, entries=many), {})
    assert len(script.encode()) < 5_000_000
    assert script.count('"h9999"') == 1
