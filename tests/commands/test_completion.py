import resource
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from holdwater_process import COMMAND, holdwater

from assurance.scaffold import new_case

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
SHELLS = {"bash": ["bash", "-n"], "zsh": ["zsh", "-n"], "fish": ["fish", "--no-execute"]}


@pytest.fixture
def case(tmp_path):
    new_case(tmp_path / "mine")
    return tmp_path / "mine"


def completed(words, *, cwd, shell="bash"):
    """What the last word may become; the protocol of the environment is that of the library click."""
    number = str(len(words.split(" ")) - 1)
    env = {"_HOLDWATER_COMPLETE": f"{shell}_complete", "COMP_WORDS": words, "COMP_CWORD": number}
    ran = holdwater(cwd=cwd, env=env)
    assert (ran.returncode, ran.stderr) == (0, "")
    return {line.split(",", 1)[1] for line in ran.stdout.splitlines() if line}


def test_commands_and_options_are_completed(case):
    assert {"check", "build", "explain", "completion"} <= completed("holdwater ", cwd=case)
    assert completed("holdwater check --fo", cwd=case) == {"--format"}
    assert completed("holdwater check --format s", cwd=case) == {"sarif"}


def test_explain_is_offered_the_ids_of_the_case_and_the_names_of_rules(case):
    assert completed("holdwater explain bracket-f", cwd=case) == {"bracket-fit-for-use"}
    assert "hazard-without-control" in completed("holdwater explain hazard-", cwd=case)


def test_ids_come_from_the_case_that_is_named(case, tmp_path):
    words = f"holdwater explain --case {case} bracket-f"
    assert completed(words, cwd=tmp_path) == {"bracket-fit-for-use"}


def test_a_day_is_offered_that_the_case_speaks_of(case):
    text = (case / "claims" / "case.yml").read_text()
    (day,) = completed("holdwater check --on ", cwd=case)
    assert f"as_of: {day}" in text


def test_a_broken_case_gives_what_can_be_seen_and_says_nothing(case):
    (case / "claims" / "odd.yml").write_text("claims:\n  odd-one: {: [\n  odd-two: 'x\n")
    (case / "claims" / "bytes.yml").write_bytes(b"\xff\xfe\x00")
    (case / "claims" / "away.yml").symlink_to("/etc/passwd")
    assert completed("holdwater explain odd-", cwd=case) == {"odd-one", "odd-two"}


def test_a_folder_without_a_case_offers_no_id(tmp_path):
    assert completed("holdwater explain bracket", cwd=tmp_path) == set()


@pytest.mark.parametrize("shell", SHELLS)
def test_the_script_is_one_that_the_shell_can_read(shell, tmp_path):
    ran = holdwater("completion", shell)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert "_HOLDWATER_COMPLETE" in ran.stdout
    if shutil.which(shell) is None:
        pytest.skip(f"there is no {shell} here")
    script = tmp_path / "script"
    script.write_text(ran.stdout)
    read = subprocess.run([*SHELLS[shell], str(script)], capture_output=True, text=True, check=False)
    assert (read.returncode, read.stderr) == (0, "")


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
def test_bash_completes_an_id_with_the_script(case, tmp_path):
    (tmp_path / "bin").mkdir()
    runner = tmp_path / "bin" / "holdwater"
    runner.write_text(f'#!/bin/sh\nexec {sys.executable} -m assurance.cli "$@"\n')
    runner.chmod(0o755)
    script = f"""
        PATH="{tmp_path / "bin"}:$PATH"; cd "{case}"
        eval "$(holdwater completion bash)"
        COMP_WORDS=(holdwater explain bracket-f); COMP_CWORD=2
        _holdwater_completion holdwater
        echo "${{COMPREPLY[@]}}"
    """
    ran = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=False)
    assert (ran.stdout, ran.stderr) == ("bracket-fit-for-use\n", "")


@pytest.mark.timed
def test_ids_of_the_demonstration_case_cost_less_than_a_third_of_a_second():
    def spent():
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        assert "fit-for-supervised-use" in completed("holdwater explain fit", cwd=ROOT)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime

    assert min(spent() for _ in range(5)) < 0.33  # of a processor, so that other work does not count


def test_the_command_is_the_one_that_the_package_installs():
    text = (ROOT / "pyproject.toml").read_text("utf-8")
    assert 'holdwater = "assurance.cli:run"' in text
    assert COMMAND[1:] == ["-m", "assurance.cli"]
