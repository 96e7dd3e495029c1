import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from assurance.scaffold import new_case

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
HOOK = next(iter(yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))))
GIT = ["git", "-c", "user.name=ann", "-c", "user.email=ann@example.org", "-c", "commit.gpgsign=false"]
needs_git = pytest.mark.skipif(shutil.which("git") is None, reason="there is no git here")


@pytest.fixture
def repository(tmp_path, monkeypatch):
    """A case under git, with a `holdwater` on the path and nothing of the user's own settings."""
    for name, value in {"HOME": "home", "HOLDWATER_CACHE": "cache", "PRE_COMMIT_HOME": "pre-commit"}.items():
        (tmp_path / value).mkdir()
        monkeypatch.setenv(name, str(tmp_path / value))
    bin_folder = tmp_path / "bin"
    bin_folder.mkdir()
    runner = bin_folder / "holdwater"
    runner.write_text(f'#!/bin/sh\nexec {sys.executable} -m assurance.cli "$@"\n')
    runner.chmod(0o755)
    monkeypatch.setenv("PATH", f"{bin_folder}:{os.environ['PATH']}")
    new_case(tmp_path / "case")
    git(tmp_path / "case", "init", "-q")
    return tmp_path / "case"


def git(folder, *words):
    return subprocess.run([*GIT, *words], cwd=folder, capture_output=True, text=True, check=False)


def spoil(case):
    (case / "claims" / "odd.yml").write_text("claims: {odd: {statment: Misspelt}}\n")


def test_the_hook_says_what_the_program_that_runs_hooks_asks_for():
    assert HOOK["id"] == "holdwater-check"
    assert HOOK["language"] == "python"
    assert HOOK["pass_filenames"] is False
    assert {"name", "entry", "description"} <= set(HOOK)


@pytest.mark.parametrize("name", ["claims/a.yml", "hazards/data/b.csv", "mkdocs.yml"])
def test_the_hook_runs_for_what_a_case_is_made_of(name):
    assert re.search(HOOK["files"], name)


@pytest.mark.parametrize("name", ["README.md", "docs/claims/a.yml", "guide/mkdocs.yml", "mkdocs.yml.bak"])
def test_the_hook_does_not_run_for_other_files(name):
    assert not re.search(HOOK["files"], name)


@needs_git
def test_the_entry_refuses_what_blocks_and_lets_a_sound_case_pass(repository):
    def run():
        return subprocess.run(shlex.split(HOOK["entry"]), cwd=repository, capture_output=True, check=False)

    assert run().returncode == 0
    spoil(repository)
    assert run().returncode == 1


@needs_git
def test_a_plain_git_hook_stops_the_commit(repository):
    hook = repository / ".git" / "hooks" / "pre-commit"
    hook.parent.mkdir(exist_ok=True)
    hook.write_text(f"#!/bin/sh\nexec {HOOK['entry']}\n")
    hook.chmod(0o755)
    git(repository, "add", "-A")
    assert git(repository, "commit", "-q", "-m", "A sound case").returncode == 0
    spoil(repository)
    git(repository, "add", "-A")
    stopped = git(repository, "commit", "-q", "-m", "A broken one")
    assert stopped.returncode != 0
    assert "key-unknown" in stopped.stdout + stopped.stderr


@needs_git
@pytest.mark.full
def test_the_program_that_runs_hooks_runs_this_one(repository):
    local = {**{key: HOOK[key] for key in HOOK if key != "description"}, "language": "system"}
    settings = {"repos": [{"repo": "local", "hooks": [local]}]}
    (repository / ".pre-commit-config.yaml").write_text(yaml.safe_dump(settings))
    git(repository, "add", "-A")
    command = [sys.executable, "-m", "pre_commit", "run", "--all-files"]
    ran = subprocess.run(command, cwd=repository, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    spoil(repository)
    git(repository, "add", "-A")
    ran = subprocess.run(command, cwd=repository, capture_output=True, text=True, check=False)
    assert ran.returncode == 1
    assert "key-unknown" in ran.stdout


@pytest.mark.full
def test_the_program_that_runs_hooks_finds_no_fault_in_the_list_of_them():
    command = [sys.executable, "-m", "pre_commit", "validate-manifest", str(ROOT / ".pre-commit-hooks.yaml")]
    ran = subprocess.run(command, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr
