"""The manifest can be worked out again with two tools that every auditor has."""

import hashlib
import json
import os
import shutil
import subprocess
import tomllib
from datetime import date
from pathlib import Path

import pytest
from publishing_case import content, plain_frames, publish_case, write_case

from assurance.assess import assess
from assurance.publish import publish
from assurance.publish.manifest import PACKAGES, listed
from assurance.reading import read_case

ROOT = Path(__file__).parents[2]
EVIDENCE = "evidence:\n  e: {title: E, kind: test, files: [{file: data/rig.csv}, {file: lost.csv}]}\n"
FILES = ("claims/case.yml", "claims/data/rig.csv", "claims/evidence.yml", "guide/index.md", "mkdocs.yml")
needs_tools = pytest.mark.skipif(not shutil.which("sha256sum"), reason="needs sha256sum and sort")


@pytest.fixture
def case(tmp_path):
    case = write_case(tmp_path / "case")
    for name, text in (
        ("claims/evidence.yml", EVIDENCE),
        ("claims/data/rig.csv", "a\r\n1\r\n"),
        ("guide/index.md", "\ufeff# Notes\r\n"),
        ("mkdocs.yml", "site_name: Tiny\n"),
    ):
        (case / name).parent.mkdir(exist_ok=True)
        (case / name).write_bytes(text.encode())
    return case


def shell(script, folder):
    done = subprocess.run(["sh", "-ec", script], cwd=folder, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout


def manifest(site):
    return json.loads((site / "manifest.json").read_text())


def test_the_manifest_lists_every_file_that_was_read_and_names_what_could_not_be(case):
    publish_case(case)
    found = manifest(case / "site")
    assert tuple(one["path"] for one in found["input_files"]) == FILES
    assert found["not_read"] == ["claims/lost.csv"]
    for one in found["input_files"]:
        bytes_ = (case / one["path"]).read_bytes()
        assert (one["size"], one["sha256"]) == (len(bytes_), hashlib.sha256(bytes_).hexdigest())


@needs_tools
def test_the_digest_of_the_inputs_follows_with_sha256sum_and_sort_alone(case):
    publish_case(case)
    names = " ".join(reversed(FILES))
    script = f"printf '%s\\n' {names} | LC_ALL=C sort | xargs sha256sum | sha256sum"
    assert shell(script, case).split()[0] == manifest(case / "site")["inputs"]
    shell("sha256sum --check --strict --quiet site/inputs.sha256", case)


@needs_tools
def test_the_published_files_are_checked_with_sha256sum_and_a_changed_one_is_found(case):
    publish_case(case)
    site = case / "site"
    shell("sha256sum --check --strict --quiet site.sha256", site)
    assert shell("sha256sum site.sha256", site).split()[0] == manifest(site)["site"]
    named = {line.split("  ")[1] for line in (site / "site.sha256").read_text().splitlines()}
    assert named == set(content(site)) - {"manifest.json", "site.sha256"}
    assert named == set(manifest(site)["files"])
    (site / "index.html").write_text("changed")
    with pytest.raises(AssertionError, match="did NOT match"):
        shell("sha256sum --check --strict --quiet site.sha256", site)


@pytest.mark.parametrize("name", FILES)
def test_one_byte_of_any_input_changes_the_digest(case, name):
    publish_case(case)
    before = manifest(case / "site")["inputs"]
    (case / name).write_bytes((case / name).read_bytes() + b" ")
    publish_case(case)
    assert manifest(case / "site")["inputs"] != before


def publish_on(case, day):
    read = read_case(case)
    assessment = assess(read, as_of=day)
    publish(read, assessment, case / "site", render_frames=plain_frames, cache_dir=None)
    return manifest(case / "site")


@needs_tools
def test_a_day_that_was_given_is_one_of_the_inputs(case):
    stated, given = publish_on(case, None), publish_on(case, date(2026, 5, 2))
    assert (stated["as_of"], stated["judged_on"]) == ("2026-03-12", None)
    assert (given["as_of"], given["judged_on"]) == ("2026-05-02", "2026-05-02")
    script = f"(echo '# judged as of 2026-05-02'; sha256sum {' '.join(FILES)}) | sha256sum"
    assert shell(script, case).split()[0] == given["inputs"] != stated["inputs"]
    shell("sha256sum --check --strict --quiet site/inputs.sha256", case)


def test_the_day_of_the_case_given_again_changes_nothing(case):
    assert publish_on(case, date(2026, 3, 12)) == publish_on(case, None)


def test_the_first_digits_stand_on_the_conclusion_and_in_the_foot_of_the_sheet(case):
    publish_case(case)
    short = manifest(case / "site")["inputs"][:12]
    assert f"inputs {short}" in (case / "site" / "assets" / "print.css").read_text()


@needs_tools
def test_names_are_written_as_sha256sum_writes_them(tmp_path):
    names = ["plain", "a b", "back\\slash", "line\nend", "return\rhere", "ä", "zz/..x", "-n"]
    for name in names:
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(name)
    digests = [(name, hashlib.sha256(name.encode()).hexdigest()) for name in names]
    ordered = sorted(names, key=os.fsencode)
    done = subprocess.run(
        ["sha256sum", "--", *ordered], cwd=tmp_path, capture_output=True, check=True, env={"LC_ALL": "C"}
    )
    assert listed(digests) == done.stdout


def test_every_package_that_computes_or_renders_is_named():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text())
    asked = {one.partition(">")[0].partition("[")[0].lower() for one in settings["project"]["dependencies"]}
    assert asked - {"click"} <= set(PACKAGES)
    assert list(PACKAGES) == sorted(PACKAGES)


def test_no_path_of_the_machine_is_in_the_manifest(case):
    publish_case(case)
    for name in ("manifest.json", "inputs.sha256", "site.sha256"):
        assert str(case.parent) not in (case / "site" / name).read_text()


def test_a_file_named_twice_is_listed_once(case):
    more = "  f: {title: F, kind: test, files: [{file: ../claims/data/rig.csv}, {file: case.yml}]}\n"
    (case / "claims" / "evidence.yml").write_text(EVIDENCE + more)
    publish_case(case)
    assert tuple(one["path"] for one in manifest(case / "site")["input_files"]) == FILES
