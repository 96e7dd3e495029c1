"""Method `allowables`: A- and B-basis values of a strength from raw coupon values, normal model."""

from collections.abc import Mapping
from typing import Any

from assurance.methods import allowables_sheet, normal_basis
from assurance.model.methods import InputSpec, Method, Outcome, Remark, ResultSpec, WhyNot

FEWEST_FOR_BASIS = 3  # common practice, no source: two values say nothing about their shape
FEWEST_WITHIN_LIMITS = 10  # common practice, no source
FEWEST_WITHOUT_CAUTION = 18  # CMH-17-1G, smallest population of a B18 value; from memory
FEWEST_BATCHES = 3  # CMH-17-1G, fewest batches of a B18 value; from memory
SIGNIFICANCE_LIMIT = 0.05  # CMH-17-1G 8.3.6, reject normality at or below
BASES = ("b_basis", "a_basis")
MEAN_NOT_POSITIVE = WhyNot(
    "the mean is not above zero, so its ratio to the spread is not defined",
    "Check the sign of the column: a strength is above zero.",
)
NO_SPREAD = WhyNot(
    "all values are equal, so the sample shows no spread",
    "Give each value as it was measured, with all its digits.",
)


def work(bound: Mapping[str, Any], units: Mapping[str, str]) -> Outcome:
    """Basis values of one sample, with its statistics, its fit and its outlier screen.

    The words under `batch`, where they are given, name the batch of each value; they are counted.
    """
    sample = tuple(float(value) for value in bound["values"])
    batch = None if bound.get("batch") is None else tuple(bound["batch"])
    if batch is not None and len(batch) != len(sample):
        return _unpaired(len(batch), len(sample))
    values, why_not = _results(sample)
    remarks = _remarks(sample, batch, values)
    sheet = allowables_sheet.sheet(sample, batch, values, unit=units.get("values", ""))
    return Outcome(values, why_not=why_not, remarks=remarks, sheet=sheet)


def _unpaired(words: int, count: int) -> Outcome:
    values: dict[str, float | None] = {spec.name: None for spec in METHOD.results}
    text = f"`batch` names {_counted(words, 'batch word')}, and `values` has {_counted(count, 'value')}"
    return Outcome(values, why_not=_why(values, WhyNot(text, "Give every value the word of its batch.")))


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def _results(sample: tuple[float, ...]) -> tuple[dict[str, float | None], dict[str, WhyNot]]:
    values: dict[str, float | None] = {spec.name: None for spec in METHOD.results}
    count = len(sample)
    values["count"] = float(count)
    if count == 0:
        return values, _why(values, _too_few(count, "there is no value"))
    middle = values["mean"] = normal_basis.mean(sample)
    if count < 2:
        return values, _why(values, _too_few(count, "one value has no spread"))
    spread = values["standard_deviation"] = normal_basis.standard_deviation(sample)
    if middle > 0:
        values["coefficient_of_variation"] = spread / middle
    values["k_b"] = normal_basis.tolerance_factor(count, content=0.90)
    values["k_a"] = normal_basis.tolerance_factor(count, content=0.99)
    if count < FEWEST_FOR_BASIS:
        text = f"{count} values are too few, at least {FEWEST_FOR_BASIS} are needed"
        return values, _why(values, _too_few(count, text))
    if min(sample) == max(sample):
        return values, _why(values, NO_SPREAD)
    values |= _basis_and_fit(sample, values)
    return values, _why(values, _why_no_fit(count))


def _basis_and_fit(sample: tuple[float, ...], values: Mapping[str, float | None]) -> dict[str, float | None]:
    mean, spread = values["mean"] or 0.0, values["standard_deviation"] or 0.0
    statistic = normal_basis.anderson_darling(sample)
    return {
        "b_basis": mean - (values["k_b"] or 0.0) * spread,
        "a_basis": mean - (values["k_a"] or 0.0) * spread,
        "anderson_darling": statistic,
        "significance": normal_basis.observed_significance(statistic, len(sample)),
        "outlier_residual": normal_basis.maximum_normed_residual(sample),
    }


def _too_few(count: int, text: str) -> WhyNot:
    more = FEWEST_WITHIN_LIMITS - count
    return WhyNot(
        text, f"Test at least {more} more: the method asks for at least {FEWEST_WITHIN_LIMITS} values."
    )


def _why_no_fit(count: int) -> WhyNot:
    if count == FEWEST_FOR_BASIS:
        return _too_few(count, "the small-sample correction of the fit statistic is not defined for 3 values")
    return MEAN_NOT_POSITIVE


def _why(values: Mapping[str, float | None], why: WhyNot) -> dict[str, WhyNot]:
    """The reason for every result that is missing; a mean at or below zero has a reason of its own."""
    missing = [name for name, value in values.items() if value is None]
    mean = values.get("mean")
    own = {"coefficient_of_variation": MEAN_NOT_POSITIVE} if mean is not None and mean <= 0 else {}
    return {name: own.get(name, why) for name in missing}


def _remarks(
    sample: tuple[float, ...], batch: tuple[str, ...] | None, values: Mapping[str, float | None]
) -> tuple[Remark, ...]:
    if values["b_basis"] is None:
        return ()
    found = (
        _on_count(len(sample)), _on_batches(batch), _on_fit(values["significance"]),
        _on_outlier(sample, values),
    )  # fmt: skip
    return tuple(remark for remark in found if remark is not None)


def _on_count(count: int) -> Remark | None:
    if count >= FEWEST_WITHOUT_CAUTION:
        return None
    outside = count < FEWEST_WITHIN_LIMITS
    enough = FEWEST_WITHIN_LIMITS if outside else FEWEST_WITHOUT_CAUTION
    text = f"The A- and B-basis rest on {count} values, fewer than {enough}."
    remedy = f"Test at least {enough - count} more."
    return Remark(f"at least {enough} values", text, remedy, outside, BASES)


def _on_batches(batch: tuple[str, ...] | None) -> Remark | None:
    limit = f"at least {FEWEST_BATCHES} batches"
    if batch is None:
        text = "Nothing says which batch each value comes from."
        return Remark(limit, text, "Name the column of the batches under `batch`.", False, BASES)
    count = len(set(batch))
    if count >= FEWEST_BATCHES:
        return None
    shown = "1 batch" if count == 1 else f"{count} batches"
    text = f"The A- and B-basis rest on {shown}, fewer than {FEWEST_BATCHES}."
    more = "1 more batch" if FEWEST_BATCHES - count == 1 else f"{FEWEST_BATCHES - count} more batches"
    return Remark(limit, text, f"Test coupons of at least {more}.", False, BASES)


def _on_fit(significance: float | None) -> Remark | None:
    if significance is None or significance > SIGNIFICANCE_LIMIT:
        return None
    text = (
        f"The values do not look normal: observed significance level {significance:.3g}, "
        f"at or below {SIGNIFICANCE_LIMIT}."
    )
    remedy = "Look for mixed batches or a wrong value, or use a method for another distribution."
    return Remark("the values look normal", text, remedy, True, BASES)


def _on_outlier(sample: tuple[float, ...], values: Mapping[str, float | None]) -> Remark | None:
    residual = values["outlier_residual"]
    critical = normal_basis.critical_normed_residual(len(sample))
    if residual is None or residual <= critical:
        return None
    mean = values["mean"] or 0.0
    far = max(sample, key=lambda value: abs(value - mean))
    text = (
        f"One value stands out: `{far:g}` lies {residual:.3f} standard deviations from the mean, "
        f"more than {critical:.3f}. It is kept until someone decides."
    )
    return Remark("no value stands out", text, "Find out why it differs, and record the decision.", False)


METHOD = Method(
    name="allowables",
    version=2,
    title="Basis values from coupons, normal model",
    inputs=(
        InputSpec("values", "x", "the measured strengths", unit="@", kind="column"),
        InputSpec(
            "batch", "b", "the batch that each value comes from",
            kind="column of words", required=False, beside="values",
        ),
    ),
    results=(
        ResultSpec("mean", "x_m", "mean", "@values"),
        ResultSpec("standard_deviation", "s", "standard deviation of the sample", "@values"),
        ResultSpec("coefficient_of_variation", "CV", "standard deviation over mean"),
        ResultSpec("count", "n", "number of values", whole=True),
        ResultSpec("k_b", "k_B", "one-sided tolerance factor, 90 % content, 95 % confidence", solved=True),
        ResultSpec("k_a", "k_A", "one-sided tolerance factor, 99 % content, 95 % confidence", solved=True),
        ResultSpec("b_basis", "B", "B-basis value", "@values", solved=True, basis="B"),
        ResultSpec("a_basis", "A", "A-basis value", "@values", solved=True, basis="A"),
        ResultSpec("anderson_darling", "AD", "Anderson-Darling statistic of the normal fit", solved=True),
        ResultSpec("significance", "OSL", "observed significance level of the fit", solved=True),
        ResultSpec("outlier_residual", "MNR", "maximum normed residual", solved=True),
    ),
    source=(
        "CMH-17-1G (2012), chapter 8: tables 8.5.10 and 8.5.11 (table numbers from memory) by the exact "
        "noncentral t distribution; section 8.3.6 for the fit; table 8.5.7 for the outlier screen"
    ),
    limits=(
        "at least 10 values; 10 to 17 with care; fewer than 3 give no basis value",
        "at least 3 batches, named under `batch`; fewer, or batches that nobody names, with care",
        "the values come from one population that looks normal (observed significance level above 0.05)",
        "batches are counted and taken together; differences between them are not looked for",
    ),
    work=work,
)  # fmt: skip
