"""Plain values as YAML text in one line, so written that they are read back as what they are."""

import json
import re
from collections.abc import Mapping
from typing import Any

from assurance.reading.scalars import plain_value

# Starts like a word, and holds nothing that could be read as punctuation of YAML, in a flow either.
PLAIN = re.compile(r"[\w(][^\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff,\[\]{}#:\"'\\]*", re.UNICODE)


def scalar(value: str | int | float) -> str:
    """A text or number. A text that could be read as something else stands in double quotes."""
    if not isinstance(value, str):
        return json.dumps(value)
    unmistakable = PLAIN.fullmatch(value) and value == value.strip() and plain_value(value) == value
    return value if unmistakable else _quoted(value)


def flow(value: Any) -> str:
    """A value in one line: `[a, b]`, `{key: value}` or a scalar."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{scalar(key)}: {flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(flow(item) for item in value) + "]"
    return scalar(value)


def _quoted(text: str) -> str:
    """In double quotes; what cannot be printed is written as its escape."""
    inner = "".join(one if one.isprintable() and one not in '"\\' else _escape(one) for one in text)
    return f'"{inner}"'


def _escape(one: str) -> str:
    if one in '"\\':
        return f"\\{one}"
    code = ord(one)
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"
