"""Which YAML files a case folder holds, and their text."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from assurance.reading.faults import Fault, Spot, printable
from assurance.reading.real_paths import leads_out, real_path

RECORD_FOLDERS = ("claims", "hazards")
SUFFIXES = (".yml", ".yaml")
LARGEST = 5_000_000  # bytes of one YAML file
TOP = Spot(1, 1)


@dataclass(frozen=True, slots=True)
class TextFile:
    """A YAML file by its path from the case folder: its text, or why it has none."""

    name: str
    text: str = ""
    fault: Fault | None = None


def record_files(folder: Path) -> Iterator[TextFile]:
    """Every YAML file under `claims/` and `hazards/`, sorted by path, each file once."""
    root = folder.resolve()
    read: set[Path] = set()
    for name in sorted(_names(folder, root)):
        real = real_path(folder / name) or folder / name
        if real not in read:
            read.add(real)
            yield _text_file(folder, root, name)


def _names(folder: Path, root: Path) -> Iterator[str]:
    """Paths from the case folder of YAML files and of folders that are not entered."""
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


def _text_file(folder: Path, root: Path, name: str) -> TextFile:
    if not name.isprintable():
        message = "The name of the file holds characters that cannot be printed."
        return _unread(printable(name), message, "Rename the file.")
    path = folder / name
    if leads_out(path, root):
        message = f"`{name}` is a link that leads out of the case folder; it is not followed."
        fault = Fault("file-outside-the-case", TOP, message, "Put the file itself into the case.")
        return TextFile(name, "", fault)
    return read_text(path, name)


def read_text(path: Path, name: str) -> TextFile:
    """The text of a YAML file, or why it cannot be read."""
    try:
        if not path.is_file():
            message = f"`{name}` cannot be opened as a file or folder."
            return _unread(name, message, "Put a readable file there, or take it away.")
        if path.stat().st_size > LARGEST:
            message = f"`{name}` has more than {LARGEST:,} bytes; such a file is not read."
            return _unread(name, message, "Split it into several files.")
        return _decoded(path.read_bytes(), name)
    except OSError as refused:
        message = f"`{name}` cannot be read: {refused.strerror}."
        return _unread(name, message, "Put a readable file there, or take it away.")


def _decoded(content: bytes, name: str) -> TextFile:
    try:
        return TextFile(name, content.decode("utf-8-sig"))
    except UnicodeDecodeError as stopped:
        line = content.count(b"\n", 0, stopped.start) + 1
        message = f"`{name}` is not UTF-8: the byte {stopped.start + 1} does not belong to it."
        remedy = "Save the file as UTF-8."
        return TextFile(name, "", Fault("file-not-readable", Spot(line, 1), message, remedy))


def _unread(name: str, message: str, remedy: str) -> TextFile:
    return TextFile(name, "", Fault("file-not-readable", TOP, message, remedy))
