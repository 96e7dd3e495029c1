"""Modules, settings of libraries, hooks of git and programs that a case brings stay data."""

import sys

import pytest
from hostile_case import BEFORE_US, BIN, MODULES, leaves_canary, run, write_case

HOLDWATER = (str(BIN / "holdwater"),)
AS_MODULE = (sys.executable, "-m", "assurance.cli")
COMMANDS = (("check",), ("build",), ("explain", "top"), ("schema",))
GIT_CONFIG = (
    "[core]\n fsmonitor = {canary}\n pager = {canary}\n hooksPath = hooks\n[alias]\n status = !{canary}\n"
)


@pytest.fixture
def hostile(tmp_path):
    """A case full of modules that leave a canary."""
    case = write_case(tmp_path / "case")
    for name in MODULES:
        (case / f"{name}.py").write_text(leaves_canary(tmp_path / "canary"))
    (case / "matplotlibrc").write_text("backend: module://numpy\n")
    return case


def test_a_module_of_the_case_would_leave_its_canary(hostile, tmp_path):
    run(sys.executable, "-c", "import yaml", folder=hostile)
    assert (tmp_path / "canary").exists()


def test_what_python_imports_before_us_is_stated_exactly(hostile, tmp_path):
    """Only these names can run, and only with `python -m`, which looks in the folder it stands in."""
    for name in sorted(BEFORE_US):
        file = hostile / f"{name}.py"
        file.write_text(leaves_canary(tmp_path / "canary"))
        run(sys.executable, "-m", "this", folder=hostile)
        assert (tmp_path / "canary").exists(), name
        (tmp_path / "canary").unlink()
        file.unlink()


@pytest.mark.slow
@pytest.mark.parametrize("start", [HOLDWATER, AS_MODULE], ids=["holdwater", "python-m"])
@pytest.mark.parametrize("command", COMMANDS, ids=lambda words: words[0])
def test_no_module_of_the_case_is_imported(hostile, tmp_path, start, command):
    done = run(*start, *command, folder=hostile)
    assert done.returncode in (0, 1), done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "canary").exists()


@pytest.mark.slow
def test_the_command_itself_imports_none_of_the_names_that_python_would(hostile, tmp_path):
    for name in (*BEFORE_US, "assurance"):
        (hostile / f"{name}.py").write_text(leaves_canary(tmp_path / "canary"))
    done = run(*HOLDWATER, "build", folder=hostile)
    assert done.returncode == 0, done.stderr
    assert not (tmp_path / "canary").exists()


def programs(folder, canary):
    """A folder of programs of the names that a build might call, each leaving a canary."""
    folder.mkdir()
    for name in ("git", "hg", "svn", "dot", "neato", "pdflatex", "typst", "node", "sh", "python", "python3"):
        (folder / name).write_text(f"#!{sys.executable}\n{leaves_canary(canary)}")
        (folder / name).chmod(0o755)
    return folder


@pytest.mark.slow
def test_no_program_is_looked_for_and_git_is_never_called(tmp_path):
    case, canary = write_case(tmp_path / "case"), tmp_path / "canary"
    path = str(programs(tmp_path / "bin", canary))
    (case / ".git").mkdir()
    (case / ".git" / "HEAD").write_text("ref: refs/heads/main\n")
    (case / ".git" / "config").write_text(GIT_CONFIG.format(canary=tmp_path / "bin" / "git"))
    for command in COMMANDS:
        done = run(*HOLDWATER, *command, folder=case, PATH=path)
        assert done.returncode in (0, 1), done.stderr
    assert not canary.exists()
    run(sys.executable, "-c", "import subprocess; subprocess.run(['git'])", folder=case, PATH=path)
    assert canary.exists()
