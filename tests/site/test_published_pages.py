import json
import re
from urllib.parse import unquote, urldefrag

import pytest
from published_demo import Tags, demo

from assurance.site.links import address

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; base-uri 'none'; "
    "form-action 'none'"
)


def tags_of(page):
    return Tags(page.read_text("utf-8")).found


def anchors(page, known={}):  # noqa: B006 - each page is read once
    if page not in known:
        known[page] = {attributes["id"] for _, attributes in tags_of(page) if "id" in attributes}
    return known[page]


def test_every_record_has_a_page():
    site, assessment = demo().site, demo().assessment
    assert all((site / address(entry.kind, id_)).is_file() for id_, entry in assessment.entries.items())


def test_every_link_and_anchor_leads_somewhere():
    broken = []
    for page in demo().pages():
        for tag, attributes in tags_of(page):
            target = attributes.get("href") or attributes.get("src")
            if tag not in ("a", "link", "script") or not target:
                continue
            path, anchor = urldefrag(unquote(target))
            file = (page.parent / path).resolve() if path else page
            if not file.is_file() or (anchor and anchor not in anchors(file)):
                broken.append((page.name, target))
    assert not broken


def test_no_link_leads_out_of_the_site():
    for page in demo().pages():
        for _, attributes in tags_of(page):
            for name in ("href", "src"):
                assert not re.match(r"[a-z]+:|//", attributes.get(name) or ""), (page.name, attributes)


def test_no_page_carries_inline_style_script_or_handler():
    for page in demo().pages():
        text = page.read_text("utf-8")
        assert POLICY in text
        assert "<style" not in text
        for tag, attributes in tags_of(page):
            assert tag != "script" or "src" in attributes
            assert not any(name == "style" or name.startswith("on") for name in attributes), (page.name, tag)


def test_no_slot_is_left_open():
    assert not [page for page in demo().pages() if "<!--slot" in page.read_text("utf-8")]


def test_an_id_stands_once_on_a_page():
    for page in demo().pages():
        ids = [attributes["id"] for _, attributes in tags_of(page) if "id" in attributes]
        assert len(ids) == len(set(ids)), page


def test_every_page_of_a_record_shows_the_record_as_written_with_file_and_line():
    site, assessment = demo().site, demo().assessment
    for id_, entry in assessment.entries.items():
        text = (site / address(entry.kind, id_)).read_text("utf-8")
        assert f"{entry.place.file}:{entry.place.line}" in text
        assert 'id="as-written"' in text
        assert f"{id_}:" in text


def test_every_number_of_a_check_leads_to_its_origin():
    site, assessment = demo().site, demo().assessment
    for id_, checks in assessment.checks.items():
        text = (site / address("claims", id_)).read_text("utf-8")
        for check in checks:
            record, _, name = check.result.partition(".")
            assert f"{assessment.entries[record].kind}/{record}.html#result-{name}" in text


def test_the_conclusion_says_not_yet_and_lists_what_is_missing_with_owner():
    text = (demo().site / "index.html").read_text("utf-8")
    assert "May a person use it today?" in text
    assert "Not yet." in text
    for missing in demo().assessment.missing:
        assert missing.record in text


@pytest.mark.parametrize("page", ["index", "hazards", "strength"])
def test_the_caution_stands_where_the_work_can_hurt_someone(page):
    assert "They do not replace competent judgement" in (demo().site / f"{page}.html").read_text("utf-8")


def test_reserve_factor_and_margin_of_safety_are_both_shown_and_defined():
    text = (demo().site / "strength.html").read_text("utf-8")
    assert "<dt>Reserve factor</dt> <dd>what the part can carry, divided by what is applied" in text
    assert "<dt>Margin of safety</dt> <dd>the reserve factor less one.</dd>" in text
    assert "Margin of safety</th>" in text


def test_wide_tables_lie_across_from_the_first_sheet_and_every_other_page_stands_upright():
    for page in demo().pages():
        across = page.parent == demo().site and page.stem in ("strength", "failure-modes")
        assert f'<html lang="en" class="{"across" if across else "upright"}">' in page.read_text("utf-8")
    assert ".across body { page: across; }" in (demo().site / "assets" / "print.css").read_text("utf-8")


def test_the_foot_of_a_sheet_reads_item_issue_day_and_the_first_digits_of_the_inputs():
    style = (demo().site / "assets" / "print.css").read_text("utf-8")
    foot = re.search(r'@bottom-left { content: "([^"]*)"', style)[1]
    # a code point of a style sheet takes the one blank after it (CSS Syntax Level 3, section 4.3.7)
    read = re.sub(r"\\([0-9a-f]{6}) ", lambda found: chr(int(found[1], 16)), foot)
    inputs = json.loads((demo().site / "manifest.json").read_text("utf-8"))["inputs"]
    wanted = f"Boarding step BS-1, issue C, as of 12 Mar 2026, inputs {inputs[:12]}"
    assert read.replace("\u00a0", " ") == wanted


def test_the_caution_about_rpn_stands_on_its_page():
    text = (demo().site / "failure-modes.html").read_text("utf-8")
    assert "Equal numbers can hide unequal harm; read severity first." in text


def test_a_finding_that_is_a_gap_is_not_listed_again():
    text = (demo().site / "gaps.html").read_text("utf-8")
    kinds = {one.kind.value for one in demo().assessment.missing}
    above = sum(one.rule in kinds for one in demo().assessment.findings)
    assert f"; {above} more are gaps above" in text


def test_evidence_nobody_relies_on_is_named_on_the_evidence_page():
    text = (demo().site / "evidence.html").read_text("utf-8")
    assert "Nobody relies on" in text
