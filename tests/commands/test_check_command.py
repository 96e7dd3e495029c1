import json
import os
import pty
import re
import subprocess
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner
from holdwater_process import COMMAND, holdwater
from lxml import etree

from assurance.cli import main
from assurance.scaffold import new_case
from assurance.site.published import schema_text

ESCAPE = re.compile(r"\x1b\[[0-9;]*m")
FAULTY = 'claims:\n  odd:\n    statment: A rail\n    title: {a: "x\\e[31m"}\n'
UNUSED = "contexts: {unused: {statement: Nobody reads claims within this.}}\n"
MORE = {"no finding": "", "a caution": UNUSED, "a blocking finding": FAULTY}


@pytest.fixture(autouse=True)
def own_cache(tmp_path_factory, monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path_factory.mktemp("cache")))
    monkeypatch.delenv("NO_COLOR", raising=False)


@pytest.fixture
def case(tmp_path):
    new_case(tmp_path / "my case")
    return tmp_path / "my case"


def check(folder, *words):
    return CliRunner().invoke(main, ["check", str(folder), *words])


def spoil(case, text=FAULTY):
    (case / "claims" / "more.yml").write_text(text)
    return case


def test_a_finding_is_shown_with_its_line_and_carets_under_the_value(case):
    told = check(spoil(case)).output.splitlines()
    place = next(number for number, line in enumerate(told) if "statment" in line and "[key-unknown]" in line)
    assert told[place].startswith("claims/more.yml:3:5: blocking")
    assert told[place + 1 : place + 3] == ["        statment: A rail", "        ^^^^^^^^"]


@pytest.mark.parametrize("form", ["text", "sarif", "junit"])
def test_no_escape_of_a_file_reaches_the_reader(case, form):
    assert "\x1b" not in check(spoil(case), "--format", form).output


@pytest.mark.parametrize("more", MORE)
@pytest.mark.parametrize("fail_on", ["blocking", "caution", "note", "never"])
def test_every_format_has_the_same_exit_code_and_junit_a_failure_just_there(case, more, fail_on):
    spoil(case, MORE[more])
    ran = {
        form: check(case, "--format", form, "--fail-on", fail_on)
        for form in ("text", "json", "sarif", "junit")
    }
    heavy = {
        "no finding": [],
        "a caution": ["caution", "note"],
        "a blocking finding": ["blocking", "caution", "note"],
    }
    assert {one.exit_code for one in ran.values()} == {int(fail_on in heavy[more])}
    failures = etree.fromstring(ran["junit"].output.encode()).get("failures")
    assert (failures != "0") == (fail_on in heavy[more])


def test_json_is_the_whole_assessment_by_its_schema(case):
    data = json.loads(check(spoil(case), "--format", "json").output)
    jsonschema.validate(data, json.loads(schema_text()))
    assert "key-unknown" in {one["rule"] for one in data["findings"]}


def test_every_format_tells_the_same_findings(case):
    spoil(case, FAULTY + UNUSED)
    wanted = json.loads(check(case, "--format", "json").output)["findings"]
    sarif = json.loads(check(case, "--format", "sarif").output)["runs"][0]["results"]
    assert [(one["rule"], one["message"]) for one in wanted] == [
        (one["ruleId"], one["message"]["text"].removesuffix(" " + told["remedy"]))
        for one, told in zip(sarif, wanted, strict=True)
    ]
    text = check(case).output
    assert all(f"[{one['rule']}] {one['message']}" in text for one in wanted)


def test_sarif_names_files_from_the_folder_it_is_asked_in(case, monkeypatch):
    def uris():
        run = json.loads(check(spoil(case), "--format", "sarif").output)["runs"][0]
        return {
            one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"].removesuffix("claims/more.yml")
            for one in run["results"]
            if one["ruleId"] == "key-unknown"
        }

    monkeypatch.chdir(case.parent)
    assert uris() == {"my%20case/"}
    monkeypatch.chdir(case)
    assert uris() == {""}
    (case.parent / "elsewhere").mkdir()
    monkeypatch.chdir(case.parent / "elsewhere")
    assert uris() == {""}


def test_a_folder_without_a_case_exits_with_2_in_every_format(tmp_path):
    for form in ("text", "json", "sarif", "junit"):
        ran = check(tmp_path, "--format", form, "--fail-on", "never")
        assert ran.exit_code == 2, form
        assert "case-missing" in ran.output, form


def test_a_report_goes_to_a_file_and_the_summary_to_the_reader(case, tmp_path):
    ran = check(spoil(case), "--format", "junit", "--output", str(tmp_path / "out.xml"))
    assert ran.exit_code == 1
    assert "blocking finding" in ran.output
    assert "<testsuites" not in ran.output
    assert etree.parse(tmp_path / "out.xml").getroot().tag == "testsuites"


@pytest.mark.parametrize("name", ["no/such/folder/out.txt", "claims.yml"])
def test_a_file_that_cannot_be_written_is_told_with_exit_2(case, tmp_path, name):
    ran = check(case, "--output", str(tmp_path / name))
    assert ran.exit_code == 2
    assert "was not written" in ran.output
    assert not (tmp_path / name).exists()


@pytest.mark.slow
def test_a_report_that_cannot_be_written_whole_leaves_the_one_before(case, tmp_path):
    out = tmp_path / "out.txt"
    out.write_text("before")
    limit = 'ulimit -f 0; exec "$@"'  # no file may grow at all
    command = ["sh", "-c", limit, "sh", *COMMAND, "check", str(spoil(case)), "--output", str(out)]
    ran = subprocess.run(command, capture_output=True, text=True, check=False)
    assert ran.returncode == 2, ran.stderr
    assert out.read_text() == "before"
    assert [path.name for path in tmp_path.iterdir() if "out" in path.name] == ["out.txt"]


def test_a_link_named_for_the_report_is_followed_and_a_device_stays_one(case, tmp_path):
    (tmp_path / "real.txt").write_text("before")
    (tmp_path / "link.txt").symlink_to("real.txt")
    assert check(case, "--output", str(tmp_path / "link.txt")).exit_code == 0
    assert (tmp_path / "link.txt").is_symlink()
    assert "the top claim" in (tmp_path / "real.txt").read_text()
    assert check(case, "--output", os.devnull).exit_code == 0
    assert not Path(os.devnull).is_file()


def on_a_terminal(*words, env=None):
    """What a run prints where its output is a terminal."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen([*COMMAND, *map(str, words)], stdout=theirs, env={**os.environ, **(env or {})})
    os.close(theirs)
    told = b""
    while True:
        try:
            part = os.read(ours, 65536)
        except OSError:  # the other end is closed
            break
        if not part:
            break
        told += part
    process.wait()
    os.close(ours)
    return told.decode()


@pytest.mark.slow
def test_words_are_painted_on_a_terminal_only(case):
    spoil(case)
    painted = on_a_terminal("check", case, env={"TERM": "xterm"})
    assert ESCAPE.search(painted)
    assert "blocking" in ESCAPE.sub("", painted)
    for env in ({"NO_COLOR": "1"}, {"TERM": "dumb"}):
        assert not ESCAPE.search(on_a_terminal("check", case, env={"TERM": "xterm", **env}))
    assert not ESCAPE.search(on_a_terminal("check", case, "--no-color"))
    assert not ESCAPE.search(holdwater("check", case).stdout)
    assert ESCAPE.search(holdwater("check", case, "--color").stdout)


@pytest.mark.slow
def test_a_reader_that_stops_and_a_full_disk_bring_no_traceback(case):
    for words in ("check {}", "check {} --format json", "schema", "--help"):
        command = " ".join([*COMMAND, *words.split()]).replace("{}", f"'{case}'")
        for end in ("| head -c 1 >/dev/null", "| true", "> /dev/full"):
            ran = subprocess.run(
                ["sh", "-c", f"{command} {end}"], capture_output=True, text=True, check=False
            )
            assert "Traceback" not in ran.stderr, (words, end)
            assert "Exception ignored" not in ran.stderr, (words, end)


@pytest.mark.slow
def test_a_full_disk_is_told_with_exit_2(case):
    with Path("/dev/full").open("w") as full:
        ran = holdwater("check", case, capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert ran.returncode == 2
    assert "could not be written: No space left on device" in ran.stderr


@pytest.mark.slow
def test_an_encoding_without_the_letters_still_gets_the_findings(case):
    spoil(case, "claims:\n  odd: {statement: Ä日本, titel: x}\n")
    ran = holdwater("check", case, env={"PYTHONIOENCODING": "ascii"})
    assert ran.returncode == 1, ran.stderr
    assert "key-unknown" in ran.stdout


def test_the_exit_codes_stand_in_the_help():
    told = " ".join(CliRunner().invoke(main, ["check", "--help"]).output.split())
    for words in ("0 no finding", "1 at least one finding", "2 there is no case record"):
        assert words in told
