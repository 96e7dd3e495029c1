"""The argument in goal structuring notation: permitted links, published shapes, safe and steady text."""

import re
import xml.etree.ElementTree as ElementTree

import pytest
from published_demo import demo, publish_text

from assurance.model.verdicts import Verdict
from assurance.publish.graph_layout import GraphLayout
from assurance.site.argument_gsn import PERMITTED, Node, piece_of
from assurance.site.argument_gsn_drawing import gsn_files, gsn_modules, gsn_texts
from assurance.site.argument_gsn_modules import MOST_NODES, modules
from assurance.site.argument_gsn_shapes import LETTER, drawn, shape_of
from assurance.site.argument_tree import tree

SVG = "{http://www.w3.org/2000/svg}"
# GSN Community Standard, version 3 (2021), part 1: what each link may lead from and to; from memory.
# Strategy to solution is not among them. An away goal stands for a goal of another module.
SUPPORTED_BY = {
    "goal": {"goal", "strategy", "solution", "away goal"},
    "strategy": {"goal", "away goal"},
}
IN_CONTEXT_OF = {
    "goal": {"context", "assumption", "justification"},
    "strategy": {"context", "assumption", "justification"},
}
CASE = """
case:
  c: {title: T, item: I, top_claims: {use: top}, as_of: 2026-03-12, quantities: [strength],
      people: {lead: {name: Lead, roles: [safety lead]}}}
contexts:
  scope: {statement: One boat.}
assumptions:
  calm: {statement: The harbour is calm., owner: lead}
claims:
  top: {statement: It is fit., owner: lead, context: [scope], assumes: [calm],
        argument: {because: Both are shown., rests_on: [high, low, report]}}
  high:
    statement: It is strong <b>& "stiff"</b>.
    owner: lead
    argument: {because: Tested., rests_on: [report],
               checks: [{result: report.load, at_least: 2 kN, because: twice the weight}]}
  low: {statement: It is light., owner: lead, undeveloped: {because: To come., owner: lead}}
evidence:
  report: {title: Test report, kind: test, outcome: passed, results: {load: {value: 3 kN, read_by: lead}}}
"""


def published(tmp_path):
    return publish_text(CASE, tmp_path)


def kinds_of(module):
    return {node.key: node.kind for node in module.nodes}


def test_the_list_of_permitted_links_is_that_of_the_standard():
    listed = {("supported by", a, b) for a, targets in SUPPORTED_BY.items() for b in targets}
    listed |= {("in context of", a, b) for a, targets in IN_CONTEXT_OF.items() for b in targets}
    assert listed == PERMITTED
    assert ("supported by", "strategy", "solution") not in PERMITTED


def test_the_demo_has_permitted_links_only():
    for module in gsn_modules(demo().assessment).drawn:
        kinds = kinds_of(module)
        for link in module.links:
            assert (link.kind, kinds[link.source], kinds[link.target]) in PERMITTED, link


def test_every_claim_beneath_the_conclusion_is_a_goal_on_one_drawing():
    assessment = demo().assessment
    goals = [node.key for one in gsn_modules(assessment).drawn for node in one.nodes if node.kind == "goal"]
    branches = tree(assessment, assessment.top_claims["use"])
    claims = {one.id for one in branches if assessment.entries[one.id].kind == "claims"}
    assert sorted(goals) == sorted(claims)


def test_an_away_goal_names_the_drawing_on_which_it_stands():
    found = gsn_modules(demo().assessment)
    homes = {node.key: one.root for one in found.drawn for node in one.nodes if node.kind == "goal"}
    away = [node for one in found.drawn for node in one.nodes if node.kind == "away goal"]
    assert away
    assert all(node.module == homes[node.key] for node in away)


def test_a_reason_is_a_strategy_above_claims_and_solutions_hang_under_the_goal(tmp_path):
    piece = piece_of(published(tmp_path).assessment, "top")
    links = {(one.kind, one.source, one.target) for one in piece.links}
    assert links == {
        ("supported by", "top", "top.argument"),
        ("supported by", "top.argument", "high"),
        ("supported by", "top.argument", "low"),
        ("supported by", "top", "report"),
        ("in context of", "top", "scope"),
        ("in context of", "top", "calm"),
    }
    assert piece.nodes["top.argument"].text == "Both are shown."


def test_a_claim_on_evidence_alone_has_no_strategy_and_the_reason_of_a_limit_is_a_justification(tmp_path):
    piece = piece_of(published(tmp_path).assessment, "high")
    kinds = sorted(node.kind for node in piece.nodes.values())
    assert kinds == ["goal", "justification", "solution"]
    assert [one.text for one in piece.nodes.values() if one.kind == "justification"] == ["twice the weight"]


def test_alternatives_keep_their_reasons_and_may_share_a_ground(tmp_path):
    text = CASE.replace(
        "{because: Both are shown., rests_on: [high, low, report]}",
        "{because: Both., rests_on: [high, low]}",
    ).replace("argument: {because: Both.", "holds_if: any, arguments: {one: {because: Both.").replace(
        "rests_on: [high, low]}}", "rests_on: [high, low]},"
        " two: {because: Again., rests_on: [low]}, three: {because: Tested., rests_on: [report]}}}"
    )  # fmt: skip
    piece = piece_of(publish_text(text, tmp_path).assessment, "top")
    links = {(one.source, one.target) for one in piece.links}
    assert {("top.one", "low"), ("top.two", "low"), ("top", "report")} <= links
    said = {one.kind: one.text for one in piece.nodes.values() if one.key.startswith("top.three")}
    assert said == {"justification": "Tested. (three: any one of several is enough)"}


def test_an_undeveloped_goal_carries_the_diamond(tmp_path):
    assessment = published(tmp_path).assessment
    assert piece_of(assessment, "low").nodes["low"].undeveloped
    assert not piece_of(assessment, "high").nodes["high"].undeveloped


def shape(kind, text="Some words", **more):
    made = shape_of(Node("k", kind, "name", text, **more))
    return drawn(made, 200, 200)


@pytest.mark.parametrize(
    ("kind", "outline", "letter"),
    [
        ("goal", r"<rect [^>]*height", ""),
        ("strategy", r'<path d="M\S+ \S+H\S+L\S+ \S+H\S+z"', ""),
        ("solution", "<circle", ""),
        ("context", r"<rect [^>]*rx=", ""),
        ("assumption", "<ellipse", ">A<"),
        ("justification", "<ellipse", ">J<"),
    ],
)
def test_each_kind_has_its_published_shape(kind, outline, letter):
    # GSN Community Standard, version 3, part 1: rectangle, parallelogram, circle, stadium, ovals with A and J
    assert re.search(outline, shape(kind))
    assert letter in shape(kind)


def test_the_diamond_and_the_foot_of_a_module_are_drawn():
    assert shape("goal", undeveloped=True).count("<path") == 1
    assert ">elsewhere<" in shape("away goal", module="elsewhere")


def texts_of_demo():
    return dict(gsn_texts(demo().assessment, GraphLayout(None)))


def test_drawings_are_black_on_white_with_solid_and_hollow_arrowheads():
    text = texts_of_demo()["argument-gsn.svg"]
    assert set(re.findall(r'fill="([^"]*)"', text)) == {"none", "#fff", "#000"}
    assert set(re.findall(r'stroke="([^"]*)"', text)) == {"#000", "none"}
    links = gsn_modules(demo().assessment).drawn[0].links
    heads = re.findall(r'L[^"]*z" fill="(#...)"', text)
    assert heads.count("#000") == sum(one.kind == "supported by" for one in links)
    assert heads.count("#fff") == sum(one.kind == "in context of" for one in links)


def test_drawings_are_safe_text_with_every_statement_whole(tmp_path):
    found = published(tmp_path)
    text = (found.site / "argument-gsn.svg").read_text("utf-8")
    root = ElementTree.fromstring(text)
    assert {one.tag.removeprefix(SVG) for one in root.iter()} <= {
        "svg", "rect", "path", "circle", "ellipse", "text",
    }  # fmt: skip
    assert int(root.get("font-size")) == LETTER >= 12
    words = " ".join(one.text for one in root.iter(f"{SVG}text"))
    assert 'It is strong <b>& "stiff"</b>.' in words
    assert "low, open" in words
    assert found.assessment.verdicts["low"] is Verdict.OPEN


def test_no_element_lies_over_another():
    for text in texts_of_demo().values():
        boxes = [
            tuple(float(one) for one in found)
            for found in re.findall(r'<rect x="(\S+)" y="(\S+)" width="(\S+)" height="(\S+?)"', text)
        ]
        for order, (x, y, w, h) in enumerate(boxes):
            for ox, oy, ow, oh in boxes[order + 1 :]:
                assert x + w <= ox or ox + ow <= x or y + h <= oy or oy + oh <= y


def test_the_page_leads_to_every_drawing_and_the_bytes_are_the_same_each_time():
    found = demo()
    page = (found.site / "argument.html").read_text("utf-8")
    for file in gsn_files(gsn_modules(found.assessment)):
        assert f'href="{file.address}"' in page
    again = texts_of_demo()
    assert all((found.site / name).read_text("utf-8") == text for name, text in again.items())
    assert "argument-gsn.svg" in again


def test_a_large_argument_is_drawn_in_parts_of_a_size_to_read():
    for one in gsn_modules(demo().assessment).drawn:
        own = [node for node in one.nodes if node.kind != "away goal"]
        assert len(own) <= 1.5 * MOST_NODES  # a branch is not cut where it has no larger branch of its own
    assert modules(demo().assessment, tree(demo().assessment, "harbour-trial")).left_out == 0


def test_what_cannot_be_laid_out_says_so_in_place_of_the_drawing():
    def nothing(graphs):
        return [""] * len(graphs)

    text = dict(gsn_texts(demo().assessment, nothing))["argument-gsn.svg"]
    assert "could not be laid out" in text
    ElementTree.fromstring(text)
