"""Order of dependence, loops and reach, on plain ids."""

from collections.abc import Iterable, Mapping, Sequence

Edges = Mapping[str, Sequence[str]]


def components(nodes: Sequence[str], needs: Edges) -> list[tuple[str, ...]]:
    """The nodes in groups, each after all that it needs; a group of several is a loop.

    Tarjan's strongly connected components without recursion (R. Tarjan, SIAM J. Comput. 1(2), 1972).
    The order depends only on the order of `nodes` and `needs`.
    """
    index: dict[str, int] = {}
    low: dict[str, int] = {}
    on_stack: set[str] = set()
    stack: list[str] = []
    found: list[tuple[str, ...]] = []
    for start in nodes:
        if start not in index:
            _visit(start, needs, index, low, on_stack, stack, found)
    return found


def _visit(
    start: str,
    needs: Edges,
    index: dict[str, int],
    low: dict[str, int],
    on_stack: set[str],
    stack: list[str],
    found: list[tuple[str, ...]],
) -> None:
    path: list[tuple[str, int]] = [(start, 0)]
    while path:
        node, turn = path.pop()
        if turn == 0:
            index[node] = low[node] = len(index)
            stack.append(node)
            on_stack.add(node)
        children = needs.get(node, ())
        if turn > 0:
            low[node] = min(low[node], low[children[turn - 1]])
        for position in range(turn, len(children)):
            child = children[position]
            if child not in index:
                path.append((node, position + 1))
                path.append((child, 0))
                break
            if child in on_stack:
                low[node] = min(low[node], index[child])
        else:
            if low[node] == index[node]:
                found.append(_close(node, stack, on_stack))


def _close(node: str, stack: list[str], on_stack: set[str]) -> tuple[str, ...]:
    members = []
    while True:
        member = stack.pop()
        on_stack.discard(member)
        members.append(member)
        if member == node:
            return tuple(sorted(members))


def reach(starts: Iterable[str], needs: Edges) -> frozenset[str]:
    """Everything that the starts need, directly or through others, the starts included."""
    seen = set(starts)
    waiting = list(seen)
    while waiting:
        for need in needs.get(waiting.pop(), ()):
            if need not in seen:
                seen.add(need)
                waiting.append(need)
    return frozenset(seen)


def turned(needs: Edges) -> dict[str, list[str]]:
    """Who needs each node."""
    dependents: dict[str, list[str]] = {}
    for node, children in needs.items():
        for child in children:
            dependents.setdefault(child, []).append(node)
    return dependents
