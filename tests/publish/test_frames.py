from dataclasses import replace

import pytest
from publishing_case import FRAME, plain_frames

from assurance.publish.frames import Frame, FrameRequest, frames, frames_key
from assurance.publish.guide import guide_texts, read_pages, with_marks
from assurance.site.sections import GROUPS


@pytest.fixture
def asked(tmp_path):
    (tmp_path / "theme").mkdir()
    (tmp_path / "theme" / "base.html").write_text(FRAME)
    return FrameRequest(GROUPS, {"reading-guide": "# Guide"}, tmp_path / "theme")


class Host:
    """Renders frames and counts how often it is asked."""

    def __init__(self):
        self.asked = 0

    def __call__(self, request):
        self.asked += 1
        return plain_frames(request)


def test_slots_that_are_the_same_everywhere_are_filled_once():
    frame = Frame("<!--slot:item-->|<!--slot:root-->a|<!--slot:root-->b|<!--slot:main-->", {"item": "Step"})
    assert frame.pour({"root": "../", "main": "M"}) == "Step|../a|../b|M"


def test_a_slot_in_what_is_poured_in_stays_text():
    assert Frame("<!--slot:main-->", {}).pour({"main": "<!--slot:root-->"}) == "<!--slot:root-->"


def test_frames_are_rendered_once_while_their_key_holds(asked, tmp_path):
    host = Host()
    first = frames(asked, render_frames=host, cache_dir=tmp_path / "cache")
    assert frames(asked, render_frames=host, cache_dir=tmp_path / "cache") == first
    assert host.asked == 1


def test_a_change_of_theme_text_or_sections_changes_the_key(asked):
    keys = {frames_key(asked), frames_key(replace(asked, texts={"reading-guide": "# Other"}))}
    keys.add(frames_key(replace(asked, groups=GROUPS[:2])))
    (asked.theme / "base.html").write_text("two")
    keys.add(frames_key(asked))
    assert len(keys) == 4


def test_a_frame_file_that_was_cut_short_is_rendered_again(asked, tmp_path):
    host = Host()
    frames(asked, render_frames=host, cache_dir=tmp_path / "cache")
    kept = next((tmp_path / "cache" / "frames").glob("*/*.json"))
    kept.write_text(kept.read_text()[:20])
    frames(asked, render_frames=host, cache_dir=tmp_path / "cache")
    assert host.asked == 2


def test_a_cache_that_cannot_be_written_costs_time_and_nothing_else(asked, tmp_path):
    (tmp_path / "cache").write_text("a file where the folder would be")
    assert frames(asked, render_frames=plain_frames, cache_dir=tmp_path / "cache")


def test_pages_of_a_case_join_the_reading_guide(tmp_path):
    (tmp_path / "index.md").write_text("# Reading guide")
    texts = guide_texts(tmp_path, {"index": "# Our notes"}, made={})
    assert set(texts) == {"reading-guide", "guide/index"}
    assert "[Our notes](guide/index.md)" in texts["reading-guide"]


def test_a_case_whose_pages_are_the_guide_itself_gets_it_once(tmp_path):
    (tmp_path / "index.md").write_text("# Reading guide")
    texts = guide_texts(tmp_path, read_pages(tmp_path), made={})
    assert texts == {"reading-guide": "# Reading guide"}


def test_a_link_out_of_the_folder_of_pages_is_not_followed(tmp_path):
    (tmp_path / "secret.md").write_text("secret")
    (tmp_path / "guide").mkdir()
    (tmp_path / "guide" / "index.md").symlink_to(tmp_path / "secret.md")
    assert read_pages(tmp_path / "guide") == {}


def test_a_mark_inside_a_tag_stays_as_it_is_written():
    html = '<a href="https://example.org/{mark:holds}" title="{at:a.b}">{mark:holds}</a>'
    assert with_marks(html).startswith('<a href="https://example.org/{mark:holds}" title="{at:a.b}"><svg')


def test_a_page_of_text_shows_the_marks_that_it_names_and_leaves_other_braces_alone():
    shown = with_marks("a {mark:holds} b {mark:out of date} c {mark:nonsense} {x}")
    assert shown.count("<svg") == 2
    assert "c {mark:nonsense} {x}" in shown
