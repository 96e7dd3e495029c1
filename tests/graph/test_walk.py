"""The walk, loops, and what would rise if one cause were gone."""

from hypothesis import given
from hypothesis import strategies as st

from assurance.graph.formula import NOTHING_GONE, All, Best, Guard, Laid, Link, grounds, verdict
from assurance.graph.walk import graph_of, loop_key, rises, walk
from assurance.model.verdicts import Cause, ReasonKind, Verdict


def laid(record, worth, key=None):
    kind = ReasonKind.UNDEVELOPED
    return Laid(Cause(key or record, kind, worth, record, "text", "remedy"))


def test_the_worst_of_what_it_needs_comes_through():
    graph = graph_of({"a": All((Link("b"), Link("c"))), "b": laid("b", Verdict.OPEN), "c": All(())})
    assert walk(graph) == {"b": Verdict.OPEN, "c": Verdict.HOLDS, "a": Verdict.OPEN}


def test_of_alternatives_the_best_counts_but_one_that_fails_keeps_it_open():
    bad = laid("bad", Verdict.FAILS)
    guard = Guard(Link("bad"), laid("a", Verdict.OPEN).cause)
    graph = graph_of({"a": All((Best((Link("bad"), Link("good"))), guard)), "bad": bad, "good": All(())})
    assert walk(graph)["a"] == Verdict.OPEN
    assert rises(graph, walk(graph), "bad") == ["a", "bad"]


def test_members_of_a_loop_share_the_worst_of_open_and_what_comes_from_outside():
    formulas = {"a": Link("b"), "b": All((Link("a"), Link("c"))), "c": laid("c", Verdict.FAILS)}
    graph = graph_of(formulas)
    assert walk(graph) == {"a": Verdict.FAILS, "b": Verdict.FAILS, "c": Verdict.FAILS}
    assert graph.loops() == [("a", "b")]


def test_with_the_loop_gone_its_members_rise():
    graph = graph_of({"a": Link("b"), "b": Link("a"), "top": Link("a")})
    assert rises(graph, walk(graph), loop_key(("a", "b"))) == ["a", "b", "top"]


def test_a_record_that_rests_on_itself_is_open():
    assert walk(graph_of({"a": Link("a")})) == {"a": Verdict.OPEN}


def test_only_the_alternative_that_stands_gives_grounds():
    formula = Best((laid("x", Verdict.OPEN), laid("y", Verdict.PROVISIONAL)))
    assert [one.cause.key for one in grounds(formula, {})] == ["y"]


NAMES = [f"n{number}" for number in range(8)]


@st.composite
def graphs(draw):
    formulas = {}
    for name in NAMES:
        parts = [Link(one) for one in draw(st.lists(st.sampled_from(NAMES), max_size=2))]
        for key in draw(st.lists(st.sampled_from(NAMES), max_size=3)):
            parts.append(laid(name, draw(st.sampled_from(list(Verdict))), key))
        formulas[name] = All(tuple(parts)) if draw(st.booleans()) else Best(tuple(parts))
    return graph_of(formulas)


@given(graphs(), st.sampled_from(NAMES))
def test_what_rises_is_what_a_whole_new_walk_finds(graph, key):
    before = walk(graph)
    gone = frozenset([key])

    def without(formula):
        if isinstance(formula, Laid) and formula.cause.key in gone:
            return All(())
        if isinstance(formula, All | Best):
            return type(formula)(tuple(without(part) for part in formula.parts))
        return formula

    after = walk(graph_of({id_: without(one) for id_, one in graph.formulas.items()}))
    assert rises(graph, before, key) == sorted(id_ for id_ in before if after[id_] < before[id_])


@given(graphs())
def test_a_walk_without_loops_agrees_with_evaluating_each_formula_again(graph):
    verdicts = walk(graph)
    for group in graph.groups:
        if not graph.is_loop(group):
            assert verdicts[group[0]] == verdict(graph.formulas[group[0]], verdicts, NOTHING_GONE)


def test_a_cause_beside_another_that_is_as_bad_holds_nothing_up_by_itself():
    """Of a hundred failed tests laid on a claim none is what the claim is open for alone."""
    open_, weak = Verdict.OPEN, Verdict.PROVISIONAL
    a = All((laid("a", open_, "x"), laid("a", open_, "y"), laid("a", weak, "z")))
    graph = graph_of({"a": a, "b": All((Link("a"), laid("b", open_, "x")))})
    before = walk(graph)
    assert [rises(graph, before, key) for key in "xyz"] == [[], [], []]
    assert rises(graph_of({"a": All((laid("a", open_, "x"), laid("a", weak, "z")))}), {"a": open_}, "x") == [
        "a"
    ]
