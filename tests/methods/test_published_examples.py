"""Each method reproduces its published examples to the digits printed."""

import pytest

from assurance.methods.published import MARKS, examples
from assurance.methods.registry import METHODS
from assurance.methods.reserve_sheet import PutOn
from assurance.model.steps import printed_interval

ALL = [(name, example) for name in METHODS for example in examples(name)]


@pytest.mark.parametrize(("name", "example"), ALL, ids=lambda one: getattr(one, "id", one))
def test_a_method_gives_the_printed_digits_of_its_example(name, example):
    bound = dict(example.inputs)
    bound["put_on"] = tuple(PutOn(**one) for one in bound.get("put_on", ()))
    outcome = METHODS[name].work(bound, example.units)
    for result, text in example.printed.items():
        low, high = printed_interval(text)
        if result in example.relative:
            share = example.relative[result]
            low, high = float(text) * (1 - share), float(text) * (1 + share)
        assert low <= outcome.values[result] <= high, f"{result}: {outcome.values[result]}, printed {text}"


@pytest.mark.parametrize("name", METHODS)
def test_a_method_that_claims_a_published_example_has_one(name):
    own = examples(name)
    assert METHODS[name].published_example == any(one.mark != "computed" for one in own)
    assert all(one.mark in MARKS and one.source and one.where for one in own)


def test_a_method_without_a_file_has_no_examples():
    assert examples("no-such-method") == ()
