"""Every broken case of the corpus, in every format that `check` writes."""

import json
from pathlib import Path

import jsonschema
import pytest
from corpus_files import corpus
from lxml import etree

from assurance.assess import assess
from assurance.checking import checked
from assurance.reading import read_case
from assurance.reading.source_lines import SourceLines
from assurance.reports.junit import junit_text
from assurance.reports.sarif import Origin, sarif_text
from assurance.reports.text import Sheet, check_lines, unpainted
from assurance.reports.weights import failing_weights
from assurance.site.data_out import as_text, assessment_json
from assurance.site.published import schema_text

SCHEMAS = Path(__file__).parent / "schemas"
SARIF = jsonschema.Draft4Validator(json.loads((SCHEMAS / "sarif-2.1.0.json").read_text("utf-8")))
JUNIT = etree.XMLSchema(etree.parse(SCHEMAS / "junit-10.xsd"))
WHOLE = jsonschema.Draft202012Validator(json.loads(schema_text()))
pytestmark = pytest.mark.slow


@pytest.fixture(params=corpus(), ids=lambda case: case.name)
def assessed(request, tmp_path):
    case = read_case(request.param.write(tmp_path))
    return case, assess(case)


def test_each_format_keeps_its_schema_and_tells_every_finding(assessed):
    case, assessment = assessed
    told, line_at = checked(assessment), SourceLines(case.folder).at
    log = json.loads(sarif_text(told, Origin("0.1.0", "", line_at)))
    assert not [fault.message for fault in SARIF.iter_errors(log)]
    JUNIT.assertValid(etree.fromstring(junit_text(told, fails=failing_weights("caution")).encode("utf-8")))
    whole = json.loads(as_text(assessment_json(assessment, case)))
    assert not [fault.message for fault in WHOLE.iter_errors(whole)]
    assert len(log["runs"][0]["results"]) == len(whole["findings"]) == len(told.findings)


def test_the_text_shows_carets_wherever_the_line_can_be_read_and_nothing_that_acts(assessed):
    case, assessment = assessed
    told, line_at = checked(assessment), SourceLines(case.folder).at
    lines = list(check_lines(told, Sheet(80, unpainted, line_at)))
    assert all(line.isprintable() or "\u00a0" in line for line in lines)
    spots = {(one.weight, one.place) for one in told.findings if (line_at(one.place) or "").strip()}
    assert sum(bool(line.strip()) and not line.strip("^ ") for line in lines) == len(spots)


def test_the_value_that_sarif_marks_lies_on_its_line(assessed):
    case, assessment = assessed
    line_at = SourceLines(case.folder).at
    for one in checked(assessment).findings:
        line = line_at(one.place)
        if line is not None:
            assert 1 <= one.place.column <= len(line) + 1, one
