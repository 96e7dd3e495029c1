"""However a file is laid out, the new record stands last under its kind and the rest stays as it was."""

import pytest
from blank_cases import add, assert_only_inserted, files_of, small_case
from hypothesis import given
from hypothesis import strategies as st

from assurance.model.kinds import KINDS
from assurance.reading import read_case
from assurance.reading.record_files import read_file
from assurance.scaffold.record_text import record_text
from assurance.scaffold.splicing import spliced

FILE = "claims/file.yml"
PARTS = "parts:\n  p: {title: P}\n"
KEEP = "contexts:\n  old: {statement: An old one.}\n"
LAYOUTS = {
    "empty file": "",
    "only blank lines": "\n\n",
    "only a comment": "# Nothing here yet.\n",
    "a comment without line end": "# Nothing here yet.",
    "only the kind": "contexts:\n",
    "the kind without line end": "contexts:",
    "the kind and a blank behind": "contexts: \n",
    "the kind and a comment": "contexts:  # what words mean\n",
    "the kind and a comment below": "contexts:\n  # none yet\n",
    "the kind without records, another behind": "contexts:\nparts:\n  p: {title: P}\n",
    "one record": KEEP,
    "no line end": KEEP.rstrip("\n"),
    "blank lines at the end": KEEP + "\n\n",
    "a comment at the end": KEEP + "# the end\n",
    "a comment that belongs to the last record": KEEP + "  # more about it\n",
    "another kind behind": KEEP + "\nparts:\n  p: {title: P}\n",
    "a comment before the next kind": KEEP + "\n# Parts.\nparts:\n  p: {title: P}\n",
    "the kind in the middle": "parts:\n  p: {title: P}\n" + KEEP + "materials:\n  m: {title: M}\n",
    "records apart": "contexts:\n  a:\n    statement: A.\n\n  b:\n    statement: B.\n",
    "indented by four": "contexts:\n    old:\n        statement: An old one.\n",
    "everything indented": "  contexts:\n      old: {statement: An old one.}\n",
    "a block of text at the end": "contexts:\n  old:\n    statement: |\n      One.\n      # no comment\n",
    "a block that keeps its line ends": "contexts:\n  old:\n    statement: |+\n      One.\n\n\n" + PARTS,
    "a folded text at the end": "contexts:\n  old:\n    statement: >-\n      One\n      two.\n\n" + PARTS,
    "a text over two lines": "contexts:\n  old:\n    statement: One\n      two.\n",
    "a start of document": "---\n" + KEEP,
    "an end of document": KEEP + "...\n",
    "an end of document, new kind": "parts:\n  p: {title: P}\n...\n",
    "an anchor and its alias": "contexts:\n  a: &a {statement: A.}\n  b: *a\n",
    "quoted keys": '"contexts":\n  "old": {"statement": "An old one."}\n',
    "line ends of Windows": KEEP.replace("\n", "\r\n"),
    "a byte-order mark": "\ufeff" + KEEP,
    "both": "\ufeff" + KEEP.replace("\n", "\r\n"),
    "line ends of an old machine": KEEP.replace("\n", "\r"),
}
IN_ONE_LINE = {
    "an empty mapping": "contexts: {}\n",
    "an empty mapping and a comment": "contexts: {}  # none\n",
    "nothing, said in a word": "contexts: null\n",
    "one line": "contexts: {old: {statement: An old one.}}\n",
    "a comma at the end": "contexts: {old: {statement: An old one.},}\n",
    "over several lines": "contexts: {\n  old: {statement: An old one.}  # the first\n}\n",
    "a comma and a comment": "contexts: {\n  old: {statement: An old one.},  # the first, not the last\n}\n",
    "the whole file": "{contexts: {old: {statement: An old one.}}}\n",
    "the whole file, another kind": "{parts: {p: {title: P}}}\n",
    "a file of nothing": "{}\n",
}


@pytest.mark.parametrize("text", LAYOUTS.values(), ids=LAYOUTS)
def test_in_blocks_nothing_but_the_record_is_put_in(tmp_path, text):
    case = small_case(tmp_path / "case", text)
    before = files_of(case)
    added = add(case, "contexts", file=FILE)

    now = read_case(case)
    assert now.findings == ()
    assert (now.entries["added"].place.file, now.entries["added"].place.line) == (added.file, added.line)
    assert_only_inserted(before, files_of(case), added)


@pytest.mark.parametrize("text", IN_ONE_LINE.values(), ids=IN_ONE_LINE)
def test_in_braces_the_records_that_stood_there_stay(tmp_path, text):
    case = small_case(tmp_path / "case", text)
    had = {id_: entry.record for id_, entry in read_case(case).entries.items()}
    added = add(case, "contexts", file=FILE)

    now = read_case(case)
    assert now.findings == ()
    assert now.entries["added"].place.line == added.line
    assert had == {id_: entry.record for id_, entry in now.entries.items() if id_ != "added"}


def test_line_ends_and_byte_order_mark_are_kept(tmp_path):
    case = small_case(tmp_path / "case", LAYOUTS["both"])
    add(case, "contexts", file=FILE)

    content = (case / FILE).read_bytes()
    assert content.startswith(b"\xef\xbb\xbfcontexts:\r\n")
    assert content.count(b"\n") == content.count(b"\r\n")


def test_records_that_stand_apart_get_another_one_apart(tmp_path):
    case = small_case(tmp_path / "case", LAYOUTS["records apart"])
    add(case, "contexts", file=FILE)

    assert "    statement: B.\n\n  added:\n    statement:" in (case / FILE).read_text()


def test_records_without_blank_lines_get_another_one_without(tmp_path):
    case = small_case(tmp_path / "case", "contexts:\n  a: {statement: A.}\n  b: {statement: B.}\n")
    add(case, "contexts", file=FILE)

    assert "  b: {statement: B.}\n  added:\n" in (case / FILE).read_text()


def test_a_new_file_starts_with_the_line_for_editors_where_the_case_has_a_schema(tmp_path):
    case = small_case(tmp_path / "case")
    (case / "schema.json").write_text("{}")
    added = add(case, "contexts", file="claims/deeper/new.yml")

    lines = (case / added.file).read_text().splitlines()
    assert lines[:3] == ["# yaml-language-server: $schema=../../schema.json", "", "contexts:"]


def test_permissions_stay(tmp_path):
    case = small_case(tmp_path / "case", KEEP)
    (case / FILE).chmod(0o640)
    add(case, "contexts", file=FILE)

    assert (case / FILE).stat().st_mode & 0o777 == 0o640


SPACES = st.sampled_from(["", "\n", "# a comment\n", "\n# a comment\n\n", "  # further in\n"])
FORMS = (
    "{i}{id}: {{title: T}}\n",
    "{i}{id}:\n{i}  title: T\n",
    "{i}{id}:\n{i}  title: |\n{i}    T\n\n",
    "{i}{id}: {{\n{i}  title: T}}\n",
)
RECORDS = st.lists(st.tuples(st.sampled_from(FORMS), SPACES), max_size=3)
SECTION = st.tuples(st.sampled_from(["  ", "    "]), RECORDS, SPACES)


@st.composite
def texts(draw):
    """A file of up to three kinds in many layouts, with either line end."""
    text = draw(SPACES.filter(lambda space: "  " not in space))
    for kind in ("parts", "materials", "load_cases")[: draw(st.integers(0, 3))]:
        indent, records, space = draw(SECTION)
        text += f"{kind}:\n{space}"
        for number, (form, gap) in enumerate(records):
            text += form.format(i=indent, id=f"{kind[0]}{number}") + gap
    return text.replace("\n", draw(st.sampled_from(["\n", "\r\n"])))


@given(text=texts())
def test_the_text_with_the_record_reads_as_the_text_before_and_the_record(text):
    added = spliced(text, "materials", record_text(KINDS["materials"], "added", {"title": "T"}))

    before, after = ({item.id: item.record for item in read_file("f", one)} for one in (text, added.text))
    assert after.pop("added") is not None
    assert after == before
