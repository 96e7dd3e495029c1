"""A sum told step by step, as data: expression trees, steps and sheets.

From one tree come the formula, the line with numbers put in, and the check that the printed
numbers lead to the printed result. Nothing here knows a method or a record.
"""

import math
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import Literal

from assurance.model import numbers

FEWEST_DIGITS = 4  # significant digits printed where they suffice
MOST_DIGITS = 15  # what a double carries
MOST_POWER = 709.0  # beyond it an exponential leaves the range of numbers
WIDEST = 0.005  # the printed inputs must pin the result to half a per cent
Interval = tuple[float, float]
StepKind = Literal["expression", "statistic", "look-up", "quantile", "line"]


@dataclass(frozen=True, slots=True)
class Term:
    """A node of an expression: a symbol, a number, or an operation on other terms."""

    op: Literal["symbol", "number", "add", "sub", "mul", "div", "pow", "call"]
    args: tuple["Term", ...] = ()
    name: str = ""  # of a symbol, or of the called function
    value: float = 0.0  # of a number

    def __add__(self, other: "Term | float") -> "Term":
        return Term("add", (self, term(other)))

    def __sub__(self, other: "Term | float") -> "Term":
        return Term("sub", (self, term(other)))

    def __mul__(self, other: "Term | float") -> "Term":
        return Term("mul", (self, term(other)))

    def __truediv__(self, other: "Term | float") -> "Term":
        return Term("div", (self, term(other)))

    def __pow__(self, other: "Term | float") -> "Term":
        return Term("pow", (self, term(other)))

    def symbols(self) -> tuple[str, ...]:
        """The symbols in it, each once, in order of appearance."""
        if self.op == "symbol":
            return (self.name,)
        return tuple(dict.fromkeys(name for arg in self.args for name in arg.symbols()))


def term(given: Term | float) -> Term:
    """A number as a term; a term stays as it is."""
    return given if isinstance(given, Term) else Term("number", value=float(given))


def symbol(name: str) -> Term:
    """A named value of the sum."""
    return Term("symbol", name=name)


FunctionName = Literal["sqrt", "ln", "exp", "abs", "max", "min", "cos", "arccos"]


def call(name: FunctionName, *args: Term | float) -> Term:
    """A named function of terms."""
    return Term("call", tuple(term(arg) for arg in args), name=name)


def product(*terms: Term | float) -> Term:
    """All terms multiplied; one term stays as it is."""
    return term(terms[0]) if len(terms) == 1 else Term("mul", tuple(term(one) for one in terms))


def _exp(power: float) -> float:
    return math.exp(power) if power < MOST_POWER else math.inf


_FUNCTIONS: dict[str, Callable[..., float]] = {
    "sqrt": math.sqrt, "ln": math.log, "exp": _exp, "abs": abs, "max": max, "min": min,
    "cos": math.cos, "arccos": math.acos,
}  # fmt: skip
_DOMAINS: dict[str, Interval] = {
    "sqrt": (0.0, math.inf), "ln": (0.0, math.inf), "arccos": (-1.0, 1.0),
}  # fmt: skip


def evaluate(tree: Term, values: Mapping[str, float]) -> float:
    """The number that a tree gives for these values."""
    if tree.op == "symbol":
        return values[tree.name]
    if tree.op == "number":
        return tree.value
    args = [evaluate(arg, values) for arg in tree.args]
    if tree.op == "call":
        return _FUNCTIONS[tree.name](*args)
    if tree.op == "add":
        return sum(args)
    if tree.op == "mul":
        return math.prod(args)
    one, other = args
    if tree.op == "sub":
        return one - other
    if tree.op == "div":
        return one / other
    return float(one**other)


def bound(tree: Term, values: Mapping[str, Interval]) -> Interval:
    """The interval that a tree gives when each symbol lies in its interval (interval arithmetic).

    It never leaves out a value that can occur; a symbol that stands twice makes it wider.
    """
    if tree.op == "symbol":
        return values[tree.name]
    if tree.op == "number":
        return (tree.value, tree.value)
    args = [bound(arg, values) for arg in tree.args]
    if tree.op == "call":
        return _bound_call(tree.name, args)
    result = args[0]
    for other in args[1:]:
        result = _bound_pair(tree.op, result, other)
    return result


def _bound_call(name: str, args: list[Interval]) -> Interval:
    """The interval of a function. A printed end outside its domain is moved to the edge of it."""
    if name == "abs":
        low, high = args[0]
        least = 0.0 if low <= 0 <= high else min(abs(low), abs(high))
        return (least, max(abs(low), abs(high)))
    if name == "cos":
        return _bound_cos(args[0])
    edge_low, edge_high = _DOMAINS.get(name, (-math.inf, math.inf))
    held = [tuple(min(max(end, edge_low), edge_high) for end in pair) for pair in args]
    function = _FUNCTIONS[name]
    if name == "ln" and held[0][0] == 0.0:
        return (-math.inf, math.inf if held[0][1] == 0.0 else math.log(held[0][1]))
    ends = (function(*(pair[0] for pair in held)), function(*(pair[1] for pair in held)))
    return (min(ends), max(ends))


def _bound_cos(angle: Interval) -> Interval:
    """Cosine falls from 0 to pi; any other angle is only known to lie between its extremes."""
    low, high = angle
    if high <= math.pi and low >= -math.pi:
        nearest = 0.0 if low <= 0 <= high else min(abs(low), abs(high))
        return (math.cos(max(abs(low), abs(high))), math.cos(nearest))
    return (-1.0, 1.0)


def _bound_pair(op: str, one: Interval, other: Interval) -> Interval:
    if op == "add":
        return (one[0] + other[0], one[1] + other[1])
    if op == "sub":
        return (one[0] - other[1], one[1] - other[0])
    if op == "mul":
        return _ends([x * y for x in one for y in other])
    if op == "div":
        return _bound_quotient(one, other)
    return _bound_power(one, other)


def _bound_quotient(one: Interval, other: Interval) -> Interval:
    if other[0] <= 0 <= other[1]:
        return (-math.inf, math.inf)
    return _ends([x / y for x in one for y in other])


def _bound_power(one: Interval, other: Interval) -> Interval:
    """A power. A base that spans zero is bounded for whole positive exponents only."""
    whole = other[0] == other[1] and other[0] > 0 and other[0] == int(other[0])
    if whole and one[0] < 0 <= one[1] and other[0] % 2 == 0:
        return (0.0, max(one[0] ** other[0], one[1] ** other[0]))
    if whole or one[0] > 0:
        return _ends([float(x**y) for x in one for y in other])
    return (-math.inf, math.inf)


def _ends(corners: list[float]) -> Interval:
    return (min(corners), max(corners))


@dataclass(frozen=True, slots=True)
class Given:
    """A number that enters a sum: its name in trees, its symbol on paper, value, unit, origin.

    `record` is where it comes from (`record.result`, `material.property`, a factor), if anywhere.
    `whole` says that it is a count, or a zero that is taken as such: it is printed without decimals.
    """

    name: str
    symbol: str
    value: float
    unit: str = ""
    what: str = ""
    record: str = ""
    half_width: float | None = None
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """A column of data that a statistic or a line is taken over.

    `left_out` says which rows of its file are not in it, where some are not.
    """

    name: str
    values: tuple[float, ...]
    unit: str = ""
    file: str = ""
    left_out: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a sum.

    An `expression` has a tree. The others say in `statement` what is taken and in `parameters`
    what from: a `statistic` over a column (`statistic`, `column`), a `look-up` (`row`), a
    `quantile` (`of`: noncentral t, with `n`, `content`, `confidence`, or Student t, with `n` and
    `significance`, as the outlier screen takes it), a least-squares `line`
    (`x`, `y` columns, `part`: slope, intercept, residual or half width). A result that is judged by
    a `limit` is never printed on the other side of it. A step that counts is `whole`.
    """

    kind: StepKind
    name: str
    symbol: str
    what: str
    value: float
    unit: str = ""
    tree: Term | None = None
    statement: str = ""
    parameters: Mapping[str, float | str] = field(default_factory=dict)
    source: str = ""
    limit: float | None = None
    whole: bool = False


Named = Mapping[str, Given | Step]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole sum on paper: what is given, the columns of data, the steps, and which is the result."""

    title: str
    givens: tuple[Given, ...] = ()
    columns: tuple[Column, ...] = ()
    steps: tuple[Step, ...] = ()

    def named(self) -> dict[str, Given | Step]:
        """Everything with a name that a tree may use."""
        named: dict[str, Given | Step] = {given.name: given for given in self.givens}
        return named | {step.name: step for step in self.steps}


@dataclass(frozen=True, slots=True)
class Printed:
    """The numbers of a step as printed: each symbol of the tree, and the result.

    `whole` names the symbols that are printed without decimals and stand for exactly that number.
    """

    inputs: Mapping[str, str]
    result: str
    digits: int
    whole: frozenset[str] = frozenset()

    def intervals(self) -> dict[str, Interval]:
        """What each printed symbol stands for."""
        return _intervals(self.inputs, self.whole)


def _intervals(inputs: Mapping[str, str], whole: Collection[str]) -> dict[str, Interval]:
    return {name: printed_interval(text, whole=name in whole) for name, text in inputs.items()}


def printed_interval(text: str, *, whole: bool = False) -> Interval:
    """The interval that a printed number stands for: half a unit in its last digit either way.

    A whole number stands for exactly itself.
    """
    plain = text.replace(numbers.MINUS, "-").replace(",", "")
    if whole:
        return (float(plain), float(plain))
    mantissa, _, power = plain.partition("e")
    places = len(mantissa.partition(".")[2])
    half = 0.5 * 10.0 ** (int(power or 0) - places)
    return (float(plain) - half, float(plain) + half)


def printed(value: float, digits: int) -> str:
    """A number as a sheet prints it: half a unit in its last digit always reaches the value.

    So no digit before the point is rounded away, and a zero says how well it is known.
    """
    if value == 0:
        return f"{0:.{digits - 1}f}"
    if 1 <= abs(value) < 1e6:
        digits = max(digits, math.floor(math.log10(abs(value))) + 1)
    return numbers.shown(value, digits)


def printed_whole(value: float) -> str:
    """A count as a sheet prints it: every digit, and no decimals. Raises `ValueError` where it has some."""
    if value != int(value):
        raise ValueError(f"a whole number has no decimals, not {value!r}")
    return f"{int(value):,d}".replace("-", numbers.MINUS)


def _printed(one: Given | Step, digits: int) -> str:
    return printed_whole(one.value) if one.whole else printed(one.value, digits)


def print_step(step: Step, named: Named) -> Printed:
    """The numbers of an expression step, with as many digits as the result needs.

    `named` holds what the tree may use, as `Sheet.named` gives it.

    Digits are added until the printed inputs pin the result to half a per cent, the printed result
    lies in what follows from them, and it lies on the same side of its limit as the result.
    """
    if step.tree is None:
        return Printed({}, _printed(step, FEWEST_DIGITS), FEWEST_DIGITS)
    used = {name: named[name] for name in step.tree.symbols()}
    whole = frozenset(name for name, one in used.items() if one.whole)
    for digits in range(FEWEST_DIGITS, MOST_DIGITS + 1):
        inputs = {name: _printed(one, digits) for name, one in used.items()}
        result = _printed(step, digits)
        follows = numbers_lead_to(step.tree, inputs, result, whole=whole) and _on_its_side(step, result)
        if follows or digits == MOST_DIGITS:
            return Printed(inputs, result, digits, whole)
    raise AssertionError("unreachable")


def _on_its_side(step: Step, result: str) -> bool:
    low, high = printed_interval(result)
    return step.limit is None or ((low + high) / 2 < step.limit) == (step.value < step.limit)


def numbers_lead_to(
    tree: Term, inputs: Mapping[str, str], result: str, *, whole: Collection[str] = ()
) -> bool:
    """Whether the printed result lies in what the printed inputs give, narrow enough."""
    low, high = bound(tree, _intervals(inputs, whole))
    claimed_low, claimed_high = printed_interval(result)
    claimed = (claimed_low + claimed_high) / 2
    tiny = 1e-12 * max([1.0, *(abs(printed_interval(text)[1]) for text in inputs.values())])
    narrow = high - low <= max(WIDEST * abs(claimed), 2 * tiny)
    return narrow and low - tiny <= claimed <= high + tiny


_PAIRS = ("sub", "div", "pow")
_MANY = ("max", "min")


def well_formed(sheet: Sheet) -> bool:
    """Whether every tree can be read: each operation has its terms, each symbol comes before its use.

    What is said to be whole has no decimals.
    """
    known = {given.name for given in sheet.givens}
    every: tuple[Given | Step, ...] = (*sheet.givens, *sheet.steps)
    if any(one.whole and one.value % 1 != 0 for one in every):
        return False
    for step in sheet.steps:
        if (step.kind == "expression") != (step.tree is not None):
            return False
        if step.tree is not None and not (_complete(step.tree) and set(step.tree.symbols()) <= known):
            return False
        known.add(step.name)
    return True


def _complete(tree: Term) -> bool:
    if tree.op in ("symbol", "number"):
        return not tree.args
    if tree.op in _PAIRS:
        right = len(tree.args) == 2
    elif tree.op == "call":
        right = tree.name in _FUNCTIONS and (len(tree.args) == 1 or tree.name in _MANY)
    else:
        right = True
    return right and bool(tree.args) and all(_complete(arg) for arg in tree.args)
