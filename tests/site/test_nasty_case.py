"""What stands in a record is shown as text, whatever it looks like."""

from published_demo import Tags, publish_folder

from assurance.site.templates import templates_folder

NASTY = '"><script>alert(1)</script><img src=x onerror=alert(2)> {{ 7*7 }} <!--slot:main-->'
CASE = f"""\
case:
  nasty:
    title: '{NASTY}'
    notice: '{NASTY}'
    issue: '"; }} body {{ display: none'
    top_claims: {{use: top}}
    as_of: 2026-03-12
claims:
  top:
    statement: '{NASTY}'
    owner: '{NASTY}'
    argument: {{because: '{NASTY}', rests_on: [report, lost]}}
evidence:
  report: {{title: '{NASTY}', kind: test, results: {{r: {{value: 1 kN, where: '{NASTY}'}}}}}}
hazards:
  h: {{title: '{NASTY}', harm: '{NASTY}', controls: {{c: {{text: '{NASTY}', type: design}}}}, claim: top}}
"""
EMPTY = {
    "hazards": "No hazard yet.",
    "strength": "No reserve factor yet.",
    "argument": "No claim yet.",
    "failure-modes": "No failure mode yet.",
}
GUIDE = f"""\
# Notes {NASTY}

<script>alert(3)</script>

[run](javascript:alert(4)) [out](https://example.org/) ![x](http://example.org/x.png) <b onclick=x>bold</b>
"""
OUR_SCRIPTS = {"argument-data.js", *(file.name for file in (templates_folder() / "assets").glob("*.js"))}


def published(tmp_path):
    (tmp_path / "claims").mkdir()
    (tmp_path / "guide").mkdir()
    (tmp_path / "claims" / "case.yml").write_text(CASE)
    (tmp_path / "guide" / "index.md").write_text(GUIDE)
    return publish_folder(tmp_path, tmp_path / "site", tmp_path / "cache")


def test_no_text_of_a_case_becomes_markup(tmp_path):
    site = published(tmp_path).site
    for page in site.rglob("*.html"):
        for tag, attributes in Tags(page.read_text("utf-8")).found:
            assert tag != "img"
            assert tag != "script" or attributes["src"].rpartition("/")[2] in OUR_SCRIPTS
            assert not any(name.startswith("on") for name in attributes)
            assert not (attributes.get("href") or "").startswith("javascript:")


def test_no_text_of_a_case_is_taken_for_a_slot_or_a_template(tmp_path):
    site = published(tmp_path).site
    text = (site / "claims" / "top.html").read_text("utf-8")
    assert "{{ 7*7 }}" in text
    assert "&lt;!--slot:main--&gt;" in text


def test_the_foot_of_a_sheet_cannot_leave_its_quotes(tmp_path):
    style = (published(tmp_path).site / "assets" / "print.css").read_text("utf-8")
    assert "display: none }" not in style.split("@page across")[0]
    assert '"; }' not in style.split("@page across")[0]


def test_a_case_without_any_record_still_publishes_and_says_so(tmp_path):
    (tmp_path / "claims").mkdir()
    (tmp_path / "claims" / "case.yml").write_text("case: {empty: {title: Empty}}\n")
    site = publish_folder(tmp_path, tmp_path / "site", tmp_path / "cache").site
    assert "Not yet." in (site / "index.html").read_text("utf-8")
    for name, empty in EMPTY.items():
        assert empty in (site / f"{name}.html").read_text("utf-8")
