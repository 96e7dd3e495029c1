"""`new` and `schema` as they are typed."""

import json
import re

import pytest
from click.testing import CliRunner

from assurance.cli import main
from assurance.model.entry import SINGULAR


def run(*words):
    return CliRunner().invoke(main, list(words), catch_exceptions=False)


@pytest.fixture
def case(tmp_path):
    assert run("new", "case", str(tmp_path / "mine")).exit_code == 0
    return tmp_path / "mine"


def test_every_kind_can_be_asked_for_and_explains_itself():
    told = run("new", "--help").output
    for word in SINGULAR.values():
        assert word.replace(" ", "-") in told
    assert "--statement" in run("new", "claim", "--help").output


def test_it_prints_the_place_and_what_to_do_next(case):
    ran = run("new", "claim", "lamp-earthed", "--case", str(case))
    place, following = ran.output.splitlines()
    file, line = place.rsplit(":", 1)
    with open(file, encoding="utf-8") as opened:  # noqa: PTH123 - the place as it was printed
        assert opened.read().splitlines()[int(line) - 1] == "  lamp-earthed:"
    assert "run `holdwater check`" in following
    assert "no owner yet" in following


def test_what_is_known_already_can_be_given(case):
    words = ["--statement", "The lamp is earthed: yes", "--owner", "designer"]
    ran = run("new", "claim", "lamp-earthed", "--case", str(case), *words)
    assert "no owner yet" not in ran.output
    claim = json.loads(run("check", str(case), "--format", "json").stdout)["claims"]["lamp-earthed"]
    assert claim["verdict"] == "open"
    text = (case / "claims" / "bracket.yml").read_text()
    assert '    statement: "The lamp is earthed: yes"  #' in text
    owners = re.findall(r"owner: designer +# Who", text)
    assert len(owners) == 2, "of the claim, and of what is still to be developed"


def test_a_quantity_is_written_as_a_number(case):
    run("new", "factor", "fitting", "--case", str(case), "--value", "1.15", "--kind", "special")
    assert "    value: 1.15" in (case / "claims" / "bracket.yml").read_text()


def test_a_refusal_is_told_on_the_side_and_exits_with_1(case):
    ran = run("new", "claim", "bracket", "--case", str(case))
    assert ran.exit_code == 1
    assert ran.stdout == ""
    assert ran.stderr.startswith(
        "Nothing was written: the id `bracket` is already used: a part `bracket` at "
    )


def test_an_unknown_kind_is_a_usage_message():
    assert run("new", "clam", "x").exit_code == 2


def test_schema_writes_into_the_case_and_says_where(case):
    (case / "schema.json").unlink()
    ran = run("schema", "--case", str(case), "--write")
    assert ran.output == f"{case / 'schema.json'}\n"
    assert "bracket-strong-enough" in (case / "schema.json").read_text()


def test_schema_of_a_case_is_that_of_any_with_its_ids(case):
    of_any, of_case = (json.loads(run("schema", *words).output) for words in ([], ["--case", str(case)]))
    assert of_any["properties"] == of_case["properties"]
    assert "bracket-strong-enough" in json.dumps(of_case)
    assert "bracket-strong-enough" not in json.dumps(of_any)


def test_the_folder_of_schema_may_be_left_out(case, monkeypatch):
    monkeypatch.chdir(case)
    assert run("schema", "--case").output == run("schema", "--case", str(case)).output


def test_schema_does_not_overwrite_a_file_of_somebody_else(case):
    (case / "schema.json").write_text("{}")
    ran = run("schema", "--case", str(case), "--write")
    assert ran.exit_code == 1
    assert "was not written by holdwater" in ran.stderr


def test_the_schema_of_the_published_data_stands_alone(case):
    assert run("schema", "--assessment", "--case", str(case)).exit_code == 2
