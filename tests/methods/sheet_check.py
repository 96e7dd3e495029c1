"""Whether the printed numbers of a sheet lead to its printed results: for any test that has a sheet."""

import itertools
import math
import statistics

import pytest

from assurance.model.steps import (
    FEWEST_DIGITS,
    WIDEST,
    bound,
    evaluate,
    numbers_lead_to,
    print_step,
    printed_interval,
    well_formed,
)


def check_sheet(sheet):
    """Every step follows, by its printed numbers, from what is given and the steps before it."""
    columns = {column.name: column.values for column in sheet.columns}
    named = {given.name: given for given in sheet.givens}
    for step in sheet.steps:
        if step.kind == "expression":
            check_expression(step, named)
        else:
            check_drawn_from_data(step, columns)
        named[step.name] = step
    assert well_formed(sheet)


def check_expression(step, named):
    unknown = [name for name in step.tree.symbols() if name not in named]
    assert not unknown, f"{step.name} uses {unknown}, which come from nowhere"
    values = {name: one.value for name, one in named.items()}
    assert evaluate(step.tree, values) == pytest.approx(step.value, rel=1e-7, abs=1e-12)
    printed = print_step(step, named)
    for name, (low, high) in printed.intervals().items():
        slack = math.ulp(high)  # the ends are doubles themselves
        assert low - slack <= values[name] <= high + slack, (
            f"{name} is printed as {printed.inputs[name]}, which does not reach {values[name]}"
        )
    whole = {name for name, one in named.items() if one.whole}
    assert numbers_lead_to(step.tree, printed.inputs, printed.result, whole=whole), f"{step.name}: {printed}"
    low, high = bound(step.tree, printed.intervals())
    tiny = 1e-11 * max([1.0, *(abs(values[name]) for name in printed.inputs)])
    largest = max(abs(end) for end in printed_interval(printed.result, whole=step.whole))
    assert high - low <= max(WIDEST * largest, tiny), f"{step.name}: {printed}"
    assert low - tiny <= step.value <= high + tiny


def check_drawn_from_data(step, columns):
    again = {"statistic": statistic, "quantile": quantile, "line": line}[step.kind](step, columns)
    low, high = printed_interval(print_step(step, {}).result, whole=step.whole)
    assert low <= again <= high, f"{step.name}: {step.value} printed, {again} worked out again"
    assert step.statement
    assert print_step(step, {}).digits >= FEWEST_DIGITS


def statistic(step, columns):
    data = columns[step.parameters["column"]]
    return {
        "count": len,
        "different": lambda x: len(set(x)),
        "mean": statistics.fmean,
        "standard_deviation": statistics.stdev,
        "anderson_darling": slow_anderson_darling,
        "outlier_residual": lambda x: max(abs(statistics.fmean(x) - v) for v in x) / statistics.stdev(x),
    }[step.parameters["statistic"]](data)


def slow_anderson_darling(data):
    """n times the integral of (F_n - F)^2 / (F (1 - F)) dF, by its parts between the ordered values."""
    normal = statistics.NormalDist(statistics.fmean(data), statistics.stdev(data))
    ends = [0.0, *sorted(normal.cdf(value) for value in data), 1.0]
    n, total = len(data), 0.0
    for rank, (low, high) in enumerate(itertools.pairwise(ends)):
        share = rank / n
        # the antiderivative of (share - u)^2 / (u (1 - u))
        below = share**2 * (math.log(high) - math.log(low)) if rank else 0.0
        above = (1 - share) ** 2 * (math.log1p(-low) - math.log1p(-high)) if rank < n else 0.0
        total += below + above - (high - low)
    return n * total


def quantile(step, _columns):
    from scipy import stats

    n = step.parameters["n"]
    if step.parameters["of"] == "Student t":
        t = stats.t.ppf(1 - step.parameters["significance"] / (2 * n), n - 2)
        return (n - 1) * t / math.sqrt(n * (n - 2 + t * t))
    content = step.parameters["content"]
    shift = statistics.NormalDist().inv_cdf(content) * math.sqrt(n)
    return stats.nct.ppf(step.parameters["confidence"], n - 1, shift) / math.sqrt(n)


def line(step, columns):
    from scipy import stats

    x, y = columns[step.parameters["x"]], columns[step.parameters["y"]]
    fitted = stats.linregress(x, y)
    if step.parameters["part"] == "slope":
        return fitted.slope
    if step.parameters["part"] == "half width":
        return stats.t.ppf(0.975, len(x) - 2) * fitted.stderr
    left = [b - fitted.intercept - fitted.slope * a for a, b in zip(x, y, strict=True)]
    return math.sqrt(sum(one**2 for one in left) / (len(x) - 2))
