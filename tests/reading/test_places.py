"""Places of fields and the text of records."""

from pathlib import Path

import pytest
from marked_text import read_text

from assurance.model.verdicts import Place

TEXT = """\
# a file of claims
claims:
  top:
    statement: It is safe.
    about: [blade]
    argument:
      because: >
        It was
        tested.
      checks:
        - {result: rig.set, at_most: 0.10 mm}
        - result: rig.load
          at_least: least-reserve
      rests_on:
      - rig
      - {record: low, shows: no damage}

  # the low one
  low: {statement: It is strong., arguments: {by-test: {because: so}}}
# the end
"""
PLACES = {
    (): (3, 3),
    ("statement",): (4, 16),
    ("about",): (5, 12),
    ("about", 0): (5, 13),
    ("argument",): (6, 5),
    ("argument", "because"): (7, 16),
    ("argument", "checks"): (10, 7),
    ("argument", "checks", 0): (11, 11),
    ("argument", "checks", 0, "at_most"): (11, 38),
    ("argument", "checks", 0, "at_most", "value"): (11, 38),
    ("argument", "checks", 1, "at_least", "record"): (13, 21),
    ("argument", "rests_on", 0, "record"): (15, 9),
    ("argument", "rests_on", 1, "record"): (16, 18),
    ("argument", "rests_on", 7): (14, 7),
    ("owner",): (3, 3),
}


@pytest.mark.parametrize("path", PLACES)
def test_a_field_is_found_at_its_line_and_column(path: tuple[str | int, ...], tmp_path: Path) -> None:
    case = read_text(tmp_path, TEXT)

    assert case.findings == ()
    assert case.locate("top", path) == Place("claims/this.yml", *PLACES[path])


def test_a_record_is_given_as_written_from_its_id_to_its_last_line(tmp_path: Path) -> None:
    first, text = read_text(tmp_path, TEXT).as_written("top")

    assert first == 3
    assert text.splitlines() == TEXT.splitlines()[2:16]


def test_a_record_on_one_line_is_that_line(tmp_path: Path) -> None:
    case = read_text(tmp_path, TEXT)

    assert case.as_written("low") == (19, TEXT.splitlines()[18])


def test_a_closing_bracket_below_its_id_belongs_to_the_record(tmp_path: Path) -> None:
    text = "claims:\n  top: {\n    statement: A.\n  }\n  low: {statement: B.}\n"

    assert read_text(tmp_path, text).as_written("top") == (2, "  top: {\n    statement: A.\n  }")


def test_the_text_of_a_stub_is_given_too(tmp_path: Path) -> None:
    text = "claims:\n  top:\n    statement: [\n  low:\n    statement: B.\n"

    case = read_text(tmp_path, text)

    assert case.as_written("top") == (2, "  top:\n    statement: [")
    assert case.locate("top", ("statement",)) == Place("claims/this.yml", 2, 3)


def test_an_id_that_there_is_not_has_no_place_and_no_text(tmp_path: Path) -> None:
    case = read_text(tmp_path, TEXT)

    assert case.locate("gone", ("statement",)) == Place()
    assert case.as_written("gone") == (0, "")


def test_places_count_characters_and_lines_of_a_file_with_windows_line_ends(tmp_path: Path) -> None:
    text = "claims:\r\n  top:\r\n    statement: Größe\r\n    owner: anna\r\n"

    case = read_text(tmp_path, text)

    assert case.locate("top", ("owner",)) == Place("claims/this.yml", 4, 12)
    assert case.as_written("top")[0] == 2
