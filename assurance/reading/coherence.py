"""Checks inside and across records that a single reference cannot see."""

from collections.abc import Iterator, Mapping

from assurance.model.argument_records import Action, Case, ClaimRecord, Over
from assurance.model.engineering_records import Calculation, EvidenceRecord
from assurance.model.fields import Record
from assurance.model.kinds import Entry
from assurance.model.risk_records import FailureMode, Hazard
from assurance.model.units import unit
from assurance.reading.faults import did_you_mean, of_kind, shown_value
from assurance.reading.plans import Path
from assurance.reading.references import Known, Misnamed

SETS = ("load_cases", "hazards", "parts")


def incoherent(record: Record, known: Known, case: Case | None) -> Iterator[Misnamed]:
    """What a record says that does not fit the rest of it, or the case."""
    if isinstance(record, ClaimRecord):
        yield from _claim(record, known)
    if isinstance(record, (ClaimRecord, EvidenceRecord)) and case is not None:
        yield from _quantity(record.quantity, case)
    if isinstance(record, Hazard):
        yield from _controls(record)
    if isinstance(record, Action):
        yield from _cause(record, known.entries)
    if isinstance(record, Calculation):
        yield from _units(record)


def _claim(claim: ClaimRecord, known: Known) -> Iterator[Misnamed]:
    if claim.argument is not None:
        yield from _members(claim.argument.over, known, ("argument", "over"))
        if "argument" in claim.arguments:
            message = "`argument` is also the name of the argument that stands by itself."
            yield Misnamed("key-twice", ("arguments", "argument"), message, "Give it another name.")
    for name, argument in claim.arguments.items():
        yield from _members(argument.over, known, ("arguments", name, "over"))


def _members(over: Over | None, known: Known, path: Path) -> Iterator[Misnamed]:
    for index, member in enumerate((over.members or ()) if over else ()):
        entry = known.entries.get(member)
        if over is None or entry is None or entry.record is None or entry.kind == over.kind:
            continue
        if entry.kind not in SETS:
            continue  # reported as a reference of another kind already
        message = f"{shown_value(member)} is {of_kind(entry.kind)}, but the set is of `{over.kind}`."
        remedy = known.nearest(member, (over.kind,), otherwise=f"Name a record under `{over.kind}`.")
        yield Misnamed("reference-of-another-kind", (*path, "members", index), message, remedy)


def _quantity(word: str | None, case: Case) -> Iterator[Misnamed]:
    if word is None or word in case.quantities:
        return
    message = f"{shown_value(word)} is not among the `quantities` of the case."
    remedy = did_you_mean(word, case.quantities, otherwise="Add it to `quantities` of the case.")
    yield Misnamed("quantity-unknown", ("quantity",), message, remedy)


def _controls(hazard: Hazard) -> Iterator[Misnamed]:
    names = tuple(sorted(hazard.controls))
    stated: list[tuple[Path, tuple[str, ...]]] = [
        (("risk_with", index, "controls"), each.controls) for index, each in enumerate(hazard.risk_with)
    ]
    if hazard.after is not None:
        stated.insert(0, (("after", "controls"), hazard.after.controls))
    for path, controls in stated:
        for index, control in enumerate(controls):
            if control not in hazard.controls:
                message = f"{shown_value(control)} is no control of this hazard."
                otherwise = "Name one that stands under `controls` of this hazard."
                remedy = did_you_mean(control, names, otherwise=otherwise)
                yield Misnamed("reference-unknown", (*path, index), message, remedy)


def _cause(action: Action, entries: Mapping[str, Entry]) -> Iterator[Misnamed]:
    entry = entries.get(action.on)
    mode = entry.record if entry else None
    if action.then is None or not isinstance(mode, FailureMode) or len(mode.causes) < 2:
        return
    message = f"`then` changes ratings, but {shown_value(action.on)} has {len(mode.causes)} causes."
    first = min(mode.causes)
    yield Misnamed("cause-not-named", ("on",), message, f"Name one of them, such as `{action.on}.{first}`.")


def _units(calculation: Calculation) -> Iterator[Misnamed]:
    written: list[tuple[Path, str | None]] = [
        (("inputs", name, "unit"), given.unit) for name, given in calculation.inputs.items()
    ]
    if calculation.table is not None:
        written.append((("table", "unit"), calculation.table.unit))
    for path, spelling in written:
        try:
            unit(spelling or "")
        except ValueError as fault:
            message, _, hint = str(fault).partition("; ")
            remedy = hint[:1].upper() + hint[1:] if hint else "Write a unit of the list, such as `MPa`."
            yield Misnamed("value-wrong", path, f"{message}.", remedy)
