"""What the inputs of a calculation are once every reference is followed, and why one cannot be."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from assurance.model import units
from assurance.model.assessment import Fault
from assurance.model.names import nearest_name
from assurance.model.quantity import Quantity
from assurance.model.verdicts import ReasonKind

Path = tuple[str | int, ...]
LARGEST = 1e60  # of any number taken in: its cube, and what is divided by it, stay numbers
SMALLEST = 1e-60  # of any number but zero


@dataclass(frozen=True, slots=True)
class BoundNumber:
    """A number with its unit, the record it comes from, its basis and the factors inside it.

    `judged` is true where a person stated it: typed, or read from a report. `written` is the number
    before it was turned into the unit that is asked for, where it came in another one. `lower` and
    `upper` are the ends of its interval, where it has one.
    """

    value: float
    unit: str = ""
    lower: float | None = None
    upper: float | None = None
    record: str = ""
    basis: str = ""
    factors: tuple[str, ...] = ()
    judged: bool = True
    written: Quantity | None = None

    def in_unit(self, unit: str) -> "BoundNumber":
        """The same number in another unit of its dimension, with what it was before."""
        if unit == self.unit:
            return self
        value, lower, upper = (
            None if one is None else units.convert(one, given=self.unit, wanted=unit)
            for one in (self.value, self.lower, self.upper)
        )
        assert value is not None
        written = Quantity(self.value, self.unit)
        return replace(self, value=value, lower=lower, upper=upper, unit=unit, written=written)

    @property
    def least(self) -> float:
        """The lower end of its interval; the number itself where it has none."""
        return self.value if self.lower is None else self.lower

    @property
    def most(self) -> float:
        """The upper end of its interval; the number itself where it has none."""
        return self.value if self.upper is None else self.upper

    @property
    def half_width(self) -> float | None:
        """How far the farther end of its interval lies off; None where it has no interval."""
        reach = max(self.value - self.least, self.most - self.value)
        return None if self.lower is None and self.upper is None else reach


@dataclass(frozen=True, slots=True)
class BoundColumn:
    """A column of a data file, not read yet: which file with which digest, which rows, which units.

    `of_words` is true where its cells are words and not numbers.
    """

    absolute: str
    file: str
    sha256: str
    column: str
    where: tuple[tuple[str, str], ...]
    written_unit: str
    unit: str
    of_words: bool = False


@dataclass(frozen=True, slots=True)
class Found:
    """A number that a reference leads to, or why there is none.

    `why_not` without a fault: what it names has no value, which is that record's own fault.
    """

    number: BoundNumber | None = None
    faults: tuple[Fault, ...] = ()
    why_not: str = ""


@dataclass(frozen=True, slots=True)
class Inputs:
    """Everything a method is given."""

    numbers: Mapping[str, BoundNumber] = field(default_factory=dict)
    columns: Mapping[str, BoundColumn] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    faults: tuple[Fault, ...] = ()
    why_not: str = ""

    def unit_of(self, name: str) -> str:
        """The unit of an input, the plain number where it has none."""
        one = self.numbers.get(name) or self.columns.get(name)
        return one.unit if one else ""


def within_reach(value: float) -> bool:
    """Whether a number is zero, or neither too large nor too small to be worked with."""
    return value == 0 or SMALLEST <= abs(value) <= LARGEST


def fault(path: Path, text: str, remedy: str, *, results: tuple[str, ...] = ()) -> Fault:
    """Why some results cannot be worked out."""
    return Fault(ReasonKind.RESULT_NOT_WORKED_OUT, path, sentence(text), sentence(remedy), results)


def too_weak(path: Path, text: str, remedy: str) -> Fault:
    """Why an allowable does not have the basis that its use needs."""
    return Fault(ReasonKind.BASIS_TOO_WEAK, path, sentence(text), sentence(remedy))


def sentence(text: str) -> str:
    """A clause as a sentence: a capital in front, and an end."""
    whole = text[:1].upper() + text[1:]
    return whole if whole.endswith((".", "?")) else whole + "."


def lacking(path: Path, text: str, remedy: str) -> Found:
    """No number, for one fault."""
    return Found(faults=(fault(path, text, remedy),), why_not=text)


def listed(names: Iterable[str]) -> str:
    """Names in a row: `one`, `other` and `last`."""
    *first, last = (f"`{name}`" for name in names)
    return f"{', '.join(first)} and {last}" if first else last


def nearest(word: str, names: Iterable[str]) -> str:
    """`; did you mean ...` for the nearest real name, or nothing."""
    near = nearest_name(word, names)
    return f"; did you mean `{near}`?" if near else ""
