"""YAML of records outside the folders of records is told; YAML of anything else is nobody's business."""

from pathlib import Path

import pytest
from marked_text import write_case

from assurance.reading import read_case

RECORDS = "parts:\n  spare: {title: Spare}\n"
TOLD = ("spare.yml", "part/spare.yaml", "Hazards/spare.YML")
NOT_LOOKED_AT = (
    ".hidden/spare.yml",
    "site/spare.yml",
    "guide/spare.yml",
    "deep/below/spare.yml",
    "spare.txt",
)
NO_RECORDS = {
    "settings": "name: x\nparts:\n  spare: {title: Spare}\n",
    "a list below a kind": "actions:\n  - run: make\n",
    "a word below a kind": "parts: all\n",
    "nothing": "",
    "no text at all": "\x00\x01",
}


def told_of(folder: Path, name: str, text: str) -> list[str]:
    case = write_case(folder / "case", "")
    (case / name).parent.mkdir(parents=True, exist_ok=True)
    (case / name).write_text(text)
    return [f"{one.rule} {one.place}" for one in read_case(case).findings]


@pytest.mark.parametrize("name", TOLD)
def test_records_that_would_go_missing_are_told(name: str, tmp_path: Path) -> None:
    assert told_of(tmp_path, name, f"# Spare parts.\n\n{RECORDS}") == [f"records-misplaced {name}:3:1"]


@pytest.mark.parametrize("name", NOT_LOOKED_AT)
def test_other_folders_are_not_looked_into(name: str, tmp_path: Path) -> None:
    assert told_of(tmp_path, name, RECORDS) == []


@pytest.mark.parametrize("name", NO_RECORDS)
def test_yaml_that_holds_no_records_is_let_be(name: str, tmp_path: Path) -> None:
    assert told_of(tmp_path, "other.yml", NO_RECORDS[name]) == []


def test_a_link_is_not_followed(tmp_path: Path) -> None:
    case = write_case(tmp_path / "case", "")
    (tmp_path / "away").mkdir()
    (tmp_path / "away" / "spare.yml").write_text(RECORDS)
    (case / "away").symlink_to(tmp_path / "away")
    (case / "spare.yml").symlink_to(tmp_path / "away" / "spare.yml")

    assert read_case(case).findings == ()
