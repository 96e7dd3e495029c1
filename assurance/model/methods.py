"""What a method declares about itself: inputs, results, limits, source, kernel and steps."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from assurance.model.steps import Sheet


@dataclass(frozen=True, slots=True)
class InputSpec:
    """One input of a method.

    A number or column is handed to the kernel in `unit`; where `unit` is `@name` it is handed over
    in the unit of the input of that name, and `@` alone means in whatever unit it came, of the
    stated `dimension` where there is one.
    Bounds are in that unit; outside them the calculation cannot be worked out.
    A column that stands `beside` another is of the same rows of the same file. The half-width of a
    number that is `widening` goes to the kernel too, under its name and `_half_width`.
    """

    name: str
    symbol: str
    what: str
    unit: str = ""
    dimension: str = ""
    kind: Literal["number", "column", "column of words", "word"] = "number"
    lower: float | None = None
    upper: float | None = None
    default: float | str | None = None
    words: tuple[str, ...] = ()
    required: bool = True
    beside: str = ""
    widening: bool = False


@dataclass(frozen=True, slots=True)
class ResultSpec:
    """One result of a method. `unit` may be `@name`: the unit of that input. A count is `whole`."""

    name: str
    symbol: str
    what: str
    unit: str = ""
    solved: bool = False
    basis: Literal["", "A", "B"] = ""
    whole: bool = False

    @property
    def short(self) -> str:
        """What it is, up to where it is explained."""
        return self.what.partition(",")[0].partition(":")[0].strip()


@dataclass(frozen=True, slots=True)
class Remark:
    """Something a method says about its own result.

    `outside`: the result lies outside the limits of the method. `caution`: it stands, with care.
    `results` names the results it speaks of, all of them where it names none.
    """

    limit: str
    text: str
    remedy: str
    outside: bool
    results: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WhyNot:
    """Why a method gives no number: a clause without a full stop, and what would put it right."""

    text: str
    remedy: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a kernel and its steps give.

    `values` holds a number for each result, or None where it cannot be worked out, with the
    reason in `why_not`. `intervals` holds the ends of those results that come with an interval.
    """

    values: Mapping[str, float | None]
    intervals: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    why_not: Mapping[str, WhyNot] = field(default_factory=dict)
    remarks: tuple[Remark, ...] = ()
    sheet: Sheet | None = None


@dataclass(frozen=True, slots=True)
class Method:
    """A published method as this tool offers it.

    `work(bound)` takes plain numbers, words and arrays by input name, and `units` by input name,
    and gives the outcome with its sheet. It knows nothing of records.
    """

    name: str
    version: int
    title: str
    inputs: tuple[InputSpec, ...]
    results: tuple[ResultSpec, ...]
    source: str
    limits: tuple[str, ...]
    work: Callable[[Mapping[str, Any], Mapping[str, str]], Outcome]
    published_example: bool = True

    def input(self, name: str) -> InputSpec | None:
        """The input of that name."""
        return next((spec for spec in self.inputs if spec.name == name), None)
