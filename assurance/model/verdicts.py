"""What the builder concludes: verdicts, the reasons behind them, findings and their places."""

import enum
from dataclasses import dataclass
from datetime import date


class Verdict(enum.IntEnum):
    """What is concluded about a record; the larger, the worse."""

    HOLDS = 0
    PROVISIONAL = 1
    OUT_OF_DATE = 2
    OPEN = 3
    FAILS = 4

    @property
    def word(self) -> str:
        """The verdict as it is written everywhere."""
        return self.name.lower().replace("_", " ")


class Weight(enum.StrEnum):
    """What a finding does to `check`."""

    BLOCKING = "blocking"
    CAUTION = "caution"
    NOTE = "note"


class ReasonKind(enum.StrEnum):
    """Why a verdict is not `holds`. A closed list: each but `needs` is a rule of the same name."""

    NEEDS = "needs"
    CHECK_FAILS = "check-fails"
    CHECK_CANNOT_BE_MADE = "check-cannot-be-made"
    LIMIT_WITHOUT_REASON = "limit-without-reason"
    FACTOR_COUNTED_TWICE = "factor-counted-twice"
    UNDEVELOPED = "undeveloped"
    NOTHING_SUPPORTS_IT = "nothing-supports-it"
    ALTERNATIVE_FAILS = "alternative-fails"
    MEMBER_NOT_ARGUED = "member-not-argued"
    EVIDENCE_DRAFT = "evidence-draft"
    EVIDENCE_SUPERSEDED = "evidence-superseded"
    EVIDENCE_WITHDRAWN = "evidence-withdrawn"
    EVIDENCE_ADVERSE = "evidence-adverse"
    EVIDENCE_INCONCLUSIVE = "evidence-inconclusive"
    EVIDENCE_INCOMPLETE = "evidence-incomplete"
    EVIDENCE_DATED_AFTER_THE_CASE = "evidence-dated-after-the-case"
    FILE_MISSING = "file-missing"
    FILE_CHANGED = "file-changed"
    FILE_WITHOUT_DIGEST = "file-without-digest"
    RESULT_NOT_WORKED_OUT = "result-not-worked-out"
    OUTSIDE_METHOD_LIMITS = "outside-method-limits"
    BASIS_TOO_WEAK = "basis-too-weak"
    ASSUMPTION_UNCONFIRMED = "assumption-unconfirmed"
    ASSUMPTION_REFUTED = "assumption-refuted"
    ASSUMPTION_REVIEW_PASSED = "assumption-review-passed"
    CHALLENGE_RAISED = "challenge-raised"
    CHALLENGE_UPHELD = "challenge-upheld"
    HAZARD_WITHOUT_CONTROL = "hazard-without-control"
    CONTROL_NOT_SHOWN = "control-not-shown"
    RISK_NOT_RATED = "risk-not-rated"
    ACTION_NEEDED = "action-needed"
    OWNER_MISSING = "owner-missing"
    RETIRED_BUT_NEEDED = "retired-but-needed"
    LOOP = "loop"
    DATE_MISSING = "date-missing"
    INPUT_BROKEN = "input-broken"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in a file of the case: path from the case folder, line and column from 1."""

    file: str = ""
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.column else f"{self.file}:{self.line}"


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a rule, or the reading, reports."""

    rule: str
    weight: Weight
    record: str
    place: Place
    message: str
    remedy: str


@dataclass(frozen=True, slots=True)
class Cause:
    """A reason that starts at a record itself.

    `key` names the fault: where one fault is laid on several records (adverse evidence, broken
    input) each copy carries the same key, so that it counts as one thing to put right. `record` is
    where the fault lies, which for a copy is not the record it is laid on; `path` is the field
    inside that record.
    """

    key: str
    kind: ReasonKind
    verdict: Verdict
    record: str
    text: str
    remedy: str
    path: tuple[str | int, ...] = ()
    place: Place | None = None  # where it is known without a record, as for a broken file
    owner: str = ""
    due: date | None = None


@dataclass(frozen=True, slots=True)
class Reason:
    """A cause, or the need of a record that does not hold, with its place looked up."""

    record: str
    kind: ReasonKind
    verdict: Verdict
    text: str
    place: Place
    remedy: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class Missing:
    """One cause above which the top claim does not hold, with what putting it right would free."""

    record: str
    claim: str
    kind: ReasonKind
    text: str
    remedy: str
    owner: str
    due: date | None
    verdict: Verdict
    frees: int
    place: Place
