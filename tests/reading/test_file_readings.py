"""A reading as JSON and back: the records are made anew, and what is not as it must be is not there."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from spoiling import ODD, leaves, with_another

from assurance.reading.file_readings import from_json, read_afresh, to_plain

DEMO = sorted(
    path for name in ("claims", "hazards") for path in Path(__file__).parents[2].glob(f"{name}/*.yml")
)
TEXT = """\
claims:
  top: {statement: It holds., argument: {because: We saw it., rests_on: [report, {record: other}]}}
evidence:
  report: {title: Report, kind: data, files: [{file: a.csv}], results: {load: {value: 1.5 +/- 0.1 kN}}}
  other: {title: Other, kind: review, date: 2026-01-02, state: draft}
claim_of_no_kind: {}
"""
WHOLE = TEXT.replace("claim_of_no_kind: {}\n", "")
TWICE = WHOLE + "  report: {title: Report, kind: data}\n"


def as_json(text):
    plain = to_plain(read_afresh("claims/a.yml", text), "digest")
    return None if plain is None else json.dumps(plain).encode()


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.name)
def test_every_file_of_the_demonstration_comes_back_as_it_was_read(path):
    read = read_afresh(path.name, path.read_text("utf-8"))
    plain = to_plain(read, "digest")
    again = from_json(json.dumps(plain).encode(), path.name, "digest")
    assert again is not None
    assert again.items == read.items
    assert (again.names, again.files, again.texts) == (read.names, read.files, read.texts)


@pytest.mark.parametrize("text", [TEXT, "claims: [", "claims:\n  top: {}\n", "claims:\n  3: {}\n"])
def test_a_file_that_is_not_read_whole_is_not_kept(text):
    assert as_json(text) is None


def test_a_record_that_is_written_twice_comes_back_twice():
    again = from_json(as_json(TWICE), "claims/a.yml", "digest")
    assert [item.id for item in again.items] == ["top", "report", "other", "report"]
    assert again.items == read_afresh("claims/a.yml", TWICE).items


def test_the_reading_of_another_text_is_not_given():
    assert from_json(as_json(WHOLE), "claims/a.yml", "another digest") is None


@given(data=st.data())
def test_a_value_of_another_type_anywhere_never_crashes(data):
    plain = json.loads(as_json(WHOLE))
    path = data.draw(st.sampled_from([one for one in leaves(plain) if one]))
    odd = json.dumps(with_another(plain, path, data.draw(st.sampled_from(ODD)))).encode()
    found = from_json(odd, "claims/a.yml", "digest")
    assert found is None or len(found.items) <= 3


@pytest.mark.parametrize("text", [b"", b"{", b"[]", b"null", b"\xff", b"[" * 100_000, b'{"written": []}'])
def test_what_is_no_reading_is_not_there(text):
    assert from_json(text, "claims/a.yml", "digest") is None
