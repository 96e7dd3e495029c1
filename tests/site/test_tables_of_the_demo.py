"""The CSV files of the demonstration hold what was assessed, row for row."""

import csv

import pytest
from published_demo import demo

from assurance.model import numbers
from assurance.site import wording

NAMES = (
    "gaps", "findings", "evidence", "hazards", "failure-modes", "strength", "calculations", "records",
)  # fmt: skip


def rows(name):
    with (demo().site / "tables" / f"{name}.csv").open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened, strict=True))


def by_id(name, key="id"):
    return {row[key]: row for row in rows(name)}


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_every_column_and_no_two_columns_share_a_heading(name):
    with (demo().site / "tables" / f"{name}.csv").open(encoding="utf-8", newline="") as opened:
        head, *lines = csv.reader(opened, strict=True)
    assert len(set(head)) == len(head)
    assert {len(line) for line in lines} == {len(head)}


def test_gaps_stand_owner_by_owner_with_what_each_frees():
    assessed = demo().assessment
    who = wording.People(assessed)
    wanted = sorted((one.record, one.verdict.word, who(one.owner), one.frees) for one in assessed.missing)
    found = rows("gaps")
    assert wanted == sorted(
        (row["record"], row["verdict"], row["owner"], int(row["claims it frees"])) for row in found
    )
    owners = [row["owner"] for row in found]
    assert len([one for one, before in zip(owners, ["", *owners], strict=False) if one != before]) == len(
        set(owners)
    )


def test_gaps_and_findings_together_hold_each_finding_once():
    assessed = demo().assessment
    kinds = {(one.record, one.kind.value) for one in assessed.missing}
    others = [one for one in assessed.findings if (one.record, one.rule) not in kinds]
    assert [(row["rule"], row["record"]) for row in rows("findings")] == [
        (one.rule, one.record)
        for one in sorted(others, key=lambda one: list(type(one.weight)).index(one.weight))
    ]


def test_evidence_says_how_many_records_rely_on_it():
    used = demo().assessment.used_by
    found = by_id("evidence")
    assert set(found) == set(demo().assessment.of_kind("evidence"))
    assert all(int(row["relied on by [records]"]) == len(used.get(id_, ())) for id_, row in found.items())


def test_hazards_say_their_risk_before_now_and_after():
    for id_, row in by_id("hazards").items():
        outcome = demo().assessment.hazards[id_]
        assert row["risk now"] == (outcome.now.level.lower() if outcome.now else "not rated")
        assert row["risk before"] == (outcome.before.level.lower() if outcome.before else "not rated")
        assert int(row["controls that count"]) == len(outcome.counted)


def test_failure_modes_hold_every_cause_with_its_ratings_and_rpn():
    assessed = demo().assessment.failure_modes
    found = {(row["failure mode"], row["cause id"]): row for row in rows("failure-modes")}
    assert len(found) == sum(len(causes) or 1 for causes in assessed.values())
    for id_, causes in assessed.items():
        for cause in causes:
            row = found[id_, cause.id]
            assert (int(row["RPN before"]), int(row["RPN now"])) == (cause.rpn_before, cause.rpn_now)
            ratings = [int(row[f"{word} now [1 to 10]"]) for word in ("severity", "occurrence", "detection")]
            assert tuple(ratings) == cause.now


def test_strength_holds_every_reserve_factor_as_assessed():
    cells = [(id_, cell) for id_, work in demo().assessment.worked.items() for cell in work.cells]
    found = {
        (row["calculation"], row["part"], row["load case"], row["criterion"]): row for row in rows("strength")
    }
    assert len(found) == len(cells)
    for id_, cell in cells:
        row = found[id_, cell.part, cell.load_case, cell.criterion]
        assert float(row["reserve factor [1]"]) == numbers.published(cell.reserve_factor)
        assert float(row["factor put on [1]"]) == numbers.published(cell.needed)
        assert (row["file"], row["row of the file"]) == (cell.file, str(cell.row or ""))


def test_records_hold_every_record_with_its_line():
    entries = demo().assessment.entries
    found = by_id("records")
    assert set(found) == set(entries)
    assert all((row["file"], int(row["line"])) == (entries[id_].place.file, entries[id_].place.line)
               for id_, row in found.items())  # fmt: skip


def test_every_section_page_with_a_table_offers_its_file():
    pages = {"gaps": ("gaps", "findings"), "evidence": ("evidence",), "strength": ("strength",)}
    for page, names in pages.items():
        text = (demo().site / f"{page}.html").read_text("utf-8")
        assert all(f'<a href="tables/{name}.csv" download>Take away</a>' in text for name in names)
