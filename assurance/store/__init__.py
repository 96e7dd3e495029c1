"""The one cache on disk: what was worked out, by its key. It lies outside the case, as JSON."""

import hashlib
import json
import os
import re
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

KEY = re.compile(r"[0-9a-f]{64}")
LARGEST = 64 * 1024 * 1024  # bytes; a larger file was not written by this store
_WRITTEN = re.compile(rb'\{"sha256":"([0-9a-f]{64})","value":(\{.*\})\}', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Store:
    """A folder of JSON files, one a key, in folders by the first two letters of the key.

    Each file carries the sha256 of its value, so that one that was cut short or changed is not
    there. Nothing here can stop a build: what cannot be read is not there, what cannot be written
    is worked out again next time. A process that goes on longer gives `seen`, so that no file is read
    twice.
    """

    folder: Path
    seen: dict[str, bytes] | None = None

    def get(self, key: str) -> dict[str, Any] | None:
        """What was put under the key, or None."""
        text = self.text(key)
        try:
            found = json.loads(text, parse_constant=_not_json) if text else None
        except (ValueError, RecursionError):
            return None
        return found if isinstance(found, dict) else None

    def text(self, key: str) -> bytes | None:
        """What was put under the key as JSON, which whoever asks takes apart and checks."""
        text = self.seen.get(key) if self.seen else None
        text = text or _read_whole(self._path(key))
        if text and self.seen is not None:
            self.seen[key] = text
        return text

    def put(self, key: str, value: Mapping[str, Any]) -> None:
        """Keep a value under the key; the file is the old or the new one, never half.

        What JSON cannot hold, such as a number without end, is not kept.
        """
        path = self._path(key)
        try:
            text = json.dumps(value, separators=(",", ":"), allow_nan=False).encode("ascii")
        except ValueError:
            return
        if self.seen is not None:
            self.seen[key] = text
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            _write_whole(path, b'{"sha256":"%b","value":%b}' % (_digest(text), text))
        except OSError:
            return

    def _path(self, key: str) -> Path:
        if not KEY.fullmatch(key):
            raise ValueError(f"a key is 64 hex digits, not {key!r}")
        return self.folder / key[:2] / f"{key}.json"


def _not_json(word: str) -> None:
    raise ValueError(f"{word} is not JSON")


def _digest(text: bytes) -> bytes:
    return hashlib.sha256(text).hexdigest().encode("ascii")


def _read_whole(path: Path) -> bytes | None:
    try:
        if path.stat().st_size > LARGEST:
            return None
        written = _WRITTEN.fullmatch(path.read_bytes())
    except OSError:
        return None
    return written[2] if written and _digest(written[2]) == written[1] else None


def _write_whole(path: Path, text: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text)
        Path(name).replace(path)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise


def cache_folder() -> Path:
    """Where this user's caches lie: `HOLDWATER_CACHE`, else `holdwater` in the cache folder."""
    own = os.environ.get("HOLDWATER_CACHE")
    if own:
        return Path(own)
    cache = os.environ.get("XDG_CACHE_HOME") or str(Path("~").expanduser() / ".cache")
    return Path(cache) / "holdwater"


def cache_folder_for(case: Path) -> Path | None:
    """Where caches of a case lie; none where that is inside the case, which may come from anybody."""
    folder = cache_folder()
    return None if _real(folder).is_relative_to(_real(case)) else folder


def _real(folder: Path) -> Path:
    try:
        return folder.resolve()
    except (OSError, RuntimeError):  # a loop of links: nothing can be kept there
        return folder.absolute()


def store_for(case: Path) -> Store | None:
    """The store of this user for a case; none where it would lie inside the case."""
    folder = cache_folder_for(case)
    return None if folder is None else Store(folder)
