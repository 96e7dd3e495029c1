"""The sum behind a measured stiffness, told step by step."""

import math
from collections.abc import Mapping

from assurance.methods.straight_line import Line
from assurance.model.steps import Column, Given, Sheet, Step, call, symbol

Rows = tuple[tuple[float, ...], tuple[float, ...]]


def sheet(
    rows: Rows, line: Line, predicted: float, width: float, *, units: Mapping[str, str], conversion: float
) -> Sheet:
    """The line, its half-width, and the ratio to the prediction; a conversion where units differ.

    `width` is the half-width of the prediction, 0 where it states none.
    """
    slope_unit = f"{units['load']}/{units['displacement']}"
    columns = (
        Column("displacement", rows[0], units["displacement"]),
        Column("load", rows[1], units["load"]),
    )
    unit = units["predicted"]
    givens = [Given("predicted", "k_p", predicted, unit, "predicted stiffness")]
    if width:
        what = "half-width of the predicted stiffness, k = 2"
        givens.append(Given("predicted_half_width", "U_p", width, unit, what))
    if slope_unit == units["predicted"]:
        steps = [_line("stiffness", "k", "slope", line.slope, unit=slope_unit)]
    else:
        what = f"{units['predicted']} in one {slope_unit}"
        givens.append(Given("conversion", "c", conversion, "", what))
        steps = [
            _line("slope", "b", "slope", line.slope, unit=slope_unit),
            _converted(line, units, conversion),
        ]
    steps += _about_the_line(line, units, slope_unit)
    steps += _ratio(line, predicted, width, conversion, converted=slope_unit != unit)
    return Sheet("Measured stiffness against the predicted one", tuple(givens), columns, tuple(steps))


def _line(name: str, mark: str, part: str, value: float, *, unit: str = "") -> Step:
    statement = f"{part} of the least-squares line of `load` over `displacement`, over the rows used"
    if part == "residual":
        statement = "root of the sum of squared distances of `load` from the line, over n - 2"
    if part == "half width":
        statement = "half-width of the slope at 95 % (Student t, n - 2 degrees of freedom)"
    parameters = {"x": "displacement", "y": "load", "part": part}
    source = "JCGM 100:2008, annex H.3"
    what = {"slope": "slope of the line", "half width": "half-width of the slope at 95 %"}.get(
        part, "scatter of the load about the line"
    )
    return Step(
        "line", name, mark, what, value, unit, statement=statement, parameters=parameters, source=source
    )


def _converted(line: Line, units: Mapping[str, str], conversion: float) -> Step:
    tree = symbol("slope") * symbol("conversion")
    value = line.slope * conversion
    return Step("expression", "stiffness", "k", "measured stiffness", value, units["predicted"], tree=tree)


def _about_the_line(line: Line, units: Mapping[str, str], slope_unit: str) -> list[Step]:
    counted = {"statistic": "count", "column": "load"}
    statement = "number of rows in the range"
    return [
        Step(
            "statistic", "rows_used", "n", "rows used", float(line.count),
            statement=statement, parameters=counted, whole=True,
        ),
        _line("residual_standard_deviation", "s_r", "residual", line.residual, unit=units["load"]),
        _line("half_width", "U_b", "half width", line.half_width, unit=slope_unit),
    ]  # fmt: skip


def _ratio(line: Line, predicted: float, wide: float, conversion: float, *, converted: bool) -> list[Step]:
    tree = symbol("stiffness") / symbol("predicted")
    width = symbol("half_width") * symbol("conversion") if converted else symbol("half_width")
    value = line.slope * conversion / predicted
    half, own = line.half_width * conversion / predicted, width / symbol("predicted")
    ratio = Step("expression", "ratio", "k_rel", "ratio of measured to predicted stiffness", value, tree=tree)
    what = "half-width of that ratio at 95 %"
    if not wide:
        return [ratio, Step("expression", "ratio_half_width", "U_rel", what, half, tree=own)]
    of_prediction = symbol("ratio") * symbol("predicted_half_width") / symbol("predicted")
    both = call("sqrt", own**2 + of_prediction**2)
    value_of_both = math.hypot(half, value * wide / predicted)
    what += ", of line and prediction together"
    return [
        ratio,
        Step(
            "expression", "ratio_half_width", "U_rel", what, value_of_both, tree=both,
            source="JCGM 100:2008, 5.1.2",
        ),
    ]  # fmt: skip
