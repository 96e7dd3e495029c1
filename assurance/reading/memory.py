"""Memory while a case is read: whether Python looks for loops of objects nobody uses."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def no_garbage_collection() -> Iterator[None]:
    """A case makes many objects and no loops of them, so looking for loops is time lost."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
