"""What a calculation is kept under, what comes back, and what a spoilt store cannot do."""

import json
import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_case import PARTS, ULTIMATE, read, worked

from assurance.calculations import stored
from assurance.model.assessment import ResultValue
from assurance.store import Store

BY_HAND = """
calculations:
  sum:
    title: Bracket
    method: reserve_factors
    author: somebody
    inputs: {applied: 100 MPa, allowable: {material: alloy.ultimate}, part: bracket, load_case: heave}
"""
TABLE = """
calculations:
  sum:
    title: Table
    method: reserve_factors
    table: {file: stress.csv, unit: MPa, columns: {part: p, load_case: l, sxx: s, syy: t, szz: u, sxy: t}}
    criteria: [{criterion: yield, stress: max_shear, allowable: {material: alloy.ultimate}}]
"""
STRESS = "p,l,s,t,u\nbracket,heave,100,30,-20\nframe,drop,-50,20,10\n"
COUPONS = """
calculations:
  sum:
    title: Coupons
    method: allowables
    inputs:
      values: {file: c.csv, column: v, unit: MPa}
      batch: {file: c.csv, column: b}
"""
VALUES = "v,b,p\n" + "".join(f"{500 + at * 7 % 11},b{at % 3},p{at % 4}\n" for at in range(20))
CASES = {
    "by hand": ((PARTS, ULTIMATE, BY_HAND), {}),
    "table": ((PARTS, ULTIMATE, TABLE), {"stress_csv": STRESS}),
    "coupons": ((COUPONS,), {"c_csv": VALUES}),
}


def case_of(folder, name):
    given, files = CASES[name]
    return read(folder, *given, **files)


def files_of(store):
    return sorted(store.folder.rglob("*.json"))


@pytest.mark.parametrize("name", CASES)
def test_what_comes_back_from_the_store_is_what_was_worked_out(tmp_path, name):
    case, store = case_of(tmp_path / "case", name), Store(tmp_path / "store")
    first, again = worked(case, store=store), worked(case, store=store)
    assert again == first == worked(case)
    assert len(files_of(store)) == 1
    assert stored.from_json(json.dumps(stored.to_plain(first)).encode()) == first


def key(folder, *given, **files):
    return worked(read(folder, *given, **files)).key


def test_the_key_does_not_know_title_author_or_id(tmp_path):
    one = key(tmp_path / "1", PARTS, ULTIMATE, BY_HAND)
    other = BY_HAND.replace("Bracket", "Another title").replace("somebody", "nobody")
    assert key(tmp_path / "2", PARTS, ULTIMATE, other) == one
    assert len(one) == 64


@pytest.mark.parametrize(
    ("old", "new"),
    [("100 MPa", "100.0001 MPa"), ("part: bracket", "part: frame"), ("100 MPa", "100 N/mm2")],
)
def test_the_key_changes_with_every_input(tmp_path, old, new):
    one = key(tmp_path / "1", PARTS, ULTIMATE, BY_HAND)
    assert key(tmp_path / "2", PARTS, ULTIMATE, BY_HAND.replace(old, new)) != one


def test_the_key_changes_with_the_column_of_the_batches(tmp_path):
    unnamed = COUPONS.replace("      batch: {file: c.csv, column: b}\n", "")
    texts = (COUPONS, COUPONS.replace("column: b}", "column: p}"), unnamed)
    assert len({key(tmp_path / str(at), text, c_csv=VALUES) for at, text in enumerate(texts)}) == 3


def test_the_key_changes_with_factors_and_allowable(tmp_path):
    keys = {
        key(tmp_path / "1", PARTS, ULTIMATE, BY_HAND),
        key(tmp_path / "2", PARTS, ULTIMATE.replace("1.5", "1.6"), BY_HAND),
        key(tmp_path / "3", PARTS.replace("500 MPa, basis: A", "501 MPa, basis: A"), ULTIMATE, BY_HAND),
    }
    assert len(keys) == 3


@pytest.mark.parametrize("changed", [STRESS.replace("100", "101"), STRESS + "frame,drop,1,1,1\n"])
def test_the_key_of_a_table_changes_with_its_file(tmp_path, changed):
    one = key(tmp_path / "1", PARTS, ULTIMATE, TABLE, stress_csv=STRESS)
    assert key(tmp_path / "2", PARTS, ULTIMATE, TABLE, stress_csv=changed) != one


def test_the_key_of_a_table_changes_with_what_may_apply(tmp_path):
    one = key(tmp_path / "1", PARTS, ULTIMATE, TABLE, stress_csv=STRESS)
    inside = PARTS.replace("heave: {title: Heave,", "heave: {title: Heave, already_in: [ultimate],")
    assert key(tmp_path / "2", inside, ULTIMATE, TABLE, stress_csv=STRESS) != one
    narrowed = ULTIMATE.replace("value: 1.5", "value: 1.5, applies_to: {parts: [frame]}")
    assert key(tmp_path / "3", PARTS, narrowed, TABLE, stress_csv=STRESS) != one


SPOILT = (
    b"", b"not json", b"[]", b"{}", b"null", b"\xff\xfe", b'{"results": 3}', b"[" * 100_000, b'{"id": NaN}',
)  # fmt: skip


@pytest.mark.parametrize("spoilt", SPOILT, ids=range(len(SPOILT)))
def test_a_spoilt_file_is_not_there(tmp_path, spoilt):
    case, store = case_of(tmp_path / "case", "coupons"), Store(tmp_path / "store")
    honest = worked(case, store=store)
    files_of(store)[0].write_bytes(spoilt)
    assert worked(case, store=store) == honest


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999", "-1E+999"])
def test_a_number_that_is_none_is_not_there(tmp_path, number):
    honest = worked(case_of(tmp_path / "case", "coupons"))
    value = next(iter(honest.results))
    text = json.dumps(stored.to_plain(replace(honest, results={value: ResultValue(123.25, "MPa")})))
    assert stored.from_json(text.encode()) is not None
    assert stored.from_json(text.replace("123.25", number).encode()) is None


def leaves(plain, path=()):
    if isinstance(plain, dict | list):
        for at in plain if isinstance(plain, dict) else range(len(plain)):
            yield from leaves(plain[at], (*path, at))
    yield path


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_a_value_of_another_type_anywhere_never_crashes_nor_gets_through(tmp_path_factory, data):
    folder = tmp_path_factory.mktemp("spoilt")
    plain = stored.to_plain(worked(case_of(folder, "table")))
    path = data.draw(st.sampled_from([one for one in leaves(plain) if one]))
    odd = data.draw(st.sampled_from([None, True, "<b>", 1, -2.5, [], {}, ["symbol"], {"op": "call"}]))
    holder = plain
    for at in path[:-1]:
        holder = holder[at]
    holder[path[-1]] = odd
    found = stored.from_json(json.dumps(plain).encode())
    assert found is None or json.loads(json.dumps(stored.to_plain(found))) == plain


def test_results_of_another_method_are_not_there(tmp_path):
    case, store = case_of(tmp_path / "case", "coupons"), Store(tmp_path / "store")
    honest = worked(case, store=store)
    for change in ({"method": "agreement"}, {"version": 99}, {"results": {}}):
        store.put(honest.key, stored.to_plain(replace(honest, **change)))
        assert worked(case, store=store) == honest


def test_a_store_that_cannot_be_written_changes_nothing(tmp_path):
    (tmp_path / "store").write_text("a file where the folder should be")
    case, store = case_of(tmp_path / "case", "by hand"), Store(tmp_path / "store")
    assert worked(case, store=store) == worked(case)


WARM = """
import sys
sys.path.insert(0, {tests!r})
from pathlib import Path
from small_case import worked, read_case
from assurance.store import Store
found = worked(read_case(Path({case!r})), store=Store(Path({store!r})))
assert all(one.value is not None for one in found.results.values())
print([name for name in ("numpy", "scipy", "polars", "mkdocs", "matplotlib") if name in sys.modules])
"""


@pytest.mark.parametrize("name", CASES)
def test_with_a_warm_store_no_numerical_library_is_loaded(tmp_path, name):
    case, store = tmp_path / "case", tmp_path / "store"
    worked(case_of(case, name), store=Store(store))
    tests = str(__file__).rsplit("/", 1)[0]
    script = WARM.format(tests=tests, case=str(case), store=str(store))
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert done.stdout.strip() == "[]", done.stderr


@pytest.mark.parametrize(("name", "file"), [("table", "stress.csv"), ("coupons", "c.csv")])
def test_what_a_file_gave_that_changed_after_its_digest_was_taken_is_not_kept(tmp_path, name, file):
    case, store = case_of(tmp_path / "case", name), Store(tmp_path / "store")
    path = tmp_path / "case" / "claims" / file
    path.write_text(path.read_text().replace("0", "1"))
    assert worked(case, store=store).results
    assert files_of(store) == []
