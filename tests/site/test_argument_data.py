"""The data of the map says what the assessment says; the script works nothing of it out."""

import json
import re

from published_demo import demo

from assurance.model.verdicts import Verdict
from assurance.site.argument_data import argument_data, argument_script
from assurance.site.argument_facets import facets
from assurance.site.argument_tree import tree
from assurance.site.links import Links


def branches_of_demo():
    return tree(demo().assessment, demo().assessment.top_claims["use"])


def data_of_demo():
    return argument_data(demo().assessment, Links(demo().assessment, ""), branches_of_demo())


def test_every_record_carries_its_verdict_text_and_page():
    assessment, records = demo().assessment, data_of_demo()["records"]
    for position, id_ in enumerate(records["id"]):
        assert records["verdict"][position] == assessment.verdicts[id_]
        assert (demo().site / records["href"][position]).is_file()
    at = records["id"].index("bracket-fatigue")
    assert records["text"][at] == assessment.entries["bracket-fatigue"].record.statement
    assert ("Challenge: bracket-fatigue-surface", "b") in records["lines"][at]


def test_every_place_stands_beneath_the_one_above_it_and_shared_ones_lead_home():
    places = data_of_demo()["places"]
    for position, above in enumerate(places["above"]):
        assert above < position
        if above >= 0:
            assert places["number"][position].startswith(places["number"][above] + ".")
    for position, home in places["see"].items():
        assert places["record"][position] == places["record"][home]
        assert home not in places["see"]


def test_what_shares_a_card_holds_with_all_that_lies_beneath_it():
    branches, places = branches_of_demo(), data_of_demo()["places"]
    assert places["together"]
    for parent, held in places["together"].items():
        assert not any(branches[one].troubled for one in held)
        assert places["together_says"][parent].startswith(f"{len(held)} hold")


def test_counts_of_the_conclusion_are_those_of_the_tree():
    branches, places = branches_of_demo(), data_of_demo()["places"]
    below = [one for one in branches[1:] if not one.see and not one.missing]
    wrong = sum(one.verdict is not Verdict.HOLDS for one in below)
    assert places["counts"][0] == [f"{wrong} of {len(below)} do not hold", f"{wrong} of {len(below)}"]


def test_a_record_is_found_by_its_owner_its_parts_and_its_hazards():
    assessment = demo().assessment
    found = facets(
        assessment, {"fatigue-report", "bracket-fatigue", "bracket-breaks", "bracket-scan", "bracket-sound"}
    )
    assert found.owners["bracket-fatigue"] == assessment.entries["bracket-fatigue"].record.owner
    assert found.owners["fatigue-report"] == assessment.entries["fatigue-report"].record.producer
    assert "pivot-bracket" in found.parts["bracket-scan"]
    shown_by = assessment.entries["bracket-breaks"].record.controls.values()
    for one in {id_ for control in shown_by for id_ in (*control.implemented_by, *control.effective_by)}:
        assert one not in found.owners or "bracket-breaks" in found.hazards[one]
    assert "bracket-breaks" in found.hazards["bracket-breaks"]


def test_the_script_holds_data_alone_and_the_same_each_time():
    text = argument_script(demo().assessment)
    assert text == (demo().site / "assets" / "argument-data.js").read_text("utf-8")
    inside = re.fullmatch(r"holdwaterArgument\((.*)\);\n", text, re.DOTALL)[1]
    assert set(json.loads(inside)) == set(data_of_demo())
