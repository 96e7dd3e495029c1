"""The finished result of assessing a case. Pages, findings and files out are made from this alone."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import Literal

from assurance.model.entry import Entry, by_kind
from assurance.model.methods import Remark
from assurance.model.steps import Sheet
from assurance.model.verdicts import Finding, Missing, Reason, ReasonKind, Verdict


@dataclass(frozen=True, slots=True)
class ResultValue:
    """One result: computed by the builder, or read from a report and judged by somebody."""

    value: float | None
    unit: str
    lower: float | None = None
    upper: float | None = None
    tag: Literal["computed", "judged"] = "computed"
    by: str = ""
    why_not: str = ""
    undefined: bool = False  # no value although all went well, as where no row governs
    solved: bool = False
    basis: str = ""
    factors: tuple[str, ...] = ()  # the factors that are inside it
    whole: bool = False  # a count, printed without decimals


@dataclass(frozen=True, slots=True)
class Cell:
    """The worst row of one part, load case and criterion.

    `reserve_factor` is None where no row can cause that failure ("not governed"). It is `allowable`
    over `applied`, times the factors `already` inside, over those in `factors`. `applied` and
    `allowable` are the adverse ends where they come with an uncertainty.
    """

    part: str
    load_case: str
    criterion: str
    reserve_factor: float | None
    applied: float
    allowable: float
    unit: str
    already: tuple[str, ...] = ()  # factors already in the applied value, taken out of it
    factors: tuple[str, ...] = ()  # factors put on: those that are multiplied
    needed: float = 1.0
    file: str = ""
    row: int = 0  # line of the file, the heading being line 1; 0 where worked out by hand
    row_name: str = ""
    below_one: int = 0  # rows of this cell with a reserve factor below 1
    allowable_from: str = ""
    not_governing: tuple[str, ...] = ()  # special factors that apply and are not the highest
    left_in: tuple[str, ...] = ()  # factors already in the applied value that stay in it

    @property
    def margin(self) -> float | None:
        """Margin of safety: the reserve factor less one."""
        return None if self.reserve_factor is None else self.reserve_factor - 1.0


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a calculation, or some of its results, cannot be relied on.

    `path` is the field of the record at fault; `results` names those it speaks of, all where empty.
    """

    kind: ReasonKind
    path: tuple[str | int, ...]
    text: str
    remedy: str
    results: tuple[str, ...] = ()
    verdict: Verdict = Verdict.OPEN


@dataclass(frozen=True, slots=True)
class Worked:
    """A calculation as it was worked out."""

    id: str
    method: str
    version: int
    results: Mapping[str, ResultValue]
    sheet: Sheet | None = None
    cells: tuple[Cell, ...] = ()
    empty_cells: tuple[tuple[str, str, str], ...] = ()
    remarks: tuple[Remark, ...] = ()
    faults: tuple[Fault, ...] = ()
    parts: tuple[str, ...] = ()
    load_cases: tuple[str, ...] = ()
    files: tuple[str, ...] = ()
    key: str = ""


@dataclass(frozen=True, slots=True)
class CheckOutcome:
    """A check as it was made. `margin` is in the unit of the limit; None where it cannot be made."""

    argument: str
    index: int
    result: str
    value: ResultValue | None
    bound: Literal["at least", "at most"]
    limit: float | None
    limit_unit: str
    limit_record: str
    judged: float | None  # the end of the interval that was compared, in the unit of the limit
    margin: float | None
    verdict: Verdict
    because: str = ""


@dataclass(frozen=True, slots=True)
class ArgumentOutcome:
    """One argument of a claim."""

    name: str
    verdict: Verdict
    because: str
    stands: bool  # whether the claim stands on it (under `any` only the best does)


@dataclass(frozen=True, slots=True)
class Rated:
    """A risk: severity, likelihood and the level that the matrix gives."""

    severity: str
    likelihood: str
    level: str
    rank: int  # of the level: 0 is the best


@dataclass(frozen=True, slots=True)
class HazardOutcome:
    """The risk of a hazard before, now and after, and which controls count now."""

    before: Rated | None
    now: Rated | None
    after: Rated | None
    counted: tuple[str, ...]
    lifted: tuple[str, ...]
    why: str
    refused: tuple[str, ...] = ()  # what the stated ratings may not lower, in words


@dataclass(frozen=True, slots=True)
class CauseOutcome:
    """The ratings of one cause of a failure mode, before and now."""

    id: str
    text: str
    before: tuple[int, int, int] | None  # S, O, D
    now: tuple[int, int, int] | None
    counted: tuple[str, ...] = ()  # actions done and shown
    waiting: tuple[str, ...] = ()  # actions that do not count yet
    refused: tuple[str, ...] = ()

    @property
    def rpn_before(self) -> int | None:
        """S x O x D before any action."""
        return None if self.before is None else self.before[0] * self.before[1] * self.before[2]

    @property
    def rpn_now(self) -> int | None:
        """S x O x D with the actions that count."""
        return None if self.now is None else self.now[0] * self.now[1] * self.now[2]


@dataclass(frozen=True, slots=True)
class Scheme:
    """The risk scheme in force."""

    title: str
    source: str
    severities: tuple[str, ...]
    likelihoods: tuple[str, ...]
    levels: tuple[str, ...]
    matrix: Mapping[tuple[str, str], str]  # (severity, likelihood) to level
    own: bool = False  # whether the case brought it
    codes: Mapping[str, str] = field(default_factory=dict)  # 1 to Catastrophic, A to Frequent


@dataclass(frozen=True)
class Assessment:
    """Everything concluded about a case on one day."""

    case: str
    as_of: date | None
    entries: Mapping[str, Entry]
    top_claims: Mapping[str, str]
    verdicts: Mapping[str, Verdict]
    reasons: Mapping[str, tuple[Reason, ...]]
    depends: Mapping[str, tuple[str, ...]]  # what each record needs, in order of writing
    used_by: Mapping[str, tuple[str, ...]]  # who relies on each record
    reached: frozenset[str]  # what the top claims reach
    worked: Mapping[str, Worked]
    results: Mapping[str, ResultValue]
    checks: Mapping[str, tuple[CheckOutcome, ...]]
    arguments: Mapping[str, tuple[ArgumentOutcome, ...]]
    hazards: Mapping[str, HazardOutcome]
    failure_modes: Mapping[str, tuple[CauseOutcome, ...]]
    scheme: Scheme
    missing: tuple[Missing, ...]
    input_findings: tuple[Finding, ...] = ()
    findings: tuple[Finding, ...] = ()

    @cached_property
    def _by_kind(self) -> dict[str, dict[str, Entry]]:
        return by_kind(self.entries)

    def of_kind(self, kind: str) -> Mapping[str, Entry]:
        """The records of one kind, by id in order."""
        return self._by_kind.get(kind, {})
