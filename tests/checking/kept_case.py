"""A small case that reads a file of each sort, and ways to change it."""

import os
from pathlib import Path

from assurance.checking import check_case
from assurance.store import Store

CASE = """\
case:
  device:
    title: Device
    item: Item
    issue: A
    top_claims: {use: strong}
    as_of: 2026-03-12
    people: {anna: Anna}
claims:
  strong:
    statement: It is strong.
    owner: anna
    argument:
      because: It was tested.
      checks: [{result: values.mean, at_least: 490 MPa, because: as agreed}]
      rests_on: [rig, gone]
"""
EVIDENCE = """\
evidence:
  rig:
    title: Rig test
    kind: analysis
    files: [{file: data/rig.csv}]
    producer: anna
    state: issued
  gone:
    title: A report that is not there
    kind: analysis
    files: [{file: data/gone.txt}]
    state: issued
"""
SUM = """\
calculations:
  values:
    title: Values
    method: allowables
    author: anna
    inputs:
      values: {file: data/rig.csv, column: v, unit: MPa}
"""
ROWS = "v\n" + "".join(f"{500 + at * 7 % 11}\n" for at in range(20))
FILES = {
    "mkdocs.yml": "site_name: Device\n",
    "claims/case.yml": CASE,
    "claims/evidence.yml": EVIDENCE,
    "hazards/sum.yml": SUM.replace("data/", "../claims/data/"),
    "claims/data/rig.csv": ROWS,
}


def write_case(folder: Path) -> Path:
    """The case, as files."""
    for name, text in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return folder


def rewrite_in_place(path: Path, old: str, new: str) -> None:
    """Changes a file so that neither its size nor its times tell."""
    before = path.stat()
    text = path.read_text("utf-8")
    assert old in text
    assert len(old.encode()) == len(new.encode())
    path.write_text(text.replace(old, new, 1), "utf-8")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


def honest(folder: Path, day=None):
    """What `check` answers with nothing kept."""
    return check_case(folder, day=day)


def mark_kept_answers(store: Store, word: str = "kept") -> int:
    """Puts a word into every kept answer, so that an answer tells where it comes from."""
    marked = 0
    for path in sorted(store.folder.rglob("*.json")):
        plain = store.get(path.stem)
        if plain is not None and "texts" in plain:
            store.put(path.stem, {**plain, "case": word})
            marked += 1
    return marked
