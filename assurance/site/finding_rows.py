"""What `check` reports as the second table of the Gaps page."""

from collections.abc import Sequence

from markupsafe import Markup

from assurance.model.verdicts import Finding, Weight
from assurance.site import marks, wording
from assurance.site.cells import place_cell
from assurance.site.pieces import code
from assurance.site.table_groups import Grouping
from assurance.site.tables import Column, Field, TableOf
from assurance.site.view import View

_WEIGHTS = tuple(Weight)  # the heaviest first


def findings_table(view: View) -> TableOf[Finding]:
    """How findings are shown: in groups by weight, the heaviest first, the notes folded."""
    return TableOf(
        caption="Findings by weight",
        columns=(
            Column("Rule", lambda one: code(one.rule, view.links.rule(one.rule)), lambda one: one.rule,
                   "rule", names_row=True),
            Column("What is wrong, and what puts it right", lambda one: _said(view, one), css="what"),
            Column("Place", lambda one: place_cell(view.links.place(one.place, one.record)),
                   lambda one: f"{one.place.file} {one.place.line:06}", "record", "Place"),
        ),
        fields=(
            Field("weight", lambda one: one.weight.value),
            Field("rule", lambda one: one.rule),
            Field("record", lambda one: one.record),
            Field("what is wrong", lambda one: wording.sentence(one.message)),
            Field("what puts it right", lambda one: wording.sentence(one.remedy)),
            Field("file", lambda one: one.place.file),
            Field("line", lambda one: one.place.line),
            Field("column", lambda one: one.place.column),
        ),
        groupings=(
            Grouping("weight", lambda one: one.weight.value, _weight_line,
                     lambda one: _WEIGHTS.index(Weight(one)), folded=lambda one: one == Weight.NOTE),
            Grouping("rule", lambda one: one.rule, _rule_line),
        ),
        grouped=True,
        nothing="No finding matches.",
    )  # fmt: skip


def _said(view: View, finding: Finding) -> Markup:
    message = view.about(finding.record, wording.sentence(finding.message))
    remedy = view.links.say(wording.sentence(finding.remedy))
    return message + Markup(' <span class="do">{}</span>').format(remedy)


def _weight_line(key: str, rows: Sequence[Finding]) -> Markup:
    return marks.weight_word(Weight(key)) + _counted(rows)


def _rule_line(key: str, rows: Sequence[Finding]) -> Markup:
    return code(key) + _counted(rows)


def _counted(rows: Sequence[Finding]) -> Markup:
    return Markup(' <span class="label">{}</span>').format(wording.counted(len(rows), "finding"))
