"""The guide is written in plain English: short sentences, and none of the words that say nothing."""

import re

import pytest
from guide_pages import prose, published, written

# Words that blame, beg, praise or pad: the list of the house.
NEVER = {"error", "errors", "invalid", "please", "successfully", "simply", "just", "robust", "leverage"}
LONGEST = 45  # words of a sentence; common practice, no source
PAGES = {**published(), "README": written()["README"]}


def words_of(text):
    return {word.lower() for word in re.findall(r"[A-Za-z]+", re.sub(r"`[^`]*`", "", prose(text)))}


@pytest.mark.parametrize("name", sorted(PAGES))
def test_no_page_uses_a_word_that_says_nothing(name):
    assert not words_of(PAGES[name]) & NEVER


@pytest.mark.parametrize("name", sorted(written()))
def test_sentences_are_short(name):
    text = re.sub(r"`[^`]*`", "x", prose(written()[name]))
    paragraphs = [line for line in text.splitlines() if line and line[0] not in "|#-"]
    sentences = [one for line in paragraphs for one in re.split(r"(?<=[.!?:;])\s", line)]
    assert [one for one in sentences if len(one.split()) > LONGEST] == []


@pytest.mark.parametrize("name", sorted(PAGES))
def test_no_page_names_a_place_of_a_machine(name):
    assert not re.search(r"(?<![\w.!~>-])/[a-z]+/[a-z]|https?://", PAGES[name])
