"""The same case gives the same bytes: anywhere, at any time, and with anything that was kept."""

import hashlib
import json
import os
import random
import socket
import subprocess
import sys
from pathlib import Path

import pytest
from case_copy import copy_demo
from random_cases import Maker

EDITS = int(os.environ.get("HOLDWATER_EDITS", "20"))
SEED = int(os.environ.get("HOLDWATER_EDITS_SEED", "1"))
OTHER_DAY = 400_000_000  # s; more than twelve years
# Put on the import path of a build: folders are listed the other way round, and the clock is wrong.
ANOTHER_MACHINE = f"""\
import os, time
listed, scanned, clock = os.listdir, os.scandir, time.time
class Backwards(list):
    def __enter__(self):
        return iter(self)
    def __exit__(self, *stopped):
        return None
    def close(self):
        return None
    def __next__(self):
        return self.pop(0) if self else self.stop()
    def stop(self):
        raise StopIteration
os.listdir = lambda *where: sorted(listed(*where), reverse=True)
os.scandir = lambda *where: Backwards(sorted(scanned(*where), key=lambda one: one.name, reverse=True))
time.time = lambda: clock() + {OTHER_DAY}
"""
MACHINES = {
    "another folder and zone": {"TZ": "Pacific/Kiritimati", "LC_ALL": "C", "PYTHONHASHSEED": "1"},
    "another language and one thread": {
        "TZ": "America/St_Johns", "LC_ALL": "tr_TR.UTF-8", "LANG": "de_DE.UTF-8", "PYTHONHASHSEED": "2",
        "POLARS_MAX_THREADS": "1", "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1",
    },
    "another order and clock": {"TZ": "UTC", "LC_ALL": "C.UTF-8", "PYTHONHASHSEED": "3", "PYTHONPATH": ""},
}  # fmt: skip


def demo(folder):
    folder.mkdir(parents=True)
    return copy_demo(folder)


def drawn(folder):
    folder.parent.mkdir(parents=True, exist_ok=True)
    return Maker(random.Random(4)).make().write(folder)


def build(case, cache, *, umask=0o022, **environment):
    command = [sys.executable, "-P", "-m", "assurance.cli", "build", str(case)]
    done = subprocess.run(
        command, cwd=case, umask=umask, env=os.environ | {"HOLDWATER_CACHE": str(cache)} | environment,
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return {
        file.relative_to(case / "site").as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()
        for file in (case / "site").rglob("*")
        if file.is_file()
    }


def as_if_moved(case):
    """The files of a case written again in another order, with other times."""
    files = {file: file.read_bytes() for file in sorted(case.rglob("*"), reverse=True) if file.is_file()}
    for number, (file, content) in enumerate(files.items()):
        file.unlink()
        file.write_bytes(content)
        os.utime(file, (number * 86_400, number * 86_400))
    return case


@pytest.mark.slow
@pytest.mark.parametrize("make", [demo, drawn], ids=["demo", "drawn"])
def test_a_site_is_the_same_on_every_machine(tmp_path, make):
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "sitecustomize.py").write_text(ANOTHER_MACHINE)
    first = build(make(tmp_path / "a"), tmp_path / "cache")
    assert {"index.html", "manifest.json", "assessment.json"} <= set(first)
    for number, (name, environment) in enumerate(MACHINES.items()):
        if "PYTHONPATH" in environment:
            path = os.pathsep.join((str(tmp_path / "other"), os.environ.get("PYTHONPATH", "")))
            environment = environment | {"PYTHONPATH": path.strip(os.pathsep)}
        case = as_if_moved(make(tmp_path / "a-much-longer-name" / ("x" * 60 * number) / "case"))
        cache = tmp_path / "cache" if number == 1 else tmp_path / f"cache-{number}"
        assert build(case, cache, umask=0o077, **environment) == first, name


@pytest.mark.slow
def test_no_file_of_the_site_knows_the_machine(tmp_path):
    case = demo(tmp_path / "somewhere-of-its-own")
    build(case, tmp_path / "cache")
    words = {"somewhere-of-its-own", str(tmp_path), str(Path.home()), sys.prefix, socket.gethostname()}
    words = {word.encode() for word in words if len(word) > 5}
    assert words
    for file in (case / "site").rglob("*"):
        text = file.read_bytes() if file.is_file() else b""
        assert not [word for word in words if word in text], file


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes that can be forked")
def test_builds_with_all_that_is_kept_and_from_nothing_agree_after_random_edits(tmp_path):
    case = demo(tmp_path / "case")
    program = [sys.executable, str(Path(__file__).with_name("edited_builds.py"))]
    done = subprocess.run(
        [*program, str(case), str(EDITS), str(SEED)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert told["wrong"] == {}, done.stderr
    assert told["changed"] > EDITS / 2


def test_the_other_machine_lists_folders_the_other_way_round(tmp_path):
    (tmp_path / "sitecustomize.py").write_text(ANOTHER_MACHINE)
    for name in "abc":
        (tmp_path / "listed" / name).mkdir(parents=True)
    program = (
        "import os, time, pathlib; here = pathlib.Path('listed'); print(*os.listdir(here), "
        "*(one.name for one in os.scandir(here)), *(one.name for one in here.rglob('*')), int(time.time()))"
    )
    environment = os.environ | {"PYTHONPATH": str(tmp_path)}
    command = [sys.executable, "-c", program]
    told = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=True)
    *names, clock = told.stdout.split()
    assert names == list("cba" * 3)
    assert int(clock) > (tmp_path / "listed").stat().st_mtime + OTHER_DAY / 2
