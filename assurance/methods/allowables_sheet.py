"""The sum behind a basis value, told step by step."""

from collections.abc import Mapping, Sequence

from assurance.methods import normal_basis
from assurance.model.steps import Column, Sheet, Step, call, symbol, term

TABLE_B = "CMH-17-1G (2012), table 8.5.10 (number from memory)"
TABLE_A = "CMH-17-1G (2012), table 8.5.11 (number from memory)"


def sheet(
    sample: Sequence[float], batch: Sequence[str] | None, values: Mapping[str, float | None], *, unit: str
) -> Sheet:
    """The steps for each result that could be worked out, and the count of batches where they are named."""
    columns = [Column("values", tuple(sample), unit)]
    steps = _statistics(values, unit)
    if batch:
        columns.append(Column("batch", _numbered(batch)))
        steps.append(_batches(batch))
    steps += [*_factors(values), *_bases(values, unit), *_fit(sample, values)]
    return Sheet("Basis values, normal model", columns=tuple(columns), steps=tuple(steps))


def _numbered(batch: Sequence[str]) -> tuple[float, ...]:
    """Each batch by a number, from 1 in order of appearance: a sheet holds columns of numbers only."""
    order = {word: float(at) for at, word in enumerate(dict.fromkeys(batch), start=1)}
    return tuple(order[word] for word in batch)


def _batches(batch: Sequence[str]) -> Step:
    statement = "number of different words in the column `batch`; here they are numbered as they first appear"
    parameters = {"statistic": "different", "column": "batch"}
    count = float(len(set(batch)))
    return Step("statistic", "batches", "b", "number of batches", count,
                statement=statement, parameters=parameters, whole=True)  # fmt: skip


def _statistics(values: Mapping[str, float | None], unit: str) -> list[Step]:
    steps = [
        _statistic("count", "n", "number of values", values["count"], whole=True),
        _statistic("mean", "x_m", "mean", values["mean"], unit=unit),
        _statistic("standard_deviation", "s", "standard deviation", values["standard_deviation"], unit=unit),
    ]
    ratio = values["coefficient_of_variation"]
    if ratio is not None:
        tree = symbol("standard_deviation") / symbol("mean")
        what = "coefficient of variation"
        steps.append(Step("expression", "coefficient_of_variation", "CV", what, ratio, tree=tree))
    return [step for step in steps if step is not None]


def _statistic(
    name: str, mark: str, what: str, value: float | None, *, unit: str = "", whole: bool = False
) -> Step | None:
    if value is None:
        return None
    statement = f"{what} of the column `values`"
    parameters = {"statistic": name, "column": "values"}
    return Step("statistic", name, mark, what, value, unit, statement=statement, parameters=parameters,
                whole=whole)  # fmt: skip


def _factors(values: Mapping[str, float | None]) -> list[Step]:
    rows = (("k_b", "k_B", 0.90, TABLE_B), ("k_a", "k_A", 0.99, TABLE_A))
    return [
        _factor(name, mark, content, value, count=values["count"] or 0.0, source=source)
        for name, mark, content, source in rows
        if (value := values[name]) is not None
    ]


def _factor(name: str, mark: str, content: float, value: float, *, count: float, source: str) -> Step:
    statement = (
        f"quantile {normal_basis.CONFIDENCE:g} of the noncentral t distribution with n - 1 = {count - 1:g} "
        f"degrees of freedom and shift z sqrt(n), z the normal quantile of {content:g}, over sqrt(n)"
    )
    parameters: dict[str, float | str] = {
        "of": "noncentral t", "n": count, "content": content, "confidence": normal_basis.CONFIDENCE,
    }  # fmt: skip
    what = f"tolerance factor, {content:.0%} content, {normal_basis.CONFIDENCE:.0%} confidence"
    what = what.replace("%", " %")
    return Step(
        "quantile", name, mark, what, value, statement=statement, parameters=parameters, source=source
    )


def _bases(values: Mapping[str, float | None], unit: str) -> list[Step]:
    steps = []
    for name, mark, factor in (("b_basis", "B", "k_b"), ("a_basis", "A", "k_a")):
        value = values[name]
        if value is not None:
            tree = symbol("mean") - symbol(factor) * symbol("standard_deviation")
            steps.append(Step("expression", name, mark, f"{mark}-basis value", value, unit, tree=tree))
    return steps


def _fit(sample: Sequence[float], values: Mapping[str, float | None]) -> list[Step]:
    statistic = values["anderson_darling"]
    if statistic is None:
        return []
    steps = [
        _statistic("anderson_darling", "AD", "Anderson-Darling statistic", statistic),
        *_significance(statistic, values["significance"], len(sample)),
        _statistic("outlier_residual", "MNR", "maximum normed residual", values["outlier_residual"]),
        _critical_residual(len(sample)),
    ]
    return [step for step in steps if step is not None]


def _critical_residual(count: int) -> Step:
    statement = (
        f"(n - 1)/sqrt(n) sqrt(t^2/(n - 2 + t^2)), t the quantile 1 - {normal_basis.OUTLIER_RISK:g}/(2 n) "
        "of Student's t with n - 2 degrees of freedom; a larger residual stands out"
    )
    parameters: dict[str, float | str] = {
        "of": "Student t", "n": float(count), "significance": normal_basis.OUTLIER_RISK,
    }  # fmt: skip
    value = normal_basis.critical_normed_residual(count)
    return Step(
        "quantile", "critical_residual", "C", "critical normed residual", value,
        statement=statement, parameters=parameters, source="CMH-17-1G (2012), table 8.5.7",
    )  # fmt: skip


def _significance(statistic: float, significance: float | None, count: int) -> list[Step]:
    if significance is None:
        return []
    n, corrected = symbol("count"), symbol("corrected_statistic")
    correction = (term(1.0) + term(4.0) / n - term(25.0) / n**2) * symbol("anderson_darling")
    power = term(-0.48) + term(0.78) * call("ln", corrected) + term(4.58) * corrected
    value = normal_basis.corrected_statistic(statistic, count)
    return [
        Step("expression", "corrected_statistic", "AD_star", "corrected statistic", value, tree=correction),
        Step(
            "expression", "significance", "OSL", "observed significance level", significance,
            tree=term(1.0) / (term(1.0) + call("exp", power)),
            source="CMH-17-1G (2012), section 8.3.6 (section from memory)",
        ),
    ]  # fmt: skip
