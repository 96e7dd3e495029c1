"""Exchanges two folders so that a reader sees the one or the other, never a mix."""

import ctypes
import os
import sys
from pathlib import Path

_AT_FDCWD = -100  # linux/fcntl.h: relative to the current folder
_RENAME_EXCHANGE = 2  # linux/fs.h: swap the two names in one step


def exchange(new: Path, old: Path) -> None:
    """Puts `new` where `old` is; `new` then names what was there, if anything was."""
    if not old.exists():
        new.rename(old)
    elif not _exchange_at_once(new, old):
        _exchange_in_steps(new, old)


def _exchange_at_once(new: Path, old: Path) -> bool:
    if not sys.platform.startswith("linux"):
        return False
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if rename is None:
        return False
    done: int = rename(_AT_FDCWD, os.fsencode(new), _AT_FDCWD, os.fsencode(old), _RENAME_EXCHANGE)
    return done == 0


def _exchange_in_steps(new: Path, old: Path) -> None:
    """Where the system has no exchange: two renames, undone when the second does not succeed."""
    aside = new.with_name(new.name + "-old")
    old.rename(aside)
    try:
        new.rename(old)
    except OSError:
        aside.rename(old)
        raise
    aside.rename(new)
