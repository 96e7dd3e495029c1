"""Small cases that a record is added to, and what may and may not have changed afterwards."""

import shutil
from pathlib import Path

from assurance.model.kinds import KINDS
from assurance.reading import read_case
from assurance.scaffold import add_record, new_case

ROOT = Path(__file__).parents[2]
CASE = "case:\n  c: {title: A case, people: {someone: Someone}}\n"
ADDED = [kind for kind in KINDS if kind != "case"]


def small_case(folder, text="", file="claims/file.yml"):
    """A case of one record, and one more file with this text."""
    (folder / "claims").mkdir(parents=True)
    (folder / "claims" / "case.yml").write_text(CASE)
    path = folder / file
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return folder


def fresh_case(folder):
    new_case(folder)
    return folder


def demo_case(folder):
    folder.mkdir()
    for name in ("claims", "hazards"):
        shutil.copytree(ROOT / name, folder / name)
    return folder


def files_of(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def add(folder, kind, id_="added", **options):
    given = options.pop("given", {})
    return add_record(read_case(folder), kind, id_, given=given, **options)


def assert_only_inserted(before, after, added):
    """Every file is as it was, but for one run of bytes put into the one that was written."""
    others = {name: content for name, content in after.items() if name != added.file}
    assert others == {name: content for name, content in before.items() if name != added.file}
    old, new = before.get(added.file, b""), after[added.file]
    start = next((at for at, (a, b) in enumerate(zip(old, new, strict=False)) if a != b), len(old))
    assert new.endswith(old[start:]), "something behind the new record was changed"
