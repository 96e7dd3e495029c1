"""Findings and answers made by hand, for the tests of the reports."""

from datetime import date

from assurance.model.checked import Checked, ClaimVerdict
from assurance.model.verdicts import Finding, Place, Verdict, Weight

AS_OF = date(2026, 3, 12)


def finding(rule="key-unknown", weight="blocking", record="rail", **fields):
    """A finding of an invented case; `at` is its file, line and column."""
    place = Place(*fields.pop("at", ("claims/rail.yml", 3, 5)))
    told = {"message": "`statment` is not a field.", "remedy": "Did you mean `statement`?", **fields}
    return Finding(rule, Weight(weight), record, place, told["message"], told["remedy"])


def claim(id_, verdict=Verdict.HOLDS):
    return ClaimVerdict(id_, verdict, Place("claims/rail.yml", 2, 3))


def answer(*findings, claims=(), case="step"):
    top = {"use": claims[0].id} if claims else {}
    return Checked(case, AS_OF, top, tuple(claims), tuple(findings))
