"""What the reader works out from the model misses no field that names something."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import get_type_hints

import pytest
from test_faults_at_their_line import FAULTY

import assurance.reading
from assurance.model.fields import Record
from assurance.model.kinds import KINDS
from assurance.reading.plans import plan_of, record_at
from assurance.reading.rules import INPUT_RULES

RULES = {name for name, _ in INPUT_RULES}


def classes(record: type[Record]) -> Iterator[type[Record]]:
    yield record
    for nested in plan_of(record).nested:
        yield from classes(nested.record)


EVERY_CLASS = sorted({c for kind in KINDS.values() for c in classes(kind)}, key=lambda c: c.__name__)


@pytest.mark.parametrize("record", EVERY_CLASS, ids=lambda record: record.__name__)
def test_every_field_that_the_model_marks_is_in_the_plan(record: type[Record]) -> None:
    hints = get_type_hints(record, include_extras=True)
    by_text = {field for field in hints if re.search(r"\b(Refers|Who|FileName)\(", str(hints[field]))}

    assert {marked.field for marked in plan_of(record).marked} == by_text


@pytest.mark.parametrize("record", EVERY_CLASS, ids=lambda record: record.__name__)
def test_every_field_that_holds_records_is_in_the_plan(record: type[Record]) -> None:
    hints = get_type_hints(record)
    names = {c.__name__ for c in EVERY_CLASS}
    by_text = {
        field for field in record.model_fields if names & set(re.findall(r"\b[A-Z]\w+", str(hints[field])))
    }

    assert {nested.field for nested in plan_of(record).nested} == by_text


def test_the_class_at_a_path_is_found_through_lists_and_names() -> None:
    claims = KINDS["claims"]

    found = record_at(claims, ("arguments", "by-test", "checks", 0, "at_most"))
    assert found is not None
    assert found.__name__ == "Limit"
    assert record_at(claims, ("statement",)) is None
    assert record_at(claims, ("arguments",)) is None


def test_every_rule_of_the_reading_is_explained_and_every_explained_rule_is_used() -> None:
    folder = Path(assurance.reading.__file__).parent
    sources = [path.read_text("utf-8") for path in folder.glob("*.py") if path.name != "rules.py"]
    quoted = set(re.findall(r'"([a-z]+(?:-[a-z]+)+)"', "\n".join(sources)))

    assert quoted - {"utf-8", "utf-8-sig"} == RULES
    assert len(RULES) == len(INPUT_RULES)


def test_rules_that_a_text_can_show_are_shown_by_a_marked_text() -> None:
    of_whole_files = {
        "case-missing",
        "file-not-readable",
        "folder-not-usable",
        "records-misplaced",
        "too-many-values",
        "yaml-not-readable",
    }
    shown = {rule for rule in RULES for text in FAULTY.values() if rule in text}

    assert shown | of_whole_files == RULES
