"""Nobody gains by leaving something out: one deletion or one retyped word never lifts the top claim.

`open` and `fails` count alike here, since neither allows a use: what made a check fail may be left
out, and then the check cannot be made.
"""

import os
import random
import re
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from plain_case import PlainCase
from random_cases import random_case

CASES = int(os.environ.get("HOLDWATER_LEAVING_OUT_CASES", "200"))
AT_ONCE = 20
EDITS_EACH = 4
Path_ = tuple[str | int, ...]

# What may lift the top claim today when it is left out, and why nothing in the case itself shows it.
# Each of these is seen only beside an earlier state of the case. Nothing else may lift it.
MAY_LIFT = {
}

WORDS = {"evidence": ("state", "issued"), "assumptions": ("state", "confirmed"),
         "challenges": ("state", "answered"), "actions": ("done", "2026-02-02")}  # fmt: skip


def deletions(records: dict[str, Any]) -> list[Path_]:
    """Every record, field and list entry that can be taken out."""

    def below(node: Any, path: Path_) -> list[Path_]:
        items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
        return [found for key, inner in items for found in [(*path, key), *below(inner, (*path, key))]]

    return [path for path in below(records, ()) if len(path) >= 2 and (len(path) > 2 or path[0] != "case")]


def without(case: PlainCase, path: Path_) -> PlainCase:
    """The case with one thing taken out."""
    edited = deepcopy(case)
    holder: Any = edited.records
    for key in path[:-1]:
        holder = holder[key]
    del holder[path[-1]]
    return edited


def named(path: Path_) -> str:
    """A path with ids and positions left open: `claims.*.argument.rests_on.*`."""
    free = {"results", "properties", "controls", "arguments", "causes", "people", "not_applicable"}
    words = [path[0], "*"] + [
        "*" if isinstance(key, int) or path[place + 1] in free else key for place, key in enumerate(path[2:])
    ]
    return ".".join(str(word) for word in words)


def top_verdict(case: PlainCase, folder: Path) -> int:
    """How bad the top claim is: 0 where it holds, 3 where it is open, fails or is not named."""
    from assurance.assess import assess
    from assurance.reading import read_case

    built = assess(read_case(case.write(folder)))
    tops = list(built.top_claims.values())
    return min(3, max((int(built.verdicts.get(top, 3)) for top in tops), default=3))
