"""The page of `assessment.json`: what other programs may read, made from the published models."""

from collections.abc import Iterator
from typing import Any

from assurance.reference.markdown import anchor, code, link, listed, page, table
from assurance.site.published import published_schema

INTRODUCTION = """\
# Published data

`assessment.json` stands beside the pages and holds everything that they conclude; `check --format \
json` prints the same. `assessment.schema.json` describes it as JSON Schema. Every key is always \
there. A number that could not be worked out is null, never 0, and says why under `why_not`. Verdicts \
and weights are the words of the pages. No key but `as_of` carries a date of the build, so the same \
records give the same bytes.

The tables of the pages stand in `tables/` as CSV: UTF-8, commas, quotes doubled, one heading row \
with the units in brackets. Numbers are written with a point and up to 12 digits, days as 2026-03-12, \
and a cell is empty where there is no value. A text that begins with a sign by which a spreadsheet \
knows a formula has an apostrophe in front."""
HEADINGS = ("Key", "Holds", "What it says")


def data_page() -> str:
    """The whole and each part of it, in Markdown."""
    schema = published_schema()
    parts = schema["$defs"]
    named = {name: part for name, part in parts.items() if part.get("type") == "object"}
    return page(
        INTRODUCTION,
        "## The whole",
        _keys("data", schema, parts),
        *(_section(name, part, parts) for name, part in sorted(named.items())),
    )


def _section(name: str, part: dict[str, Any], parts: dict[str, Any]) -> str:
    return f"## {_title(name)}\n\n{part['description']}\n\n{_keys(_title(name).lower(), part, parts)}"


def _title(name: str) -> str:
    spaced = "".join(f" {one.lower()}" if one.isupper() else one for one in name.removeprefix("Published"))
    return spaced.strip().capitalize()


def _keys(of: str, part: dict[str, Any], parts: dict[str, Any]) -> str:
    where = of.replace(" ", "-")
    rows = (
        (f"{anchor(f'{where}.{key}')}{code(key)}", _words(held, parts), held.get("description", ""))
        for key, held in part["properties"].items()
    )
    return table(HEADINGS, rows)


def _words(held: dict[str, Any], parts: dict[str, Any]) -> str:
    if "$ref" in held:
        return _named(held["$ref"].rpartition("/")[2], parts)
    if "anyOf" in held:
        return listed(_words(one, parts) for one in held["anyOf"])
    if "enum" in held:
        return listed(code(str(one)) for one in held["enum"])
    if held["type"] == "array":
        return f"list, each {_words(held['items'], parts)}"
    if held["type"] == "object":
        return f"by name: {_words(held['additionalProperties'], parts)}"
    return _plain(held)


def _named(name: str, parts: dict[str, Any]) -> str:
    if "enum" in parts[name]:
        kinds: Iterator[str] = (code(str(one)) for one in parts[name]["enum"])
        return listed(kinds)
    title = _title(name)
    return link(title.lower(), f"#{title.lower().replace(' ', '-')}")


def _plain(held: dict[str, Any]) -> str:
    if held.get("format") == "date":
        return "date"
    return {"string": "text", "number": "number", "integer": "whole number", "null": "null"}[held["type"]]
