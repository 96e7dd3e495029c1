"""A small case on disk for tests of calculations, read by the real reader."""

import hashlib
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
      ultimate: {value: 500 MPa, basis: A, source: Data sheet}
      ultimate_b: {value: 500 MPa, basis: B, source: Data sheet}
      minimum: {value: 500 MPa, basis: S, source: Data sheet}
      average: {value: 520 MPa, basis: mean, source: Data sheet}
      proof: {value: 0.4 GPa, basis: A, source: Data sheet}
      bare: {value: 500 MPa}
"""
ULTIMATE = """
factors:
  ultimate: {title: Ultimate, kind: safety, value: 1.5}
"""


def read(folder, *texts, **files):
    """The case of these texts; `files` are data files beside them, by name with `_` before the suffix.

    The evidence record `data-files` lists each of them with its digest.
    """
    claims = folder / "claims"
    claims.mkdir(parents=True, exist_ok=True)
    (folder / "mkdocs.yml").write_text("site_name: Small\n")
    (claims / "case.yml").write_text("case: {title: Small case}\n")
    for at, text in enumerate(texts):
        (claims / f"text-{at}.yml").write_text(dedent(text))
    for name, content in files.items():
        path = claims / ".".join(name.rsplit("_", 1))
        path.write_bytes(content if isinstance(content, bytes) else dedent(content).lstrip().encode())
    (claims / "listed.yml").write_text(listed(path for path in claims.iterdir() if path.suffix != ".yml"))
    return read_case(folder)


def listed(paths):
    """An evidence record that lists these files with their digests."""
    digests = {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(paths)}
    files = "".join(f"\n    - {{file: {name}, sha256: {digest}}}" for name, digest in digests.items())
    return f"evidence:\n  data-files:\n    title: Data\n    kind: data\n    files:{files or ' []'}\n"


def judged(case):
    """The results that evidence of the case states."""
    return {
        f"{id_}.{name}": result_of(one.value)
        for id_, entry in case.of_kind("evidence").items()
        for name, one in entry.record.results.items()
    }


def result_of(stated):
    """A typed value as a result, with the ends of its interval."""
    width = stated.half_width
    ends = (None, None) if width is None else (stated.value - width, stated.value + width)
    return ResultValue(stated.value, stated.unit, *ends, tag="judged")


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
