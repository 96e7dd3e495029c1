"""Results are worked out again exactly where something that calculations read has changed."""

import ast
from pathlib import Path

import pytest
from kept_case import CASE, EVIDENCE, ROWS, write_case

from assurance.reading import read_case
from assurance.results import READ, gives_the_same, work_out_case

CALCULATIONS = Path(__file__).parents[1] / "assurance" / "calculations"
RECORDS_READ = {"engineering_records"}


@pytest.fixture
def case(tmp_path):
    return write_case(tmp_path)


def after(case, file, text):
    """The case before and after a file gets another text."""
    before = read_case(case)
    (case / file).write_text(text, "utf-8")
    return read_case(case), before


def test_another_statement_of_a_claim_leaves_every_result_as_it_was(case):
    now, before = after(case, "claims/case.yml", CASE.replace("It is strong", "It is very strong"))
    assert now.entries["strong"] != before.entries["strong"]
    assert gives_the_same(now, before)
    assert work_out_case(now, None) == work_out_case(before, None)


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("claims/data/rig.csv", ROWS.replace("500", "501")),
        ("claims/evidence.yml", EVIDENCE.replace("Rig test", "Other test")),
        ("claims/evidence.yml", "# one line more\n" + EVIDENCE),
        ("claims/evidence.yml", EVIDENCE.replace("  rig:", "  Rig:")),
        ("claims/case.yml", CASE + "parts:\n  bracket: {title: Bracket}\n"),
        ("claims/case.yml", CASE.replace("statement:", "statemnt:")),
        ("claims/case.yml", CASE.replace("  strong:", "  firm:")),
    ],
)
def test_a_change_of_what_calculations_may_read_is_one(case, file, text):
    assert not gives_the_same(*after(case, file, text))


def test_calculations_read_no_record_but_engineering_records():
    """What makes it safe to keep results over an edit of a claim: the code does not know claims."""
    used = set()
    for path in CALCULATIONS.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("assurance.model"):
                used |= {node.module.rpartition(".")[2], *(alias.name for alias in node.names)}
    assert {name for name in used if name.endswith("_records")} == RECORDS_READ
    assert "kinds" not in used
    assert {"evidence", "calculations", "materials", "factors", "load_cases", "parts"} == READ


@pytest.mark.parametrize("word", ["locate", "as_written", "findings", "texts", "settings", "place"])
def test_calculations_ask_a_case_for_nothing_but_entries_and_files(word):
    asked = [
        f"{path.name}:{node.lineno}"
        for path in CALCULATIONS.glob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Attribute) and node.attr == word
    ]
    assert not asked
