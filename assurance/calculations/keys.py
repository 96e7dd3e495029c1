"""The key under which a calculation is kept: method, version, bound numbers, digests of data files."""

import hashlib
import json
from collections.abc import Iterable
from typing import Any

from assurance.calculations.bound import BoundNumber, Inputs
from assurance.methods.reserve_sheet import PutOn
from assurance.model.methods import Method

FORM = 4  # of what is kept; raised where results or sheets are told in another form


def key_of(method: Method, given: Inputs, *more: Any) -> str:
    """The sha256 of everything that the results and the sheet follow from, and of nothing else.

    The names that the sheet prints beside its numbers belong to it; titles, authors and the id of
    the calculation do not.
    """
    columns = {
        name: [one.sha256, one.file, one.column, one.where, one.written_unit, one.unit]
        for name, one in given.columns.items()
    }
    numbers = {name: plain_number(one) for name, one in given.numbers.items()}
    plain = [FORM, method.name, method.version, numbers, columns, dict(given.words), more]
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def plain_number(one: BoundNumber) -> list[Any]:
    """A bound number as the key holds it; floats are written with all their digits."""
    written = [repr(one.written.value), one.written.unit] if one.written else []
    ends = [repr(one.lower), repr(one.upper)]
    return [repr(one.value), ends, one.unit, one.record, one.basis, list(one.factors), written]


def plain_factors(factors: Iterable[PutOn]) -> list[Any]:
    """Factors as the key holds them."""
    return [[one.name, one.kind, repr(one.value), one.title] for one in factors]
