"""Reads a small case whose YAML says by `# <- rule` on the guilty line what is to be found there."""

import re
from pathlib import Path

from assurance.model.case import CaseText
from assurance.reading import read_case

MARK = re.compile(r"#\s*<-\s*([a-z, -]+?)\s*$")
AROUND = """\
case:
  bs-1:
    title: Boarding step (invented)
    quantities: [strength, stiffness]
    organisations: {works: The works}
    people:
      anna: {name: Anna, roles: [stress-lead]}
requirements:
  least-reserve: {statement: Keep a reserve., value: 1.0}
evidence:
  rig: {title: Rig test, kind: test, results: {set: 0.05 mm, load: 12.5 kN}}
calculations:
  reserve: {title: Reserve by hand, method: reserve_factors}
parts:
  blade: {title: Blade}
  deck: {title: Deck}
materials:
  carbon: {title: Carbon, properties: {compression: {value: 900 MPa}}}
load_cases:
  heave: {title: Heave}
hazards:
  fall: {title: Fall, controls: {rail: {text: A rail.}, net: {text: A net.}}}
failure_modes:
  crack: {title: Crack, causes: {notch: {text: A notch.}, fatigue: {text: Fatigue.}}}
  rust: {title: Rust, causes: {water: {text: Sea water.}}}
assumptions:
  calm: {statement: The sea is calm.}
"""


def write_case(folder: Path, text: str | bytes, *, around: str = AROUND) -> Path:
    """A case folder that holds the text as `claims/this.yml` beside a few sound records."""
    (folder / "claims").mkdir(parents=True)
    (folder / "claims" / "around.yml").write_text(around, encoding="utf-8")
    content = text if isinstance(text, bytes) else text.encode("utf-8")
    (folder / "claims" / "this.yml").write_bytes(content)
    return folder


def read_text(folder: Path, text: str | bytes) -> CaseText:
    """The case that holds the text beside the sound records."""
    return read_case(write_case(folder, text))


def marked(text: str) -> list[tuple[int, str]]:
    """Line and rule of every mark in a text."""
    found = []
    for number, line in enumerate(text.splitlines(), start=1):
        mark = MARK.search(line)
        if mark:
            found += [(number, rule.strip()) for rule in mark[1].split(",")]
    return sorted(found)


def reported(case: CaseText) -> list[tuple[int, str]]:
    """Line and rule of every finding; one in another file than the text counts as line 0."""
    return sorted((f.place.line if f.place.file == "claims/this.yml" else 0, f.rule) for f in case.findings)
