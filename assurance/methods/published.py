"""The published examples of each method, as data that tests, the command line and the pages share."""

from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

MARKS = ("seen", "quoted", "computed", "memory")


@dataclass(frozen=True, slots=True)
class Example:
    """One worked example: where it stands, its inputs, and the digits that are printed there.

    `mark` says how it came here: `seen` in the source itself, `quoted` from one that quotes it,
    `computed` by two independent routes, from `memory`. `relative` holds for results whose printed
    digits rest on rounded steps; any other must agree to half a unit in the last printed digit.
    """

    id: str
    source: str
    where: str
    mark: str
    inputs: Mapping[str, Any]
    units: Mapping[str, str]
    printed: Mapping[str, str]
    relative: Mapping[str, float]


def examples(method: str) -> tuple[Example, ...]:
    """Every example of a method, in the order of its file; none where it has no file."""
    import yaml

    path = files("assurance.methods") / "examples" / f"{method}.yml"
    if not path.is_file():
        return ()
    listed = yaml.load(path.read_text("utf-8"), yaml.CSafeLoader)
    return tuple(_example(one) for one in listed["examples"])


def _example(given: Mapping[str, Any]) -> Example:
    return Example(
        id=given["id"],
        source=given["source"],
        where=given["where"],
        mark=given["mark"],
        inputs=given["inputs"],
        units=given.get("units", {}),
        printed=given["printed"],
        relative=given.get("relative", {}),
    )
