"""A whole case from a few lines of YAML: who takes part and the day are given, the rest is written."""

from assurance.assess import assess
from assurance.reading import read_case

HEAD = """\
case:
  box:
    title: A box
    as_of: 2026-03-12
    top_claims: {use: top}
    quantities: [strength, grip]
    people: {ann: {name: Ann}, ben: {name: Ben}}
"""
SOUND = """\
evidence:
  report: {title: A report, kind: analysis, state: issued, results: {load: 5 kN}}
"""


def assess_text(folder, text, *, head=HEAD):
    """The assessment of a case whose one file holds the head and this text."""
    (folder / "claims").mkdir(exist_ok=True)
    (folder / "claims" / "case.yml").write_text(head)
    for number, part in enumerate(text if isinstance(text, tuple) else (text,)):
        (folder / "claims" / f"part-{number}.yml").write_text(part)
    return assess(read_case(folder))


def claim(id_, more="", *, rests_on="report", owner="ann"):
    """A claim that rests on something, with more fields in YAML flow style."""
    return (
        f"  {id_}: {{statement: It is so., owner: {owner}, "
        f"argument: {{because: Shown., rests_on: [{rests_on}]}}{', ' + more if more else ''}}}\n"
    )
