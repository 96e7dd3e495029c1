"""What an answer of `check` follows from, as digests: the program, the day, the texts, the files named.

No time of a file is trusted: an edit may keep size and time, and a clock may stand still. The bytes are
read and hashed each time, links are followed anew, and whatever cannot be read takes part by its fault.
"""

import hashlib
import json
import sys
from collections.abc import Iterable, Mapping
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import assurance
from assurance.model.case import FileFact
from assurance.reading.folders import TextFile
from assurance.reading.found import Found

PACKAGE = Path(assurance.__file__).parent
SOURCES = (".py", ".toml")
INSTALLED = (".dist-info", ".egg-info")
Named = tuple[str, str]  # the folder that a name starts from, and the name


def digest_of(*plain: Any) -> str:
    """The sha256 of plain values in their one JSON form."""
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def texts_digest(found: Found, day: date | None, program: str) -> str:
    """The digest of all that decides which files are named: program, day, settings and every text."""
    settings = [repr(found.settings.settings), repr(found.settings.findings)]
    asked = day.isoformat() if day else ""
    folder = str(found.folder.resolve())
    return digest_of(program, asked, folder, settings, [_text(file) for file in found.files])


def _text(file: TextFile) -> list[str]:
    text = hashlib.sha256(file.text.encode("utf-8", "surrogatepass")).hexdigest()
    return [file.name, text, repr(file.fault)]


def files_digest(texts: str, facts: Mapping[Named, FileFact]) -> str:
    """The digest of the texts and of every file they name: where it leads, its bytes, or its fault."""
    listed = [[*named, one.path, one.absolute, one.sha256, one.size, one.fault]
              for named, one in sorted(facts.items())]  # fmt: skip
    return digest_of(texts, listed)


@cache
def program_digest(package: Path = PACKAGE, installed: tuple[str, ...] | None = None) -> str:
    """The digest of this program's own code, of Python, and of every library installed with its version.

    It is told once in a process, which goes on with the code it started with. Empty where the code cannot
    be read from files: then nothing is kept.
    """
    try:
        own = [[path.relative_to(package).as_posix(), hashlib.sha256(path.read_bytes()).hexdigest()]
               for path in _sources(package)]  # fmt: skip
    except OSError:
        return ""
    libraries = _installed(sys.path if installed is None else installed)
    return digest_of(own, sys.version, sys.platform, libraries) if own else ""


def _sources(package: Path) -> list[Path]:
    return sorted(path for path in package.rglob("*") if path.suffix in SOURCES)


def _installed(folders: Iterable[str]) -> list[str]:
    """The names under which packages are installed, which carry their versions."""
    return sorted({name for folder in folders for name in _names_in(folder) if name.endswith(INSTALLED)})


def _names_in(folder: str) -> list[str]:
    try:
        return [path.name for path in Path(folder).iterdir()] if folder else []
    except OSError:  # an archive, or not there: what is installed there is not in such folders
        return []
