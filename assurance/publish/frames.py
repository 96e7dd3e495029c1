"""The frames that pages are poured into: rendered by the host once, kept on disk under a key."""

import hashlib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Any

from assurance import __version__
from assurance.site.sections import Group
from assurance.store import Store

_HOST_CODE = Path(__file__).parents[1] / "mkdocs_plugin.py"  # what it does to a page shows in a frame
HOSTS = ("mkdocs", "mkdocs-material", "markdown")
KEPT = 20  # frame files kept in the cache
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "base-uri 'none'; form-action 'none'"
)
_HEAD = re.compile(
    r'\s*<!doctype html>\s*<html[^<>]*(?:<!--slot:sheet-->)?"?>\s*<head>\s*<meta charset="utf-8">\s*'
    r'<meta http-equiv="Content-Security-Policy" content="' + re.escape(POLICY) + '">'
)
_SCRIPT = re.compile(r'<script src="<!--slot:root-->assets/[a-z0-9-]+\.js"(?: defer)?></script>')
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


def frames(
    request: FrameRequest, *, render_frames: RenderFrames, cache_dir: Path | None
) -> Mapping[str, str]:
    """The frame of each section and text by address, from the cache while its key holds."""
    store = Store(cache_dir / "frames") if cache_dir else None
    key = frames_key(request)
    kept = store.get(key) if store else None
    if kept is not None and _sound(kept, request):
        return kept
    rendered = dict(render_frames(request))
    if store:
        store.put(key, rendered)
        _let_go(store.folder)
    return rendered


def _sound(kept: Mapping[str, Any], request: FrameRequest) -> bool:
    """Whether kept frames are the ones asked for, and each is such as this program renders.

    What it lets through may be text only: the policy of the page stands first, each script is one of
    the site's own files, and there is no slot that nothing fills.
    """
    sections = {section.name for group in request.groups for section in group.sections}
    theme = (request.theme / "base.html").read_text("utf-8")
    filled = set(_SLOT.findall(theme)) | {f"count:{name}" for name in sections}
    return kept.keys() == sections | request.texts.keys() and all(
        isinstance(html, str) and _sound_page(html, filled, is_text=name in request.texts)
        for name, html in kept.items()
    )


def _sound_page(html: str, filled: set[str], *, is_text: bool) -> bool:
    slots = _SLOT.findall(html)
    return (
        _HEAD.match(html) is not None
        and len(_SCRIPT.findall(html)) == html.lower().count("<script")
        and filled.issuperset(slots)
        and slots.count("main") == (0 if is_text else 1)
    )


def frames_key(request: FrameRequest) -> str:
    """A digest of all that a frame depends on: versions, theme, sections and texts."""
    digest = hashlib.sha256()
    for name in HOSTS:
        digest.update(f"{name} {version(name)}\n".encode())
    digest.update(f"{__version__}\n{request.groups!r}\n".encode())
    _update(digest, _HOST_CODE.name, _HOST_CODE.read_bytes())
    for file in sorted(request.theme.rglob("*")):
        if file.is_file():
            _update(digest, file.relative_to(request.theme).as_posix(), file.read_bytes())
    for name in sorted(request.texts):
        _update(digest, name, request.texts[name].encode())
    return digest.hexdigest()


def _update(digest: "hashlib._Hash", name: str, content: bytes) -> None:
    digest.update(f"{name} {len(content)}\n".encode())
    digest.update(content)


def _let_go(folder: Path) -> None:
    """Takes the oldest frames away."""
    try:
        by_age = sorted(folder.glob("*/*.json"), key=lambda one: one.stat().st_mtime)
        for old in by_age[:-KEPT]:
            old.unlink(missing_ok=True)
    except OSError:
        return  # a cache that cannot be tidied costs space, nothing else
