"""A spoilt answer in the store is not there; one that gets through is whole."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kept_case import honest, write_case
from spoiling import ODD, leaves, with_another

from assurance.checking import check_case
from assurance.checking.followed import program_digest
from assurance.checking.kept import Kept, from_plain, to_plain
from assurance.store import Store


@pytest.fixture(scope="module")
def plain(tmp_path_factory):
    answer = honest(write_case(tmp_path_factory.mktemp("case")))
    return to_plain(Kept("0" * 64, (("claims", "data/rig.csv"),), "1" * 64, answer))


@given(data=st.data())
def test_a_value_of_another_type_anywhere_never_crashes_nor_gets_through(plain, data):
    path = data.draw(st.sampled_from([one for one in leaves(plain) if one]))
    odd = with_another(plain, path, data.draw(st.sampled_from(ODD)))
    found = from_plain(odd)
    assert found is None or to_plain(found) == odd


def test_a_part_that_is_not_there_makes_the_whole_not_there(plain):
    for gone in plain:
        assert from_plain({key: value for key, value in plain.items() if key != gone}) is None


@pytest.mark.parametrize("file", ["../../secret.yml", "/etc/passwd", "claims/other.yml"])
def test_an_answer_that_speaks_of_a_file_outside_the_case_is_not_given(tmp_path, file):
    case, store = write_case(tmp_path / "case"), Store(tmp_path / "store")
    check_case(case, store=store)
    kept = next(path.stem for path in store.folder.rglob("*.json") if "texts" in (store.get(path.stem) or {}))
    entry = store.get(kept)
    entry["findings"][0][3] = file
    store.put(kept, entry)
    assert check_case(case, store=store) == honest(case)


def program(folder, *, code="VERSION = 1\n", library="numpy-2.0"):
    """The digest of a program with this code and this library, each in a folder of its own."""
    (folder / "package" / "methods").mkdir(parents=True)
    (folder / "package" / "methods" / "one.py").write_text(code)
    (folder / "library" / f"{library}.dist-info").mkdir(parents=True)
    return program_digest(folder / "package", (str(folder / "library"), str(folder / "nowhere")))


def test_the_program_is_told_by_its_code_and_by_what_is_installed(tmp_path):
    first = program(tmp_path / "1")
    assert program(tmp_path / "2") == first
    others = {program(tmp_path / "3", code="VERSION = 2\n"), program(tmp_path / "4", library="numpy-2.1")}
    assert len({first, *others}) == 3


def test_a_program_whose_code_cannot_be_read_keeps_nothing(tmp_path):
    assert program_digest(tmp_path) == ""
