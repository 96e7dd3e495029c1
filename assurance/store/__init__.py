"""The one cache on disk: what a calculation gave, by its key. It lies outside the case, as JSON."""

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


@dataclass(frozen=True, slots=True)
class Store:
    """A folder of JSON files, one a key, in folders by the first two letters of the key.

    Nothing here can stop a build: what cannot be read is not there, what cannot be written is
    worked out again next time.
    """

    folder: Path

    def get(self, key: str) -> dict[str, Any] | None:
        """What was put under the key, or None."""
        path = self._path(key)
        try:
            if path.stat().st_size > LARGEST:
                return None
            found = json.loads(path.read_text("utf-8"), parse_constant=_not_json)
        except (OSError, ValueError, RecursionError):
            return None
        return found if isinstance(found, dict) else None

    def put(self, key: str, value: Mapping[str, Any]) -> None:
        """Keep a value under the key; the file is the old or the new one, never half."""
        path = self._path(key)
        text = json.dumps(value, separators=(",", ":"))
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            _write_whole(path, text)
        except OSError:
            return

    def _path(self, key: str) -> Path:
        if not KEY.fullmatch(key):
            raise ValueError(f"a key is 64 hex digits, not {key!r}")
        return self.folder / key[:2] / f"{key}.json"


def _not_json(word: str) -> None:
    raise ValueError(f"{word} is not JSON")


def _write_whole(path: Path, text: str) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
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


def default_store() -> Store:
    """The store of this user."""
    return Store(cache_folder())
