"""Somebody follows the README literally in a copy of the repository, from the first command to the last."""

import shutil
from pathlib import Path

import pytest
from follow import Reader, plain_environment
from guide_pages import written
from steps_of_text import commands_of, steps_of

ROOT = Path(__file__).parents[2]
LEFT_AT_HOME = {".git", ".venv", "site", "screenshots", ".mypy_cache", ".pytest_cache", ".ruff_cache"}
INSTALLED = ("python3 -m venv .venv", ". .venv/bin/activate", "pip install .")


def copy_of_the_repository(folder):
    """What a stranger gets: nothing of what was built or installed here."""
    shutil.copytree(ROOT, folder, ignore=lambda at, _: LEFT_AT_HOME if Path(at) == ROOT else {"__pycache__"})
    return folder


def lines_of_the_readme():
    steps = steps_of(written()["README"])
    return [command.text for step in steps if step.does == "run" for command in commands_of(step)]


def made(word):
    """The line of the README that makes something, with its comment."""
    return next(line for line in lines_of_the_readme() if line.startswith(f"make {word}"))


def wrong(printed):
    return [f"{one.command}\n{one.real}" for one in printed if not one.ended_well]


def test_the_readme_names_two_commands_and_a_case_of_ones_own():
    lines = lines_of_the_readme()
    assert [line.split()[1] for line in lines if line.startswith("make")] == ["site", "test"]
    assert set(INSTALLED) <= set(lines)


@pytest.mark.slow
def test_the_case_of_the_readme_works_where_the_tool_is_installed(tmp_path):
    folder = tmp_path / "copy"
    folder.mkdir()
    nothing = dict.fromkeys((made("site"), made("test"), *INSTALLED), "true")
    with Reader(folder, instead=nothing) as reader:
        printed = reader.follow(written()["README"])
    assert not wrong(printed)
    assert (folder / "my-case" / "site" / "index.html").is_file()
    assert "loose-screw: open" in printed[-1].real


@pytest.mark.slow
def test_the_readme_works_literally_in_a_copy_of_the_repository(tmp_path):
    """All but `make test`, which is what runs this. It needs a network: packages are installed."""
    folder = copy_of_the_repository(tmp_path / "copy")
    environment = plain_environment(tmp_path / "copy", tools=False)
    with Reader(folder, environment=environment, instead={made("test"): "true"}) as reader:
        printed = reader.follow(written()["README"])
    assert not wrong(printed)
    assert (folder / "site" / "index.html").is_file()
    assert (folder / "my-case" / "site" / "index.html").is_file()
