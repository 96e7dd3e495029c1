"""Method `agreement`: a stiffness from a measured load-displacement table against a predicted one."""

import math
from collections.abc import Mapping
from typing import Any

from assurance.methods import agreement_sheet, straight_line
from assurance.methods.straight_line import Line
from assurance.model import units as unit_list
from assurance.model.methods import InputSpec, Method, Outcome, Remark, ResultSpec, WhyNot

FEWEST_ROWS = 5  # common practice, no source
FEWEST_FOR_INTERVAL = 3  # a line through two points leaves nothing to judge it by
ONE_PLACE = WhyNot(
    "the displacement does not vary over the rows used", "Take rows over which the displacement changes."
)
Rows = tuple[tuple[float, ...], tuple[float, ...]]


def work(bound: Mapping[str, Any], units: Mapping[str, str]) -> Outcome:
    """The measured stiffness with its interval, and its ratio to the predicted one.

    `predicted_half_width` in what is bound is the uncertainty of the prediction, at about 95 % (k = 2).
    It widens the interval of the ratio: the half-widths of both, in parts of the ratio, are added as the
    root of the sum of their squares (JCGM 100:2008, 5.1.2, for values that do not depend on each other).
    """
    rows, why = _rows(bound)
    line = None if why else straight_line.fit(*rows)
    if line is None:
        return _nothing(why or ONE_PLACE, rows_used=len(rows[0]))
    predicted, width = float(bound["predicted"]), float(bound.get("predicted_half_width") or 0.0)
    to_predicted = _conversion(units)
    remarks = _remarks(line)
    sheet = agreement_sheet.sheet(rows, line, predicted, width, units=units, conversion=to_predicted)
    values, intervals = _values(line, predicted=predicted, width=width, conversion=to_predicted)
    return Outcome(values, intervals=intervals, remarks=remarks, sheet=sheet)


def _rows(bound: Mapping[str, Any]) -> tuple[Rows, WhyNot | None]:
    """The rows inside the range of displacement, ends included, and why they will not do."""
    displacement, load = tuple(bound["displacement"]), tuple(bound["load"])
    if len(displacement) != len(load):
        text = f"`displacement` has {len(displacement)} values and `load` has {len(load)}"
        return ((), ()), WhyNot(text, "Take both columns from the same rows of one file.")
    lower = -math.inf if bound.get("from") is None else float(bound["from"])
    upper = math.inf if bound.get("to") is None else float(bound["to"])
    pairs = [(x, y) for x, y in zip(displacement, load, strict=True) if lower <= x <= upper]
    kept = (tuple(float(x) for x, _ in pairs), tuple(float(y) for _, y in pairs))
    if lower > upper:
        text = f"`from` is `{lower:g}`, above `to`, which is `{upper:g}`"
        return kept, WhyNot(text, "Give `from` a displacement below `to`.")
    return kept, _too_few(len(pairs)) if len(pairs) < FEWEST_FOR_INTERVAL else None


def _too_few(count: int) -> WhyNot:
    lie = ("no row lies", "1 row lies")[count] if count < 2 else f"{count} rows lie"
    return WhyNot(
        f"{lie} in the range, and a line with an interval needs at least {FEWEST_FOR_INTERVAL}",
        f"Widen the range, or record more rows: the method asks for at least {FEWEST_ROWS}.",
    )


def _conversion(units: Mapping[str, str]) -> float:
    """What turns load unit over displacement unit into the unit of the predicted stiffness."""
    load, displacement = unit_list.unit(units["load"]), unit_list.unit(units["displacement"])
    return load.factor / displacement.factor / unit_list.unit(units["predicted"]).factor


def _values(
    line: Line, *, predicted: float, width: float, conversion: float
) -> tuple[dict[str, float | None], dict[str, tuple[float, float]]]:
    stiffness, half_width = line.slope * conversion, line.half_width * conversion
    values: dict[str, float | None] = {
        "stiffness": stiffness,
        "ratio": stiffness / predicted,
        "rows_used": float(line.count),
        "residual_standard_deviation": line.residual,
    }
    ratio = stiffness / predicted
    half = math.hypot(half_width / predicted, ratio * width / predicted)
    ends = (stiffness - half_width, stiffness + half_width)
    return values, {"stiffness": ends, "ratio": (ratio - half, ratio + half)}


def _remarks(line: Line) -> tuple[Remark, ...]:
    remarks = []
    if line.count < FEWEST_ROWS:
        text = f"The line rests on {line.count} rows, fewer than {FEWEST_ROWS}."
        remedy = "Record more rows, or widen the range."
        remarks.append(Remark(f"at least {FEWEST_ROWS} rows", text, remedy, True))
    if line.slope <= 0:
        text = "The load does not rise with the displacement."
        remedy = "Check the signs of `displacement` and `load`, and the range."
        remarks.append(Remark("the load rises with the displacement", text, remedy, True))
    return tuple(remarks)


def _nothing(why: WhyNot, *, rows_used: int) -> Outcome:
    values: dict[str, float | None] = {spec.name: None for spec in METHOD.results}
    values["rows_used"] = float(rows_used)
    return Outcome(values, why_not={name: why for name, value in values.items() if value is None})


METHOD = Method(
    name="agreement",
    version=2,
    title="Measured stiffness against the predicted one",
    inputs=(
        InputSpec("displacement", "u", "measured displacements", "@", dimension="length", kind="column"),
        InputSpec("load", "F", "measured loads", "@", dimension="force", kind="column"),
        InputSpec("from", "u_1", "least displacement of the rows used", "@displacement", required=False),
        InputSpec("to", "u_2", "greatest displacement of the rows used", "@displacement", required=False),
        InputSpec(
            "predicted", "k_p", "stiffness that the model predicts", "@",
            dimension="stiffness", lower=math.nextafter(0.0, 1.0), widening=True,
        ),
    ),
    results=(
        ResultSpec("stiffness", "k", "measured stiffness, with its 95 % interval", "@predicted", solved=True),
        ResultSpec(
            "ratio", "k_rel", "ratio of measured to predicted stiffness, with its 95 % interval", solved=True
        ),
        ResultSpec("rows_used", "n", "number of rows used", whole=True),
        ResultSpec(
            "residual_standard_deviation", "s_r", "scatter of the load about the line", "@load", solved=True
        ),
    ),
    source=(
        "Least-squares line with Student t interval: JCGM 100:2008, annex H.3; "
        "certified values of NIST StRD, data set Norris"
    ),
    limits=(
        "at least 5 rows in the range, and the displacement varies",
        "the load follows a straight line over the range, with the same scatter throughout",
        "the displacement is known much better than the load; the interval speaks of the scatter alone, "
        "and of the uncertainty that the prediction states, not of the calibration of either gauge",
    ),
    work=work,
)  # fmt: skip
