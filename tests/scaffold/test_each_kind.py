"""A record of each kind can be added to a new case and to the demonstration, and is read back whole."""

import re

import pytest
from blank_cases import ADDED, add, assert_only_inserted, demo_case, files_of, fresh_case

from assurance.model.kinds import KINDS
from assurance.model.verdicts import Finding
from assurance.reading import read_case
from assurance.reading.record_files import read_file

CASES = {"new case": fresh_case, "demonstration": demo_case}
REFUSED_AS_THEY_STAND = {
    "reference-unknown", "reference-of-another-kind", "name-unknown", "value-wrong", "id-wrong",
    "quantity-unknown", "key-twice",
}  # fmt: skip
COMMENT = re.compile(r"^  (  )?# (?=( {2})*(- )?[A-Za-z_]+:)")


@pytest.fixture(params=CASES)
def case(request, tmp_path):
    return CASES[request.param](tmp_path / "case")


@pytest.mark.parametrize("kind", ADDED)
def test_it_is_read_back_and_nothing_else_is_touched(case, kind):
    before = files_of(case)
    added = add(case, kind)

    now = read_case(case)
    assert now.findings == ()
    assert now.entries["added"].kind == kind
    assert (now.entries["added"].place.file, now.entries["added"].place.line) == (added.file, added.line)
    assert_only_inserted(before, files_of(case), added)


@pytest.mark.parametrize("kind", ADDED)
def test_every_field_stands_there_with_what_it_means(case, kind):
    whole = (case / add(case, kind).file).read_text("utf-8")

    for name, field in KINDS[kind].model_fields.items():
        assert re.search(
            rf"^\s+(# )?{name}:.*# {re.escape(field.description[:40].removesuffix('.'))}", whole, re.M
        ), name


@pytest.mark.parametrize("kind", ADDED)
def test_with_all_comments_taken_in_it_is_yaml_and_unfinished_values_are_refused(case, kind):
    added = add(case, kind)
    lines = (case / added.file).read_text("utf-8").split("\n")
    first = added.line - 1
    last = next((n for n in range(first + 1, len(lines)) if not lines[n].startswith(" " * 4)), len(lines))
    taken = [COMMENT.sub(lambda found: found[0].replace("# ", ""), line[2:]) for line in lines[first:last]]
    text = "\n".join([f"{kind}:", *(f"  {line}" for line in taken)])

    assert all(f"\n    {name}:" in text for name in KINDS[kind].model_fields)
    told = {item.rule for item in read_file("claims/x.yml", text) if isinstance(item, Finding)}
    assert told <= REFUSED_AS_THEY_STAND
