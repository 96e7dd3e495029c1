from reported import answer, claim, finding

from assurance.model.verdicts import Place, Verdict
from assurance.reports.summary import count_line, tally_line
from assurance.reports.text import Sheet, check_lines, unpainted

LINES = {("claims/rail.yml", 3): "    statment: A rail", ("claims/rail.yml", 9): "    due: 2026-02-27"}


def line_at(place: Place):
    return LINES.get((place.file, place.line))


def told(*findings, paint=unpainted, width=80, **fields):
    return list(check_lines(answer(*findings, **fields), Sheet(width, paint, line_at)))


def test_a_finding_shows_place_weight_rule_line_carets_and_remedy():
    assert told(finding())[:4] == [
        "claims/rail.yml:3:5: blocking [key-unknown] `statment` is not a field.",
        "        statment: A rail",
        "        ^^^^^^^^",
        "    Did you mean `statement`?",
    ]


def test_findings_of_one_spot_share_the_line_that_is_shown():
    lines = told(finding(), finding(rule="key-twice", message="Twice.", remedy="Once."))
    assert sum("^" in line for line in lines) == 1
    assert [line.split(" ")[2] for line in lines if line.startswith("claims/")] == [
        "[key-unknown]",
        "[key-twice]",
    ]


def test_a_finding_without_a_place_or_a_line_is_told_all_the_same():
    lines = told(finding(at=("", 0, 0)), finding(at=("claims", 1, 1)))
    assert lines[0] == "blocking [key-unknown] `statment` is not a field."
    assert lines[3] == "claims:1:1: blocking [key-unknown] `statment` is not a field."
    assert not any("^" in line for line in lines)


def test_nothing_in_a_message_or_a_remedy_acts_on_the_terminal():
    lines = told(finding(message="a\x1b[2Jb\n", remedy="c\rd", at=("claims/\x1b.yml", 1, 1)))
    assert all(line.isprintable() for line in lines)


def test_the_word_for_a_weight_is_there_with_and_without_paint():
    painted = told(finding(weight="caution"), paint=lambda text, role: f"<{role}:{text}>")
    assert painted[0].startswith("<place:claims/rail.yml:3:5>: <caution:caution> [key-unknown]")
    assert painted[2] == "    <carets:    ^^^^^^^^>"


def test_the_summary_names_the_top_claim_and_counts_claims_and_findings():
    lines = told(finding(weight="note"), claims=[claim("rail-holds", Verdict.OPEN), claim("rail-fits")])
    assert lines[-3:] == [
        "use: the top claim rail-holds is open.",
        "2 claims: 1 holds, 0 provisional, 0 out of date, 1 open, 0 fails",
        "0 blocking findings, 0 cautions, 1 note",
    ]


def test_counts_of_one_are_in_the_singular():
    assert tally_line([Verdict.HOLDS]).startswith("1 claim: 1 holds")
    assert count_line([finding()]) == "1 blocking finding, 0 cautions, 0 notes"


def test_a_narrow_terminal_still_gets_its_carets():
    lines = told(finding(), width=3)
    assert lines[2] == "        ^^^^^^^^"
