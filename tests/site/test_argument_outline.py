"""The lines of the outline: numbers, what is folded, where a shared record stands, and how much fits."""

import re

import pytest
from big_case import write_big_case
from published_demo import Tags, demo, publish_text

from assurance.assess import assess
from assurance.reading import read_case
from assurance.site.argument_outline import outline
from assurance.site.argument_tree import tree
from assurance.site.page_argument import argument_page
from assurance.site.templates import Renderer
from assurance.site.view import View

LARGEST_PAGE = 300_000  # bytes of one page of the site


def page_text():
    return (demo().site / "argument.html").read_text("utf-8")


def lines_of_demo():
    found = demo()
    view = View(found.case, found.assessment, "")
    return outline(view, tree(found.assessment, found.assessment.top_claims["use"]))


def test_lines_are_numbered_once_and_in_order():
    numbers = [[int(part) for part in line.number.split(".")] for line in lines_of_demo()]
    assert numbers == sorted(numbers)
    assert len({tuple(one) for one in numbers}) == len(numbers)


def test_a_shared_record_leads_to_the_line_where_it_stands():
    text = page_text()
    anchors = {attributes["id"] for _, attributes in Tags(text).found if "id" in attributes}
    shared = [line for line in lines_of_demo() if line.see]
    assert shared
    assert all(line.see_href.removeprefix("#") in anchors for line in shared)


def test_the_way_to_every_cause_stands_open_and_what_holds_is_folded_with_its_count():
    lines = {line.id: line for line in lines_of_demo() if not line.see}
    assert lines["lasts-to-inspection"].open
    assert lines["soaked-bond-strong-enough"].open
    assert not lines["strong-enough"].open
    assert lines["strong-enough"].note == "21 below"


def test_what_is_missing_has_a_line_and_a_number(tmp_path):
    text = """
case:
  c: {title: T, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: {name: L, roles: [safety lead]}}}
claims:
  top: {statement: It is fit., owner: lead, argument: {because: Shown., rests_on: [low]}}
  low: {statement: It is stiff., owner: lead, undeveloped: {because: A test is to come., owner: lead}}
"""
    site = publish_text(text, tmp_path).site
    shown = re.sub(r"<[^>]+>", " ", (site / "argument.html").read_text("utf-8"))
    assert re.search(r"1\.1\.1\s+Missing: ", shown)


def test_every_tag_of_the_outline_that_opens_is_closed():
    text = page_text()
    for tag in ("ul", "li", "details", "span"):
        assert len(re.findall(rf"<{tag}[ >]", text)) == text.count(f"</{tag}>"), tag


@pytest.mark.slow
def test_a_case_of_2000_claims_lists_the_ways_to_trouble_and_says_what_is_left_out(tmp_path):
    write_big_case(tmp_path, 5600)
    path = tmp_path / "claims" / "claims-009.yml"
    path.write_text(path.read_text().replace("    owner: lead\n", "", 1))  # c1800 is nobody's
    case = read_case(tmp_path)
    assessment = assess(case)
    page = argument_page(View(case, assessment, ""))
    body = Renderer()("argument.html", page)
    assert len(body.encode()) < LARGEST_PAGE - 20_000  # the frame around it has its own bytes
    assert "c1800" in {line.id for line in page.outline}
    assert re.match(r"[\d,]+\xa0more lines not listed here", page.more)


def test_the_demo_page_is_small():
    assert len(page_text().encode()) < LARGEST_PAGE
