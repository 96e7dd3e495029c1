"""The worst row of one part, load case and criterion, with what it is judged by: before any result."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from assurance.calculations.bound import BoundNumber, Path
from assurance.calculations.factors import Factored


@dataclass(frozen=True, slots=True)
class Bar:
    """One criterion with its allowable in the unit of the applied values; `parts` narrows it.

    Of an allowable with an uncertainty the lower end is judged.
    """

    criterion: str
    stress: str
    allowable: BoundNumber
    path: Path
    parts: tuple[str, ...] = ()

    def speaks_of(self, part: str) -> bool:
        """Whether the criterion is asked of a part."""
        return not self.parts or part in self.parts


@dataclass(frozen=True, slots=True)
class Worst:
    """The worst row of one part, load case and criterion, as found.

    `stated` is the applied value without its uncertainty, where it has one: `applied` is the upper end.
    """

    part: str
    load_case: str
    applied: float
    row: int = 0
    row_name: str = ""
    below_one: int = 0
    components: Mapping[str, float] = field(default_factory=dict)
    stated: float | None = None


@dataclass(frozen=True, slots=True)
class Case:
    """A worst row with the criterion that it is judged by and the factors that apply."""

    bar: Bar
    worst: Worst
    factored: Factored
    file: str = ""
    applied_from: str = ""
