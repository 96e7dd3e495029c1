"""Reads a corpus file: one broken case as text, with what is to be found marked beneath the guilty line.

    # What is wrong, in a sentence.
    === claims/this.yml
    requirements:
      most:
        value: 12.5 kPA
               ^ value-wrong: did you mean `kPa`

The caret stands under the column of the finding; before the rule stands its weight where it does not
block, after the colon a part of the message or of the remedy. Marks are taken out before the file is
written. A finding of a file without text is marked right below its header. `{U+0000}` is the character
of that number. Behind the name of a file may stand, after ` | `: `encoding utf-16`, `ends crlf`,
`last line 9000 times`, `empty`, `link to ../a.yml`, `a folder`, `a queue`, `parquet`. A sound case is written
beside it, without the records that the corpus file writes itself; `=== base | without fall, rail` leaves
out more of it, `=== base | none` all of it.
"""

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from base_case import BASE, FILES

HEADER = re.compile(r"=== (?P<name>.+?)(?: \| (?P<how>.+))?")
MARK = re.compile(r"(?P<indent> *)\^ (?:(?P<weight>caution|note) )?(?P<rule>[a-z][a-z-]+)(?:: (?P<told>.+))?")
CHARACTER = re.compile(r"\{U\+([0-9A-F]{4,6})\}")
SECTION = re.compile(r"([a-z_]+): *(?:\{ *([A-Za-z][\w-]*) *:)?")
RECORD = re.compile(r" {1,4}[\"']?([A-Za-z][\w-]*)[\"']? *:")
CORPUS = Path(__file__).parent
ENDS = {"crlf": "\r\n", "cr": "\r"}


@dataclass(frozen=True, order=True)
class Expected:
    """A finding that a corpus file marks."""

    file: str
    line: int
    column: int
    rule: str
    weight: str = "blocking"
    told: str = ""


@dataclass(frozen=True)
class Written:
    """One file of a broken case: its lines without marks, and how it is written."""

    name: str
    how: tuple[str, ...]
    lines: tuple[str, ...]
    marks: tuple[Expected, ...]

    def told(self, word: str) -> str:
        """What follows a word of the header; nothing where it does not stand there."""
        return next((one.removeprefix(word).strip() for one in self.how if one.startswith(word)), "")

    def content(self) -> bytes:
        """The bytes of the file."""
        lines = list(self.lines)
        if "empty" in self.how:
            return b""
        if times := self.told("last line"):
            lines += lines[-1:] * (int(times.split()[0]) - 1)
        end = ENDS.get(self.told("ends"), "\n")
        text = CHARACTER.sub(lambda found: chr(int(found[1], 16)), end.join([*lines, ""]))
        return text.encode(self.told("encoding") or "utf-8")

    def write(self, folder: Path) -> None:
        """Puts the file, or whatever the header asks for, in its place."""
        path = folder / self.name
        path.parent.mkdir(parents=True, exist_ok=True)
        if self.told("link to"):
            path.symlink_to(self.told("link to"))
        elif "a folder" in self.how:
            path.mkdir()
        elif "a queue" in self.how:
            os.mkfifo(path)
        elif "parquet" in self.how:
            _write_parquet(path, self.lines)
        else:
            path.write_bytes(self.content())


@dataclass(frozen=True)
class CorpusFile:
    """One broken case."""

    path: Path

    @property
    def name(self) -> str:
        return self.path.relative_to(CORPUS).with_suffix("").as_posix()

    @cached_property
    def sentence(self) -> str:
        """What is wrong, as its first comment says."""
        told = self.path.read_text("utf-8").partition("\n===")[0]
        return " ".join(line.removeprefix("#").strip() for line in told.splitlines())

    @cached_property
    def files(self) -> tuple[Written, ...]:
        return tuple(_files(self.path.read_text("utf-8").split("\n")))

    @property
    def expected(self) -> list[Expected]:
        """Every finding that is marked, in order of place."""
        return sorted(mark for file in self.files for mark in file.marks)

    def write(self, folder: Path) -> Path:
        """The case as a folder."""
        case = folder / "case"
        (case / "claims").mkdir(parents=True)
        for file in self.files:
            if file.name != "base":
                file.write(case)
        if not any(file.name == "base" and "none" in file.how for file in self.files):
            self._write_base(case)
        return case

    def _write_base(self, case: Path) -> None:
        gone = {word.strip() for file in self.files for word in file.told("without").split(",")}
        gone |= {id_ for file in self.files for id_ in _ids(file.lines)}
        (case / "claims" / "base.yml").write_text("".join(_base_without(gone)))
        for name, text in FILES.items():
            path = case / "claims" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            if not path.exists() and not path.is_symlink():
                path.write_text(text)


def corpus() -> list[CorpusFile]:
    """Every corpus file, by name in order."""
    return [CorpusFile(path) for path in sorted(CORPUS.rglob("*.case"))]


def _base_without(gone: set[str]) -> Iterator[str]:
    """The text of the sound case without some of its records."""
    kind, keep = "", True
    for line in BASE.lstrip().splitlines(keepends=True):
        record = re.match(r"  ([A-Za-z][\w-]*):", line)
        if not line.startswith(" "):
            kind, keep = line, False
        elif record:
            keep = record[1] not in gone
            if keep and kind:
                yield kind
                kind = ""
        if keep:
            yield line


def _files(lines: list[str]) -> Iterator[Written]:
    header, own, marks = None, [], []
    for line in lines[: -1 if lines[-1] == "" else None]:
        found, mark = HEADER.fullmatch(line), MARK.fullmatch(line)
        if found:
            yield from [_written(header, own, marks)] if header else []
            header, own, marks = found, [], []
        elif mark and header:
            marks.append((len(own), mark))
        else:
            own.append(line)
    yield from [_written(header, own, marks)] if header else []


def _written(header: re.Match[str], lines: list[str], marks: list[tuple[int, re.Match[str]]]) -> Written:
    name, how = header["name"], tuple((header["how"] or "").split(" | "))
    expected = (
        Expected(
            name, max(line, 1), len(mark["indent"]) + 1, mark["rule"],
            mark["weight"] or "blocking", mark["told"] or "",
        )
        for line, mark in marks
    )  # fmt: skip
    return Written(name, how, tuple(lines), tuple(expected))


def _ids(lines: tuple[str, ...]) -> Iterator[str]:
    """The ids that a file writes; also where it is no YAML."""
    for line in lines:
        section, record = SECTION.match(line), RECORD.match(line)
        if section and section[2]:
            yield section[2]
        if record:
            yield record[1]


def _write_parquet(path: Path, lines: tuple[str, ...]) -> None:
    """The lines as a Parquet file: numbers where every cell of a column is one."""
    import io

    import polars

    polars.read_csv(io.StringIO("\n".join(lines))).write_parquet(path)
