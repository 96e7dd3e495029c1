"""Rules on cases that cannot be read whole: they report, and never break."""

import pytest
from base_case import assessed, base_records

EACH_RECORD = [(kind, id_) for kind, named in base_records().items() for id_ in named]


@pytest.mark.parametrize(("kind", "id_"), EACH_RECORD)
def test_one_misspelt_key_gives_its_finding_and_breaks_nothing(kind, id_, tmp_path):
    findings = assessed(tmp_path / "case", f"{kind}: {{{id_}: {{misspelt: 1}}}}\n").findings
    assert "key-unknown" in {one.rule for one in findings if one.record == id_}


@pytest.mark.parametrize(("kind", "id_"), EACH_RECORD)
def test_a_record_that_is_gone_breaks_nothing(kind, id_, tmp_path):
    findings = assessed(tmp_path / "case", f"{kind}: {{{id_}: }}\n").findings
    assert findings


def test_a_file_that_does_not_parse_hides_no_other_finding_and_makes_no_orphan(tmp_path):
    findings = assessed(tmp_path / "case", "evidence:\n  half: [open\n").findings
    assert "yaml-not-readable" in {one.rule for one in findings}
    assert not {one.rule for one in findings if "nobody" in one.rule}
