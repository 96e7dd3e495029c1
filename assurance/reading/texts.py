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

FILES_KEPT = 64  # composed files held ready while places are looked up


class CaseTexts:
    """Only the line of an id is kept; deeper places are found by composing the file again."""

    def __init__(self, texts: Mapping[str, str], entries: Mapping[str, Entry]) -> None:
        self._texts = texts
        self._entries = entries
        self._records = lru_cache(maxsize=FILES_KEPT)(self._compose)
        self._lines = lru_cache(maxsize=FILES_KEPT)(lambda file: texts[file].splitlines())

    def locate(self, record_id: str, path: Path) -> Place:
        """The place of a field, or of its deepest part that is written; the id for the empty path."""
        entry = self._entries.get(record_id)
        if entry is None:
            return Place()
        written = (
            self._records(entry.place.file).get((entry.place.line, entry.place.column)) if path else None
        )
        if written is None:
            return entry.place
        spot = spot_at(written, path)
        return Place(entry.place.file, spot.line, spot.column)

    def as_written(self, record_id: str) -> tuple[int, str]:
        """The first line of a record and its YAML text, from its id to its last line."""
        entry = self._entries.get(record_id)
        if entry is None:
            return 0, ""
        place = entry.place
        return place.line, text_of_record(self._lines(place.file), Spot(place.line, place.column))

    def _compose(self, file: str) -> dict[tuple[int, int], Written]:
        """The records of a file by the line and column of their ids."""
        root = compose(self._texts[file]).root
        found: dict[tuple[int, int], Written] = {}
        for _, section in root.value if isinstance(root, MappingNode) else ():
            for id_node, value in section.value if isinstance(section, MappingNode) else ():
                if isinstance(id_node, ScalarNode):
                    spot = spot_of(id_node)
                    found[spot.line, spot.column] = Written(id_node, value)
        return found
