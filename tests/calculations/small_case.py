"""A small case on disk for tests of calculations, read by the real reader."""

import sys
from pathlib import Path
from textwrap import dedent

from assurance.calculations import work_out
from assurance.model.assessment import ResultValue
from assurance.reading import read_case

sys.path.insert(0, str(Path(__file__).parents[1] / "methods"))  # for the check of sheets

PARTS = """
parts:
  bracket: {title: Bracket}
  frame: {title: Frame, load_path: redundant}
load_cases:
  heave: {title: Heave, value: 12 kN}
  drop: {title: Drop}
materials:
  alloy:
    title: Alloy
    properties:
      ultimate: {value: 500 MPa, basis: A}
      ultimate_b: {value: 500 MPa, basis: B}
      minimum: {value: 500 MPa, basis: S}
      average: {value: 520 MPa, basis: mean}
      proof: {value: 0.4 GPa, basis: A}
      bare: {value: 500 MPa}
"""
ULTIMATE = """
factors:
  ultimate: {title: Ultimate, kind: safety, value: 1.5}
"""


def read(folder, *texts, **files):
    """The case of these texts; `files` are data files beside them, by name with `_` before the suffix."""
    claims = folder / "claims"
    claims.mkdir(parents=True, exist_ok=True)
    (folder / "mkdocs.yml").write_text("site_name: Small\n")
    (claims / "case.yml").write_text("case: {title: Small case}\n")
    for at, text in enumerate(texts):
        (claims / f"text-{at}.yml").write_text(dedent(text))
    for name, content in files.items():
        path = claims / ".".join(name.rsplit("_", 1))
        path.write_bytes(content if isinstance(content, bytes) else dedent(content).lstrip().encode())
    return read_case(folder)


def judged(case):
    """The results that evidence of the case states."""
    return {
        f"{id_}.{name}": ResultValue(one.value.value, one.value.unit, tag="judged")
        for id_, entry in case.of_kind("evidence").items()
        for name, one in entry.record.results.items()
    }


def worked(case, id_="sum", *, store=None, results=None):
    """The calculation of that id, worked out."""
    known = judged(case) if results is None else results
    return work_out(id_, case.entries[id_].record, case, known, store)


def texts(found):
    """What its faults say, each a whole sentence."""
    said = [fault.text for fault in found.faults]
    assert not any(text[0].islower() for text in said)
    assert all(text.endswith((".", "?")) for text in said)
    return [text[0].lower() + text[1:] for text in said]
