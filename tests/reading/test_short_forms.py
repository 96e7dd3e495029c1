"""Short forms are spelt out before the model sees them."""

from pathlib import Path
from typing import Any

import pytest
from marked_text import read_text

from assurance.model.engineering_records import DataFile, Input
from assurance.model.quantity import Quantity
from assurance.reading.short_forms import speller


def record(folder: Path, text: str) -> Any:
    """The record `a` of the text, which brings no finding."""
    case = read_text(folder, text)
    assert case.findings == ()
    return case.entries["a"].record


def test_an_id_alone_is_what_an_argument_rests_on(tmp_path: Path) -> None:
    claim = record(tmp_path, "claims:\n  a: {statement: A, argument: {rests_on: [rig]}}\n")

    assert claim.argument.rests_on[0].record == "rig"


def test_a_limit_is_a_value_or_a_record_by_its_look(tmp_path: Path) -> None:
    text = (
        "claims:\n  a:\n    statement: A\n    arguments:\n      one:\n        checks:\n"
        "          - {result: rig.set, at_most: 0.10 mm, at_least: least-reserve}\n"
        "          - {result: rig.set, at_most: 3, at_least: {value: -.5 mm}}\n"
    )

    first, second = record(tmp_path, text).arguments["one"].checks

    assert (first.at_most.value, first.at_most.record) == (Quantity(0.1, "mm"), None)
    assert (first.at_least.value, first.at_least.record) == (None, "least-reserve")
    assert (second.at_most.value, second.at_least.value) == (Quantity(3.0), Quantity(-0.5, "mm"))


def test_results_inputs_people_and_parts_have_short_forms(tmp_path: Path) -> None:
    evidence = record(
        tmp_path,
        "evidence:\n  a: {title: A, kind: test, files: [a.csv], parts: [blade],"
        " anomalies: [a crack], results: {most: 3 +/- 1 mm}}\n",
    )

    assert evidence.files == (DataFile(file="a.csv"),)
    assert evidence.parts[0].part == "blade"
    assert evidence.anomalies[0].what == "a crack"
    assert evidence.results["most"].value == Quantity(3.0, "mm", 1.0)


@pytest.mark.parametrize(
    ("given", "spelt"),
    [
        (0.5, {"value": 0.5}),
        ("0.5 mm", {"value": "0.5 mm"}),
        ("von_mises", {"text": "von_mises"}),
        (True, {"text": True}),  # the model then refuses it as text
        ({"result": "a.b"}, {"result": "a.b"}),
        (None, None),
        ((1, 2), (1, 2)),
    ],
)
def test_an_input_is_spelt_out_by_its_look(given: object, spelt: object) -> None:
    assert speller(Input)(given) == spelt
