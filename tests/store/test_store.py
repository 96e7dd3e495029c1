"""The cache on disk: whole files, by key, and nothing that stops a build."""

import json
from pathlib import Path

import pytest

from assurance.store import Store, cache_folder, cache_folder_for, store_for

KEY = "ab" + "0" * 62
VALUE = {"value": 1.5, "words": ["a", "b"]}


def file_of(folder):
    return folder / "ab" / f"{KEY}.json"


@pytest.fixture
def written(tmp_path):
    store = Store(tmp_path)
    store.put(KEY, VALUE)
    return store


def test_what_was_put_comes_back(tmp_path, written):
    assert written.get(KEY) == VALUE
    assert [path.name for path in (tmp_path / "ab").iterdir()] == [f"{KEY}.json"]


def test_a_file_of_the_store_is_json(tmp_path):
    Store(tmp_path).put(KEY, VALUE)
    assert json.loads(file_of(tmp_path).read_text())["value"] == VALUE


def test_a_key_that_was_not_put_is_not_there(tmp_path):
    assert Store(tmp_path / "nowhere").get(KEY) is None


def test_the_later_value_stands(written):
    written.put(KEY, {"value": 2})
    assert written.get(KEY) == {"value": 2}


@pytest.mark.parametrize("key", ["", "../../etc/passwd", "AB" + "0" * 62, "ab", KEY + "\n"])
def test_only_a_digest_is_a_key(tmp_path, key):
    with pytest.raises(ValueError, match="64 hex digits"):
        Store(tmp_path).get(key)


@pytest.mark.parametrize(
    "text", ["", "[1]", "{", "3", "{}", '{"a": NaN}', '{"a": Infinity}', '{"value": {}}']
)
def test_what_is_no_file_of_the_store_is_not_there(tmp_path, written, text):
    file_of(tmp_path).write_text(text)
    assert written.get(KEY) is None


def test_a_file_that_was_cut_short_or_changed_anywhere_is_not_there(tmp_path, written):
    whole = file_of(tmp_path).read_bytes()
    for at in range(len(whole)):
        file_of(tmp_path).write_bytes(whole[:at])
        assert written.get(KEY) is None
        file_of(tmp_path).write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert written.get(KEY) is None


def test_a_folder_where_a_file_should_lie_stops_nothing(tmp_path):
    file_of(tmp_path).mkdir(parents=True)
    Store(tmp_path).put(KEY, VALUE)
    assert Store(tmp_path).get(KEY) is None


def test_the_folder_is_the_one_that_is_named(monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", "/somewhere/else")
    assert cache_folder() == Path("/somewhere/else")


def test_else_it_lies_in_the_cache_folder_of_the_user(monkeypatch):
    monkeypatch.delenv("HOLDWATER_CACHE", raising=False)
    monkeypatch.setenv("XDG_CACHE_HOME", "/cache")
    assert cache_folder() == Path("/cache/holdwater")
    monkeypatch.delenv("XDG_CACHE_HOME")
    monkeypatch.setenv("HOME", "/home/someone")
    assert cache_folder() == Path("/home/someone/.cache/holdwater")


@pytest.mark.parametrize("inside", [".", ".cache", "claims/../x/y"])
def test_a_cache_inside_the_case_is_never_used(tmp_path, monkeypatch, inside):
    monkeypatch.chdir(tmp_path)
    for named in (tmp_path / inside, inside):
        monkeypatch.setenv("HOLDWATER_CACHE", str(named))
        assert cache_folder_for(tmp_path) is None
        assert store_for(Path()) is None


def test_nor_one_that_a_link_leads_into_the_case(tmp_path, monkeypatch):
    (tmp_path / "case").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "case")
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path / "link" / "cache"))
    assert store_for(tmp_path / "case") is None


def test_a_cache_beside_the_case_is_used(tmp_path, monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path / "case-cache"))
    assert store_for(tmp_path / "case") == Store(tmp_path / "case-cache")
