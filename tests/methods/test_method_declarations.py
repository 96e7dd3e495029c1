"""What every method declares about itself can be relied on."""

import doctest
import re
import subprocess
import sys

import pytest

from assurance.methods import normal_basis, reserve_sheet, straight_line, stress
from assurance.methods.registry import METHODS
from assurance.methods.reserve_sheet import Applied, PutOn
from assurance.model import units
from assurance.model.mathml import sign


def unit_is_known(spelling, method):
    if not spelling.startswith("@"):
        return spelling in units.units()
    return spelling == "@" or method.input(spelling[1:]) is not None


@pytest.mark.parametrize("method", METHODS.values(), ids=lambda method: method.name)
def test_units_of_inputs_and_results_are_of_the_list_or_of_an_input(method):
    assert all(unit_is_known(spec.unit, method) for spec in (*method.inputs, *method.results))


@pytest.mark.parametrize("method", METHODS.values(), ids=lambda method: method.name)
def test_an_input_follows_the_one_whose_unit_it_takes(method):
    names = [spec.name for spec in method.inputs]
    for at, spec in enumerate(method.inputs):
        if len(spec.unit) > 1 and spec.unit.startswith("@"):
            assert names.index(spec.unit[1:]) < at


@pytest.mark.parametrize("method", METHODS.values(), ids=lambda method: method.name)
def test_a_column_follows_the_one_that_it_stands_beside(method):
    before = []
    for spec in method.inputs:
        assert not spec.beside or spec.beside in before
        before.append(spec.name)


@pytest.mark.parametrize("method", METHODS.values(), ids=lambda method: method.name)
def test_a_method_states_source_limits_and_version(method):
    assert method.version >= 1
    assert method.source
    assert method.limits
    assert len({spec.name for spec in method.results}) == len(method.results)


def sheets():
    """A sheet of each method, with every kind of symbol that it uses."""
    values, row = tuple(float(500 + 7 * (at % 6) - at) for at in range(20)), (0.0, 1.0, 2.0, 3.0, 4.1)
    yield METHODS["allowables"].work({"values": values, "batch": ("p", "q") * 10}, {"values": "MPa"}).sheet
    line = {"displacement": row, "load": tuple(9.0 * one + one % 2 for one in row), "predicted": 9000.0}
    yield METHODS["agreement"].work(line, {"displacement": "mm", "load": "N", "predicted": "N/m"}).sheet
    factors = tuple(PutOn(kind, kind, 1.5) for kind in ("safety", "special", "multiply"))
    bound = {"applied": 90.0, "allowable": 448.0, "already": factors[:1], "put_on": factors}
    yield METHODS["reserve_factors"].work(bound, {"applied": "MPa", "allowable": "MPa"}).sheet
    for name in stress.STRESSES:
        for components in ({"sxx": 90.0}, {"sxx": 90.0, "szz": 5.0}):
            yield reserve_sheet.sheet(Applied("", 90.0, "MPa", 448.0, stress=name, components=components))


def test_every_symbol_of_a_sheet_is_drawn_and_not_spelt_out():
    signs = {one.symbol for sheet in sheets() for one in sheet.named().values()}
    signs |= {spec.symbol for method in METHODS.values() for spec in (*method.inputs, *method.results)}
    for text in signs - {""}:
        parts = re.findall(r">([^<]+)<", sign(text))
        assert parts, text
        assert not any(re.search("_|star|sigma|tau|theta", part) for part in parts), (text, parts)


def test_within_a_sheet_no_two_numbers_share_a_symbol():
    for sheet in sheets():
        signs = [one.symbol for one in sheet.named().values()]
        assert len(signs) == len(set(signs)), sheet.title


def test_a_count_is_declared_whole_and_its_step_too():
    for sheet in sheets():
        for step in sheet.steps:
            if step.kind != "expression":
                assert step.whole == (step.parameters.get("statistic") in ("count", "different"))
    whole = {spec.name for method in METHODS.values() for spec in method.results if spec.whole}
    assert whole == {"count", "rows_used", "count_below_one"}


def test_listing_the_methods_loads_no_numerical_library():
    script = (
        "import sys, assurance.methods.registry\n"
        "print([name for name in ('numpy', 'scipy', 'polars', 'yaml') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("module", [normal_basis, straight_line, stress])
def test_the_examples_in_docstrings_give_what_they_say(module):
    assert doctest.testmod(module).failed == 0
