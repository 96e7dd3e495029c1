"""What cannot be added is refused with a word on what would put it right, and nothing is written."""

import pytest
from blank_cases import CASE, add, files_of, small_case

from assurance.scaffold import Refused

OLD = "contexts:\n  old: {statement: An old one.}\n"


def refused(case, *, kind="contexts", id_="added", **options):
    before = files_of(case)
    with pytest.raises(Refused) as why:
        add(case, kind, id_, **options)
    assert files_of(case) == before
    return str(why.value)


@pytest.mark.parametrize("id_", ["old", "OLD", "c"])
def test_an_id_that_is_taken(tmp_path, id_):
    told = refused(small_case(tmp_path / "case", OLD), id_=id_)
    assert "is already used" in told
    assert "claims/" in told


@pytest.mark.parametrize("id_", ["2nd", "a.b", "a b", "", "é", "b" * 65, "a\n"])
def test_an_id_that_is_none(tmp_path, id_):
    assert "Start with a letter" in refused(small_case(tmp_path / "case"), id_=id_)


@pytest.mark.parametrize(
    "file",
    ["elsewhere.yml", "../out.yml", "claims/../x.yml", "/etc/x.yml", "claims", "mkdocs.yml", "guide/x.yml"],
)
def test_a_file_outside_claims_and_hazards(tmp_path, file):
    assert "not under `claims/` or `hazards/`" in refused(small_case(tmp_path / "case"), file=file)


@pytest.mark.parametrize("file", ["claims/notes.txt", "claims/file", "claims/file.json"])
def test_a_file_that_would_not_be_read(tmp_path, file):
    assert "ends in `.yml`" in refused(small_case(tmp_path / "case"), file=file)


@pytest.mark.parametrize("file", ["claims/contexts.yml", None], ids=["named", "by default"])
def test_a_link_that_leads_out(tmp_path, file):
    case = small_case(tmp_path / "case")
    (tmp_path / "out.yml").write_text(OLD)
    (case / "claims" / "contexts.yml").symlink_to(tmp_path / "out.yml")
    assert "leads out of the case" in refused(case, file=file)
    assert (tmp_path / "out.yml").read_text() == OLD


def test_a_link_that_leads_to_itself(tmp_path):
    case = small_case(tmp_path / "case")
    (case / "claims" / "loop.yml").symlink_to(case / "claims" / "loop.yml")
    with pytest.raises(Refused, match="leads out of the case, or nowhere"):
        add(case, "contexts", file="claims/loop.yml")


def test_a_link_inside_the_case_is_written_through(tmp_path):
    case = small_case(tmp_path / "case", OLD)
    (case / "claims" / "link.yml").symlink_to(case / "claims" / "file.yml")
    add(case, "contexts", file="claims/link.yml")
    assert "  added:\n" in (case / "claims" / "file.yml").read_text()
    assert (case / "claims" / "link.yml").is_symlink()


def test_a_folder_that_is_named_like_a_file(tmp_path):
    case = small_case(tmp_path / "case")
    (case / "claims" / "deep.yml").mkdir()
    assert "is not a file" in refused(case, file="claims/deep.yml")


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("contexts:\n  old: {statement: It's [open\n", "cannot be read from line"),
        ("contexts: [a, b]\n", "does not hold a mapping"),
        ("- a\n- b\n", "does not hold a mapping"),
        ("parts: &p {q: {title: Q}}\ncontexts: *p\n", "an alias"),
        (b"contexts:\n  old: {statement: \xff}\n", "not UTF-8"),
    ],
)
def test_a_file_that_cannot_be_added_to(tmp_path, text, why):
    assert why in refused(small_case(tmp_path / "case", text), file="claims/file.yml")


def test_a_folder_without_a_case(tmp_path):
    (tmp_path / "claims").mkdir()
    assert "no `case` record" in refused(tmp_path)


@pytest.mark.parametrize(
    ("kind", "given", "why"),
    [
        ("claims", {"owner": "nobody"}, "is no person, role or organisation"),
        ("actions", {"on": "nothing"}, "names no record"),
        ("evidence", {"kind": "tset"}, "Did you mean `test`"),
        ("factors", {"value": "1,5"}, "comma"),
        ("calculations", {"method": "guess"}, "is no method"),
        ("contexts", {"statement": " "}, "blank"),
        ("contexts", {"statement": "\x1b[2J"}, "control character"),
    ],
)
def test_a_value_that_would_be_found_wrong(tmp_path, kind, given, why):
    assert why in refused(small_case(tmp_path / "case"), kind=kind, given=given)


@pytest.mark.parametrize(
    "text", ["no", "12", "a: b", "- x", "# y", "'q'", '"', "\\", "[", "é — ü", "x #y", "@a"]
)
def test_any_text_is_read_back_as_it_was_given(tmp_path, text):
    from assurance.reading import read_case

    case = small_case(tmp_path / "case")
    add(case, "contexts", given={"statement": text})
    assert read_case(case).entries["added"].record.statement == text


def test_a_place_where_nothing_can_be_written(tmp_path):
    case = small_case(tmp_path / "case", OLD)
    before = files_of(case)
    with pytest.raises(OSError, match="case"):
        add(case, "contexts", file="claims/case.yml/new.yml")
    assert files_of(case) == before


def test_a_record_is_added_beside_a_file_that_does_not_parse(tmp_path):
    case = small_case(tmp_path / "case", "parts: {p: {title: [\n", file="claims/broken.yml")
    added = add(case, "contexts")
    assert added.file == "claims/contexts.yml"
    assert (case / "claims" / "case.yml").read_text() == CASE
