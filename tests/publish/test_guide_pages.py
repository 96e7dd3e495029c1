"""The pages of the guide: their addresses, their anchors, and how they read on a phone and by key."""

import re

import pytest

from assurance.mkdocs_plugin import render_frames
from assurance.publish.frames import FrameRequest
from assurance.publish.guide import guide_texts, page_title, with_marks
from assurance.site.sections import GROUPS
from assurance.site.templates import templates_folder


def rendered(text, name="reading/page"):
    request = FrameRequest(GROUPS, {name: text, "reading-guide": "# Guide\n"}, templates_folder() / "theme")
    return with_marks(render_frames(request)[name])


def test_pages_that_are_made_stand_beside_those_that_are_written(tmp_path):
    (tmp_path / "reading").mkdir()
    (tmp_path / "index.md").write_text("# Guide")
    (tmp_path / "reading" / "tutorial.md").write_text("# First\n\nBack to [the guide](../index.md#lines).\n")
    texts = guide_texts(tmp_path, {"reading/rules": "# Ours"}, made={"reading/rules": "# Rules"})
    assert set(texts) == {"reading-guide", "reading/tutorial", "reading/rules", "guide/reading/rules"}
    assert texts["reading/rules"] == "# Rules"
    assert "(../reading-guide.md#lines)" in texts["reading/tutorial"]


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("---\nbuilt: true\n---\n# Rules\n", "Rules"),
        ("# The `check` [of](a.md)\n", "The check of(a.md)"),
        ("no", "x"),
    ],
)
def test_a_page_is_called_by_its_first_heading(text, title):
    assert page_title(text, "x") == title


def test_a_place_with_a_dot_is_an_anchor_and_nothing_else_is():
    shown = with_marks('{at:claims.owner} {at:main} {at:a.b"onclick=x} {at:<b>.c}')
    assert shown.count("<a id=") == 1
    assert '<a id="claims.owner"></a>' in shown


def test_a_page_that_was_built_reads_in_the_plain_face_and_a_written_one_as_said():
    assert 'class="prose said"' in rendered("# Written\n")
    assert 'class="prose"' in rendered("---\nbuilt: true\n---\n# Built\n")


def test_a_page_of_the_guide_is_marked_in_the_rail():
    assert re.search(r'reading-guide.html" aria-current', rendered("# Page\n"))


def test_cells_carry_their_column_word_and_code_that_scrolls_is_reached_by_key():
    html = rendered('# T\n\n| Field | Says "it" |\n|---|---|\n| `a` | b |\n\n```yaml\na: 1\n```\n')
    assert '<td data-h="Says &quot;it&quot;">b</td>' in html
    assert "<td><code>a</code></td>" in html
    assert '<pre tabindex="0"><code' in html


def test_the_pages_of_a_case_are_named_ahead_of_the_first_section(tmp_path):
    (tmp_path / "index.md").write_text("# Guide\n\nIntro.\n\n## Where to start\n\nHere.\n")
    guide = guide_texts(tmp_path, {"notes": "# Our notes"}, made={})["reading-guide"]
    assert guide.startswith("# Guide\n\nIntro.\n\n\n## Pages of this case\n\n- [Our notes](guide/notes.md)\n")
    assert guide.endswith("\n## Where to start\n\nHere.\n")
