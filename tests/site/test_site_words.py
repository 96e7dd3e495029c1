from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published_demo import demo

from assurance.model.assessment import CheckOutcome, ResultValue
from assurance.model.verdicts import Verdict
from assurance.site import marks, wording
from assurance.site.check_rows import comparison, limit_shown, value_shown
from assurance.site.links import Links

NB = "\u00a0"


@pytest.mark.parametrize("verdict", Verdict)
def test_the_answer_is_never_yes(verdict):
    assert not wording.answer(verdict).lower().startswith("yes")
    assert not wording.short_answer(verdict).lower().startswith(("yes", "open"))


def test_a_date_reads_day_month_year():
    assert wording.day(date(2026, 3, 12)) == f"12{NB}Mar{NB}2026"
    assert wording.day(None) == ""


def test_on_its_due_day_nothing_is_late_and_the_day_after_it_is():
    due = date(2026, 3, 12)
    assert wording.late(due, as_of=due) == ""
    assert wording.late(due, as_of=date(2026, 3, 13)) == f"1{NB}day late"


def check_of(value, limit, bound):
    passes = value >= limit if bound == "at least" else value <= limit
    return CheckOutcome(
        "argument", 0, "record.result", ResultValue(value, "kN"), bound, limit, "kN", "", value,
        value - limit, Verdict.HOLDS if passes else Verdict.FAILS,
    )  # fmt: skip


def as_number(text):
    return float(text.split(NB)[0].replace(",", "").replace("\u2212", "-"))


@given(
    st.floats(0.01, 9e4, allow_nan=False),
    st.floats(0.01, 9e4, allow_nan=False),
    st.sampled_from(["at least", "at most"]),
)
def test_a_value_that_fails_is_never_printed_on_the_passing_side(value, limit, bound):
    check = check_of(value, limit, bound)
    shown = as_number(value_shown(check))
    if bound == "at least":
        assert shown <= value * (1 + 1e-12)  # twelve published digits
    else:
        assert shown >= value * (1 - 1e-12)


def test_0_998_of_1_is_not_printed_as_1():
    check = check_of(0.99996, 1.0, "at least")
    assert value_shown(check) == f"0.9999{NB}kN"
    assert comparison(check).startswith(f"0.9999{NB}kN < 1{NB}kN")
    assert limit_shown(check) == f"at{NB}least{NB}1{NB}kN"


def test_a_text_from_a_record_is_never_markup():
    links = Links(demo().assessment, "")
    said = str(links.say("<script>alert(1)</script> and `<b>`"))
    assert "<script" not in said
    assert "<b>" not in said


def test_an_id_between_backticks_leads_to_its_record():
    links = Links(demo().assessment, "../")
    top = demo().assessment.top_claims["use"]
    assert f'<a href="../claims/{top}.html"><code>{top}</code></a>' in links.say(f"See `{top}`.")
    assert links.say("`no-such-record`") == "<code>no-such-record</code>"


def test_each_verdict_and_level_has_a_mark_of_its_own():
    assert len(set(marks.VERDICT_PATHS.values())) == len(Verdict)
    assert len({marks.gauge(step) for step in range(5)}) == 5


@pytest.mark.parametrize(("rank", "levels", "step"), [(0, 5, 0), (4, 5, 4), (0, 4, 1), (3, 4, 4), (0, 7, 0)])
def test_the_worst_level_fills_the_gauge(rank, levels, step):
    assert marks.risk_step(rank, levels=levels) == step
