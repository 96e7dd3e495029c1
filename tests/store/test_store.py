"""The cache on disk: whole files, by key, and nothing that stops a build."""

from pathlib import Path

import pytest

from assurance.store import Store, default_store

KEY = "ab" + "0" * 62


def test_what_was_put_comes_back(tmp_path):
    store = Store(tmp_path)
    store.put(KEY, {"value": 1.5, "words": ["a", "b"]})
    assert store.get(KEY) == {"value": 1.5, "words": ["a", "b"]}
    assert [path.name for path in (tmp_path / "ab").iterdir()] == [f"{KEY}.json"]


def test_a_key_that_was_not_put_is_not_there(tmp_path):
    assert Store(tmp_path / "nowhere").get(KEY) is None


def test_the_later_value_stands(tmp_path):
    store = Store(tmp_path)
    store.put(KEY, {"value": 1})
    store.put(KEY, {"value": 2})
    assert store.get(KEY) == {"value": 2}


@pytest.mark.parametrize("key", ["", "../../etc/passwd", "AB" + "0" * 62, "ab", KEY + "\n"])
def test_only_a_digest_is_a_key(tmp_path, key):
    with pytest.raises(ValueError, match="64 hex digits"):
        Store(tmp_path).get(key)


@pytest.mark.parametrize("text", ["[1]", "{", "3", '{"a": NaN}', '{"a": Infinity}'])
def test_what_is_no_plain_object_is_not_there(tmp_path, text):
    store = Store(tmp_path)
    store.put(KEY, {})
    (tmp_path / "ab" / f"{KEY}.json").write_text(text)
    assert store.get(KEY) is None


def test_the_folder_is_the_one_that_is_named(monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", "/somewhere/else")
    assert default_store().folder == Path("/somewhere/else")


def test_else_it_lies_in_the_cache_folder_of_the_user(monkeypatch):
    monkeypatch.delenv("HOLDWATER_CACHE", raising=False)
    monkeypatch.setenv("XDG_CACHE_HOME", "/cache")
    assert default_store().folder == Path("/cache/holdwater")
    monkeypatch.delenv("XDG_CACHE_HOME")
    monkeypatch.setenv("HOME", "/home/someone")
    assert default_store().folder == Path("/home/someone/.cache/holdwater")
