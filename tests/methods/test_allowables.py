"""Basis values from coupons: what is given, what is refused, what is remarked."""

import math
import random
import statistics

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from sheet_check import check_sheet, slow_anderson_darling

from assurance.methods import normal_basis
from assurance.methods.published import examples
from assurance.methods.registry import METHODS

METHOD = METHODS["allowables"]
STRENGTHS = st.lists(st.floats(100.0, 900.0), min_size=4, max_size=40, unique=True)
# CMH-17-1G (2012), table 8.5.7, quoted: n, critical normed residual at 5 %.
CRITICAL = {3: 1.154, 4: 1.481, 5: 1.715, 6: 1.887, 7: 2.020, 8: 2.127, 10: 2.290, 15: 2.548, 18: 2.652,
            20: 2.708, 30: 2.908}  # fmt: skip
EIGHTEEN, ETW, _, BATCH_3 = (list(one.inputs["values"]) for one in examples("allowables"))


def worked(values, batch=None):
    """Worked with values that come from three batches in turn, where no batches are given."""
    batch = batch or ["pqr"[at % 3] for at in range(len(values))]
    return METHOD.work({"values": tuple(values), "batch": tuple(batch)}, {"values": "MPa"})


def spread(count, seed=1):
    """Values that look normal: the quantiles at the middle of equal shares, in mixed order."""
    normal = statistics.NormalDist(500.0, 10.0)
    values = [normal.inv_cdf((at + 0.5) / count) for at in range(count)]
    random.Random(seed).shuffle(values)
    return values


def remarked(outcome):
    return {remark.limit: remark for remark in outcome.remarks}


def test_eighteen_values_of_one_population_are_given_without_remark():
    # the same data set computed by two routes: mean, standard deviation, statistic of the fit
    outcome = worked(EIGHTEEN)
    assert outcome.remarks == ()
    assert outcome.values["mean"] == pytest.approx(141.917883, abs=5e-7)
    assert outcome.values["standard_deviation"] == pytest.approx(6.397878, abs=5e-7)
    assert outcome.values["b_basis"] == pytest.approx(129.28978, abs=5e-6)
    assert outcome.values["a_basis"] == pytest.approx(120.35491, abs=5e-6)
    assert outcome.values["anderson_darling"] == pytest.approx(0.284973, abs=5e-7)


@pytest.mark.parametrize(("count", "critical"), CRITICAL.items())
def test_the_outlier_screen_has_the_published_critical_values(count, critical):
    assert normal_basis.critical_normed_residual(count) == pytest.approx(critical, abs=0.00051)


def test_values_that_do_not_look_normal_lie_outside_the_limits():
    remark = remarked(worked(ETW))["the values look normal"]
    assert remark.outside
    assert set(remark.results) == {"a_basis", "b_basis"}
    assert "0.00605" in remark.text  # CMH-17-1G, section 8.3.11.1.1, quoted


def test_a_value_that_stands_out_is_kept_and_remarked():
    outcome = worked(BATCH_3)
    remark = remarked(outcome)["no value stands out"]
    assert not remark.outside
    assert "`80.2335`" in remark.text
    assert outcome.values["count"] == 7.0


@pytest.mark.parametrize("count", [3, 9])
def test_fewer_than_ten_values_lie_outside_the_limits(count):
    outcome = worked(spread(count))
    assert outcome.values["b_basis"] is not None
    assert remarked(outcome)["at least 10 values"].outside


@pytest.mark.parametrize("count", [10, 17])
def test_ten_to_seventeen_values_get_a_caution(count):
    remark = remarked(worked(spread(count)))["at least 18 values"]
    assert not remark.outside


def test_eighteen_values_get_no_remark_on_their_number():
    assert worked(spread(18)).remarks == ()


@pytest.mark.parametrize(("batches", "says", "more"), [(1, "1 batch,", 2), (2, "2 batches,", 1)])
def test_fewer_than_three_batches_get_a_caution(batches, says, more):
    # CMH-17-1G, fewest batches of a B18 value: three; from memory
    (remark,) = worked(spread(18), ["pqr"[at % batches] for at in range(18)]).remarks
    assert remark.text == f"The A- and B-basis rest on {says} fewer than 3."
    assert remark.remedy.startswith(f"Test coupons of at least {more} more batch")
    assert not remark.outside
    assert set(remark.results) == {"a_basis", "b_basis"}


def test_batches_that_nobody_names_get_a_caution():
    outcome = METHOD.work({"values": tuple(spread(18))}, {"values": "MPa"})
    (remark,) = outcome.remarks
    assert remark.text == "Nothing says which batch each value comes from."
    assert remark.remedy == "Name the column of the batches under `batch`."
    assert not remark.outside
    assert [column.name for column in outcome.sheet.columns] == ["values"]
    assert "batches" not in outcome.sheet.named()


def test_the_sheet_counts_the_batches_and_no_number_depends_on_them():
    one, two = worked(EIGHTEEN), worked(EIGHTEEN, ["north"] * 7 + ["south"] * 11)
    assert one.sheet.named()["batches"].value == 3.0
    assert two.sheet.named()["batches"].value == 2.0
    assert two.sheet.columns[1].values == (1.0,) * 7 + (2.0,) * 11
    assert one.values == two.values


def test_batches_of_another_number_than_the_values_give_nothing_and_say_why():
    outcome = worked(EIGHTEEN, ["p", "q", "r"])
    assert set(outcome.why_not) == {spec.name for spec in METHOD.results}
    (why,) = set(outcome.why_not.values())
    assert why.text == "`batch` names 3 batch words, and `values` has 18 values"


@pytest.mark.parametrize("count", [0, 1, 2])
def test_fewer_than_three_values_give_no_basis_and_say_why(count):
    outcome = worked([500.0, 510.0][:count])
    for name in ("b_basis", "a_basis", "anderson_darling", "significance", "outlier_residual"):
        assert outcome.values[name] is None
        assert outcome.why_not[name].remedy.startswith(f"Test at least {10 - count} more")
    assert outcome.values["count"] == count


def test_equal_values_have_no_basis():
    outcome = worked([0.1 + 0.2] * 12)
    assert outcome.values["b_basis"] is None
    assert "equal" in outcome.why_not["a_basis"].text


def test_a_mean_below_zero_has_no_coefficient_of_variation():
    outcome = worked([-value for value in spread(20)])
    assert outcome.values["coefficient_of_variation"] is None
    assert "not above zero" in outcome.why_not["coefficient_of_variation"].text
    assert outcome.values["b_basis"] is not None


def test_every_result_has_a_number_or_a_reason():
    for count in range(25):
        outcome = worked(spread(count) if count else [])
        assert list(outcome.values) == [spec.name for spec in METHOD.results]
        assert {name for name, value in outcome.values.items() if value is None} == set(outcome.why_not)


@settings(max_examples=80, deadline=None)
@given(STRENGTHS)
def test_a_basis_lies_below_b_basis_and_both_below_the_mean(values):
    found = worked(values).values
    assert found["a_basis"] < found["b_basis"] < found["mean"]


@settings(max_examples=50, deadline=None)
@given(STRENGTHS, st.floats(0.01, 100.0), st.randoms(use_true_random=False))
def test_scale_and_order_of_the_values_do_not_matter(values, scale, mixer):
    other = [value * scale for value in values]
    mixer.shuffle(other)
    one, two = worked(values).values, worked(other).values
    for name in ("mean", "standard_deviation", "b_basis", "a_basis"):
        assert two[name] == pytest.approx(one[name] * scale, rel=1e-8, abs=1e-8 * one["mean"] * scale)
    # scaling rounds each value, which moves the fit by about the same share
    assert two["anderson_darling"] == pytest.approx(one["anderson_darling"], rel=1e-6, abs=1e-9)


@settings(max_examples=50, deadline=None)
@given(STRENGTHS)
def test_the_fit_statistic_agrees_with_its_integral(values):
    values = [round(value, 3) for value in values]
    if len(set(values)) < 4:
        return
    slow = slow_anderson_darling(values)
    assert normal_basis.anderson_darling(values) == pytest.approx(slow, rel=1e-6, abs=1e-9)


def test_the_fit_statistic_stays_finite_far_in_the_tail():
    values = [100.0 + 1e-3 * (at % 2) for at in range(3000)] + [1e6]
    assert math.isfinite(normal_basis.anderson_darling(values))
    assert normal_basis.observed_significance(normal_basis.anderson_darling(values), 3001) < 1e-100


def test_the_tail_of_the_normal_distribution_has_its_digits():
    for z in (-5.0, -29.9, -30.1, -38.0):
        assert normal_basis._log_normal(z) == pytest.approx(stats.norm.logcdf(z), rel=2e-6)


TWO_HEAPS = [100.0 + 0.01 * (at % 7) for at in range(1900)] + [200.0 + 0.01 * at for at in range(100)]


@pytest.mark.parametrize("values", [TWO_HEAPS, EIGHTEEN, ETW, BATCH_3, spread(3), spread(2), spread(1), []])
def test_the_sheet_of_any_sample_adds_up(values):
    check_sheet(worked(values).sheet)


def test_the_last_step_of_each_result_is_the_result():
    outcome = worked(EIGHTEEN)
    named = outcome.sheet.named()
    for name, value in outcome.values.items():
        assert named[name].value == value
