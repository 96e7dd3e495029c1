"""Order, loops and reach, with the diamond and loops of the GSN Community Standard v3, 1:2.2.2."""

from hypothesis import given
from hypothesis import strategies as st

from assurance.graph.order import components, reach, turned


def test_everything_comes_after_what_it_needs():
    needs = {"a": ["b", "c"], "b": ["d"], "c": ["d"], "d": []}
    assert components(list(needs), needs) == [("d",), ("b",), ("c",), ("a",)]


def test_a_loop_is_one_group_with_its_members_in_order():
    needs = {"g1": ["s1"], "s1": ["g2"], "g2": ["g1"], "top": ["g1"]}
    assert components(list(needs), needs) == [("g1", "g2", "s1"), ("top",)]


def test_ten_thousand_in_a_row_need_no_deep_stack():
    needs = {str(n): [str(n + 1)] for n in range(10_000)} | {"10000": []}
    assert components(list(needs), needs)[0] == ("10000",)


def test_reach_holds_the_starts_and_all_beneath():
    assert reach(["a"], {"a": ["b"], "b": ["c"], "x": ["a"]}) == {"a", "b", "c"}


def test_turned_lists_who_needs_what():
    assert turned({"a": ["c"], "b": ["c"]}) == {"c": ["a", "b"]}


edges = st.dictionaries(st.integers(0, 9), st.lists(st.integers(0, 9), unique=True), max_size=10)


@given(edges)
def test_two_nodes_share_a_group_exactly_when_each_reaches_the_other(drawn):
    nodes = [str(n) for n in range(10)]
    needs = {node: [str(one) for one in drawn.get(int(node), ())] for node in nodes}
    group_of = {one: group for group in components(nodes, needs) for one in group}
    beneath = {node: reach([node], needs) for node in nodes}
    for one in nodes:
        for other in nodes:
            mutual = one in beneath[other] and other in beneath[one]
            assert (group_of[one] == group_of[other]) == mutual
