"""Writes a report to a file: the file is the old or the new one, never half."""

import os
from pathlib import Path

RECORDS = (".yml", ".yaml")


def write_report(path: Path, text: str) -> None:
    """Writes a text to a file, through a second one beside it that takes its place when it is whole.

    A link is followed; what is no file, such as a pipe, is written to as it is. Raises `ValueError`
    for the name of a YAML file, which could be a record of the case, and `OSError` as the system does.
    """
    if path.suffix.lower() in RECORDS:
        raise ValueError("a file that ends in .yml or .yaml may be a record of the case")
    if path.exists() and not path.is_file():
        path.write_text(text, encoding="utf-8")
        return
    real = path.resolve()
    beside = real.with_name(f".{real.name}.{os.getpid()}.part")
    try:
        with beside.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(real)
    except OSError:
        beside.unlink(missing_ok=True)
        raise
