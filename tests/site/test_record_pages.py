"""What the page of any record shows around it: the way to each cause, doubts, actions, and its lines."""

import re

from published_demo import demo, publish_text

from assurance.model.verdicts import ReasonKind
from assurance.site.links import address

CASE = """\
case: {c: {title: C, top_claims: {use: top}, people: {lead: {name: L}, two: {name: T}}, as_of: 2026-03-12}}
claims:
  top: {statement: It is fit., owner: lead, argument: {because: Shown., rests_on: [middle]}}
  middle: {statement: It is strong., owner: lead, argument: {because: Shown., rests_on: [low]}}
  low:
    statement: It does not bend.
    owner: lead
    undeveloped: {because: The rig is not built., owner: two, due: 2026-03-01}
actions:
  build-rig: {what: Build the rig., on: low, owner: two, due: 2026-03-01}
challenges:
  doubt: {against: low, doubt: Is the rig stiff?, raised_by: two, date: 2026-03-02, dissent: Not by half.}
"""


def page(kind, id_):
    return (demo().site / address(kind, id_)).read_text("utf-8")


def test_the_way_to_each_cause_is_shown_with_links(tmp_path):
    text = (publish_text(CASE, tmp_path).site / "claims" / "top.html").read_text("utf-8")
    way = re.search(r'class="do chain">(.*?)</li>', text, re.DOTALL)
    assert way is not None
    assert 'href="../claims/middle.html">middle</a>' in way[1]
    assert "claims/case.yml:8" in text


def test_every_line_of_a_record_has_an_address_and_the_guilty_one_is_marked(tmp_path):
    text = (publish_text(CASE, tmp_path).site / "claims" / "low.html").read_text("utf-8")
    line = 8  # of the case above: where `undeveloped` stands
    assert f'<span id="L{line}" data-line="{line}" class="at open">' in text
    assert f'<span id="L{line - 1}" data-line="{line - 1}">' in text


def test_doubts_and_actions_stand_on_the_page_of_what_they_are_about(tmp_path):
    text = (publish_text(CASE, tmp_path).site / "claims" / "low.html").read_text("utf-8")
    assert "Is the rig stiff?" in text
    assert "Not by half." in text
    assert "1 raised" in text
    assert "Build the rig." in text
    assert "11\N{NO-BREAK SPACE}days late" in text


def test_who_relies_on_a_record_is_named_and_counted(tmp_path):
    text = (publish_text(CASE, tmp_path).site / "claims" / "low.html").read_text("utf-8")
    assert 'href="../claims/middle.html">middle</a>' in text
    assert "and above it 1\N{NO-BREAK SPACE}claim" in text


def test_a_place_leads_to_its_line_on_the_page_of_the_record():
    for one in demo().assessment.missing:
        kind = demo().assessment.entries[one.record].kind
        target = f'{address(kind, one.record)}#L{one.place.line}"'
        assert target in (demo().site / "gaps.html").read_text("utf-8")
        assert f'id="L{one.place.line}"' in page(kind, one.record)


def test_every_cause_of_a_claim_stands_on_its_page_with_its_place():
    assessment = demo().assessment
    for id_ in assessment.of_kind("claims"):
        for reason in assessment.reasons.get(id_, ()):
            if reason.kind is not ReasonKind.NEEDS:
                assert f"{reason.place.file}:{reason.place.line}" in page("claims", id_)
