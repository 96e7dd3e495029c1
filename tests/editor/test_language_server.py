"""A YAML language server, as editors use it, completes and checks the files of a new case.

It needs Node and npm. Where they are not to be had the tests fail and say so: they are never passed over.
"""

import pytest
from click.testing import CliRunner
from language_server import Editor, NotToBeHadError

from assurance.cli import main

pytestmark = pytest.mark.full
LINE = "# yaml-language-server: $schema=../schema.json\n"
WRONG = {
    "a unit": ("requirements:\n  r:\n    statement: S\n    value: 12 furlongs\n", 5, "a number with a unit"),
    "a key": ("claims:\n  c:\n    statement: S\n    ownr: designer\n", 5, "ownr is not allowed"),
    "a missing field": ("evidence:\n  e:\n    title: T\n", 3, 'Missing property "kind"'),
    "a reference": ("hazards:\n  h:\n    title: T\n    claim: no-such-claim\n", 5, "bracket-fit-for-use"),
    "a reference in a list": (
        "claims:\n  c:\n    statement: S\n    argument:\n      rests_on: [none-such]\n", 6, "stress-report"),
    "a person": ("claims:\n  c:\n    statement: S\n    owner: nobody\n", 5, "designer"),
    "a word": ("evidence:\n  e:\n    title: T\n    kind: tset\n", 5, "inspection"),
    "a date": ("evidence:\n  e:\n    title: T\n    kind: data\n    date: 12.3.2026\n", 6, "2026-03-12"),
    "an id": ("claims:\n  2c:\n    statement: S\n", 3, "Start with a letter"),
    "an input": (
        "calculations:\n  c:\n    title: T\n    method: allowables\n    inputs: {vaules: 1}\n", 6, "values"),
}  # fmt: skip


@pytest.fixture(scope="module")
def case(tmp_path_factory):
    folder = tmp_path_factory.mktemp("editor") / "mine"
    assert CliRunner().invoke(main, ["new", "case", str(folder)]).exit_code == 0
    return folder


@pytest.fixture(scope="module")
def editor(case):
    try:
        with Editor(case) as opened:
            yield opened
    except NotToBeHadError as why:
        pytest.fail(f"not passed, because there is no language server: {why}")


def offered(editor, name, text, *, after):
    """What is offered at the end of the one line that ends like this."""
    editor.open(name, LINE + text)
    lines = (LINE + text).split("\n")
    (number,) = (number for number, line in enumerate(lines, start=1) if line.endswith(after))
    return editor.complete(name, number, len(lines[number - 1]) + 1)


@pytest.mark.parametrize("name", ["claims/case.yml", "claims/bracket.yml", "hazards/hazards.yml"])
def test_nothing_is_told_about_a_sound_file(case, editor, name):
    text = (case / name).read_text("utf-8")
    assert text.startswith(LINE)
    assert editor.open(name, text) == []


@pytest.mark.parametrize(("text", "line", "words"), WRONG.values(), ids=WRONG)
def test_a_fault_is_told_at_its_line(editor, text, line, words):
    told = editor.open(f"claims/wrong-{line}-{len(text)}.yml", LINE + text)
    assert [at for at, _ in told] == [line]
    assert words in told[0][1]


def test_the_kinds_are_offered_in_an_empty_file(editor):
    editor.open("claims/a.yml", LINE + "\n")
    assert {"claims", "hazards", "evidence"} <= set(editor.complete("claims/a.yml", 2, 1))


def test_the_fields_of_a_record_are_offered_with_what_they_mean(editor):
    text = "claims:\n  c:\n    statement: S\n    "
    found = offered(editor, "claims/b.yml", text, after="    ")
    assert {"about", "argument", "owner", "assumes"} <= set(found)
    assert "statement" not in found
    assert "Whom to ask about it" in str(found["owner"]["documentation"])


def test_a_reference_offers_the_records_of_the_kinds_that_may_stand_there(editor):
    text = "hazards:\n  h:\n    title: T\n    claim: "
    found = set(offered(editor, "hazards/c.yml", text, after="claim: "))
    assert {"bracket-fit-for-use", "falling-lamp-controlled"} <= found
    assert not {"stress-report", "bracket", "falling-lamp"} & found


def test_a_result_is_offered_with_its_record(editor):
    text = "claims:\n  c:\n    statement: S\n    argument:\n      checks:\n        - result: "
    found = set(offered(editor, "claims/d.yml", text, after="result: "))
    assert {"bar-strength.a_basis", "bracket-inspection.thickness"} <= found


def test_the_inputs_of_the_method_are_offered(editor):
    text = "calculations:\n  c:\n    title: T\n    method: allowables\n    inputs:\n      "
    assert {"values", "batch"} <= set(offered(editor, "claims/e.yml", text, after="      "))


def test_the_columns_of_the_data_file_are_offered(editor):
    values = "values:\n        file: data/bars.csv\n        column: "
    text = f"calculations:\n  c:\n    title: T\n    method: allowables\n    inputs:\n      {values}"
    assert {"batch", "ultimate_mpa"} <= set(offered(editor, "claims/h.yml", text, after="column: "))


def test_what_a_field_means_is_shown_over_it(editor):
    editor.open("claims/f.yml", f"{LINE}claims:\n  c:\n    statement: S\n")
    assert "one sentence that is true or false" in editor.hover("claims/f.yml", 4, 7)


def test_a_record_added_since_is_offered_once_the_schema_is_written_anew(case):
    run = CliRunner().invoke
    assert run(main, ["new", "claim", "brand-new", "--case", str(case)]).exit_code == 0
    assert run(main, ["schema", "--case", str(case), "--write"]).exit_code == 0
    text = "hazards:\n  h:\n    title: T\n    claim: "
    with Editor(case) as editor:
        assert "brand-new" in offered(editor, "hazards/g.yml", text, after="claim: ")
