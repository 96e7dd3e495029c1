"""The list of all rules."""

from assurance.model.verdicts import ReasonKind, Weight
from assurance.rules.view import Rule, from_causes

RULES: tuple[Rule, ...] = tuple(
    Rule(kind.value, Weight.CAUTION, (lambda kind: lambda view: from_causes(view, kind))(kind))
    for kind in ReasonKind
    if kind not in (ReasonKind.NEEDS, ReasonKind.INPUT_BROKEN)
)
