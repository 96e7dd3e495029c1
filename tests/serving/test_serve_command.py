"""`holdwater serve` as a program of its own: what it prints, and how it ends."""

import re
import signal
import socket
import subprocess
import sys
import urllib.request
from contextlib import contextmanager

import pytest

from assurance.scaffold import new_case

pytestmark = pytest.mark.slow
PATIENCE = 60  # s on a busy machine


@pytest.fixture
def case(tmp_path, monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path / "cache"))
    new_case(tmp_path / "mine")
    return tmp_path / "mine"


@contextmanager
def serving(case, *words):
    command = [sys.executable, "-m", "assurance.cli", "serve", str(case), "--port", "0", *words]
    program = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        found = re.search(r"http://127\.0\.0\.1:\d+/", program.stdout.readline())
        assert "pages published" in program.stdout.readline()
        yield program, found[0]
    finally:
        program.kill()
        program.wait(PATIENCE)


def sent(url):
    with urllib.request.urlopen(url, timeout=PATIENCE) as answer:
        return answer.read().decode()


def test_an_edit_is_published_and_told(case):
    with serving(case) as (program, url):
        path = case / "claims" / "bracket.yml"
        path.write_text(path.read_text().replace("aluminium plate 12 mm", "of thick plate"))
        assert program.stdout.readline() == "claims/bracket.yml:\n"
        assert "pages published" in program.stdout.readline()
        assert "of thick plate" in sent(f"{url}parts/bracket.html")


def test_the_published_folder_holds_nothing_of_the_server(case):
    with serving(case) as (_, url):
        assert "/-/overlay.js" in sent(url)
    pages = [path.read_text("utf-8") for path in (case / "site").rglob("*.html")]
    assert pages
    assert not [page for page in pages if "overlay" in page or "connect-src" in page]
    assert not list((case / "site").rglob("overlay*"))


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_without_a_fault_when_asked(case, number):
    with serving(case) as (program, _):
        program.send_signal(number)
        out, err = program.communicate(timeout=PATIENCE)
        assert program.returncode == 0
        assert "Ended" in out
        assert err == ""


def test_a_port_that_is_taken_is_told_and_nothing_is_built(case):
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        command = [sys.executable, "-m", "assurance.cli", "serve", str(case), "--port", str(port)]
        ran = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE, check=False)
    assert ran.returncode == 2
    assert ran.stderr == f"Port {port} is in use. Name another with `--port`, or 0 for any that is free.\n"
    assert not (case / "site").exists()


def test_the_case_itself_is_not_written_into(case):
    before = {path: path.read_bytes() for path in case.rglob("*") if path.is_file()}
    with serving(case, "--site-dir", str(case.parent / "site")):
        pass
    assert before == {path: path.read_bytes() for path in case.rglob("*") if path.is_file()}


def test_the_schema_is_kept_up_to_date_where_that_is_asked_for(case):
    with serving(case, "--write-schema") as (program, _):
        (case / "claims" / "more.yml").write_text("contexts: {brand-new: {statement: New.}}\n")
        assert program.stdout.readline() == "claims/more.yml:\n"
        assert '"brand-new"' in (case / "schema.json").read_text()


def test_a_folder_that_was_not_published_is_never_served(case):
    folder = case.parent / "private"
    folder.mkdir()
    (folder / "index.html").write_text("private")
    command = [sys.executable, "-m", "assurance.cli", "serve", str(case), "--port", "0"]
    command += ["--site-dir", str(folder)]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE, check=False)
    assert ran.returncode == 2
    assert ran.stderr.startswith("Nothing is served: ")
    assert ran.stdout == ""
