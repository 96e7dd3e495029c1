"""Takes the current folder off the import path when it is imported: a case folder holds data, never code.

It stands first among the imports of the command line, so that no library is looked for in a case. It
imports only what Python has imported before it, or a module of that name in the case would run here.
"""

import os
import sys


def outside_of(folder: str, entries: list[str]) -> list[str]:
    """The entries of an import path that do not stand for a folder; this program's own always stays."""
    own = os.path.dirname(os.path.dirname(os.path.realpath(__file__)))  # noqa: PTH120
    here = {"", ".", folder} - {own}
    return [entry for entry in entries if entry not in here]


def _here() -> str:
    try:
        return os.getcwd()  # noqa: PTH109
    except OSError:
        return ""  # the current folder is gone: no module lies in it


sys.path[:] = outside_of(_here(), sys.path)
