"""The frames that pages are poured into: rendered by the host once, kept on disk under a key."""

import hashlib
import json
import os
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from assurance import __version__
from assurance.site.sections import Group

HOSTS = ("mkdocs", "mkdocs-material", "markdown")
KEPT = 20  # frame files kept in the cache
_SLOT = re.compile(r"<!--slot:([a-z/.:_-]+)-->")


@dataclass(frozen=True, slots=True)
class FrameRequest:
    """What the host renders: an empty frame for each section, and pages of text in Markdown."""

    groups: tuple[Group, ...]
    texts: Mapping[str, str]  # address without the ending, to Markdown
    theme: Path


RenderFrames = Callable[[FrameRequest], Mapping[str, str]]


class Frame:
    """A page with slots. Those that are the same on every page are filled once."""

    def __init__(self, html: str, filled: Mapping[str, str]) -> None:
        self._literals = [""]
        self._slots: list[str] = []
        for position, piece in enumerate(_SLOT.split(html)):
            if position % 2 == 0:
                self._literals[-1] += piece
            elif piece in filled:
                self._literals[-1] += filled[piece]
            else:
                self._slots.append(piece)
                self._literals.append("")

    def pour(self, values: Mapping[str, str]) -> str:
        """The page with every remaining slot filled."""
        poured = [self._literals[0]]
        for slot, literal in zip(self._slots, self._literals[1:], strict=True):
            poured += (values[slot], literal)
        return "".join(poured)


def frames(request: FrameRequest, *, render_frames: RenderFrames, cache_dir: Path) -> Mapping[str, str]:
    """The frame of each section and text by address, from the cache while its key holds."""
    kept = cache_dir / "frames" / f"{frames_key(request)}.json"
    try:
        found = json.loads(kept.read_text("utf-8"))
        if isinstance(found, dict) and found:
            return found
    except (OSError, ValueError):
        pass  # not rendered yet, or cut short: rendered again
    rendered = dict(render_frames(request))
    _keep(kept, rendered)
    return rendered


def frames_key(request: FrameRequest) -> str:
    """A digest of all that a frame depends on: versions, theme, sections and texts."""
    digest = hashlib.sha256()
    for name in HOSTS:
        digest.update(f"{name} {version(name)}\n".encode())
    digest.update(f"{__version__}\n{request.groups!r}\n".encode())
    for file in sorted(request.theme.rglob("*")):
        if file.is_file():
            _update(digest, file.relative_to(request.theme).as_posix(), file.read_bytes())
    for name in sorted(request.texts):
        _update(digest, name, request.texts[name].encode())
    return digest.hexdigest()


def _update(digest: "hashlib._Hash", name: str, content: bytes) -> None:
    digest.update(f"{name} {len(content)}\n".encode())
    digest.update(content)


def _keep(file: Path, rendered: Mapping[str, str]) -> None:
    """Writes a frame file whole or not at all, and lets the oldest go."""
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        unfinished = file.with_suffix(f".{os.getpid()}")
        unfinished.write_text(json.dumps(rendered, ensure_ascii=False), "utf-8")
        unfinished.replace(file)
        by_age = sorted(file.parent.glob("*.json"), key=lambda one: one.stat().st_mtime)
        for old in by_age[:-KEPT]:
            old.unlink(missing_ok=True)
    except OSError:
        return  # a cache that cannot be written costs time, nothing else
