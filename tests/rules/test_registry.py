"""The list of rules: each once, under the name of its function, and documented whole."""

import ast
from pathlib import Path

import pytest

import assurance.rules
from assurance.model.verdicts import ReasonKind, Weight
from assurance.rules.docs import document
from assurance.rules.registry import RULES
from assurance.rules.view import Rule

NO_RULE_OF_THEIR_OWN = {ReasonKind.NEEDS, ReasonKind.INPUT_BROKEN}
FOLDER = Path(assurance.rules.__file__).parent


def documented_functions():
    """Every public function of a module of rules."""
    for path in sorted(FOLDER.glob("*_rules.py")):
        for node in ast.parse(path.read_text("utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield node.name


def test_every_rule_is_listed_once_under_the_name_of_its_function():
    names = [rule.name for rule in RULES]
    assert len(names) == len(set(names))
    assert sorted(names) == sorted(name.replace("_", "-") for name in documented_functions())
    assert [rule.look.__name__.replace("_", "-") for rule in RULES] == names


def test_every_cause_has_a_rule_of_its_name():
    names = {rule.name for rule in RULES}
    assert {kind.value for kind in ReasonKind if kind not in NO_RULE_OF_THEIR_OWN} <= names


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_says_what_why_what_puts_it_right_and_gives_two_examples(rule):
    doc = document(rule)
    assert doc.name == rule.name
    assert doc.weight is rule.weight
    for sentence in (doc.what, doc.why, doc.remedy):
        assert sentence.endswith(".")
    assert doc.bad != doc.good
    assert doc.bad.count("# here") == 1
    assert "# here" not in doc.good


def test_the_text_of_a_rule_stands_as_a_whole():
    rule = next(one for one in RULES if one.name == "loop")
    text = document(rule).text
    assert text.startswith("loop (caution)\n\nRecords rest on each other.\n\nWhy: A circular argument")
    assert "\n\nBad:\n\n    claims:\n      fall-held-back:  # here\n" in text
    assert text.endswith("    owner: ben\n")


def test_a_rule_that_leaves_something_out_is_refused():
    def half_said(_):
        """Something is wrong.

        Why: Nobody says how to put it right.
        """
        return ()

    with pytest.raises(ValueError, match="Put right:, Bad::, Good::"):
        document(Rule("half-said", Weight.NOTE, half_said))
