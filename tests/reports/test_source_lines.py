import os

import pytest

from assurance.model.verdicts import Place
from assurance.reading.source_lines import LARGEST, SourceLines, inside_brackets, value_end

# The line, the value that is marked in it. Where a value ends: YAML 1.2.2, 7.3 and 7.4.
VALUES = [
    ("    owner: ann", "ann"),
    ("    owner: ann  # of the yard", "ann"),
    ("    title: a#b: c d", "a#b"),
    ("    title: a load of 5 kN, at most", "a load of 5 kN, at most"),
    ("    {owner: ann, title: Rail}", "ann"),
    ("    checks: [{result: a.b, at_least: 1.5}]", "{result: a.b, at_least: 1.5}"),
    ("    checks: [{result: a.b, at_least: 1.5}]", "[{result: a.b, at_least: 1.5}]"),
    ("    title: 'it''s: [a]'  # so", "'it''s: [a]'"),
    ('    title: "a \\" } b", due: x', '"a \\" } b"'),
    ("    statment: A rail", "statment"),
    ("    checks: [{result: a.b,", "[{result: a.b,"),
    ("    note: |-", "|-"),
    ("    owner: *ann", "*ann"),
    ("    at: 12:30", "12:30"),
]


@pytest.mark.parametrize(("line", "value"), VALUES)
def test_a_value_reaches_as_far_as_yaml_says(line, value):
    column = line.index(value) + 1
    assert line[column - 1 : value_end(line, column) - 1] == value


@pytest.mark.parametrize("column", [0, 1, 9, 10_000])
def test_a_value_is_at_least_one_column_wide_wherever_it_is(column):
    assert value_end("    a: b", column) > min(max(column, 1), 9)


def test_a_line_of_five_million_characters_is_looked_at_in_a_moment():
    assert value_end("[" * 5_000_000, 2_500_000) > 2_500_000


def test_brackets_in_quotes_open_nothing():
    assert not inside_brackets("    title: '{['")
    assert inside_brackets("    title: {it's: ")


def test_lines_are_counted_as_the_parser_counts_them(tmp_path):
    # YAML 1.1, 5.4: CR LF, CR, LF, NEL, LS and PS end a line; a form feed does not.
    text = "a\r\nb\rc\nd\x85e\u2028f\u2029g\x0ch"
    (tmp_path / "a.yml").write_bytes(("\ufeff" + text).encode())
    lines = SourceLines(tmp_path)
    assert [lines.at(Place("a.yml", n, 1)) for n in range(1, 9)] == [*"abcdef", "g\x0ch", None]


def test_a_byte_that_is_no_utf_8_does_not_hide_its_line(tmp_path):
    (tmp_path / "a.yml").write_bytes(b"a: \xff b\n")
    assert SourceLines(tmp_path).at(Place("a.yml", 1, 1)) == "a: \ufffd b"


def test_no_line_comes_from_outside_the_case_or_from_what_is_no_file(tmp_path):
    inside = tmp_path / "case"
    (inside / "claims").mkdir(parents=True)
    (tmp_path / "secret.yml").write_text("secret\n")
    (inside / "link.yml").symlink_to(tmp_path / "secret.yml")
    os.mkfifo(inside / "pipe.yml")
    with (inside / "huge.yml").open("wb") as file:
        file.truncate(LARGEST + 1)
    lines = SourceLines(inside)
    for name in ("../secret.yml", "link.yml", "pipe.yml", "huge.yml", "claims", "gone.yml", "a\0b", ""):
        assert lines.at(Place(name, 1, 1)) is None
