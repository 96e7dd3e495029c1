"""The reference says of each kind, field, rule, method, unit and command what the program says of it."""

import re
from datetime import date
from functools import cache
from typing import Annotated

import pytest
from pydantic import Field

from assurance.cli import main
from assurance.findings_text import rule_lines
from assurance.methods.registry import METHODS
from assurance.model.fields import Refers
from assurance.model.kinds import KINDS
from assurance.model.units import units
from assurance.reading.rule_examples import EXAMPLES
from assurance.reading.rules import INPUT_RULES
from assurance.reference import reference_texts
from assurance.reference.commands_page import commands_page
from assurance.reference.field_types import part_name, parts_of, type_in_words
from assurance.reference.markdown import table
from assurance.reference.records_page import rules_by_kind
from assurance.reference.rules_page import rule_groups
from assurance.rules.docs import document
from assurance.rules.registry import RULES
from assurance.site.published import published_schema
from assurance.site.templates import templates_folder

LARGEST = 300_000  # bytes of one page of the site; the Markdown is smaller


@cache
def texts():
    return reference_texts()


def page(name):
    return texts()[f"reading/{name}"]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_stands_there_whole(rule):
    doc = document(rule)
    section = page("rules").partition(f"\n### {rule.name}\n")[2].partition("\n### ")[0]
    for part in (doc.what, doc.why, doc.remedy, doc.bad.rstrip(), doc.good.rstrip(), doc.weight.value):
        assert part in section


def test_every_rule_stands_in_one_group_and_those_of_the_reading_in_theirs():
    grouped = [rule.name for rules in rule_groups().values() for rule in rules]
    assert sorted(grouped) == sorted(rule.name for rule in RULES)
    for name, what in INPUT_RULES:
        section = page("rules").partition(f"\n### {name}\n")[2].partition("\n### ")[0]
        assert what in section
        assert EXAMPLES[name].remedy in section
        assert EXAMPLES[name].bad.rstrip() in section


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_of_a_kind_stands_there_with_what_it_says(kind):
    section = page("records").partition(f"\n## {kind}\n")[2].partition("\n## ")[0]
    for name, field in KINDS[kind].model_fields.items():
        row = next(line for line in section.splitlines() if f"{{at:{kind}.{name}}}" in line)
        assert field.description in row
        assert ("| yes |" in row) is field.is_required()


def test_every_part_of_a_record_is_told_once():
    waiting = list(KINDS.values())
    for record in waiting:
        waiting += [part for part in parts_of(record) if part not in waiting]
    for part in waiting[len(KINDS) :]:
        assert page("records").count(f"\n### {part_name(part).capitalize()}\n") == 1


def test_a_kind_names_the_rules_whose_bad_example_is_marked_there():
    assert "hazard-without-control" in rules_by_kind()["hazards"]
    assert sorted(name for names in rules_by_kind().values() for name in names) == sorted(
        rule.name for rule in RULES
    )
    assert set(rules_by_kind()) <= set(KINDS)


@pytest.mark.parametrize(
    ("hint", "words"),
    [
        (str, "text"),
        (str | None, "text"),
        (int, "whole number"),
        (Annotated[int | None, Field(ge=1)], "whole number, 1 or more"),
        (Annotated[int, Field(ge=1, le=10)], "whole number, 1 to 10"),
        (tuple[str, ...], "list, each text"),
        (dict[str, str], "by name: text"),
        (Annotated[str, Refers(("claims", "evidence"))], "id of a [claim](#claims) or [evidence](#evidence)"),
        (Annotated[str, Refers(("*",), "any")], "id of a record, or `record.name` for a part of it"),
    ],
)
def test_a_type_is_told_in_words(hint, words):
    assert type_in_words(hint) == words


def test_a_type_that_nobody_has_put_into_words_is_not_passed_over():
    with pytest.raises(TypeError, match="no words"):
        type_in_words(date)


@pytest.mark.parametrize("method", METHODS.values(), ids=lambda method: method.name)
def test_a_method_names_its_source_its_limits_its_inputs_and_its_results(method):
    section = page("methods").partition(f"\n## {method.name}\n")[2].partition("\n## ")[0]
    assert method.source in section
    assert all(f"- {limit}\n" in section for limit in method.limits)
    for spec in (*method.inputs, *method.results):
        assert f"{{at:{method.name}.{spec.name}}}" in section
        assert spec.what in section


def test_a_method_without_a_published_example_says_so():
    for method in METHODS.values():
        section = page("methods").partition(f"\n## {method.name}\n")[2].partition("\n## ")[0]
        assert ("No published example" in section) is not method.published_example


def test_every_unit_stands_there_with_its_factor():
    rows = [line for line in page("units").splitlines() if line.startswith("| ") and "`" in line]
    shown = {re.search(r"`([^`]+)`", row)[1]: float(row.split(" | ")[2]) for row in rows}
    assert set(shown) == set(units()) - {""}
    assert all(shown[one] == pytest.approx(units()[one].factor, rel=1e-11) for one in shown)  # 12 digits


def test_every_key_of_the_published_data_stands_there():
    schema = published_schema()
    for part in (schema, *schema["$defs"].values()):
        assert all(f"`{key}`" in page("data") for key in part.get("properties", {}))


def test_the_page_of_commands_is_what_the_commands_say():
    written = (templates_folder() / "guide" / "reading" / "commands.md").read_text("utf-8")
    assert written == commands_page(main), "run: python tests/docs/write_commands.py"


def test_a_bar_in_a_cell_stays_a_bar():
    assert table(("a",), (("x | y",),)) == "| a |\n| --- |\n| x \\| y |"


def test_no_page_of_the_reference_is_too_large_and_each_is_marked_as_built():
    for text in reference_texts().values():
        assert len(text.encode()) < LARGEST
        assert text.startswith("---\nbuilt: true\n---\n# ")


@pytest.mark.parametrize("name", [name for name, _ in INPUT_RULES])
def test_explain_tells_of_a_fault_of_reading_what_the_page_tells(name):
    told = " ".join(" ".join(rule_lines(name)).split())
    assert EXAMPLES[name].remedy in told
    assert ("Bad:" in told) is bool(EXAMPLES[name].bad)
