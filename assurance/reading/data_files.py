"""The files that records name: found on disk, kept inside the case, and given their sha256."""

import hashlib
import stat
from collections.abc import Iterable
from dataclasses import replace
from itertools import islice
from pathlib import Path

from assurance.model.case import FileFact
from assurance.model.names import nearest_name
from assurance.reading.real_paths import real_path

OUTSIDE = "lies outside the case folder"
ABSENT = "is not there"
LOOP = "is a link that leads back to itself"
NAMES_ALIKE = 0.8  # file names share their ending, so fewer alike letters would mislead
MOST_BESIDE = 1000  # files of a folder among which the nearest name is looked for


def file_facts(folder: Path, named: Iterable[tuple[str, str]]) -> dict[tuple[str, str], FileFact]:
    """The fact of each file, by the folder it is named from and the name, as given.

    A file that is named in several ways is read once.
    """
    root = folder.resolve()
    facts: dict[tuple[str, str], FileFact] = {}
    by_path: dict[str, FileFact] = {}
    for start, name in named:
        if (start, name) in facts:
            continue
        path = real_path(folder / start / name)
        known = by_path.get(str(path)) or _fact(root, path)
        by_path[str(path)] = known
        facts[start, name] = replace(known, name=name, fault=_told_of(name, folder / start, known))
    return facts


def _told_of(name: str, start: Path, known: FileFact) -> str:
    """The fault of a file, with what the way it is named tells about it."""
    if known.fault == LOOP and not (start / name).is_symlink():
        return "is not a name that a file can have"
    if known.fault != ABSENT:
        return known.fault
    if "://" in name:
        return "is an address on the web and no file of the case"
    return f"{ABSENT}: write `/` between folders" if "\\" in name else _near(start / name)


def _near(path: Path) -> str:
    """That a file is not there, with the file beside it whose name is nearest."""
    try:
        some = islice(path.parent.iterdir(), MOST_BESIDE)
        beside = [one.name for one in some if one.name.isprintable() and one.name != path.name]
    except (OSError, ValueError):
        beside = []
    near = nearest_name(path.name, beside, alike=NAMES_ALIKE)
    return f"{ABSENT}, but `{near}` is" if near else ABSENT


def is_unchanged(fact: FileFact) -> bool:
    """Whether a file still has the bytes that its fact speaks of; one that could not be read has none."""
    try:
        return not fact.sha256 or _sha256(Path(fact.absolute)) == fact.sha256
    except OSError:
        return False


def folder_of(yaml_file: str) -> str:
    """The folder that the names in a YAML file start from; both are paths from the case folder."""
    return yaml_file.rpartition("/")[0] or "."


def _fact(root: Path, path: Path | None) -> FileFact:
    if path is None:
        return FileFact("", fault=LOOP)
    if not path.is_relative_to(root):
        return FileFact("", fault=OUTSIDE)
    within = path.relative_to(root).as_posix()
    try:
        status = path.stat()
        if stat.S_ISDIR(status.st_mode):
            return FileFact("", within, fault="is a folder, not a file")
        if not stat.S_ISREG(status.st_mode):
            return FileFact("", within, fault="is not an ordinary file")
        return FileFact("", within, str(path), _sha256(path), status.st_size)
    except FileNotFoundError:
        return FileFact("", within, fault=ABSENT)
    except (OSError, ValueError) as refused:
        return FileFact("", within, fault=f"cannot be read: {getattr(refused, 'strerror', None) or refused}")


def _sha256(path: Path) -> str:
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()
