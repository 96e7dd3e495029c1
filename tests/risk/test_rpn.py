"""RPN = S x O x D: facts of the scale, and which actions count.

Counts by enumeration of all 1,000 ratings; the 120 values and groups of 24 are also printed by
D. J. Wheeler, "Problems With Risk Priority Numbers", Quality Digest, 27 June 2011.
"""

from collections import Counter
from itertools import pairwise, product
from statistics import mean, median

import pytest

from assurance.model.assessment import CauseOutcome
from assurance.model.risk_records import FailureMode


def rpn(severity, occurrence, detection):
    return CauseOutcome("c", "", (severity, occurrence, detection), None).rpn_before


EVERY = [rpn(*ratings) for ratings in product(range(1, 11), repeat=3)]


def test_1000_ratings_give_120_values():
    assert len(EVERY) == 1000
    assert len(set(EVERY)) == 120


def test_the_largest_groups_hold_24_ratings_and_share_60_72_and_120():
    groups = Counter(EVERY)
    assert max(groups.values()) == 24
    assert sorted(value for value, count in groups.items() if count == 24) == [60, 72, 120]


def test_the_sizes_of_the_groups_are_as_counted():
    sizes = Counter(Counter(EVERY).values())
    assert sizes == {1: 6, 3: 34, 6: 26, 7: 1, 9: 15, 10: 2, 12: 14, 13: 1, 15: 8, 18: 3, 21: 7, 24: 3}


def test_mean_median_and_the_largest_hole():
    values = sorted(set(EVERY))
    assert mean(EVERY) == pytest.approx(5.5**3)
    assert median(EVERY) == 105
    assert max(high - low for low, high in pairwise(values)) == 100


def test_half_of_the_ratings_lie_above_100():
    assert sum(value > 100 for value in EVERY) == 501
    assert sum(value >= 100 for value in EVERY) == 513


def test_two_very_different_rows_share_one_rpn():
    assert rpn(8, 6, 2) == rpn(2, 6, 8) == 96  # the usual published pair
    assert rpn(10, 1, 1) < rpn(5, 5, 5)


@pytest.mark.parametrize("rating", [0, 11, 2.5, "8", True])
def test_a_rating_that_is_no_whole_number_from_1_to_10_is_refused(rating):
    with pytest.raises(ValueError, match="occurrence"):
        FailureMode.model_validate({"title": "x", "causes": {"c": {"text": "y", "occurrence": rating}}})
