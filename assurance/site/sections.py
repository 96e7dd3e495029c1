"""The pages of the rail, in their groups, and which of them each kind of record belongs to."""

from dataclasses import dataclass

FIRST_PAGE = "index"
GUIDE = "reading-guide"


@dataclass(frozen=True, slots=True)
class Section:
    """One page of the rail; `name` is its address without the ending."""

    name: str
    title: str


@dataclass(frozen=True, slots=True)
class Group:
    """Pages of the rail under one word."""

    title: str
    sections: tuple[Section, ...]


GROUPS = (
    Group("Answer", (Section(FIRST_PAGE, "Conclusion"), Section("gaps", "Gaps"))),
    Group("Argument", (Section("argument", "Argument"), Section("evidence", "Evidence"))),
    Group("Risk", (Section("hazards", "Hazards"), Section("failure-modes", "Failure modes"))),
    Group("Numbers", (Section("strength", "Strength"), Section("calculations", "Calculations"))),
    Group("Record", (Section("records", "All records"), Section(GUIDE, "Reading guide"))),
)
ACROSS = ("failure-modes", "strength")  # printed on sheets that lie across
OF_KIND = {
    "claims": "argument",
    "evidence": "evidence",
    "hazards": "hazards",
    "failure_modes": "failure-modes",
    "calculations": "calculations",
}


def section_of(kind: str) -> str:
    """The page of the rail that stands for a kind of record."""
    return OF_KIND.get(kind, "records")
