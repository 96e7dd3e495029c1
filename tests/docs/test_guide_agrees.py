"""What the guide says of marks, answers, pages and lines of files is what the program does."""

import re

import pytest
import yaml
from guide_pages import blocks, written

from assurance.model.verdicts import Verdict, Weight
from assurance.site import wording
from assurance.site.marks import mark_by_name
from assurance.site.sections import GROUPS, GUIDE

INDEX = written()["index"]
WORDS = written()["reading/words"]


@pytest.mark.parametrize("verdict", Verdict)
def test_the_guide_gives_the_answer_that_the_conclusion_gives(verdict):
    row = next(
        line for line in INDEX.splitlines() if re.match(rf"\| (is |Is )?{verdict.word} \|", line, re.I)
    )
    assert f"| {wording.answer(verdict)} |" in row


def test_the_guide_tells_what_each_page_of_the_rail_answers():
    table = INDEX.partition("## What each page answers")[2].partition("\n## ")[0]
    told = {re.split(r"[,|]", line)[1].strip() for line in table.splitlines() if line.startswith("| ")}
    titles = {section.title for group in GROUPS for section in group.sections if section.name != GUIDE}
    assert titles <= told


def test_every_mark_that_the_guide_names_is_drawn():
    named = re.findall(r"\{mark:([^}]+)\}", "".join(written().values()))
    assert all(mark_by_name(name) for name in named)
    assert {*(one.word for one in Verdict), *(one.value for one in Weight)} <= set(named)


@pytest.mark.parametrize("word", [*(one.word for one in Verdict), "finding", "cause", "rule", "weight"])
def test_the_glossary_has_the_words_of_the_pages(word):
    assert f"\n### {word}\n" in WORDS


def test_the_caution_of_the_pages_stands_in_the_guide_and_in_the_readme():
    assert wording.CAUTION in INDEX
    assert wording.CAUTION in written()["README"]


@pytest.mark.parametrize("name", sorted(written()))
def test_every_block_of_yaml_is_yaml(name):
    for block in blocks(written()[name], "yaml"):
        assert yaml.safe_load(block) is not None


@pytest.mark.parametrize("name", sorted(name for name, text in written().items() if "```csv" in text))
def test_a_page_with_numbers_says_that_they_are_invented(name):
    assert re.search(r"\binvented\b", written()[name])
