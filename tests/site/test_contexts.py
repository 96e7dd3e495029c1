"""Each template gets one typed context: it uses every field of it, and names nothing else."""

import dataclasses
import re
import typing

import pytest
from jinja2 import meta, nodes

from assurance.site import (
    page_argument,
    page_calculation,
    page_calculations,
    page_claim,
    page_conclusion,
    page_evidence,
    page_evidences,
    page_failure_modes,
    page_gaps,
    page_hazard,
    page_hazards,
    page_record,
    page_records,
    page_strength,
)
from assurance.site.templates import environment, templates_folder

CONTEXTS = {
    "argument.html": page_argument.ArgumentPage,
    "calculation.html": page_calculation.CalculationPage,
    "calculations.html": page_calculations.CalculationsPage,
    "claim.html": page_claim.ClaimPage,
    "conclusion.html": page_conclusion.ConclusionPage,
    "evidence.html": page_evidence.EvidencePage,
    "evidences.html": page_evidences.EvidencesPage,
    "failure-modes.html": page_failure_modes.FailureModesPage,
    "gaps.html": page_gaps.GapsPage,
    "hazard.html": page_hazard.HazardPage,
    "hazards.html": page_hazards.HazardsPage,
    "record.html": page_record.RecordPage,
    "records.html": page_records.RecordsPage,
    "strength.html": page_strength.StrengthPage,
}
LOOPS = {"loop", "last", "index"}
BESIDE = {"beside"}  # files that are published with a table; no template prints them


def parsed(name):
    text = (templates_folder() / "pages" / name).read_text("utf-8")
    return environment().parse(text)


def fields_of(context):
    return {field.name for field in dataclasses.fields(context)}


def nested(context):
    """The context and every dataclass that its fields lead to."""
    found, waiting = set(), [context]
    while waiting:
        one = waiting.pop()
        if one in found:
            continue
        found.add(one)
        for hint in typing.get_type_hints(one).values():
            waiting += [part for part in _parts(hint) if dataclasses.is_dataclass(part)]
    return found


def _parts(hint):
    inner = typing.get_args(hint)
    return [part for one in inner for part in _parts(one)] if inner else [hint]


def attributes(*names):
    return {node.attr for name in names for node in parsed(name).find_all(nodes.Getattr)}


def test_every_template_has_its_context():
    pages = {file.name for file in (templates_folder() / "pages").glob("*.html")}
    assert pages - {"_parts.html"} == set(CONTEXTS)


@pytest.mark.parametrize("name", sorted(CONTEXTS))
def test_a_template_names_exactly_the_fields_of_its_context(name):
    assert meta.find_undeclared_variables(parsed(name)) == fields_of(CONTEXTS[name])


def test_every_field_beneath_a_context_is_used_and_nothing_else():
    every = set().union(*(nested(context) for context in CONTEXTS.values()))
    inner = set().union(*(fields_of(one) for one in every if one not in CONTEXTS.values())) - BESIDE
    used = attributes(*CONTEXTS, "_parts.html") - LOOPS
    macros = set(
        re.findall(r"macro (\w+)\(", (templates_folder() / "pages" / "_parts.html").read_text("utf-8"))
    )
    assert used - (macros - inner) == inner


def test_templates_hold_no_arithmetic():
    kinds = (nodes.Add, nodes.Sub, nodes.Mul, nodes.Div, nodes.FloorDiv, nodes.Mod, nodes.Pow)
    for name in (*CONTEXTS, "_parts.html"):
        assert not list(parsed(name).find_all(kinds)), name
