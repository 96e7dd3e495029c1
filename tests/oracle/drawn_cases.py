"""The same random cases drawn by hypothesis, so that one that fails shrinks to a small sound rest."""

from collections.abc import Sequence
from typing import TypeVar

from hypothesis import strategies as st
from plain_case import PlainCase
from random_cases import Maker

One = TypeVar("One")
PARTS = 1000  # of a share


class Drawn:
    """Draws each choice. The simplest is the first of a pool, the fewest, and that nothing happens."""

    def __init__(self, draw: st.DrawFn):
        self._draw = draw

    def choice(self, pool: Sequence[One], /) -> One:
        return pool[self.randint(0, len(pool) - 1)]

    def sample(self, pool: Sequence[One], count: int, /) -> list[One]:
        left, taken = list(pool), []
        for _ in range(count):
            taken.append(left.pop(self.randint(0, len(left) - 1)))
        return taken

    def randint(self, lower: int, upper: int, /) -> int:
        return self._draw(st.integers(lower, upper))

    def random(self) -> float:
        return 1.0 - self._draw(st.integers(1, PARTS)) / PARTS  # draws shrink to 1: no slip


@st.composite
def cases(draw: st.DrawFn) -> PlainCase:
    """A small case with every kind of link and slip."""
    return Maker(Drawn(draw)).make()
