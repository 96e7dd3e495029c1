"""Spells out short forms, so that the model sees one form of everything."""

from collections.abc import Callable
from functools import cache
from typing import Any

from assurance.model.fields import Record
from assurance.model.quantity import looks_like_quantity
from assurance.reading.plans import Nested, plan_of

Speller = Callable[[Any], Any]


@cache
def speller(record: type[Record]) -> Speller:
    """The function that spells out a plain value meant as this class of record."""
    short = record.short_form
    fields = tuple((nested.field, _field_speller(nested)) for nested in plan_of(record).nested)

    def spell(given: Any) -> Any:
        if not isinstance(given, dict):
            return _spelt(given, short) if short else given
        changed = {field: spell_field(given[field]) for field, spell_field in fields if field in given}
        return {**given, **changed} if changed else given

    return spell


def _spelt(given: Any, short: tuple[str, ...]) -> Any:
    if not isinstance(given, (str, int, float)):
        return given
    field = short[0] if len(short) == 1 or looks_like_quantity(given) else short[1]
    return {field: given}


def _field_speller(nested: Nested) -> Speller:
    def spell_one(given: Any) -> Any:
        return speller(nested.record)(given)

    def spell_list(given: Any) -> Any:
        spell = speller(nested.record)
        return tuple([spell(item) for item in given]) if isinstance(given, tuple) else given

    def spell_names(given: Any) -> Any:
        if not isinstance(given, dict):
            return given
        spell = speller(nested.record)
        return {name: spell(item) for name, item in given.items()}

    return {"one": spell_one, "list": spell_list, "names": spell_names}[nested.holds]
