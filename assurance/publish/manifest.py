"""What a site was built from and what it holds, as digests that `sha256sum` and `sort` work out again."""

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version

from assurance import __version__
from assurance.model.argument_records import Case
from assurance.model.assessment import Assessment
from assurance.model.case import CaseText

MANIFEST = "manifest.json"
INPUT_LIST = "inputs.sha256"
SITE_LIST = "site.sha256"
LIST_FORMAT = 1  # of the manifest; a change of its keys raises it
SHOWN = 12  # digits of the digest of the inputs where it is printed
PACKAGES = (
    "graphviz", "graphviz-pure", "jinja2", "markdown", "markupsafe", "mkdocs", "mkdocs-material",
    "numpy", "polars", "pydantic", "pyyaml", "scipy",
)  # fmt: skip
_ESCAPES = {"\\": "\\\\", "\n": "\\n", "\r": "\\r"}  # as sha256sum writes them
_ESCAPED = re.compile(r"[\\\n\r]")


@dataclass(frozen=True, slots=True)
class InputFile:
    """A file that was read: its path from the case folder, the sha256 and the size of its bytes."""

    path: str
    sha256: str
    size: int


@dataclass(frozen=True, slots=True)
class Inputs:
    """All that a site follows from, apart from the program: the files read, and the day if it was given.

    `not_read` are files that were looked for and could not be read; findings tell why.
    """

    files: tuple[InputFile, ...]
    not_read: tuple[str, ...]
    judged_on: str

    def listed(self) -> bytes:
        """The list of the files as `sha256sum` writes it, in byte order of the paths."""
        day = f"# judged as of {self.judged_on}\n".encode() if self.judged_on else b""
        return day + listed((one.path, one.sha256) for one in self.files)

    def digest(self) -> str:
        """The sha256 of the list: one number for all inputs."""
        return _sha256(self.listed())

    def short(self) -> str:
        """The first digits of the digest, as they stand in the foot of a printed page."""
        return self.digest()[:SHOWN]


def inputs_of(case: CaseText, assessment: Assessment, *, pages: Mapping[str, bytes]) -> Inputs:
    """What a case was read from: settings, records, the files they name, and its pages by their paths."""
    facts = (*case.texts, *case.files.values())
    read = {InputFile(one.path, one.sha256, one.size) for one in facts if one.sha256}
    read |= {InputFile(path, _sha256(text), len(text)) for path, text in pages.items()}
    paths = {one.path for one in read}
    not_read = {one.path or one.name for one in facts if not one.sha256} - paths
    files = sorted(read, key=lambda one: (_bytes(one.path), one.sha256))
    return Inputs(tuple(files), tuple(sorted(not_read)), _judged_on(assessment))


def _judged_on(assessment: Assessment) -> str:
    """The day where it is not the one that the case states: it was given by whoever built the site."""
    entry = assessment.entries.get(assessment.case)
    stated = entry.record.as_of if entry is not None and isinstance(entry.record, Case) else None
    day = assessment.as_of
    return day.isoformat() if day is not None and day != stated else ""


def manifest(inputs: Inputs, assessment: Assessment, *, site: Mapping[str, str], listed_site: bytes) -> bytes:
    """The manifest as JSON, with the sha256 of each published file by its address, and of their list."""
    plain = {
        "format": LIST_FORMAT,
        "tool": {"name": "holdwater", "version": __version__},
        "packages": {name: _version(name) for name in PACKAGES},
        "as_of": assessment.as_of.isoformat() if assessment.as_of else None,
        "judged_on": inputs.judged_on or None,
        "inputs": inputs.digest(),
        "site": _sha256(listed_site),
        "input_files": [{"path": one.path, "size": one.size, "sha256": one.sha256} for one in inputs.files],
        "not_read": list(inputs.not_read),
        "files": dict(sorted(site.items())),
    }
    return json.dumps(plain, indent=1, ensure_ascii=True, allow_nan=False).encode("ascii") + b"\n"


def _version(package: str) -> str | None:
    try:
        return version(package)
    except PackageNotFoundError:  # the pages then go without what it draws
        return None


def listed(files: Iterable[tuple[str, str]]) -> bytes:
    """Paths and digests as `sha256sum` writes them, in byte order of the paths."""
    ordered = sorted(files, key=lambda one: (_bytes(one[0]), one[1]))
    return _bytes("".join(_line(path, sha256) for path, sha256 in ordered))


def _line(path: str, sha256: str) -> str:
    """One line: a path that holds a backslash or a line end is escaped, and the line begins with one."""
    if not _ESCAPED.search(path):
        return f"{sha256}  {path}\n"
    return f"\\{sha256}  {_ESCAPED.sub(lambda found: _ESCAPES[found[0]], path)}\n"


def _bytes(text: str) -> bytes:
    """A path as bytes, whatever the language set; one that is not UTF-8 keeps its own bytes."""
    return text.encode("utf-8", "surrogateescape")


def _sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
