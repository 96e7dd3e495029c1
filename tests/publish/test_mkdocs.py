import os
import subprocess
import sys

import pytest
from publishing_case import content, publish_case, write_case

from assurance.mkdocs_plugin import render_frames
from assurance.publish.frames import FrameRequest
from assurance.site.sections import GROUPS
from assurance.site.templates import templates_folder

SETTINGS = "site_name: Tiny\ndocs_dir: guide\ntheme: material\nplugins: [holdwater]\n"


def asked(text):
    return FrameRequest(GROUPS, {"reading-guide": text}, templates_folder() / "theme")


def test_a_frame_holds_nothing_of_the_theme():
    for html in render_frames(asked("# Guide")).values():
        assert "md-" not in html
        assert "<style" not in html
        assert html.count("<script") == html.count('<script src="<!--slot:root-->assets/') > 0
        assert "https:" not in html


def test_the_page_that_is_shown_is_marked_in_the_rail():
    rendered = render_frames(asked("# Guide"))
    assert set(rendered) == {section.name for group in GROUPS for section in group.sections}
    for name, html in rendered.items():
        assert html.count("aria-current") == 1
        assert f'<!--slot:root-->{name}.html" aria-current' in html


@pytest.mark.parametrize(
    ("text", "gone"),
    [
        ("<script>alert(1)</script>", "<script>alert"),
        ("a <b onclick=x>b</b>", "<b onclick"),
        ("[a](javascript:alert(1))", "javascript:"),
        ("![a](http://example.org/a.png)", "<img"),
        ("[a](data:text/html,x)", 'href="data:'),
    ],
)
def test_markdown_brings_no_markup_of_its_own(text, gone):
    assert gone not in render_frames(asked(text))["reading-guide"]


def run(command, folder, cache):
    environment = {**os.environ, "HOLDWATER_CACHE": str(cache)}
    return subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)


@pytest.mark.slow
def test_mkdocs_build_gives_the_same_bytes_as_our_own(tmp_path):
    case = write_case(tmp_path / "case")
    (case / "mkdocs.yml").write_text(SETTINGS)
    (case / "guide").mkdir()
    (case / "guide" / "index.md").write_text("# Notes\n\nSee [the guide](index.md).\n")
    done = run([sys.executable, "-m", "mkdocs", "build", "-q"], case, tmp_path / "cache")
    assert done.returncode == 0, done.stderr
    by_mkdocs = content(case / "site")
    publish_case(case, site=tmp_path / "own", render_frames=render_frames)
    assert content(tmp_path / "own") == by_mkdocs
    assert "guide/index.html" in by_mkdocs


@pytest.mark.slow
def test_mkdocs_build_refuses_a_folder_that_is_not_ours(tmp_path):
    case = write_case(tmp_path / "case")
    (case / "mkdocs.yml").write_text(SETTINGS)
    for folder in ("guide", "site"):
        (case / folder).mkdir()
    (case / "guide" / "index.md").write_text("# Notes\n")
    (case / "site" / "thesis.txt").write_text("keep")
    done = run([sys.executable, "-m", "mkdocs", "build", "-q"], case, tmp_path / "cache")
    assert done.returncode != 0
    assert "not published by holdwater" in done.stderr
    assert content(case / "site") == {"thesis.txt": b"keep"}


@pytest.mark.slow
def test_a_second_build_does_not_import_mkdocs(tmp_path):
    case = write_case(tmp_path / "case")
    build = [sys.executable, "-P", "-m", "assurance.cli", "build", str(case)]
    assert run(build, tmp_path, tmp_path / "cache").returncode == 0
    done = run([sys.executable, "-X", "importtime", *build[1:]], tmp_path, tmp_path / "cache")
    imported = {line.rpartition("|")[2].strip() for line in done.stderr.splitlines()}
    assert "assurance.publish" in imported
    assert not imported & {"mkdocs", "material", "scipy", "polars", "matplotlib", "numpy"}
