"""Every message of the corpus and of the bad example of every rule is in form."""

from pathlib import Path

import pytest
from base_case import write_over_base
from corpus_files import CorpusFile, corpus
from message_form import NO_VALUE, faults_of_form, shows_a_value
from test_corpus import findings_of

from assurance.model.verdicts import Finding
from assurance.rules.docs import document
from assurance.rules.registry import RULES
from assurance.rules.view import Rule


@pytest.mark.parametrize("case", corpus(), ids=lambda case: case.name)
def test_a_message_of_the_corpus_is_in_form(case: CorpusFile, tmp_path: Path) -> None:
    folder = case.write(tmp_path)

    assert wrong_in(findings_of(folder), folder) == {}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_message_of_a_bad_example_is_in_form(rule: Rule, tmp_path: Path) -> None:
    folder = write_over_base(tmp_path / "case", document(rule).bad)

    assert wrong_in(findings_of(folder), folder) == {}


@pytest.mark.slow
def test_every_rule_that_is_let_off_the_value_has_a_message_without_one(tmp_path: Path) -> None:
    folders = [case.write(tmp_path / str(at)) for at, case in enumerate(corpus())]
    examples = [rule for rule in RULES if rule.name in NO_VALUE]
    folders += [write_over_base(tmp_path / rule.name, document(rule).bad) for rule in examples]
    without = {
        one.rule for folder in folders for one in findings_of(folder) if not shows_a_value(one, folder)
    }

    assert set(NO_VALUE) - without == set()


def wrong_in(findings: tuple[Finding, ...], folder: Path) -> dict[str, list[str]]:
    """What is not in form, by message."""
    found = {
        f"{one.rule}: {one.message} | {one.remedy}": list(faults_of_form(one, folder)) for one in findings
    }
    return {said: faults for said, faults in found.items() if faults}
