import re
import shlex
from pathlib import Path

import click
import pytest
import yaml

from assurance.cli import main

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "site_templates" / "guide" / "reading" / "ci.md").read_text("utf-8")
BLOCKS = re.findall(r"^```(\w+)\n(.*?)^```", PAGE, re.MULTILINE | re.DOTALL)
SETTINGS = [yaml.safe_load(text) for form, text in BLOCKS if form == "yaml"]
COMMANDS = sorted(set(re.findall(r"(?:^|- (?:run: )?|\$ |exec )(holdwater [^;|\n]+)", PAGE, re.MULTILINE)))


def setting(key):
    return next(one for one in SETTINGS if key in one)


def test_the_page_has_an_example_for_two_servers_and_one_for_commits():
    assert len(SETTINGS) == 3
    assert len(COMMANDS) > 5


@pytest.mark.parametrize("line", COMMANDS)
def test_every_command_of_the_page_is_one_that_the_command_line_takes(line):
    name, *words = shlex.split(line)[1:]
    command = main.get_command(click.Context(main), name)
    assert command is not None
    if name == "check":
        command.make_context(name, list(words))  # an option or a word that it does not know is refused


def test_steps_of_the_first_server_hand_on_the_file_that_check_writes():
    # Names of keys and actions are from memory; that they fit together is what is asked here.
    (job,) = setting("jobs")["jobs"].values()
    assert all(("uses" in step) != ("run" in step) for step in job["steps"])
    written = next(step["run"] for step in job["steps"] if "--format sarif" in step.get("run", ""))
    handed_on = next(step for step in job["steps"] if "sarif_file" in step.get("with", {}))
    assert written.split()[-1] == handed_on["with"]["sarif_file"]
    assert handed_on["if"] == "always()"  # also where check found something


def test_the_job_of_the_second_server_keeps_the_report_that_check_writes():
    job = setting("check")["check"]
    written = next(line for line in job["script"] if "--format junit" in line)
    assert written.split()[-1] == job["artifacts"]["reports"]["junit"]
    assert job["artifacts"]["when"] == "always"


def test_the_hook_of_the_page_is_the_one_that_the_repository_offers():
    (hook,) = setting("repos")["repos"][0]["hooks"]
    offered = next(iter(yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))))
    for key in ("id", "name", "entry", "pass_filenames", "files"):
        assert hook[key] == offered[key]
