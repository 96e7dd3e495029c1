"""What is kept, in memory or on disk, never changes what is concluded: random edits of the demonstration."""

import os
import random
import shutil
from pathlib import Path

import pytest
from case_copy import copy_demo

from assurance.assess import assess
from assurance.checking import check_case, checked
from assurance.checking.readings import WORTH_KEEPING
from assurance.checking.rechecking import Rechecker
from assurance.reading import read_case
from assurance.store import Store

EDITS = int(os.environ.get("HOLDWATER_EDITS", "50"))
SEED = 20260312
ODD_LINES = (
    "    odd_key: 1\n", "  two: words: here\n", "\t- tab\n",
    "# a comment\n", "claims:\n", "    owner: nobody\n",
)  # fmt: skip


def lines_of(path):
    return path.read_text("utf-8").splitlines(keepends=True)


def drop_a_line(path, draw):
    lines = lines_of(path)
    del lines[draw.randrange(len(lines))]
    path.write_text("".join(lines), "utf-8")


def write_a_line_twice(path, draw):
    lines = lines_of(path)
    at = draw.randrange(len(lines))
    path.write_text("".join([*lines[:at], lines[at], *lines[at:]]), "utf-8")


def put_an_odd_line_in(path, draw):
    lines = lines_of(path)
    lines.insert(draw.randrange(len(lines)), draw.choice(ODD_LINES))
    path.write_text("".join(lines), "utf-8")


def change_a_digit(path, draw):
    text = path.read_text("utf-8")
    digits = [at for at, sign in enumerate(text) if sign.isdigit()]
    at = draw.choice(digits) if digits else 0
    path.write_text(f"{text[:at]}{draw.randrange(10)}{text[at + 1 :]}", "utf-8")


def swap_two_words(path, draw):
    text = path.read_text("utf-8")
    one, other = (draw.choice(text.split()) for _ in range(2))
    path.write_text(text.replace(one, other, 1), "utf-8")


def take_away(path, _):
    path.unlink()


def edit_something(folder, draw):
    """One edit of one file: mostly of a YAML file, else of a data file."""
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    texts = [path for path in files if path.suffix == ".yml"]
    data = [path for path in files if path.suffix == ".csv"]
    ways = (drop_a_line, write_a_line_twice, put_an_odd_line_in, change_a_digit, swap_two_words)
    if draw.random() < 0.75:
        draw.choice(ways)(draw.choice(texts), draw)
    else:
        draw.choice((*ways, take_away))(draw.choice(data), draw)


def plain(case, assessment):
    """Everything of a case and of what is concluded about it that can be compared."""
    read = (case.settings, case.entries, case.findings, case.files, case.texts)
    return read, assessment, [case.as_written(id_) for id_ in case.entries]


@pytest.mark.slow
def test_kept_readings_and_results_conclude_what_fresh_ones_do(tmp_path):
    draw, store, folder = random.Random(SEED), Store(tmp_path / "store"), tmp_path / "case"
    going_on = None
    for _ in range(EDITS):
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir()
        copy_demo(folder)
        for _ in range(draw.randrange(3)):
            edit_something(folder, draw)
        going_on = going_on or Rechecker(folder, store=store)
        case = read_case(folder)
        fresh = plain(case, assess(case))
        assert plain(*going_on.again()) == fresh
        assert plain(*Rechecker(folder, store=store).again()) == fresh
        for _ in range(2):  # worked out, then told again
            assert check_case(folder, store=store) == checked(fresh[1])


def test_a_reading_that_comes_back_from_the_store_is_the_one_that_was_put_there(tmp_path):
    folder, store = copy_demo(tmp_path), Store(tmp_path / "store")
    first = Rechecker(folder, store=store).again()[0]
    again = Rechecker(folder, store=store).again()[0]
    kept = [path for path in Path(store.folder).rglob("*.json") if b'"written"' in path.read_bytes()]
    assert len(kept) == sum(len(path.read_text("utf-8")) >= WORTH_KEEPING for path in folder.rglob("*.yml"))
    assert again.entries == first.entries
    assert again.files == first.files
