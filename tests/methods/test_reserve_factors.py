"""Reserve factor and margin of safety by hand, with their sheets."""

import pytest
from sheet_check import check_sheet

from assurance.methods import reserve_sheet, stress
from assurance.methods.registry import METHODS
from assurance.methods.reserve_sheet import Applied, PutOn
from assurance.model import numbers
from assurance.model.steps import print_step

METHOD = METHODS["reserve_factors"]
SAFETY, CASTING = PutOn("ultimate", "safety", 1.5), PutOn("casting", "special", 1.25)
FITTING, MODEL = PutOn("fitting", "special", 1.15), PutOn("model", "multiply", 1.2)
ROW = {"sxx": 120.0, "syy": -45.5, "szz": 12.25, "sxy": 60.1, "syz": -8.0, "szx": 22.0}
IN_PLANE = {"sxx": 120.0, "syy": -45.5, "sxy": 60.1}


def by_hand(applied, allowable, **more):
    bound = {"applied": applied, "allowable": allowable, **more}
    return METHOD.work(bound, {"applied": "MPa", "allowable": "MPa"})


def test_a_reserve_factor_just_below_one_fails_and_is_not_shown_as_one():
    # rounding trap: 0.99951 compared unrounded, displayed rounded down
    outcome = by_hand(1.0, 0.99951)
    assert outcome.values["count_below_one"] == 1.0
    assert outcome.values["least_reserve_factor"] < 1.0
    assert numbers.reserve(outcome.values["least_reserve_factor"]) == "0.99"


@pytest.mark.parametrize("reserve", [0.99951, 0.99997, 0.999999, 1.0, 1.00003])
def test_no_sheet_prints_a_reserve_factor_on_the_wrong_side_of_one(reserve):
    named = by_hand(1.0, reserve).sheet.named()
    values = {name: one.value for name, one in named.items()}
    printed = print_step(named["least_reserve_factor"], values).result
    assert (float(printed) < 1.0) == (reserve < 1.0)


def test_margin_of_safety_is_the_reserve_factor_less_one():
    # NASA-STD-5001B, section 3.2, with RF = MS + 1 (from memory)
    outcome = by_hand(100.0, 250.0)
    assert outcome.values == {"least_reserve_factor": 2.5, "margin_of_safety": 1.5, "count_below_one": 0.0}


@pytest.mark.parametrize("applied", [0.0, -35.0])
def test_what_is_not_in_tension_is_not_governed(applied):
    outcome = by_hand(applied, 250.0)
    assert outcome.values["least_reserve_factor"] is None
    assert outcome.why_not["least_reserve_factor"].startswith("not governed")


def test_casting_and_fitting_factor_together_give_the_higher_one():
    # own numbers: 1.5 x 1.25 = 1.875 needed; 300 / (100 x 1.875) = 1.6
    outcome = by_hand(100.0, 300.0, put_on=(SAFETY, CASTING, FITTING))
    assert outcome.values["least_reserve_factor"] == pytest.approx(1.6, rel=1e-14)
    check_sheet(outcome.sheet)


def sheets():
    yield Applied("yield", 97.0, "MPa", 448.0)
    yield Applied("yield", 97.0, "MPa", 448.0, put_on=(SAFETY, CASTING, FITTING, MODEL))
    yield Applied("yield", 97.0, "MPa", 448.0, already=(MODEL, SAFETY), put_on=(SAFETY, MODEL))
    yield Applied("yield", 97.0, "MPa", 448.0, already=(SAFETY,))
    for components in (ROW, IN_PLANE, {"sxx": 100.0}, {"sxy": 30.0}, {"szz": 80.0, "sxx": 80.0, "syy": 80.0}):
        for name, kernel in stress.STRESSES.items():
            value = float(kernel(*(components.get(one, 0.0) for one in stress.COMPONENTS)))
            if value > 0:
                yield Applied(
                    "ultimate", value, "MPa", 448.0, put_on=(SAFETY,), stress=name, components=components
                )


def named(row):
    return f"{row.stress or 'by hand'}-{'-'.join(row.components)}"


@pytest.mark.parametrize("row", list(sheets()), ids=named)
def test_the_sheet_of_a_row_adds_up(row):
    sheet = reserve_sheet.sheet(row)
    check_sheet(sheet)
    reserve = stress.reserve_factor(
        row.allowable, row.value, already=reserve_sheet.inside(row.already),
        needed=reserve_sheet.needed(row.put_on),
    )  # fmt: skip
    assert sheet.named()["least_reserve_factor"].value == reserve
    assert sheet.steps[-1].value == reserve - 1.0


def test_a_stress_without_a_column_says_that_it_is_taken_as_zero():
    row = Applied("yield", 100.0, "MPa", 448.0, stress="von_mises", components={"sxx": 100.0}, where="row 4")
    what = {given.name: given.what for given in reserve_sheet.sheet(row).givens}
    assert what["sxx"].endswith("row 4")
    assert what["syy"].endswith("no column: zero")
