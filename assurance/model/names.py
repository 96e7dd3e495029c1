"""The one look-up behind every "did you mean"."""

from collections.abc import Iterable
from difflib import get_close_matches

LEAST_ALIKE = 0.6  # ratio of matching letters below which a guess would mislead


def nearest_name(wrong: str, names: Iterable[str], *, alike: float = LEAST_ALIKE) -> str | None:
    """The real name that is most like a wrong one, capitals aside; None where none is near."""
    folded = {name.lower(): name for name in sorted(names, reverse=True)}  # any order gives the same
    close = get_close_matches(wrong.lower(), folded, n=1, cutoff=alike)
    return folded[close[0]] if close else None
