"""What stands in the cache is asked for its digest and its shape; anything else is worked out again."""

import hashlib
import json
import pickle
import random

import pytest
from click.testing import CliRunner
from hostile_case import site_texts, write_case

from assurance.cli import main

pytestmark = pytest.mark.slow  # each test publishes

SCRIPT = "<script>alert(1)</script>"


class Runs:
    """Leaves a canary when it is unpickled."""

    def __init__(self, canary):
        self.canary = canary

    def __reduce__(self):
        return open, (str(self.canary), "w")


CONTENTS = {
    "nothing": b"",
    "zeros": b"\0" * 4096,
    "a list": b"[]",
    "null": b"null",
    "a long number": b"9" * 5000,
    "a deep list": b"[" * 100_000,
    "not text": b"\xff\xfe{}",
}


@pytest.fixture
def case(tmp_path, monkeypatch):
    monkeypatch.setenv("HOLDWATER_CACHE", str(tmp_path / "cache"))
    return write_case(tmp_path / "case")


def build(case):
    """The site of a case and what `check` says of it, each made with the cache as it is."""
    outputs = []
    for command in ("build", "check"):
        done = CliRunner().invoke(main, [command, str(case)], catch_exceptions=False)
        assert done.exit_code in (0, 1), done.output
        outputs.append(done.output)
    return site_texts(case / "site"), outputs


def assert_same(found, clean):
    """The same site, file by file, and the same words."""
    assert {name for name in found[0] | clean[0] if found[0].get(name) != clean[0].get(name)} == set()
    assert found[1] == clean[1]


def poison(folder, change, *, frames=False):
    """Changes every file of the cache; frames, which take long to render again, where that is asked for."""
    files = [file for file in sorted(folder.rglob("*.json")) if frames or "frames" not in file.parts]
    assert files
    for file in files:
        file.write_bytes(change(file.read_bytes()))


def restated(value):
    """A file of the store with the digest that belongs to its value: only its shape can tell."""
    text = json.dumps(value, separators=(",", ":")).encode("ascii")
    return b'{"sha256":"%b","value":%b}' % (hashlib.sha256(text).hexdigest().encode(), text)


def leaves(value, put):
    """The value with every leaf replaced."""
    if isinstance(value, dict):
        return {key: leaves(one, put) for key, one in value.items()}
    return [leaves(one, put) for one in value] if isinstance(value, list) else put


@pytest.mark.parametrize("name", CONTENTS)
def test_a_cache_file_of_another_content_is_not_there(case, tmp_path, name):
    clean = build(case)
    poison(tmp_path / "cache", lambda _: CONTENTS[name])
    assert_same(build(case), clean)


def test_a_cache_file_that_was_cut_short_or_pickled_is_not_there(case, tmp_path):
    clean = build(case)
    poison(tmp_path / "cache", lambda old: old[: len(old) // 2], frames=True)
    assert_same(build(case), clean)
    poison(tmp_path / "cache", lambda _: pickle.dumps(Runs(tmp_path / "canary")))
    assert_same(build(case), clean)
    assert not (tmp_path / "canary").exists()


def test_a_changed_letter_is_told_by_the_digest(case, tmp_path):
    clean = build(case)
    poison(tmp_path / "cache", lambda old: old.replace(b"a", b"A").replace(b"1", b"2"), frames=True)
    assert_same(build(case), clean)


@pytest.mark.parametrize("put", [SCRIPT, 7, None, 1e300, True, [], {}], ids=repr)
def test_values_of_another_shape_are_not_taken_even_with_their_digest(case, tmp_path, put):
    clean = build(case)
    poison(tmp_path / "cache", lambda old: restated(leaves(json.loads(old)["value"], put)))
    assert_same(build(case), clean)


def one_leaf(value, put, rng):
    """The value with one leaf, drawn at random, replaced."""
    if not isinstance(value, (dict, list)) or not value:
        return put
    at = rng.choice(sorted(value)) if isinstance(value, dict) else rng.randrange(len(value))
    changed = dict(value) if isinstance(value, dict) else list(value)
    changed[at] = one_leaf(value[at], put, rng)
    return changed


def test_markup_in_any_one_value_never_becomes_markup_of_a_page(case, tmp_path):
    build(case)
    rng = random.Random(7)
    for _ in range(40):
        poison(tmp_path / "cache", lambda old: restated(one_leaf(json.loads(old)["value"], SCRIPT, rng)))
        site, _ = build(case)
        assert not [name for name, text in site.items() if name.endswith(".html") and SCRIPT in text]


def changed_frames(cache, change):
    for file in sorted((cache / "frames").rglob("*.json")):
        value = json.loads(file.read_text())["value"]
        file.write_bytes(restated({name: change(html) for name, html in value.items()}))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("<body>", f"<body>{SCRIPT}"),
        ("<body>", '<body><script src="https://example.org/x.js"></script>'),
        ("<body>", '<body><SCRIPT SRC="x.js"></SCRIPT>'),
        ("script-src 'self'", "script-src *"),
        ('<meta http-equiv="Content-Security-Policy"', '<meta name="policy"'),
        ("<!--slot:main-->", ""),
        ("<!--slot:main-->", "<!--slot:main--><!--slot:main-->"),
        ("<!--slot:item-->", "<!--slot:no-such-slot-->"),
        ("<!--slot:item-->", "<!--slot:count:no-such-page-->"),
    ],
)
def test_a_frame_that_this_program_would_not_render_is_rendered_again(case, tmp_path, old, new):
    clean = build(case)
    changed_frames(tmp_path / "cache", lambda html: html.replace(old, new))
    assert_same(build(case), clean)


def test_frames_that_lost_a_page_are_rendered_again(case, tmp_path):
    clean = build(case)
    file = next((tmp_path / "cache" / "frames").rglob("*.json"))
    value = json.loads(file.read_text())["value"]
    file.write_bytes(restated({name: html for name, html in value.items() if name != "gaps"}))
    assert_same(build(case), clean)


@pytest.mark.parametrize("inside", ["cache", "claims/cache", ".cache", "."])
def test_a_cache_folder_inside_the_case_is_neither_read_nor_written(tmp_path, monkeypatch, inside):
    case = write_case(tmp_path / "case")
    before = sorted(case.rglob("*"))
    monkeypatch.setenv("HOLDWATER_CACHE", str(case / inside))
    for command in (["check"], ["build", "--site-dir", str(tmp_path / "site")], ["explain", "top", "--case"]):
        CliRunner().invoke(main, [*command, str(case)], catch_exceptions=False)
        assert sorted(case.rglob("*")) == before
