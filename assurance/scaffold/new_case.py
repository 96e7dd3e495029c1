"""Writes a new case: a small, complete one whose top claim holds."""

import shutil
from pathlib import Path

from assurance.reading import read_case
from assurance.scaffold.schema_file import write_schema
from assurance.site.templates import templates_folder


def new_case(folder: Path) -> tuple[Path, ...]:
    """Writes a new case into a folder that does not exist yet, or is empty; gives the files written.

    Raises `ValueError` where there is something in the way. Nothing that exists is changed.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise ValueError(f"`{folder}` already holds something; name a new folder")
    source = templates_folder() / "new_case"
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for path in sorted(source.rglob("*")):
        if path.is_file():
            target = folder / path.relative_to(source)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, target)
            written.append(target)
    written.append(write_schema(read_case(folder)))
    return tuple(written)
