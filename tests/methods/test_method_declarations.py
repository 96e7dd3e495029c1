"""What every method declares about itself can be relied on."""

import doctest
import subprocess
import sys

import pytest

from assurance.methods import normal_basis, straight_line, stress
from assurance.methods.registry import METHODS
from assurance.model import units


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
