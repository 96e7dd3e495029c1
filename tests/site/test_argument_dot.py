"""The argument as DOT text names every record drawn and every line once."""

import re

from demo_case import ROOT

from assurance.assess import assess
from assurance.reading import read_case
from assurance.site.argument_dot import DRAWN, argument_dot

ASSESSED = assess(read_case(ROOT))
TEXT = argument_dot(ASSESSED)


def test_each_record_of_the_argument_is_a_node_with_its_verdict():
    drawn = [id_ for id_, entry in ASSESSED.entries.items() if entry.kind in DRAWN]
    assert len(re.findall(r"\[label=", TEXT)) == len(drawn)
    assert '"bracket-fatigue" [label="claim bracket-fatigue\\nopen"]' in TEXT


def test_a_line_goes_from_a_claim_to_what_it_rests_on():
    assert '"bracket-fatigue" -> "fatigue-report"' in TEXT
    assert '"fatigue-report" -> "bracket-fatigue"' not in TEXT


def test_the_text_is_the_same_each_time():
    assert argument_dot(ASSESSED) == TEXT
