"""Writes one file whole or not at all."""

import os
import shutil
import tempfile
from pathlib import Path


def write_whole(file: Path, content: bytes) -> None:
    """Puts the content in the place of the file in one step; its permissions stay. Folders are made."""
    file.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=file.parent, prefix=f".{file.name}.", suffix=".part")
    unfinished = Path(name)
    try:
        with os.fdopen(handle, "wb") as opened:
            opened.write(content)
            opened.flush()
            os.fsync(opened.fileno())
        _take_permissions(unfinished, file)
        unfinished.replace(file)
    except BaseException:
        unfinished.unlink(missing_ok=True)
        raise


def _take_permissions(unfinished: Path, file: Path) -> None:
    """Those of the file it replaces, else those of any new file."""
    if file.exists():
        shutil.copymode(file, unfinished)
        return
    mask = os.umask(0)
    os.umask(mask)
    unfinished.chmod(0o666 & ~mask)
