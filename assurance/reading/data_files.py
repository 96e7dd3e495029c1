"""The files that records name: found on disk, kept inside the case, and given their sha256."""

import hashlib
import stat
from collections.abc import Iterable
from pathlib import Path

from assurance.model.case import FileFact
from assurance.reading.real_paths import leads_out, real_path


def file_facts(folder: Path, named: Iterable[tuple[str, str, str]]) -> dict[tuple[str, str], FileFact]:
    """The fact of each file, by record and name, from `(record, YAML file, name)`.

    A file that several records name is read once.
    """
    root = folder.resolve()
    facts: dict[tuple[str, str], FileFact] = {}
    by_path: dict[str, FileFact] = {}
    for record, yaml_file, name in named:
        path = real_path((folder / yaml_file).parent / name)
        known = by_path.get(str(path)) or _fact(root, path)
        by_path[str(path)] = known
        facts[record, name] = FileFact(
            name, known.path, known.absolute, known.sha256, known.size, known.fault
        )
    return facts


def leaves_the_case(folder: Path, yaml_file: str, name: str) -> bool:
    """Whether a name, followed from the YAML file and over links, ends outside the case folder."""
    return leads_out((folder / yaml_file).parent / name, folder.resolve())


def _fact(root: Path, path: Path | None) -> FileFact:
    if path is None:
        return FileFact("", fault="is not a name that a file can have")
    if not path.is_relative_to(root):
        return FileFact("", fault="lies outside the case folder")
    within = path.relative_to(root).as_posix()
    try:
        status = path.stat()
        if stat.S_ISDIR(status.st_mode):
            return FileFact("", within, fault="is a folder, not a file")
        if not stat.S_ISREG(status.st_mode):
            return FileFact("", within, fault="is not an ordinary file")
        return FileFact("", within, str(path), _sha256(path), status.st_size)
    except FileNotFoundError:
        return FileFact("", within, fault="is not there")
    except (OSError, ValueError) as refused:
        return FileFact("", within, fault=f"cannot be read: {getattr(refused, 'strerror', None) or refused}")


def _sha256(path: Path) -> str:
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()
