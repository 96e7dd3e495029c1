"""`check` answers from the store only while nothing that the answer follows from has changed."""

import os
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path
from threading import Timer

import pytest
from kept_case import CASE, ROWS, honest, mark_kept_answers, rewrite_in_place, write_case

from assurance.checking import check_case
from assurance.store import Store

PACKAGE = Path(__file__).parents[2] / "assurance"


@pytest.fixture
def case(tmp_path):
    return write_case(tmp_path / "case")


@pytest.fixture
def store(tmp_path, case):
    """A store with the answer of the case, marked so that it can be told from an honest one."""
    kept = Store(tmp_path / "store")
    check_case(case, store=kept)
    assert mark_kept_answers(kept) == 1
    return kept


def test_while_nothing_changes_the_kept_answer_is_given(case, store):
    assert check_case(case, store=store).case == "kept"


def test_the_kept_answer_is_the_one_that_was_worked_out(tmp_path, case):
    kept = Store(tmp_path / "store")
    first = check_case(case, store=kept)
    assert check_case(case, store=kept) == first == honest(case)
    assert {one.rule for one in first.findings} >= {"file-missing", "file-without-digest"}


def comment(case):
    path = case / "claims/case.yml"
    path.write_text(CASE + "# looked at\n", "utf-8")


def comment_of_the_same_size_and_time(case):
    rewrite_in_place(case / "claims/case.yml", "It was tested", "It was TESTED")


def data_of_the_same_size_and_time(case):
    rewrite_in_place(case / "claims/data/rig.csv", "500", "501")


def data_file_gone(case):
    (case / "claims/data/rig.csv").unlink()


def data_file_come(case):
    (case / "claims/data/gone.txt").write_text("here", "utf-8")


def data_file_now_a_folder(case):
    (case / "claims/data/rig.csv").unlink()
    (case / "claims/data/rig.csv").mkdir()


def data_file_now_a_link_inside(case):
    (case / "claims/data/rig.csv").rename(case / "moved.csv")
    (case / "claims/data/rig.csv").symlink_to(case / "moved.csv")


def data_file_now_a_link_outside(case):
    (case / "claims/data/rig.csv").rename(case.parent / "moved.csv")
    (case / "claims/data/rig.csv").symlink_to(case.parent / "moved.csv")


def data_folder_now_a_link_outside(case):
    (case / "claims/data").rename(case.parent / "moved")
    (case / "claims/data").symlink_to(case.parent / "moved")


def yaml_file_gone(case):
    (case / "hazards/sum.yml").unlink()


def yaml_file_come(case):
    (case / "hazards/empty.yaml").write_text("", "utf-8")


def yaml_file_renamed(case):
    (case / "hazards/sum.yml").rename(case / "hazards/other.yml")


def yaml_file_now_a_link_outside(case):
    (case / "hazards/sum.yml").rename(case.parent / "sum.yml")
    (case / "hazards/sum.yml").symlink_to(case.parent / "sum.yml")


def yaml_file_in_another_encoding(case):
    (case / "hazards/sum.yml").write_bytes("# größer\n".encode("latin-1"))


def records_in_another_folder(case):
    (case / "elsewhere").mkdir()
    (case / "elsewhere/more.yml").write_text("claims:\n  more: {statement: More.}\n", "utf-8")


def a_file_named_nearly_like_the_missing_one(case):
    (case / "claims/data/gome.txt").write_text("nearly", "utf-8")


def yaml_file_with_a_mark_of_byte_order(case):
    (case / "hazards/sum.yml").write_bytes(b"\xff\xfe" + (case / "hazards/sum.yml").read_bytes())


def folder_of_records_gone(case):
    shutil.rmtree(case / "hazards")


def settings_changed(case):
    (case / "mkdocs.yml").write_text("site_name: Device\nsite_dir: claims\n", "utf-8")


def settings_gone(case):
    (case / "mkdocs.yml").unlink()


def site_folder_now_a_link_outside(case):
    (case / "site").symlink_to(case.parent)


CHANGES = (
    comment, comment_of_the_same_size_and_time, data_of_the_same_size_and_time, data_file_gone,
    data_file_come, data_file_now_a_folder, data_file_now_a_link_inside, data_file_now_a_link_outside,
    data_folder_now_a_link_outside, yaml_file_gone, yaml_file_come, yaml_file_renamed,
    yaml_file_now_a_link_outside, yaml_file_in_another_encoding, yaml_file_with_a_mark_of_byte_order,
    records_in_another_folder, a_file_named_nearly_like_the_missing_one, folder_of_records_gone,
    settings_changed, settings_gone,
)  # fmt: skip


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.__name__)
def test_after_a_change_the_answer_is_worked_out_again(case, store, change):
    change(case)
    assert check_case(case, store=store) == honest(case)
    assert check_case(case, store=store) == honest(case)  # the one kept now


def test_a_site_folder_that_becomes_a_link_out_of_the_case_is_seen(case, tmp_path):
    kept = Store(tmp_path / "store")
    (case / "mkdocs.yml").write_text("site_name: Device\nsite_dir: site\n", "utf-8")
    check_case(case, store=kept)
    site_folder_now_a_link_outside(case)
    answer = check_case(case, store=kept)
    assert answer == honest(case)
    assert "folder-not-usable" in {one.rule for one in answer.findings}


def without_rights(path, case, store):
    path.chmod(0)
    try:
        answer, again = check_case(case, store=store), honest(case)
    finally:
        path.chmod(0o755)
    return answer, again


@pytest.mark.parametrize("name", ["claims/data/rig.csv", "claims/data", "hazards", "claims/case.yml"])
def test_what_may_not_be_read_any_more_is_seen(case, store, name):
    path = case / name
    path.chmod(0)
    may = os.access(path, os.R_OK)
    path.chmod(0o755)
    if may:
        pytest.skip("who runs this may read what nobody may")
    answer, again = without_rights(path, case, store)
    assert answer == again


@pytest.mark.parametrize("name", ["claims/data/rig.csv", "claims/data", "hazards", "claims/case.yml"])
def test_taking_rights_away_never_brings_another_answer_than_an_empty_store(case, tmp_path, name):
    kept = Store(tmp_path / "store")
    check_case(case, store=kept)
    answer, again = without_rights(case / name, case, kept)
    assert answer == again


def test_each_day_has_its_own_answer(case, store):
    for day in (date(2020, 1, 1), date(2030, 1, 1)):
        assert check_case(case, day=day, store=store) == honest(case, day)
    assert check_case(case, store=store).case == "kept"


def test_a_copy_of_the_case_has_its_own_answer(case, store, tmp_path):
    shutil.copytree(case, tmp_path / "copy")
    assert check_case(tmp_path / "copy", store=store) == honest(tmp_path / "copy")


def test_a_folder_that_is_not_there_is_told_with_any_store(tmp_path, store):
    assert check_case(tmp_path / "nowhere", store=store) == honest(tmp_path / "nowhere")


def check_in(package, case, store):
    """The name of the case as a new process answers it, with the package that lies in a folder."""
    program = (
        "import sys; from pathlib import Path; from assurance.checking import check_case; "
        "from assurance.store import Store; "
        "print(check_case(Path(sys.argv[1]), store=Store(Path(sys.argv[2]))).case)"
    )
    command = [sys.executable, "-c", program, str(case), str(store.folder)]
    environment = {**os.environ, "PYTHONPATH": str(package)}
    ran = subprocess.run(command, env=environment, cwd=package, capture_output=True, text=True, check=True)
    return ran.stdout.strip()


@pytest.mark.slow
def test_a_new_version_of_a_method_brings_a_new_answer(case, tmp_path):
    package = tmp_path / "package"
    shutil.copytree(PACKAGE, package / "assurance", ignore=shutil.ignore_patterns("__pycache__"))
    kept = Store(tmp_path / "store")
    assert check_in(package, case, kept) == "device"
    assert mark_kept_answers(kept) == 1
    assert check_in(package, case, kept) == "kept"
    method = package / "assurance/methods/allowables.py"
    method.write_text(method.read_text("utf-8") + "# another version\n", "utf-8")
    assert check_in(package, case, kept) == "device"


@pytest.mark.parametrize("tenths", range(0, 100, 2))
def test_a_file_that_changes_while_it_is_worked_on_leaves_nothing_wrong_kept(case, tmp_path, tenths):
    """The file is itself at first, another one some tenths of a millisecond later, and itself again."""
    kept, path = Store(tmp_path / "store"), case / "claims/data/rig.csv"
    writer = Timer(tenths / 10_000, path.write_text, [ROWS.replace("500", "100"), "utf-8"])
    writer.start()
    check_case(case, store=kept)
    writer.join()
    path.write_text(ROWS, "utf-8")
    assert check_case(case, store=kept) == honest(case)
