"""Files that records name: what is found on disk, and what cannot be used."""

import hashlib
import os
from pathlib import Path

import pytest
from marked_text import write_case

from assurance.model.case import CaseText, FileFact
from assurance.reading import read_case
from assurance.reading.data_files import is_unchanged

CONTENT = b"load,displacement\n1,2\n"


def named(folder: Path, *names: str) -> CaseText:
    """A case in which evidence names these files beside a data file that is there."""
    listed = "".join(f"      - {name}\n" for name in names)
    text = f"evidence:\n  drop:\n    title: Drop\n    kind: test\n    files:\n{listed}"
    case_folder = write_case(folder / "case", text)
    (case_folder / "claims" / "data").mkdir()
    (case_folder / "claims" / "data" / "drop.csv").write_bytes(CONTENT)
    return read_case(case_folder)


def test_a_file_has_its_path_size_and_digest(tmp_path: Path) -> None:
    case = named(tmp_path, "data/drop.csv")

    absolute = (case.folder / "claims/data/drop.csv").resolve()
    digest = hashlib.sha256(CONTENT).hexdigest()
    expected = FileFact("data/drop.csv", "claims/data/drop.csv", str(absolute), digest, len(CONTENT))
    assert case.files == {("drop", "data/drop.csv"): expected}


def test_two_names_of_one_file_have_one_path(tmp_path: Path) -> None:
    case = named(tmp_path, "data/drop.csv", "data/../data/drop.csv")

    assert {fact.path for fact in case.files.values()} == {"claims/data/drop.csv"}
    assert len(case.files) == 2


def test_a_file_that_cannot_be_used_says_why_and_is_no_finding(tmp_path: Path) -> None:
    case = named(tmp_path, "gone.csv", "data", "x" * 400, '"a\\tb"')

    faults = {name: fact.fault for (_, name), fact in case.files.items()}
    assert case.findings == ()
    assert faults["gone.csv"] == "is not there"
    assert faults["data"] == "is a folder, not a file"
    assert all(faults.values())


def test_a_queue_is_not_waited_for(tmp_path: Path) -> None:
    case_folder = named(tmp_path, "queue").folder
    os.mkfifo(case_folder / "claims" / "queue")

    assert read_case(case_folder).files["drop", "queue"].fault == "is not an ordinary file"


def test_a_link_out_of_the_case_is_a_finding_and_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "secret.csv").write_bytes(CONTENT)
    case_folder = named(tmp_path, "link.csv").folder
    (case_folder / "claims" / "link.csv").symlink_to(tmp_path / "secret.csv")

    case = read_case(case_folder)

    assert [(f.rule, f.place.line) for f in case.findings] == [("file-outside-the-case", 6)]
    assert case.files["drop", "link.csv"] == FileFact("link.csv", fault="lies outside the case folder")


def test_a_loop_of_links_is_told(tmp_path: Path) -> None:
    case_folder = named(tmp_path, "one.csv").folder
    (case_folder / "claims" / "one.csv").symlink_to("two.csv")
    (case_folder / "claims" / "two.csv").symlink_to("one.csv")

    case = read_case(case_folder)

    assert case.findings == ()
    assert case.files["drop", "one.csv"].fault


def test_files_of_calculations_and_tables_are_facts_too(tmp_path: Path) -> None:
    text = (
        "calculations:\n"
        "  basis: {title: A, method: allowables, inputs: {values: {file: a.csv, column: s, unit: MPa}}}\n"
        "  least:\n    title: B\n    method: reserve_factors\n"
        "    table: {file: b.csv, columns: {part: Part, sxx: SXX}, unit: MPa}\n"
    )

    case = read_case(write_case(tmp_path, text))

    assert case.findings == ()
    assert set(case.files) == {("basis", "a.csv"), ("least", "b.csv")}


@pytest.mark.parametrize(("change", "same"), [("nothing", True), ("bytes", False), ("gone", False)])
def test_a_fact_is_of_the_bytes_that_were_there(tmp_path: Path, change: str, same: bool) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(b"1,2\n")
    fact = FileFact("a.csv", "a.csv", str(path), hashlib.sha256(b"1,2\n").hexdigest(), 4)
    if change == "bytes":
        path.write_bytes(b"1,3\n")
    elif change == "gone":
        path.unlink()
    assert is_unchanged(fact) is same


def test_what_could_not_be_read_has_no_bytes_to_change() -> None:
    assert is_unchanged(FileFact("a.csv", "a.csv", fault="is not there"))
