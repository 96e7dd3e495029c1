"""The readings of files that were read before: in this process, else from the store."""

import hashlib
from dataclasses import replace
from pathlib import Path

from assurance.checking.followed import digest_of
from assurance.reading.file_readings import FileReading, from_json, read_afresh, to_plain
from assurance.store import Store

WORTH_KEEPING = 4_000  # characters; a shorter text is read as fast as its reading is fetched


class Readings:
    """Gives the reading of a text again while the text and the program are the same.

    Each file of a case folder has one place in the store, so that what is kept does not grow.
    """

    def __init__(self, folder: Path, store: Store | None, program: str) -> None:
        self._folder = str(folder.resolve())
        self._store = store
        self._program = program
        self._here: dict[str, tuple[str, FileReading]] = {}

    def of(self, name: str, text: str) -> FileReading:
        """The reading of the text of a file, named from the case folder; not what it was spelt from."""
        known = self._here.get(name)
        if known is None or known[0] != text:
            known = self._here[name] = text, replace(self._kept(name, text), spelt=())
        return known[1]

    def _kept(self, name: str, text: str) -> FileReading:
        if self._store is None or not self._program or len(text) < WORTH_KEEPING:
            return read_afresh(name, text)
        slot = digest_of("reading", self._folder, name)
        written = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
        follows_from = digest_of(self._program, written)
        kept = self._store.text(slot)
        reading = from_json(kept, name, follows_from) if kept else None
        if reading is None:
            reading = read_afresh(name, text)
            plain = to_plain(reading, follows_from)
            if plain is not None:
                self._store.put(slot, plain)
        return reading
