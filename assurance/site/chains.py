"""From a record down to each cause of its verdict: by way of which records, and by which other ways."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from assurance.model.verdicts import Reason, ReasonKind

Reasons = Mapping[str, tuple[Reason, ...]]


@dataclass(frozen=True, slots=True)
class Traced:
    """A cause with the shortest way to it.

    `chain` holds the records between the one judged and the one where the fault lies, neither of
    which is in it; `others` are records by way of which it comes too.
    """

    reason: Reason
    chain: tuple[str, ...]
    others: tuple[str, ...] = ()


@dataclass(slots=True)
class _Search:
    """What has been looked at, level by level, so that the shortest way is found first."""

    above: dict[str, str] = field(default_factory=dict)
    needed_by: dict[str, dict[str, None]] = field(default_factory=dict)
    lies_at: dict[str, list[str]] = field(default_factory=dict)  # the records that carry a cause
    reasons: dict[str, Reason] = field(default_factory=dict)

    def look(self, reasons: Reasons, record: str, top: str) -> list[str]:
        """Takes the reasons of one record; gives the records behind it that are new."""
        new = []
        for reason in reasons.get(record, ()):
            if reason.kind is not ReasonKind.NEEDS:
                key = reason.key or f"{reason.record} {reason.text}"
                self.reasons.setdefault(key, reason)
                self.lies_at.setdefault(key, []).append(record)
                continue
            self.needed_by.setdefault(reason.record, {})[record] = None
            if reason.record not in self.above and reason.record != top:
                self.above[reason.record] = record
                new.append(reason.record)
        return new

    def traced(self, key: str, top: str) -> Traced:
        """A cause with its chain."""
        lies_at = self.lies_at[key]
        chain = [lies_at[0]]
        while chain[0] != top:
            chain.insert(0, self.above[chain[0]])
        also = [user for step in chain[1:] for user in self.needed_by.get(step, ())]
        others = tuple(one for one in dict.fromkeys((*also, *lies_at[1:])) if one not in chain)
        reason = self.reasons[key]
        between = chain[1:-1] if chain[-1] == reason.record else chain[1:]
        return Traced(reason, tuple(between), others)


def traced_causes(reasons: Reasons, record: str, *, most: int) -> tuple[Traced, ...]:
    """The causes of a verdict, the worst first and the nearest first among equals.

    The search goes on level by level until more than `most` are found, so the nearest are never
    left out.
    """
    search = _Search()
    level = [record]
    while level and len(search.reasons) <= most:
        level = [new for one in level for new in search.look(reasons, one, record)]
    found = (search.traced(key, record) for key in search.reasons)
    return tuple(sorted(found, key=lambda one: -one.reason.verdict))
