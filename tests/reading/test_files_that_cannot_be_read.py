"""Files that are no YAML of a case: one finding each, a stub for each id seen, never a traceback."""

import os
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from marked_text import AROUND, read_text, write_case

from assurance.model.case import CaseText
from assurance.reading import read_case
from assurance.reading.record_files import read_file

TOP = "claims:\n  top:\n    statement: It is safe.\n"
BOMB = "".join(f"    l{n}: &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]\n" for n in range(1, 10))


def places(case: CaseText) -> list[tuple[str, int, int, str]]:
    return [(f.place.file, f.place.line, f.place.column, f.rule) for f in case.findings]


def test_a_tab_in_the_indentation_is_told_at_its_place(tmp_path: Path) -> None:
    case = read_text(tmp_path, TOP + "\towner: anna\n")

    assert places(case) == [("claims/this.yml", 4, 1, "yaml-not-readable")]
    assert "tab" in case.findings[0].message


def test_a_text_that_does_not_parse_leaves_a_stub_for_each_id(tmp_path: Path) -> None:
    text = TOP + "    argument: {rests_on: [rig\n  more:\n    statement: B.\nparts:\n  frame: {title: A}\n"

    case = read_text(tmp_path, text)

    assert [f.rule for f in case.findings] == ["yaml-not-readable"]
    stubs = {id_: e.kind for id_, e in case.entries.items() if e.record is None}
    assert stubs == {"top": "claims", "more": "claims", "frame": "parts"}


def test_fields_below_a_section_that_lost_its_ids_are_not_taken_for_ids(tmp_path: Path) -> None:
    text = "parts:\n    title: A\nevidence:\n    title: B\nclaims:\n  top:\n    title: [\n"

    case = read_text(tmp_path, text)

    assert [f.rule for f in case.findings] == ["yaml-not-readable"]
    assert "title" not in case.entries


def test_ids_below_a_garbled_kind_bring_no_follow_on_finding(tmp_path: Path) -> None:
    text = " parts:\n  frame: {title: A}\nclaims:\n  low: {statement: B.}\n"
    write_case(tmp_path, text)
    (tmp_path / "claims" / "top.yml").write_text("claims:\n  top: {statement: A., about: [frame]}\n")

    case = read_case(tmp_path)

    assert [f.rule for f in case.findings] == ["yaml-not-readable"]
    assert case.entries["low"].record is None


def test_a_record_that_was_read_goes_before_a_stub_of_its_id(tmp_path: Path) -> None:
    case = read_text(tmp_path, "parts:\n  BLADE: {title: [}\n  rig: {title: A}\ncase:\n  other: {title: A}\n")

    assert [f.rule for f in case.findings] == ["yaml-not-readable"]
    assert case.entries["blade"].record is not None
    assert case.entries["rig"].kind == "evidence"


def test_a_slip_in_the_indentation_of_the_first_id_hides_no_other(tmp_path: Path) -> None:
    text = "parts:\n   frame:\n    title: A\n  beam:\n    title: B\n"

    case = read_text(tmp_path, text)

    assert [f.rule for f in case.findings] == ["yaml-not-readable"]
    assert case.entries["beam"].kind == "parts"
    assert case.entries["beam"].record is None


def test_naming_a_stub_brings_no_follow_on_finding(tmp_path: Path) -> None:
    write_case(tmp_path, "parts:\n  frame: {title: [}\n")
    (tmp_path / "claims" / "top.yml").write_text("claims:\n  top: {statement: A., about: [frame]}\n")

    assert [f.rule for f in read_case(tmp_path).findings] == ["yaml-not-readable"]


def test_naming_a_record_of_an_unknown_kind_brings_no_follow_on_finding(tmp_path: Path) -> None:
    text = "claim:\n  low: {statement: A.}\nclaims:\n  top: {statement: B., argument: {rests_on: [low]}}\n"

    assert [f.rule for f in read_text(tmp_path, text).findings] == ["kind-unknown"]


def test_nobody_is_unknown_while_the_case_record_cannot_be_read(tmp_path: Path) -> None:
    around = AROUND.replace("title: Boarding step (invented)", "title: 5")
    write_case(tmp_path, TOP + "    owner: nobody\n    quantity: none\n", around=around)

    assert [f.rule for f in read_case(tmp_path).findings] == ["value-wrong"]


def test_an_alias_bomb_is_refused_once(tmp_path: Path) -> None:
    text = f"claims:\n  bomb:\n    l0: &l0 [x, x, x]\n{BOMB}  more: {{statement: *l0}}\n"

    case = read_text(tmp_path, text)

    assert places(case) == [("claims/this.yml", 2, 3, "too-many-values")]
    assert case.entries["bomb"].record is None
    assert case.entries["more"].record is None


@pytest.mark.parametrize(("opening", "closing"), [("[", "]"), ("{a: ", "}")])
def test_nesting_of_200_levels_is_refused_at_one_place(opening: str, closing: str, tmp_path: Path) -> None:
    text = f"claims:\n  top:\n    statement: {opening * 200}{closing * 200}\n"

    case = read_text(tmp_path, text)

    assert {f.rule for f in case.findings} == {"nested-too-deep", "value-wrong"}
    assert {f.place.line for f in case.findings} == {3}


@pytest.mark.parametrize("row", ["[" * 100_000, "- " * 100_000, "? " * 100_000, "{a: " * 100_000])
def test_nesting_without_end_is_refused(row: str, tmp_path: Path) -> None:
    assert [f.rule for f in read_text(tmp_path, row).findings] == ["yaml-not-readable"]


def test_a_second_document_is_told_where_it_starts(tmp_path: Path) -> None:
    case = read_text(tmp_path, TOP + "---\nclaims:\n  more: {statement: B.}\n")

    assert places(case) == [("claims/this.yml", 4, 1, "yaml-not-readable")]
    assert set(case.entries) >= {"top", "more"}


def test_an_alias_to_nothing_is_told(tmp_path: Path) -> None:
    case = read_text(tmp_path, TOP + "    owner: *nobody\n")

    assert places(case) == [("claims/this.yml", 4, 12, "yaml-not-readable")]


def test_a_file_that_is_not_utf_8_is_told_with_its_line(tmp_path: Path) -> None:
    case = read_text(tmp_path, "claims:\n  top: {statement: Größe}\n".encode("latin-1"))

    assert places(case) == [("claims/this.yml", 2, 1, "file-not-readable")]


def test_a_byte_of_zero_is_told_at_its_place(tmp_path: Path) -> None:
    case = read_text(tmp_path, TOP.encode() + b"    owner: \x00\n")

    assert places(case) == [("claims/this.yml", 4, 12, "yaml-not-readable")]


def test_a_file_above_the_size_is_not_read(tmp_path: Path) -> None:
    case = read_text(tmp_path, TOP + "#" * 5_000_001)

    assert places(case) == [("claims/this.yml", 1, 1, "file-not-readable")]


@pytest.mark.parametrize("text", ["[1, 2]", "word", "3", "!!python/name:os.system ''", "!x {claims: {}}"])
def test_a_file_that_is_no_mapping_is_told(text: str, tmp_path: Path) -> None:
    case = read_text(tmp_path, text)

    assert [f.rule for f in case.findings] in (["value-wrong"], ["tag-not-read"])


def test_a_link_out_of_the_case_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "secret.yml").write_text("parts:\n  secret: {title: Secret}\n")
    (tmp_path / "secrets").mkdir()
    case_folder = write_case(tmp_path / "case", TOP)
    (case_folder / "claims" / "link.yml").symlink_to(tmp_path / "secret.yml")
    (case_folder / "claims" / "folder").symlink_to(tmp_path / "secrets")

    case = read_case(case_folder)

    assert [(f.place.file, f.rule) for f in case.findings] == [
        ("claims/folder", "file-outside-the-case"),
        ("claims/link.yml", "file-outside-the-case"),
    ]
    assert "secret" not in case.entries


def test_a_link_inside_the_case_is_read_once(tmp_path: Path) -> None:
    write_case(tmp_path, TOP)
    (tmp_path / "claims" / "zz.yml").symlink_to(tmp_path / "claims" / "this.yml")
    (tmp_path / "claims" / "loop").symlink_to(tmp_path / "claims")

    case = read_case(tmp_path)

    assert case.findings == ()
    assert case.entries["top"].place.file == "claims/this.yml"


def test_a_link_to_nothing_is_told(tmp_path: Path) -> None:
    write_case(tmp_path, TOP)
    (tmp_path / "claims" / "zz.yml").symlink_to("gone.yml")

    assert places(read_case(tmp_path)) == [("claims/zz.yml", 1, 1, "file-not-readable")]


def test_a_queue_in_place_of_a_file_is_told_and_not_waited_for(tmp_path: Path) -> None:
    write_case(tmp_path, TOP)
    os.mkfifo(tmp_path / "claims" / "zz.yml")

    assert places(read_case(tmp_path)) == [("claims/zz.yml", 1, 1, "file-not-readable")]


def test_a_file_name_that_cannot_be_printed_is_told_escaped(tmp_path: Path) -> None:
    write_case(tmp_path, TOP)
    (tmp_path / "claims" / "a\n\x1b.yml").write_text("parts: {}\n")

    assert places(read_case(tmp_path)) == [("claims/a\\n\\x1b.yml", 1, 1, "file-not-readable")]


def test_files_are_read_from_folders_below_and_whatever_their_capitals(tmp_path: Path) -> None:
    write_case(tmp_path, TOP)
    (tmp_path / "hazards" / "deep").mkdir(parents=True)
    (tmp_path / "hazards" / "deep" / "one.YAML").write_text("parts:\n  one: {title: A}\n")
    (tmp_path / "hazards" / "notes.txt").write_text("parts: [")

    case = read_case(tmp_path)

    assert case.findings == ()
    assert case.entries["one"].place.file == "hazards/deep/one.YAML"


def test_a_folder_that_is_not_there_is_one_finding(tmp_path: Path) -> None:
    case = read_case(tmp_path / "gone")

    assert [f.rule for f in case.findings] == ["case-missing"]
    assert case.entries == {}


def test_a_case_without_case_record_is_told_once(tmp_path: Path) -> None:
    write_case(tmp_path, "", around=TOP)

    assert places(read_case(tmp_path)) == [("claims/around.yml", 1, 1, "case-missing")]


def test_a_second_case_record_names_the_first(tmp_path: Path) -> None:
    case = read_text(tmp_path, "case:\n  other: {title: Other}\n")

    assert places(case) == [("claims/this.yml", 2, 3, "case-twice")]
    assert "claims/around.yml:2:3" in case.findings[0].message
    assert list(case.of_kind("case")) == ["bs-1"]


@settings(max_examples=150, deadline=None)
@given(some.text(alphabet="claims:evidn \n-[]{}&*!|>'\"#?%@`,<~\t0x1.\\\x00é", max_size=120))
def test_no_text_gives_a_traceback(text: str) -> None:
    for items in (read_file("a.yml", text), read_file("a.yml", f"claims:\n  top: {text}")):
        assert isinstance(items, tuple)


@settings(max_examples=60, deadline=None)
@given(some.integers(0, len(AROUND) - 1), some.text(min_size=0, max_size=3), some.integers(0, 9))
def test_no_slip_of_the_pen_gives_a_traceback(at: int, written: str, cut: int) -> None:
    text = AROUND[:at] + written + AROUND[at + cut :]

    assert isinstance(read_file("a.yml", text.encode("utf-8", "replace").decode()), tuple)
