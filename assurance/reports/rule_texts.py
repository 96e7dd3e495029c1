"""What each rule looks for, as reports that leave the machine tell it."""

from collections.abc import Mapping
from dataclasses import dataclass

from assurance.model.verdicts import ReasonKind, Weight
from assurance.reading.rules import INPUT_RULES
from assurance.rules.docs import document
from assurance.rules.registry import RULES

BROKEN = "A record or a file cannot be read whole; while that is so the top claim is open."
MENDED = "Put right what the message names, in that line of the file."


@dataclass(frozen=True, slots=True)
class RuleText:
    """One rule: its usual weight, what it looks for, why, and what puts it right."""

    weight: Weight
    what: str
    why: str
    help: str


def rule_texts() -> Mapping[str, RuleText]:
    """The text of every rule by name, those of the reading included."""
    told = {ReasonKind.INPUT_BROKEN.value: RuleText(Weight.BLOCKING, BROKEN, BROKEN, MENDED)}
    told |= {name: RuleText(Weight.BLOCKING, what, BROKEN, MENDED) for name, what in INPUT_RULES}
    for rule in RULES:
        doc = document(rule)
        told[rule.name] = RuleText(doc.weight, doc.what, doc.why, doc.text)
    return told
