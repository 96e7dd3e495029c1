import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published_demo import demo

from assurance.model.assessment import Assessment
from assurance.model.kinds import Entry
from assurance.model.verdicts import Place, Verdict
from assurance.site import cards, drawing
from assurance.site.argument_tree import tree
from assurance.site.drawings_argument import neighbourhood
from assurance.site.drawings_hazard import Lane, Plate, hazard_lanes
from assurance.site.drawings_risk import rpn_bar
from assurance.site.drawings_strength import PartRow, narrow_reserve_chart, reserve_chart
from assurance.site.links import Links


@given(st.text(max_size=300), st.integers(1, 5), st.floats(20, 400))
def test_wrapped_text_stays_within_its_lines_and_width(words, lines, width):
    broken = drawing.wrapped(words, width=width, per_character=6.6, lines=lines)
    assert len(broken) <= lines
    assert all(len(line) <= max(4, int(width / 6.6)) for line in broken)


def test_a_text_that_is_cut_ends_with_a_whole_word():
    assert drawing.wrapped("one two three four five six", width=66, per_character=6.6, lines=2) == (
        "one two",
        "three …",
    )


def test_a_bracket_is_thick_only_where_the_child_does_not_hold():
    drawn = cards.bracket(0, 50, [(20, False), (80, True)])
    thick = re.search(r'class="d-trouble" d="([^"]+)"', drawn)[1]
    thin = re.search(r'class="d-held" d="([^"]+)"', drawn)[1]
    assert "V80" in thick
    assert "V80" not in thin
    assert "V20" in thin
    assert "d-trouble" not in cards.bracket(0, 50, [(20, False)])


def branches_of_demo():
    assessment = demo().assessment
    return assessment, tree(assessment, assessment.top_claims["use"])


def test_the_tree_shows_every_record_once_and_names_it_again_elsewhere():
    _, branches = branches_of_demo()
    shown = [one.id for one in branches if not one.see and not one.missing]
    assert len(shown) == len(set(shown))
    numbers = {one.number for one in branches if not one.see}
    assert all(one.see in numbers for one in branches if one.see)


def a_case(depends, open_ones):
    ids = sorted({*depends, *(one for below in depends.values() for one in below)})
    entries = {id_: Entry(id_, "claims", Place("claims/c.yml", 1), None) for id_ in ids}
    verdicts = {id_: Verdict.OPEN if id_ in open_ones else Verdict.HOLDS for id_ in ids}
    empty = {"case": "c", "as_of": None, "reached": frozenset(ids), "scheme": None, "missing": ()}
    others = ["reasons", "used_by", "worked", "results", "checks", "arguments", "hazards", "failure_modes"]
    return Assessment(
        entries=entries,
        top_claims={"use": "top"},
        verdicts=verdicts,
        depends=depends,
        **empty,
        **{name: {} for name in others},
    )


def test_a_shared_claim_stands_at_the_first_place_to_which_trouble_comes():
    depends = {
        "top": ("calm", "rough", "wild"),
        "calm": ("shared",),
        "rough": ("shared",),
        "wild": ("shared",),
    }
    branches = tree(a_case(depends, {"top", "rough", "wild", "shared"}), "top")
    places = {(branches[one.parent].id, one.see) for one in branches if one.id == "shared"}
    assert places == {("calm", "1.2.1"), ("rough", ""), ("wild", "1.2.1")}
    held = tree(a_case(depends, set()), "top")
    assert [one.number for one in held if one.id == "shared" and not one.see] == ["1.1.1"]


def test_a_loop_is_drawn_once_and_named_again():
    branches = tree(
        a_case({"top": ("one",), "one": ("top", "two"), "two": ("one",)}, {"top", "one", "two"}), "top"
    )
    assert [(one.id, one.see) for one in branches] == [
        ("top", ""), ("one", ""), ("top", "1"), ("two", ""), ("one", "1.1"),
    ]  # fmt: skip


def test_counts_below_add_up_to_the_records_beneath_the_conclusion():
    _, branches = branches_of_demo()
    below = sum(1 for one in branches[1:] if not one.missing and not one.see)
    assert branches[0].below == below


def test_a_neighbourhood_leads_to_its_neighbours_and_not_to_itself():
    assessment = demo().assessment
    top = assessment.top_claims["use"]
    drawn = neighbourhood(assessment, Links(assessment, "../"), top)
    assert f"claims/{top}.html" not in drawn
    assert "../claims/" in drawn


def lanes(*counts):
    plates = [
        Plate(
            n,
            f"Control {n}",
            "design",
            one,
            Verdict.HOLDS if one else Verdict.OPEN,
            prevents=True,
            mitigates=False,
        )
        for n, one in enumerate(counts, 1)
    ]
    return hazard_lanes("Event", "Harm", [Lane("Cause")], plates, says="A hazard")


def test_a_control_that_counts_stands_down_and_one_that_does_not_is_lifted():
    drawn = lanes(True, False)
    assert drawn.count('class="d-plate"') == 1
    assert drawn.count('class="d-lifted"') == 1
    assert "1 of 2" in drawn


def test_a_lane_is_thick_all_the_way_where_no_control_counts():
    assert 'class="d-held"' not in lanes(False)
    assert 'class="d-held"' in lanes(True)


def row(least, *others, needed=1.0):
    return PartRow("Part", "", "LC1", Verdict.HOLDS, least, others, needed)


def test_the_axis_of_reserve_factors_is_logarithmic_from_a_half_to_five():
    drawn = reserve_chart([row(2.0)], says="")
    dot = float(re.search(r'cx="([\d.]+)"', drawn)[1])
    ticks = [float(x) for x in re.findall(r'd="M([\d.]+) 20V', drawn)]
    share = math.log(2.0 / 0.5) / math.log(5.0 / 0.5)  # closed form of a log axis
    assert dot == pytest.approx(ticks[0] + share * (ticks[-1] - ticks[0]), abs=0.1)


@pytest.mark.parametrize("chart", [reserve_chart, narrow_reserve_chart])
def test_below_the_wall_stands_a_cross_and_off_the_axis_an_arrow(chart):
    below = chart([row(0.94)], says="")
    assert "d-trouble-fails" in below
    assert "0.94" in below
    assert "›" in chart([row(6.2)], says="")
    assert "‹" in chart([row(0.2)], says="")


def test_a_reserve_factor_just_below_one_is_printed_below_one():
    # structures: 0.998 must not be printed as 1.00
    assert ">0.99<" in reserve_chart([row(0.998)], says="")


def test_the_bar_of_an_rpn_keeps_the_ratio_of_now_to_before():
    drawn = rpn_bar(200, 100, most=400)
    before, now = (float(width) for width in re.findall(r'<rect[^>]* width="([\d.]+)"', drawn))
    assert now == pytest.approx(before / 2, abs=0.1)
    assert rpn_bar(None, None, most=400) == ""


def test_the_words_on_a_bracket_are_those_of_the_guide():
    assert ">all of<" in cards.bracket_label(0, 50, any_of=False, count=2)
    drawn = cards.bracket_label(0, 50, any_of=True, count=2)
    assert re.findall(r">([^<]+)<", drawn) == ["any", "one of"]
    assert cards.bracket_label(0, 50, any_of=True, count=1) == ""
