"""What lies in a case folder, as text, before any record is read."""

from dataclasses import dataclass
from pathlib import Path

from assurance.reading.folders import TextFile, record_files
from assurance.reading.misplaced import misplaced_files
from assurance.reading.settings import ReadSettings, read_settings


@dataclass(frozen=True, slots=True)
class Found:
    """The settings of a case folder and the text of each of its YAML files, sorted by path.

    A file of records outside the folders of records has no text, and says so.
    """

    folder: Path
    settings: ReadSettings
    files: tuple[TextFile, ...]


def find(folder: Path) -> Found | None:
    """What lies in a case folder, each file read once; none where there is no such folder."""
    if not folder.is_dir():
        return None
    settings = read_settings(folder)
    files = [*record_files(folder), *misplaced_files(folder, settings.settings)]
    return Found(folder, settings, tuple(sorted(files, key=lambda file: file.name)))
