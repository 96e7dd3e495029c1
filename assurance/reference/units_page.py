"""The page of units: the closed list, by what they measure."""

from assurance.model.units import Unit, units
from assurance.reference.markdown import code, page, table

INTRODUCTION = """\
# Units

The list is closed: a unit that is not here is reported with the nearest one that is, and never guessed. \
Angles and counts have dimensions of their own, `degC` is a point on a scale and `K` an interval, and a \
torque is told from an energy by the input that takes it. A number without a unit is a plain number.

An exact value is a definition; `lb`, `lbf`, `psi` and what follows from them are those of the \
international yard and pound agreement of 1959."""


def units_page() -> str:
    """Every spelling of the list with what it is in SI, in Markdown."""
    by_dimension: dict[str, list[Unit]] = {}
    for spelling, unit in units().items():
        if spelling:
            by_dimension.setdefault(unit.dimension, []).append(unit)
    rows = (
        (dimension, code(unit.spelling), f"{unit.factor:.12g}", f"{unit.offset:.12g}" if unit.offset else "")
        for dimension in sorted(by_dimension)
        for unit in by_dimension[dimension]
    )
    return page(INTRODUCTION, table(("Measures", "Unit", "Times this is SI", "Plus"), rows))
