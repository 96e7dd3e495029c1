"""The schema of a case as a file beside `mkdocs.yml`, where the first line of its YAML files points to."""

import json
import os
from pathlib import Path
from typing import Any

from assurance.calculations.table_faults import TableError
from assurance.calculations.tables import headings
from assurance.model.case import CaseText
from assurance.reading.schema import records_schema
from assurance.scaffold.writing import write_whole

SCHEMA_FILE = "schema.json"
WRITTEN_BY = "Written by `holdwater schema --case --write`, and anew each time: what you change here is lost."


def schema_text(case: CaseText | None = None) -> str:
    """The JSON Schema of the YAML files as text; given a case, with the ids that it has today."""
    return _as_text(_schema(case))


def write_schema(case: CaseText) -> Path:
    """Writes the schema into the case folder, whole or not at all; gives the file.

    Raises `ValueError` where another file of that name is in the way.
    """
    file = case.folder / SCHEMA_FILE
    if file.is_symlink() or (file.exists() and not _is_ours(file)):
        raise ValueError(f"`{file}` was not written by holdwater; move it away")
    text = _as_text({"$comment": WRITTEN_BY, **_schema(case)})
    if not file.exists() or file.read_bytes() != text.encode():
        write_whole(file, text.encode())
    return file


def _schema(case: CaseText | None) -> dict[str, Any]:
    return records_schema(case, columns=_columns(case) if case else None)


def _as_text(schema: dict[str, Any]) -> str:
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def _columns(case: CaseText) -> dict[str, tuple[str, ...]]:
    """The headings of each table that calculations name, by its name as written; files of one name together.

    A table that cannot be read is left out, so that nothing said about it is called wrong here.
    """
    found: dict[str, tuple[str, ...]] = {}
    unread = set()
    for (record, name), fact in sorted(case.files.items()):
        if case.entries[record].kind != "calculations":
            continue
        try:
            found[name] = found.get(name, ()) + headings(Path(fact.absolute))
        except TableError:
            unread.add(name)
    return {name: columns for name, columns in found.items() if name not in unread}


def editor_line(folder: Path, file: Path) -> str:
    """The comment by which YAML editors find the schema; nothing where the case has no schema file."""
    if not (folder / SCHEMA_FILE).is_file():
        return ""
    path = Path(os.path.relpath(folder / SCHEMA_FILE, file.parent)).as_posix()
    return f"# yaml-language-server: $schema={path}"


def _is_ours(file: Path) -> bool:
    with file.open("rb") as opened:
        return WRITTEN_BY.encode() in opened.read(1000)
