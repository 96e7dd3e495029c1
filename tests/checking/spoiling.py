"""Puts another value anywhere into plain JSON, as a damaged file might hold it."""

ODD = (None, True, "<b>", "2026-13-01", "claims", 0, 1, -2, 9, 2.5, [], {}, ["a"], [["a"] * 8], {"a": 1})


def leaves(plain, path=()):
    """The path of every value inside a plain one."""
    if isinstance(plain, dict | list):
        for at in plain if isinstance(plain, dict) else range(len(plain)):
            yield from leaves(plain[at], (*path, at))
    yield path


def with_another(plain, path, odd):
    """The same plain value with another one at the end of a path."""
    if not path:
        return odd
    copy = dict(plain) if isinstance(plain, dict) else list(plain)
    copy[path[0]] = with_another(plain[path[0]], path[1:], odd)
    return copy
