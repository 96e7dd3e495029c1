"""The demo case as the tests read it: where it lies, its text, and copies that may be changed."""

import hashlib
import shutil
from pathlib import Path

from assurance.assess import assess
from assurance.model.assessment import Assessment
from assurance.reading import read_case
from assurance.store import Store

ROOT = Path(__file__).parents[2]
SMALL = ROOT / "site_templates" / "new_case"


def assess_folder(folder: Path, cache: Path) -> Assessment:
    """The assessment of a case folder, with a store of its own."""
    return assess(read_case(folder), store=Store(cache))


def copy_of_demo(folder: Path) -> Path:
    """A copy of the demo's records and data."""
    for name in ("claims", "hazards"):
        shutil.copytree(ROOT / name, folder / name)
    return folder


def swap(path: Path, old: str, new: str) -> None:
    """Replace a text that stands in a file exactly once."""
    text = path.read_text("utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {path}"
    path.write_text(text.replace(old, new), "utf-8", newline="\n")


def digest(path: Path) -> str:
    """The sha256 of a file, as a record states it."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def line_of(file: str, text: str, *, after: str = "") -> int:
    """The number of the one line of a file that reads so, past the line that reads `after`."""
    lines = (ROOT / file).read_text("utf-8").splitlines()
    start = lines.index(after) if after else 0
    return lines.index(text, start) + 1
