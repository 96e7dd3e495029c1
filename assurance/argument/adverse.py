"""Which claims a piece of adverse evidence opens, whoever rests on it."""

from assurance.argument.claims import parts_of_claim
from assurance.model.argument_records import ClaimRecord
from assurance.model.engineering_records import PartRecord
from assurance.model.verdicts import Cause
from assurance.standing.facts import Facts


def laid_on_claims(facts: Facts) -> dict[str, list[Cause]]:
    """By claim: the faults of adverse evidence about its parts and its quantity, and on the top claims."""
    found: dict[str, list[Cause]] = {}
    if not facts.adverse:
        return found
    claims = {id_: entry.record for id_, entry in facts.case.entries.items()
              if isinstance(entry.record, ClaimRecord)}  # fmt: skip
    parts = {id_: parts_of_claim(facts, claim) for id_, claim in claims.items()}
    tops = set(facts.top_claims.values())
    for evidence, causes in facts.adverse.items():
        record = facts.record(evidence)
        tested = {one for part in record.parts for one in with_assemblies(facts, part.part)}
        for id_, claim in claims.items():
            same_part = not tested or not parts[id_] or not tested.isdisjoint(parts[id_])
            if id_ in tops or (same_part and _same_quantity(record.quantity, claim.quantity)):
                found.setdefault(id_, []).extend(causes)
    return found


def _same_quantity(tested: str | None, claimed: str | None) -> bool:
    """Whether two words are the same quantity; where either is not given they match."""
    return not tested or not claimed or tested == claimed


def with_assemblies(facts: Facts, part: str) -> tuple[str, ...]:
    """A part and every assembly it is a part of; a loop of assemblies ends where it began."""
    found: list[str] = []
    current: str | None = part
    while current and current not in found:
        found.append(current)
        record = facts.record(current)
        current = record.part_of if isinstance(record, PartRecord) else None
    return tuple(found)
