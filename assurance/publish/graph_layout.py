"""Lays graphs out with the `graphviz-pure` program, all in one process, and keeps the places by text."""

import hashlib
import os
import re
import subprocess
import sysconfig
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from assurance.store import Store

PROGRAM = "graphviz-pure"
LONGEST = 120.0  # s; a layout that takes longer is given up
_NUMBER = r" -?\d+(?:\.\d+)?(?:e[-+]\d+)?"
_GRAPH = re.compile(
    rf"graph(?:{_NUMBER}){{3}}\n"
    rf"(?:node n\d+(?:{_NUMBER}){{4}} [^\n]*\n)*"
    rf"(?:edge n\d+ n\d+ \d+(?:{_NUMBER})+ [^\n]*\n)*stop\n"
)


@dataclass(frozen=True, slots=True)
class GraphLayout:
    """Graphs as DOT text to places as `plain` text; empty text for one that could not be laid out."""

    store: Store | None

    def __call__(self, graphs: Sequence[str]) -> list[str]:
        """The places of each graph, in the order given."""
        keys = [_key(one) for one in graphs]
        known = {key: self._kept(key) for key in dict.fromkeys(keys)}
        new = [key for key, found in known.items() if not found]
        texts = dict(zip(keys, graphs, strict=True))
        for key, places in zip(new, _laid_out([texts[key] for key in new]), strict=True):
            known[key] = places
            if self.store is not None and places:
                self.store.put(key, {"places": places})
        return [known[key] for key in keys]

    def _kept(self, key: str) -> str:
        found = self.store.get(key) if self.store is not None else None
        places = (found or {}).get("places", "")
        return places if isinstance(places, str) and _GRAPH.fullmatch(places) else ""


def _key(graph: str) -> str:
    return hashlib.sha256(f"{PROGRAM} {_version()}\n{graph}".encode()).hexdigest()


@cache
def _version() -> str:
    try:
        return version(PROGRAM)
    except PackageNotFoundError:
        return ""


def _laid_out(graphs: Sequence[str]) -> list[str]:
    program = _program()
    if not graphs or program is None:
        return [""] * len(graphs)
    try:
        done = subprocess.run(
            [program, "-Tplain"], input="".join(graphs).encode(), capture_output=True,
            timeout=LONGEST, check=False, env=_environment(), cwd=Path(program).parent,
        )  # fmt: skip
    except (OSError, subprocess.TimeoutExpired):
        return [""] * len(graphs)
    found = _GRAPH.findall(done.stdout.decode("ascii", "replace"))
    return found if len(found) == len(graphs) else [""] * len(graphs)


def _environment() -> dict[str, str]:
    """Nothing of the caller's that could turn the layout; Windows starts no program without its folder."""
    return {name: os.environ[name] for name in ("SYSTEMROOT",) if name in os.environ}


def _program() -> str | None:
    """The program that was installed beside this Python; none of the same name from elsewhere is run."""
    name = f"{PROGRAM}.exe" if os.name == "nt" else PROGRAM
    path = Path(sysconfig.get_path("scripts")) / name
    return str(path) if path.is_file() else None
