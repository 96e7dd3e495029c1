"""A table: its rows, groups and choices on the page, and all of them in its files."""

import json
from dataclasses import dataclass
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assurance.model.verdicts import Verdict
from assurance.site import marks
from assurance.site.rows import MOST_BYTES, MOST_ROWS
from assurance.site.table_groups import Grouping, anchor
from assurance.site.tables import Choice, Column, Field, TableOf, table


@dataclass(frozen=True)
class Fish:
    name: str
    mass: float | None
    caught: date | None
    sea: str


EEL = Fish("eel", 0.9, date(2026, 3, 1), "North Sea")
COD = Fish("cod", None, None, "Baltic Sea")
DAB = Fish("dab <b>", 0.5, date(2026, 2, 1), "North Sea")
COLUMNS = (
    Column("Name", lambda one: one.name, lambda one: one.name, names_row=True),
    Column("Mass", lambda one: f"{one.mass or ''}", lambda one: one.mass, "num", "Mass", falling=True),
    Column("Caught", lambda one: f"{one.caught or ''}", lambda one: one.caught),
    Column("Sea", lambda one: one.sea),
)
FIELDS = (Field("name", lambda one: one.name), Field("mass [kg]", lambda one: one.mass))
BY_SEA = Grouping("sea", lambda one: one.sea, lambda key, rows: f"{key}: {len(rows)}")


def made(fish, *, grouped=False, choices=()):
    of = TableOf("Fish", COLUMNS, FIELDS, (BY_SEA,), grouped=grouped, choices=choices)
    return table("fish", of, fish, root="../")


def data_of(one):
    script = dict(one.beside)["tables/fish.js"]
    return json.loads(script.removeprefix("holdwaterTable(").removesuffix(");\n"))


def test_no_records_make_no_table():
    assert made(()) is None


def test_a_row_is_escaped_names_its_columns_on_a_phone_and_marks_what_is_empty():
    rows = made((DAB, COD)).groups[0].rows
    assert rows[0] == (
        '<tr><th scope="row">dab &lt;b&gt;</th><td class="num" data-h="Mass">0.5</td>'
        "<td>2026-02-01</td><td>North Sea</td></tr>"
    )
    assert '<td class="num none" data-h="Mass"></td><td class="none"></td>' in rows[1]


def test_a_heading_sorts_where_its_column_has_a_key():
    headings = made((EEL,)).headings
    assert [(one.text, one.sorts) for one in headings] == [
        ("Name", "0"), ("Mass", "1"), ("Caught", "2"), ("Sea", ""),
    ]  # fmt: skip
    assert headings[1].first == "descending"


def test_keys_are_numbers_texts_days_year_first_and_nothing():
    assert data_of(made((EEL, COD)))["keys"] == [["eel", "cod"], [0.9, None], ["2026-03-01", None]]


def test_grouped_rows_stand_group_after_group_each_under_its_line():
    one = made((EEL, COD, DAB), grouped=True)
    assert [(group.anchor, str(group.line), len(group.rows)) for group in one.groups] == [
        ("sea=north-sea", "North Sea: 2", 2),
        ("sea=baltic-sea", "Baltic Sea: 1", 1),
    ]
    assert [line.split(",")[0] for line in data_of(one)["lines"]] == ["eel", "dab <b>", "cod"]
    assert data_of(one)["groups"][0]["of"] == [0, 0, 1]


def test_a_choice_stands_where_it_takes_some_rows_and_not_all():
    some = Choice("heavy", lambda one: (one.mass or 0) > 0.8)
    none = Choice("none", lambda _: False)
    every = Choice("every", lambda _: True)
    one = made((COD, EEL), choices=(some, none, every))
    assert one.choices == ("heavy",)
    assert data_of(one)["choices"] == [[1]]


@pytest.mark.parametrize("count", [MOST_ROWS, MOST_ROWS + 1, 5000])
def test_a_page_carries_at_most_200_rows_and_says_how_many_follow_and_where(count):
    one = made((EEL,) * count)
    assert sum(len(group.rows) for group in one.groups) == MOST_ROWS
    assert len(data_of(one)["rest"]) == count - MOST_ROWS
    assert one.more == {0: "", 1: "1 more row follows in tables/fish.csv"}.get(
        count - MOST_ROWS, "4,800 more rows follow in tables/fish.csv"
    )


def test_a_page_carries_fewer_rows_where_they_are_long():
    one = made((Fish("x" * 4000, None, None, ""),) * 100)
    carried = sum(len(row.encode()) for row in one.groups[0].rows)
    assert MOST_BYTES - 5000 < carried <= MOST_BYTES
    assert len(one.groups[0].rows) + len(data_of(one)["rest"]) == 100


@given(st.lists(st.sampled_from([EEL, COD, DAB]), min_size=1, max_size=30), st.booleans())
def test_no_row_is_lost_or_doubled(fish, grouped):
    one = made(tuple(fish), grouped=grouped)
    lines = dict(one.beside)["tables/fish.csv"].split("\r\n")[1:-1]
    assert sorted(line.split(",")[0] for line in lines) == sorted(one.name for one in fish)
    assert sum(len(group.rows) for group in one.groups) == len(fish)


def test_an_anchor_stands_in_an_address_and_is_never_empty():
    assert anchor("Stress lead (invented)") == "stress-lead-invented"
    assert anchor("Prüfstelle Süd") == "prüfstelle-süd"
    assert anchor("---") == "none"


def test_a_mark_stands_in_the_data_as_a_short_tag_that_no_text_can_write():
    mark = marks.mark(Verdict.OPEN)
    columns = (Column("Verdict", lambda _: mark), Column("Text", lambda one: one.name))
    of = TableOf("Fish", columns, FIELDS)
    data = data_of(table("fish", of, (Fish("<i3>", None, None, ""),) * (MOST_ROWS + 1), root=""))
    assert data["rest"] == ["<tr><td><i3></td><td>&lt;i3&gt;</td></tr>"]
    assert data["marks"][3] == str(mark)


def test_groups_that_would_read_the_same_in_an_address_are_told_apart():
    fish = tuple(Fish(f"f{n}", None, None, sea) for n, sea in enumerate(("Ply (1)", "ply 1", "Ply-1", "x")))
    groups = made(fish, grouped=True).groups
    assert [one.anchor for one in groups] == ["sea=ply-1", "sea=ply-1-2", "sea=ply-1-3", "sea=x"]


@given(st.lists(st.sampled_from(["a", "A", "a-2", "a 2", "a-3", "(a)", "b", ""]), unique=True, min_size=1))
def test_no_two_groups_share_an_address(seas):
    groups = made(tuple(Fish("x", None, None, sea) for sea in seas), grouped=True).groups
    assert len({one.anchor for one in groups}) == len(seas)
