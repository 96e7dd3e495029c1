"""The whole argument as text in the DOT language, to take away and lay out or search with other tools."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from assurance.model.assessment import Assessment
from assurance.model.kinds import SINGULAR

if TYPE_CHECKING:
    from graphviz import Digraph

DRAWN = ("claims", "evidence", "calculations", "hazards", "failure_modes", "assumptions", "challenges")


def argument_dot(assessment: Assessment) -> str:
    """Every record that something rests on as a plain box with its verdict; a line goes to what it needs."""
    from graphviz import Digraph

    graph = Digraph("argument", node_attr={"shape": "box"}, graph_attr={"rankdir": "LR"})
    drawn = sorted(id_ for id_, entry in assessment.entries.items() if entry.kind in DRAWN)
    for id_ in drawn:
        graph.node(id_, label=_label(assessment, id_))
    for id_ in drawn:
        for need in _needs(assessment, id_):
            graph.edge(id_, need)
    return _text(graph)


def _needs(assessment: Assessment, id_: str) -> Iterator[str]:
    for need in sorted(assessment.depends.get(id_, ())):
        entry = assessment.entries.get(need)
        if entry is not None and entry.kind in DRAWN:
            yield need


def _label(assessment: Assessment, id_: str) -> str:
    kind = SINGULAR[assessment.entries[id_].kind]
    return f"{kind} {id_}\\n{assessment.verdicts[id_].word}"


def _text(graph: "Digraph") -> str:
    return str(graph.source).replace("\r\n", "\n")
