"""What the oracle is told about a case, as plain mappings, and the words and tables it knows."""

from dataclasses import dataclass, field
from typing import Any

WORDS = ("holds", "provisional", "out of date", "open", "fails")
HOLDS, PROVISIONAL, OUT_OF_DATE, OPEN, FAILS = range(5)
Plain = dict[str, Any]

# Every unit the random cases use: what it measures and how many SI units it is.
UNITS = {"": ("plain number", 1.0), "%": ("plain number", 0.01), "MPa": ("stress", 1e6),
         "kPa": ("stress", 1e3), "mm": ("length", 1e-3), "um": ("length", 1e-6)}  # fmt: skip
# MIL-STD-882E table III, worst severity and most likely first.
SEVERITIES = ("Catastrophic", "Critical", "Marginal", "Negligible")
LIKELIHOODS = ("Frequent", "Probable", "Occasional", "Remote", "Improbable", "Eliminated")
LEVELS = {
    "Frequent": ("High", "High", "Serious", "Medium"),
    "Probable": ("High", "High", "Serious", "Medium"),
    "Occasional": ("High", "Serious", "Medium", "Low"),
    "Remote": ("Serious", "Medium", "Medium", "Low"),
    "Improbable": ("Medium", "Medium", "Medium", "Low"),
    "Eliminated": ("Eliminated",) * 4,
}
RETIRABLE = ("claims", "hazards", "assumptions", "failure_modes")
OWNED = ("claims", "hazards", "assumptions", "actions", "challenges")


@dataclass
class Facts:
    """A case in spelt-out form, with what the calculations gave and what lies on disk."""

    records: dict[str, dict[str, Plain]]  # kind to id to record; a record not read whole is {}
    results: dict[str, tuple[float, str, float, float] | None] = field(default_factory=dict)
    inside: dict[str, set[str]] = field(default_factory=dict)  # factors in a result
    worked_for: dict[str, set[str]] = field(default_factory=dict)  # parts and load cases
    calculated: dict[str, int] = field(default_factory=dict)  # own verdict of a calculation
    uses: dict[str, list[str]] = field(default_factory=dict)  # what it is worked out from
    missing: set[tuple[str, str]] = field(default_factory=set)  # evidence and file
    changed: set[tuple[str, str]] = field(default_factory=set)
    broken: set[str] = field(default_factory=set)
    unreadable: bool = False  # a file of which nothing is known


def whole(id_: str) -> str:
    """The record that `record` or `record.part` names."""
    return id_.split(".")[0]


def each_argument(claim: Plain) -> dict[str, Plain]:
    """Every argument of a claim by name."""
    single = {"argument": claim["argument"]} if claim.get("argument") else {}
    return {**single, **(claim.get("arguments") or {})}


def retired(record: Plain, day: str) -> bool:
    """Whether a record is kept for later, with reason, person and a date that has come."""
    said = record.get("retired") or {}
    whole = said.get("because") and said.get("by") and said.get("date")
    return bool(whole and (not day or said["date"] <= day))


def adverse(record: Plain) -> bool:
    """Whether evidence speaks against the item, or says nothing about how it went."""
    silent = record.get("kind") in ("test", "inspection", "review") and not record.get("outcome")
    return silent or record.get("outcome") in ("failed", "stopped early") or bool(record.get("anomalies"))


def read(quantity: float | str) -> tuple[float, str]:
    """Value and unit of a limit."""
    value, _, unit = str(quantity).partition(" ")
    return float(value), unit
