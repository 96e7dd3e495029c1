"""Which files of a case changed, found by looking at them again and again: time, size and identity."""

from collections.abc import Iterator, Mapping
from itertools import islice
from pathlib import Path

from assurance.model.case import CaseText
from assurance.reading.folders import record_names
from assurance.reading.real_paths import leads_out
from assurance.reading.settings import SETTINGS_FILE

Stamp = tuple[int, int, int] | None  # time in ns, size, identity; none where there is no such file
MOST_PAGES = 1000  # of Markdown that are looked at


class Watch:
    """Remembers how the files of a case looked, and tells which look different now.

    It looks at the YAML files under `claims/` and `hazards/`, at `mkdocs.yml`, at the Markdown pages
    of the case, and at every file that a record names. An edit that leaves time, size and identity
    of a file as they were is not seen.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder.resolve()
        self._pages = folder
        self._named: tuple[str, ...] = ()
        self._seen: Mapping[str, Stamp] = {}

    def follow(self, case: CaseText) -> None:
        """Looks from now on at what this case names. A file that is named anew is no change."""
        no_longer = set(self._named)
        self._pages = self._folder / case.settings.docs_dir
        told = {finding.place.file for finding in case.findings}  # a file of records in a wrong place too
        named = {fact.path for fact in case.files.values()}
        self._named = tuple(sorted((told | named) - {""}))
        now = self._look()
        seen = {name: stamp for name, stamp in self._seen.items() if name in now or name not in no_longer}
        self._seen = now | seen  # an edit made while the case was read is still to be seen

    def changed(self) -> tuple[str, ...]:
        """The files, from the case folder, that look different from the last time; they are remembered."""
        before, now = self._seen, self._look()
        self._seen = now
        return tuple(sorted(name for name in {*before, *now} if before.get(name) != now.get(name)))

    def _look(self) -> dict[str, Stamp]:
        return {name: _stamp(self._folder / name) for name in self._names()}

    def _names(self) -> Iterator[str]:
        yield SETTINGS_FILE
        yield from self._named
        yield from record_names(self._folder, self._folder)
        if not leads_out(self._pages, self._folder):
            pages = islice(self._pages.rglob("*.md"), MOST_PAGES)
            yield from (path.relative_to(self._folder).as_posix() for path in pages)


def _stamp(path: Path) -> Stamp:
    try:
        found = path.stat()
    except (OSError, ValueError):
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino
