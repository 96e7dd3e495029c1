"""Ids as they can be seen in a YAML text at a glance, without parsing it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

SECTION = re.compile(r"[\"']?([A-Za-z_]\w*)[\"']?\s*:")
BELOW = re.compile(r"( +)[\"']?([A-Za-z][A-Za-z0-9_-]{0,63})[\"']?\s*:")
SLIP = 1  # blanks by which the id at fault may be indented more than the others


@dataclass(frozen=True, slots=True)
class Seen:
    """A key that looks like an id, and the top-level key that it stands under."""

    line: int
    column: int
    kind: str
    id: str


def seen_ids(text: str) -> tuple[Seen, ...]:
    """The keys that stand where ids stand: below a top-level key, indented the least."""
    seen = list(_indented_keys(text))
    ids_at_most = min((one.column for one in seen), default=0) + SLIP
    return tuple(one for one in seen if one.column <= ids_at_most)


def _indented_keys(text: str) -> Iterator[Seen]:
    kind = ""
    for number, line in enumerate(text.splitlines(), start=1):
        section = SECTION.match(line)
        if section is not None:
            kind = section[1]
        found = BELOW.match(line)
        if found is not None:
            yield Seen(number, len(found[1]) + 1, kind, found[2])
