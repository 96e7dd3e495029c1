"""YAML files that look like records and lie where none are read: told, so that none goes missing."""

import os
import re
from collections.abc import Iterator
from pathlib import Path

from assurance.model.case import SiteSettings
from assurance.model.entry import SINGULAR
from assurance.reading.faults import Fault, Spot
from assurance.reading.folders import RECORD_FOLDERS, SUFFIXES, TextFile

LOOKED_AT = 20_000  # bytes of a file; comments longer than that are taken for no records
RECORDS = re.compile(
    r"(?:\s*(?:#.*|---.*|%.*)?\n)*(?P<kind>[a-z_]+):[ \t]*(?:#.*)?\n"  # a kind by itself on the first line
    r"(?:[ \t]*(?:#.*)?\n)*"
    r"[ \t]+[\"']?[A-Za-z][\w.-]*[\"']?:"  # an id below it
)


def misplaced_files(folder: Path, settings: SiteSettings) -> Iterator[TextFile]:
    """Files in the case folder itself, or in a folder directly in it, that seem to hold records.

    Hidden folders, the site and the folder of its own pages are not looked into, and no link is followed.
    """
    kept = [folder / name for name in (*RECORD_FOLDERS, settings.site_dir, settings.docs_dir)]
    yield from _in(folder, "")
    for inside in _entries(folder):
        if (
            inside.is_dir(follow_symlinks=False)
            and not inside.name.startswith(".")
            and not _any(inside, kept)
        ):
            yield from _in(Path(inside.path), f"{inside.name}/")


def _in(here: Path, prefix: str) -> Iterator[TextFile]:
    for inside in _entries(here):
        is_yaml = Path(inside.name).suffix.lower() in SUFFIXES and inside.is_file(follow_symlinks=False)
        if is_yaml and inside.name.isprintable():
            fault = _fault(Path(inside.path), f"{prefix}{inside.name}")
            yield from [TextFile(f"{prefix}{inside.name}", "", fault)] if fault else []


def _fault(path: Path, name: str) -> Fault | None:
    try:
        with path.open("rb") as file:
            text = file.read(LOOKED_AT).decode("utf-8-sig", "replace")
    except OSError:
        return None  # nobody can tell what it holds
    found = RECORDS.match(text.replace("\r\n", "\n"))
    if found is None or found["kind"] not in SINGULAR:
        return None
    line = text.count("\n", 0, found.start("kind")) + 1
    message = (
        f"`{name}` holds `{found['kind']}`, but it lies outside `claims/` and `hazards/`; it is not read."
    )
    remedy = "Move it into `claims/` or `hazards/`, or out of the case folder."
    return Fault("records-misplaced", Spot(line, 1), message, remedy)


def _entries(here: Path) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(here) as found:
            return sorted(found, key=lambda one: one.name)
    except OSError:
        return []


def _any(inside: os.DirEntry[str], kept: list[Path]) -> bool:
    """Whether a folder is one of those, also on a disk that takes no notice of capitals."""
    own = inside.stat(follow_symlinks=False)
    return any(one.exists() and os.path.samestat(own, one.stat()) for one in kept)
