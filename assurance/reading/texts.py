"""The texts of a case as they were read: finds the place of a field and the lines of a record."""

from collections.abc import Mapping
from functools import lru_cache

from yaml.nodes import MappingNode, ScalarNode

from assurance.model.kinds import Entry
from assurance.model.verdicts import Place
from assurance.reading.composing import compose, spot_of
from assurance.reading.faults import Spot
from assurance.reading.places import Written, spot_at, text_of_record
from assurance.reading.plans import Path

Spots = dict[tuple[int, int, Path], Spot]  # by line and column of a record's id, and the path inside it
FILES_KEPT = 64  # composed files held ready while places are looked up


class CaseTexts:
    """Only the line of an id is kept; deeper places are found by composing the file again.

    `spots` holds, by file, those that were looked up before, and takes up new ones.
    """

    def __init__(
        self, texts: Mapping[str, str], entries: Mapping[str, Entry], spots: Mapping[str, Spots]
    ) -> None:
        self._entries = entries
        self._spots = spots
        self._records = lru_cache(maxsize=FILES_KEPT)(lambda file: _records_in(texts[file]))
        self._lines = lru_cache(maxsize=FILES_KEPT)(lambda file: texts[file].splitlines())

    def locate(self, record_id: str, path: Path) -> Place:
        """The place of a field, or of its deepest part that is written; the id for the empty path."""
        entry = self._entries.get(record_id)
        if entry is None:
            return Place()
        if not path:
            return entry.place
        file, at = entry.place.file, (entry.place.line, entry.place.column)
        found = self._spots[file].get((*at, path))
        if found is None:
            written = self._records(file).get(at)
            found = spot_at(written, path) if written else Spot(*at)
            self._spots[file][*at, path] = found
        return Place(file, found.line, found.column)

    def as_written(self, record_id: str) -> tuple[int, str]:
        """The first line of a record and its YAML text, from its id to its last line."""
        entry = self._entries.get(record_id)
        if entry is None:
            return 0, ""
        place = entry.place
        return place.line, text_of_record(self._lines(place.file), Spot(place.line, place.column))


def _records_in(text: str) -> dict[tuple[int, int], Written]:
    """The records of a text by the line and column of their ids."""
    root = compose(text).root
    found: dict[tuple[int, int], Written] = {}
    for _, section in root.value if isinstance(root, MappingNode) else ():
        for id_node, value in section.value if isinstance(section, MappingNode) else ():
            if isinstance(id_node, ScalarNode):
                spot = spot_of(id_node)
                found[spot.line, spot.column] = Written(id_node, value)
    return found
