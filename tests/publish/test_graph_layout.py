"""Graphs are laid out together, the same each time, and kept by their text."""

from assurance.publish.graph_layout import GraphLayout, _key
from assurance.store import Store

ONE = "digraph g{n0->n1}\n"
OTHER = "digraph g{n0->n1 n0->n2}\n"


def test_each_graph_gets_its_own_places_in_the_order_given():
    one, other = GraphLayout(None)([ONE, OTHER])
    assert one.count("\nnode ") == 2
    assert other.count("\nnode ") == 3
    assert GraphLayout(None)([OTHER, ONE]) == [other, one]


def test_places_are_kept_and_not_worked_out_again(tmp_path):
    store = Store(tmp_path)
    first = GraphLayout(store)([ONE])
    marked = first[0].replace("graph 1 ", "graph 2 ")
    assert marked != first[0]
    store.put(_key(ONE), {"places": marked})
    assert GraphLayout(store)([ONE, OTHER]) == [marked, *GraphLayout(None)([OTHER])]


def test_a_graph_that_is_none_gives_no_places_and_is_not_kept(tmp_path):
    lay_out = GraphLayout(Store(tmp_path))
    assert lay_out(["digraph g{"]) == [""]
    assert not any(tmp_path.rglob("*.json"))


def test_what_was_kept_under_a_key_by_somebody_else_is_not_taken_for_places(tmp_path):
    store = Store(tmp_path)
    for planted in (7, "graph 1 2\nstop\n", "graph 1 x 2\nstop\n", "<script>"):
        store.put(_key(ONE), {"places": planted})
        assert GraphLayout(store)([ONE]) == GraphLayout(None)([ONE])
