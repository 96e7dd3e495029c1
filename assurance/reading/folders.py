"""Which YAML files a case folder holds, and their text."""

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from assurance.reading.faults import Fault, Spot, printable
from assurance.reading.real_paths import leads_out, real_path

RECORD_FOLDERS = ("claims", "hazards")
SUFFIXES = (".yml", ".yaml")
LARGEST = 5_000_000  # bytes of one YAML file
LINE_END = re.compile("\r\n|[\n\r\x85\u2028\u2029]")  # as YAML counts lines
TOP = Spot(1, 1)


@dataclass(frozen=True, slots=True)
class TextFile:
    """A YAML file by its path from the case folder: its text, or why it has none.

    `sha256` and `size` are those of the bytes that were read, also where they are not text.
    """

    name: str
    text: str = ""
    fault: Fault | None = None
    sha256: str = ""
    size: int = 0


def record_files(folder: Path) -> Iterator[TextFile]:
    """Every YAML file under `claims/` and `hazards/`, sorted by path, each file once."""
    root = folder.resolve()
    read: set[Path] = set()
    for name in sorted(record_names(folder, root)):
        path = folder / name
        real = real_path(path)
        if (real or path) not in read:
            read.add(real or path)
            out = real is not None and not real.is_relative_to(root)
            yield _text_file(path, name, leads_out=out)


def record_names(folder: Path, root: Path) -> Iterator[str]:
    """Paths from the case folder of YAML files and of folders that are not entered; `root` has no links."""
    waiting = [folder / name for name in RECORD_FOLDERS]
    entered: set[Path] = set()
    while waiting:
        here = waiting.pop()
        name = here.relative_to(folder).as_posix()
        if not here.is_dir():
            yield from [name] if here.suffix.lower() in SUFFIXES else []
            continue
        inside = None if leads_out(here, root) else _inside(here)
        if inside is None:
            yield name  # reading it as a file then tells why it is not entered
        elif (real := here.resolve()) not in entered:
            entered.add(real)
            waiting += inside


def _inside(here: Path) -> list[Path] | None:
    """What a folder holds; none where it may not be looked into."""
    try:
        return list(here.iterdir())
    except OSError:
        return None


def _text_file(path: Path, name: str, *, leads_out: bool) -> TextFile:
    if not name.isprintable():
        message = "The name of the file holds characters that cannot be printed."
        return _unread(printable(name), message, "Rename the file.")
    if leads_out:
        message = f"`{name}` is a link that leads out of the case folder; it is not followed."
        fault = Fault("file-outside-the-case", TOP, message, "Put the file itself into the case.")
        return TextFile(name, "", fault)
    return read_text(path, name)


def read_text(path: Path, name: str) -> TextFile:
    """The text of a YAML file, or why it cannot be read."""
    try:
        if not path.is_file():
            what = "is a link that leads to no file" if path.is_symlink() else "is no ordinary file"
            return _unread(name, f"`{name}` {what}.", "Put a readable file there, or take it away.")
        if path.stat().st_size > LARGEST:
            message = f"`{name}` has more than {LARGEST:,} bytes; such a file is not read."
            return _unread(name, message, "Split it into several files.")
        return _decoded(path.read_bytes(), name)
    except OSError as refused:
        message = f"`{name}` cannot be read: {refused.strerror}."
        return _unread(name, message, "Put a readable file there, or take it away.")


def _is_utf_16(content: bytes) -> bool:
    """Whether a file starts with the mark of UTF-16, or has a zero byte in every second place."""
    start = content[:64]
    return start.startswith((b"\xff\xfe", b"\xfe\xff")) or start.count(0) * 3 > len(start) > 3


def _decoded(content: bytes, name: str) -> TextFile:
    if _is_utf_16(content):
        return _unread(name, f"`{name}` is written in UTF-16.", "Save the file as UTF-8.")
    sha256, size = hashlib.sha256(content).hexdigest(), len(content)
    try:
        return TextFile(name, content.decode("utf-8-sig"), sha256=sha256, size=size)
    except UnicodeDecodeError as stopped:
        line = len(LINE_END.split(content[: stopped.start].decode("utf-8", "replace")))
        odd = f"byte {stopped.start + 1} of it is `\\x{content[stopped.start]:02x}`"
        message = f"`{name}` is not UTF-8 text: {odd}."
        remedy = "Save the file as UTF-8."
        fault = Fault("file-not-readable", Spot(line, 1), message, remedy)
        return TextFile(name, "", fault, sha256=sha256, size=size)


def _unread(name: str, message: str, remedy: str) -> TextFile:
    return TextFile(name, "", Fault("file-not-readable", TOP, message, remedy))
