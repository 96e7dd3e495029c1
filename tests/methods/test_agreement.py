"""A measured stiffness against a predicted one."""

import math
from pathlib import Path

import numpy as np
import pytest
import scipy
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from sheet_check import check_sheet

from assurance.methods import straight_line
from assurance.methods.registry import METHODS

METHOD = METHODS["agreement"]
UNITS = {"displacement": "mm", "load": "N", "predicted": "N/mm", "from": "mm", "to": "mm"}
NORRIS = Path(scipy.__file__).parent / "stats/tests/data/nist_linregress/Norris.dat"
DISPLACEMENT, LOAD = (0.0, 0.5, 1.0, 1.5, 2.0, 2.5), (2.0, 103.0, 199.0, 303.0, 398.0, 502.0)


def worked(displacement=DISPLACEMENT, load=LOAD, *, units=UNITS, predicted=200.0, **more):
    bound = {"displacement": displacement, "load": load, "predicted": predicted, **more}
    return METHOD.work(bound, units)


@pytest.mark.skipif(not NORRIS.is_file(), reason="this scipy comes without its test data")
def test_the_line_has_the_certified_values_of_norris():
    rows = [line.split() for line in NORRIS.read_text().splitlines()[60:96]]
    y, x = ([float(row[at]) for row in rows] for at in (0, 1))
    line = straight_line.fit(x, y)
    # NIST StRD, Norris, certified values
    assert line.slope == pytest.approx(1.00211681802045, rel=1e-13)
    assert line.intercept == pytest.approx(-0.262323073774029, rel=1e-11)
    assert line.slope_error == pytest.approx(0.429796848199937e-3, rel=1e-11)
    assert line.intercept_error == pytest.approx(0.232818234301152, rel=1e-11)
    assert line.residual == pytest.approx(0.884796396144373, rel=1e-11)


def test_the_thermometer_line_has_the_published_uncertainties():
    # JCGM 100:2008, annex H.3, quoted: t - 20 and b
    x = [1.521, 2.012, 2.512, 3.003, 3.507, 3.999, 4.513, 5.002, 5.503, 6.010, 6.511]
    y = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160]
    line = straight_line.fit(x, y)
    assert line.intercept == pytest.approx(-0.1712038, abs=5e-8)
    assert line.intercept_error == pytest.approx(0.0028776, abs=5e-8)
    assert line.slope_error == pytest.approx(0.00066794, abs=5e-9)


@settings(max_examples=60, deadline=None)
@given(st.integers(3, 40), st.integers(0, 10_000))
def test_the_line_agrees_with_an_independent_library(count, seed):
    rng = np.random.default_rng(seed)
    x = np.sort(rng.uniform(0.0, 20.0, count))
    y = 3.0 * x + rng.normal(0.0, 2.0, count)
    slow, line = stats.linregress(x, y), straight_line.fit(x.tolist(), y.tolist())
    assert line.slope == pytest.approx(slow.slope, rel=1e-9, abs=1e-9)
    width = stats.t.ppf(0.975, count - 2) * slow.stderr
    assert line.half_width == pytest.approx(width, rel=1e-6, abs=1e-9)


def test_ratio_and_interval_follow_from_the_line():
    outcome = worked()
    low, high = outcome.intervals["stiffness"]
    assert low < outcome.values["stiffness"] < high
    assert outcome.values["ratio"] == pytest.approx(outcome.values["stiffness"] / 200.0, rel=1e-14)
    assert outcome.intervals["ratio"] == pytest.approx((low / 200.0, high / 200.0), rel=1e-14)
    check_sheet(outcome.sheet)


def test_a_prediction_with_an_uncertainty_widens_the_ratio_and_nothing_else():
    sure, unsure = worked(), worked(predicted_half_width=30.0)
    ratio = unsure.values["ratio"]
    own = (sure.intervals["ratio"][1] - sure.intervals["ratio"][0]) / 2
    # JCGM 100:2008, 5.1.2, with relative parts: own/ratio and 30/200
    half = ratio * math.sqrt((own / ratio) ** 2 + 0.15**2)
    assert unsure.intervals["ratio"] == pytest.approx((ratio - half, ratio + half), rel=1e-12)
    assert unsure.intervals["stiffness"] == sure.intervals["stiffness"]
    assert unsure.values == sure.values
    check_sheet(unsure.sheet)
    check_sheet(worked(units=UNITS | {"load": "kN"}, predicted_half_width=30.0).sheet)


def test_units_of_load_and_displacement_do_not_matter():
    thousandth = [value / 1000.0 for value in LOAD]
    outcome = worked(load=thousandth, units=UNITS | {"load": "kN"})
    assert outcome.values["stiffness"] == pytest.approx(worked().values["stiffness"], rel=1e-12)
    assert outcome.sheet.named()["slope"].unit == "kN/mm"
    check_sheet(outcome.sheet)


def test_only_rows_inside_the_range_are_used_ends_included():
    outcome = worked(**{"from": 0.5, "to": 2.0})
    assert outcome.values["rows_used"] == 4.0
    assert outcome.remarks[0].outside  # fewer than five rows


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ({"from": 2.2, "to": 2.4}, "no row lies in the range"),
        ({"from": 2.2}, "1 row lies in the range"),
        ({"from": 1.8}, "2 rows lie in the range"),
        ({"from": 2.0, "to": 1.0}, "above `to`"),
        ({"displacement": (1.0,) * 6}, "does not vary"),
        ({"load": LOAD[:5]}, "`load` has 5"),
    ],
)
def test_what_gives_no_line_says_why(more, why):
    outcome = worked(**more)
    assert outcome.values["stiffness"] is None
    assert why in outcome.why_not["ratio"].text
    assert outcome.why_not["ratio"].remedy.endswith(".")


def test_a_load_that_falls_lies_outside_the_limits():
    outcome = worked(load=[-value for value in LOAD])
    assert any(remark.outside and "does not rise" in remark.text for remark in outcome.remarks)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.1, 1000.0), st.floats(-50.0, 50.0))
def test_an_exact_line_is_found_exactly(slope, start):
    line = straight_line.fit(DISPLACEMENT, [start + slope * x for x in DISPLACEMENT])
    assert line.slope == pytest.approx(slope, rel=1e-9, abs=1e-9)
    assert math.isclose(line.residual, 0.0, abs_tol=1e-9 * (slope + 50.0))
