"""The matrix against MIL-STD-882E, Table III (quoted in public transcriptions), cell by cell."""

from collections import Counter

import pytest

from assurance.model.risk_records import RiskScheme
from assurance.risk.scheme import own_scheme, rate, standard_scheme

TABLE_III = {
    "A": "High High Serious Medium",
    "B": "High High Serious Medium",
    "C": "High Serious Medium Low",
    "D": "Serious Medium Medium Low",
    "E": "Medium Medium Medium Low",
    "F": "Eliminated Eliminated Eliminated Eliminated",
}
CELLS = [
    (str(column + 1), row, level)
    for row, levels in TABLE_III.items()
    for column, level in enumerate(levels.split())
]


@pytest.mark.parametrize(("severity", "likelihood", "level"), CELLS)
def test_each_of_the_24_cells_has_the_level_of_the_standard(severity, likelihood, level):
    assert rate(standard_scheme(), severity, likelihood).level == level


def test_the_levels_are_as_many_as_in_the_table():
    # Counted from the table: High 5, Serious 4, Medium 8, Low 3, Eliminated 4.
    counted = Counter(standard_scheme().matrix.values())
    assert counted == {"High": 5, "Serious": 4, "Medium": 8, "Low": 3, "Eliminated": 4}


def test_a_worse_severity_or_likelihood_never_gives_a_lower_level():
    scheme = standard_scheme()
    ranks = [[rate(scheme, str(s), p).rank for s in range(1, 5)] for p in "ABCDEF"]
    assert all(row == sorted(row, reverse=True) for row in ranks)
    assert all(list(column) == sorted(column, reverse=True) for column in zip(*ranks, strict=True))


@pytest.mark.parametrize("word", ["critical", "Critical", "2"])
def test_a_severity_is_known_by_its_word_in_any_case_and_by_its_number(word):
    assert rate(standard_scheme(), word, "occasional").severity == "Critical"


def test_a_word_that_is_not_of_the_scheme_has_no_level():
    assert rate(standard_scheme(), "Severe", "Remote") is None
    assert rate(standard_scheme(), "C", "2") is None


def _scheme(**changes):
    given = {
        "title": "Two by two",
        "severities": ("Injury", "Scratch"),
        "likelihoods": ("Often", "Seldom"),
        "levels": ("Stop", "Go"),
        "matrix": {"Often": ("Stop", "Go"), "Seldom": ("Stop", "Go")},
    }
    return RiskScheme.model_validate({**given, **changes})


def test_a_scheme_of_the_case_takes_the_place_of_the_standard():
    scheme = own_scheme(_scheme())
    assert scheme.own
    assert rate(scheme, "injury", "seldom").level == "Stop"


@pytest.mark.parametrize(
    "matrix",
    [
        {"Often": ("Stop", "Go")},
        {"Often": ("Stop", "Go"), "Seldom": ("Stop",)},
        {"Often": ("Stop", "Go"), "Seldom": ("Stop", "Wait")},
    ],
)
def test_a_matrix_with_a_hole_or_an_unknown_level_is_refused(matrix):
    with pytest.raises(ValueError, match="Seldom"):
        own_scheme(_scheme(matrix=matrix))
