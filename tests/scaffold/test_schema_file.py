"""The schema of a case as a file: with today's ids and columns, and never over a file of somebody else."""

import json

import jsonschema
import pytest
from blank_cases import add, files_of, fresh_case

from assurance.reading import read_case
from assurance.scaffold import schema_text, write_schema

pytestmark = pytest.mark.slow

COLUMN = {
    "title": "T",
    "method": "allowables",
    "inputs": {"values": {"file": "data/bars.csv", "column": "C"}},
}
TABLE = {"title": "T", "method": "reserve_factors", "table": {
    "file": "data/bars.csv", "unit": "MPa", "columns": {"part": "C"}}}  # fmt: skip


@pytest.fixture
def case(tmp_path):
    return fresh_case(tmp_path / "case")


def fits(case, record, column):
    schema = json.loads(schema_text(read_case(case)))
    jsonschema.Draft202012Validator.check_schema(schema)
    text = json.dumps({"calculations": {"c": record}}).replace('"C"', json.dumps(column))
    return jsonschema.Draft202012Validator(schema).is_valid(json.loads(text))


@pytest.mark.parametrize("record", [COLUMN, TABLE], ids=["an input", "a result table"])
def test_a_column_of_the_file_fits_and_another_does_not(case, record):
    assert fits(case, record, "ultimate_mpa")
    assert fits(case, record, "batch")
    assert not fits(case, record, "ultimate")


@pytest.mark.parametrize("content", [b"\xff\xfe", None], ids=["not text", "not there"])
def test_of_a_file_that_cannot_be_read_every_column_fits(case, content):
    path = case / "claims" / "data" / "bars.csv"
    path.write_bytes(content) if content else path.unlink()
    assert fits(case, COLUMN, "anything")


def test_it_holds_the_ids_of_today_once_it_is_written_anew(case):
    add(case, "claims", "brand-new")
    assert '"brand-new"' not in (case / "schema.json").read_text()
    write_schema(read_case(case))
    assert '"brand-new"' in (case / "schema.json").read_text()


def test_written_again_it_is_the_same(case):
    before = (case / "schema.json").stat()
    write_schema(read_case(case))
    assert (case / "schema.json").stat() == before


@pytest.mark.parametrize("text", ["{}", "", "somebody else's"])
def test_a_file_of_somebody_else_is_left_alone(case, text):
    (case / "schema.json").write_text(text)
    with pytest.raises(ValueError, match="was not written by holdwater"):
        write_schema(read_case(case))
    assert (case / "schema.json").read_text() == text


def test_a_link_is_not_written_through(case, tmp_path):
    (tmp_path / "other.json").write_bytes((case / "schema.json").read_bytes())
    (case / "schema.json").unlink()
    (case / "schema.json").symlink_to(tmp_path / "other.json")
    before = files_of(tmp_path)
    with pytest.raises(ValueError, match="was not written by holdwater"):
        write_schema(read_case(case))
    assert files_of(tmp_path) == before


def test_every_file_of_a_new_case_points_to_the_schema(case):
    for path in sorted(case.rglob("*.yml")):
        if path.name == "mkdocs.yml":
            continue
        first = path.read_text("utf-8").splitlines()[0]
        assert first.startswith("# yaml-language-server: $schema=")
        assert (path.parent / first.partition("$schema=")[2]).resolve() == (case / "schema.json").resolve()
