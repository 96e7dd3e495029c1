"""A case as it was read: its records, where each is written, its files, and what was wrong with it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from assurance.model.entry import Entry, by_kind
from assurance.model.verdicts import Finding, Place


@dataclass(frozen=True, slots=True)
class FileFact:
    """A file that a record names, as found on disk.

    `path` is from the case folder; `fault` says in words why it cannot be used, if it cannot.
    """

    name: str
    path: str = ""
    absolute: str = ""
    sha256: str = ""
    size: int = 0
    fault: str = ""


@dataclass(frozen=True, slots=True)
class SiteSettings:
    """What is taken from `mkdocs.yml`: nothing else of it is read."""

    site_name: str = ""
    site_dir: str = "site"
    docs_dir: str = "guide"
    extra: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class CaseText:
    """Every record of a case folder, with the means to find a field or a record in its file.

    `findings` are those of the reading: each leaves a record or a file not read whole.
    `files` is keyed by record id and the name as written in the record. `texts` are the settings and
    the YAML files as they were read; one without a sha256 could not be.
    """

    folder: Path
    settings: SiteSettings
    entries: Mapping[str, Entry]
    findings: tuple[Finding, ...]
    files: Mapping[tuple[str, str], FileFact]
    locate: Callable[[str, tuple[str | int, ...]], Place]
    as_written: Callable[[str], tuple[int, str]]
    texts: tuple[FileFact, ...] = ()

    @cached_property
    def in_order(self) -> tuple[str, ...]:
        """The id of every record, in order."""
        return tuple(sorted(self.entries))

    @cached_property
    def _by_kind(self) -> dict[str, dict[str, Entry]]:
        return by_kind({id_: self.entries[id_] for id_ in self.in_order})

    def of_kind(self, kind: str) -> Mapping[str, Entry]:
        """The records of one kind that were read whole or in part, by id in order."""
        return self._by_kind.get(kind, {})
