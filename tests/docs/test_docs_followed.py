"""Somebody follows each page of the guide literally, in an empty folder, and sees what the page says."""

import json
import re
import shutil
import subprocess

import pytest
from follow import BIN, Reader, plain_environment
from guide_pages import GUIDE, written
from steps_of_text import commands_of, steps_of

FOLLOWED = sorted(name for name, text in written().items() if "$ holdwater" in text)
NUMBERS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7}


def followed(name, folder):
    """What the commands of a page printed, and the folder the reader ends in."""
    folder.mkdir()
    with Reader(folder) as reader:
        return reader.follow(written()[name]), reader.where()


@pytest.mark.slow
@pytest.mark.skipif(shutil.which("bash") is None, reason="the commands of the guide are those of a shell")
@pytest.mark.parametrize("name", FOLLOWED)
def test_every_command_of_a_page_prints_what_the_page_says(name, tmp_path):
    printed, _ = followed(name, tmp_path / "empty")
    wrong = [f"{name}:{one.line}: {one.command}\n{one.real}" for one in printed if not one.agrees]
    assert not wrong, "\n".join(wrong)


@pytest.mark.slow
def test_the_tutorial_ends_with_the_case_that_it_promises(tmp_path):
    _, folder = followed("reading/tutorial", tmp_path / "empty")
    done = subprocess.run(
        [BIN / "holdwater", "check", "--format", "json"],
        cwd=folder, env=plain_environment(tmp_path / "empty"), capture_output=True, text=True, check=True,
    )  # fmt: skip
    case = json.loads(done.stdout)
    verdicts = [one["verdict"] for one in case["claims"].values()]
    claims, hold, provisional = promised(written()["reading/tutorial"])
    assert len(verdicts) == claims
    assert (verdicts.count("holds"), verdicts.count("provisional")) == (hold, provisional)
    assert [one["record"] for one in case["missing"]] == ["latch-closed"]
    assert (folder / "site" / "index.html").is_file()


def promised(text):
    """How many claims the tutorial says there are in the end, how many hold, how many are provisional."""
    found = re.search(r"(\w+) claims: (\w+) hold, (\w+) are provisional, none is open or fails", text)
    return tuple(NUMBERS[word.lower()] for word in found.groups())


def test_every_page_that_shows_a_command_is_followed():
    shown = {
        name for name, text in written().items() for step in steps_of(text) if step.language == "console"
    }
    assert shown == set(FOLLOWED)


def test_what_is_not_run_says_why():
    left_out = {
        command.text: step.reason
        for text in written().values()
        for step in steps_of(text)
        if step.does == "left out"
        for command in commands_of(step)
    }
    assert all(len(reason.split()) > 3 for reason in left_out.values())
    assert {text for text in left_out if not text.startswith("holdwater")} == {
        "python3 -m venv .venv", ". .venv/bin/activate", "pip install .", "pip install ./holdwater",
        'eval "$(holdwater completion bash)"',
    }  # fmt: skip


def test_the_guide_has_no_page_without_a_heading_of_its_own():
    for file in GUIDE.rglob("*.md"):
        assert re.search(r"^# \S", file.read_text("utf-8"), re.MULTILINE), file.name
