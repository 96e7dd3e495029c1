"""Equivalent stresses, needed factor and reserve factor."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from assurance.methods import stress

COMPONENT = st.floats(-1000.0, 1000.0).map(lambda value: round(value, 6))
TENSOR = st.tuples(*[COMPONENT] * 6)


def matrix(sxx, syy, szz, sxy, syz, szx):
    return np.array([[sxx, sxy, szx], [sxy, syy, syz], [szx, syz, szz]])


def from_matrix(m):
    return m[0, 0], m[1, 1], m[2, 2], m[0, 1], m[1, 2], m[2, 0]


def size(tensor):
    return max(1.0, float(np.abs(np.linalg.eigvalsh(matrix(*tensor))).max()))


@given(TENSOR)
def test_principal_stresses_agree_with_an_eigenvalue_solver(tensor):
    slow = np.linalg.eigvalsh(matrix(*tensor))[::-1]
    found = stress.principal_stresses(*tensor)
    assert np.allclose([float(one) for one in found], slow, rtol=0, atol=3e-7 * size(tensor))


@given(COMPONENT, COMPONENT, st.floats(0.0, 6.3), st.floats(0.0, 6.3))
def test_two_equal_principal_stresses_are_found(double, single, turn, tilt):
    c, s, d, e = math.cos(turn), math.sin(turn), math.cos(tilt), math.sin(tilt)
    axes = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]]) @ np.array(
        [[1, 0, 0], [0, d, -e], [0, e, d]]
    )
    tensor = from_matrix(axes @ np.diag([double, double, single]) @ axes.T)
    found = stress.principal_stresses(*tensor)
    assert float(found.first) == pytest.approx(max(double, single), abs=3e-7 * size(tensor))
    assert float(found.third) == pytest.approx(min(double, single), abs=3e-7 * size(tensor))


@given(TENSOR)
def test_von_mises_agrees_with_the_principal_stresses(tensor):
    one, two, three = np.linalg.eigvalsh(matrix(*tensor))
    slow = math.sqrt(((one - two) ** 2 + (two - three) ** 2 + (three - one) ** 2) / 2.0)
    assert stress.von_mises(*tensor) == pytest.approx(slow, rel=1e-9, abs=1e-9 * size(tensor))


@given(TENSOR)
def test_the_largest_shear_is_half_the_spread_of_the_principal_stresses(tensor):
    ends = np.linalg.eigvalsh(matrix(*tensor))
    assert float(stress.max_shear(*tensor)) == pytest.approx((ends[2] - ends[0]) / 2, abs=3e-7 * size(tensor))


@given(TENSOR, st.floats(-500.0, 500.0))
def test_pressure_on_all_sides_does_not_change_von_mises(tensor, pressure):
    sxx, syy, szz, sxy, syz, szx = tensor
    moved = stress.von_mises(sxx + pressure, syy + pressure, szz + pressure, sxy, syz, szx)
    assert moved == pytest.approx(stress.von_mises(*tensor), rel=1e-9, abs=1e-6)


def test_pure_shear_is_root_three_and_its_own_principal():
    # closed form
    assert stress.von_mises(0.0, 0.0, 0.0, 50.0, 0.0, 0.0) == pytest.approx(50.0 * math.sqrt(3.0), rel=1e-14)
    assert float(stress.max_principal(0.0, 0.0, 0.0, 50.0, 0.0, 0.0)) == pytest.approx(50.0, rel=1e-12)
    assert float(stress.max_shear(0.0, 0.0, 0.0, 50.0, 0.0, 0.0)) == pytest.approx(50.0, rel=1e-12)


def test_compression_along_one_axis_has_no_tension_anywhere():
    assert float(stress.max_principal(-80.0, 0.0, 0.0, 0.0, 0.0, 0.0)) == 0.0


def test_arrays_give_what_single_rows_give():
    rng = np.random.default_rng(20)
    rows = rng.uniform(-300, 300, (50, 6))
    for kernel in stress.STRESSES.values():
        together = kernel(*rows.T)
        assert np.allclose(together, [float(kernel(*row)) for row in rows], rtol=1e-12, atol=1e-9)


def test_of_several_special_factors_only_the_highest_is_used():
    # 14 CFR 25.619: the highest pertinent special factor, not the product (2.15625), not 1.725
    assert stress.needed_factor(1.5, [1.25, 1.15]) == pytest.approx(1.875, rel=1e-15)


def test_every_further_factor_multiplies():
    # closed form
    assert stress.needed_factor(1.25, [], [1.1, 1.2]) == pytest.approx(1.25 * 1.1 * 1.2, rel=1e-15)


@given(
    st.floats(1.0, 3.0), st.lists(st.floats(1.0, 2.0), max_size=4), st.lists(st.floats(1.0, 2.0), max_size=4)
)
def test_no_factor_above_one_lowers_what_is_needed(safety, specials, multiply):
    needed = stress.needed_factor(safety, specials, multiply)
    assert needed >= safety
    assert stress.needed_factor(safety, [*specials, 1.1], multiply) >= needed


@given(st.floats(1.0, 1e6), st.floats(1.0, 1e6), st.floats(1.0, 4.0))
def test_the_factored_load_times_the_reserve_factor_is_the_allowable(allowable, applied, needed):
    reserve = stress.reserve_factor(allowable, applied, needed=needed)
    assert applied * needed * reserve == pytest.approx(allowable, rel=1e-12)


@given(st.floats(1.0, 1e6), st.floats(1.0, 1e6), st.floats(1.0, 4.0))
def test_a_factor_already_inside_is_taken_out_before_it_is_put_on(allowable, applied, factor):
    assume(applied * factor < 1e9)
    plain = stress.reserve_factor(allowable, applied, needed=factor)
    inside = stress.reserve_factor(allowable, applied * factor, already=factor, needed=factor)
    assert inside == pytest.approx(plain, rel=1e-12)
