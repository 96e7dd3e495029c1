"""What a plain scalar of YAML 1.2 (core schema) stands for: `no` is text, `1e-3` a number."""

import math
import re

WORDS: dict[str, bool | None] = {
    "": None,
    "~": None,
    "null": None,
    "Null": None,
    "NULL": None,
    "true": True,
    "True": True,
    "TRUE": True,
    "false": False,
    "False": False,
    "FALSE": False,
}
INTEGER = re.compile(r"[-+]?[0-9]+")
OCTAL = re.compile(r"0o[0-7]+")
HEXADECIMAL = re.compile(r"0x[0-9a-fA-F]+")
DECIMAL = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?")
INFINITE = re.compile(r"[-+]?\.(?:inf|Inf|INF)")
NOT_A_NUMBER = frozenset({".nan", ".NaN", ".NAN"})
NUMBER_STARTS = frozenset("-+.0123456789")
LONGEST_NUMBER = 120  # characters; a longer row of digits is text, as is one too large to be held


def plain_value(text: str) -> str | int | float | bool | None:
    """What an unquoted scalar stands for in the core schema of YAML 1.2."""
    if text in WORDS:
        return WORDS[text]
    if text[0] not in NUMBER_STARTS or len(text) > LONGEST_NUMBER:
        return text
    if INTEGER.fullmatch(text):
        return int(text)
    if DECIMAL.fullmatch(text):
        value = float(text)
        return value if math.isfinite(value) else text
    return _rarer_number(text)


def _rarer_number(text: str) -> str | int | float:
    if OCTAL.fullmatch(text):
        return int(text[2:], 8)
    if HEXADECIMAL.fullmatch(text):
        return int(text[2:], 16)
    if INFINITE.fullmatch(text):
        return -math.inf if text[0] == "-" else math.inf
    return math.nan if text in NOT_A_NUMBER else text
