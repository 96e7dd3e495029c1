"""The demo's data files come from their script, and its evidence carries their digests."""

from pathlib import Path

import pytest
from demo_case import ROOT, SMALL, digest
from make_data import tables, write_all

from assurance.model.engineering_records import EvidenceRecord
from assurance.reading import read_case


def test_the_script_makes_the_committed_data_files_again_byte_for_byte(tmp_path: Path) -> None:
    write_all(tmp_path)
    made = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    kept = {path.name: path.read_bytes() for path in (ROOT / "claims" / "data").iterdir()}
    assert made == kept


def test_the_stress_table_has_several_thousand_rows_and_six_load_cases() -> None:
    heading, *rows = tables()["bracket-frame-stress.csv"]
    assert len(rows) == 2 * 320 * 6
    assert {row[list(heading).index("case")] for row in map(list, rows)} == {
        "LC1", "LC2", "LC3", "LC4", "LC5", "LC6",
    }  # fmt: skip


@pytest.mark.parametrize("folder", [ROOT, SMALL], ids=["demo", "small"])
def test_every_file_of_evidence_has_the_digest_that_its_record_states(folder: Path) -> None:
    case = read_case(folder)
    named = [
        (id_, file) for id_, entry in case.of_kind("evidence").items()
        if isinstance(entry.record, EvidenceRecord) for file in entry.record.files
    ]  # fmt: skip
    assert named
    for id_, file in named:
        on_disk = Path(case.files[id_, file.file].absolute)
        assert digest(on_disk) == file.sha256, f"{id_}: {file.file}"


def test_every_report_file_of_the_demo_belongs_to_a_record_and_says_that_it_is_invented() -> None:
    case = read_case(ROOT)
    named = {Path(fact.absolute).name for fact in case.files.values()}
    for path in (ROOT / "claims" / "reports").iterdir():
        assert path.name in named, f"{path.name} belongs to no record"
        assert path.read_text("utf-8").startswith("INVENTED DEMONSTRATION.")


def test_every_record_file_of_the_demo_says_that_it_is_invented() -> None:
    for path in [*(ROOT / "claims").glob("*.yml"), *(ROOT / "hazards").glob("*.yml")]:
        assert "INVENTED" in "".join(path.read_text("utf-8").splitlines()[:3]), path.name
