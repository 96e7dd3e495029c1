"""The few pieces of Markdown that the reference is written in."""

import re
from collections.abc import Iterable


def code(text: str) -> str:
    """A word of the files as it is typed."""
    return f"`{text}`"


def link(text: str, address: str) -> str:
    """A text that leads somewhere."""
    return f"[{text}]({address})"


def fenced(text: str, language: str = "yaml") -> str:
    """Lines of a file, kept as they are."""
    return f"```{language}\n{text.rstrip()}\n```"


def table(headings: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """A table; a bar inside a cell stays a bar."""
    head = tuple(headings)
    lines = [_row(head), _row("---" for _ in head), *(_row(row) for row in rows)]
    return "\n".join(lines)


def listed(words: Iterable[str], last: str = "or") -> str:
    """Words in a row, the last after `or`."""
    each = list(words)
    return f"{', '.join(each[:-1])} {last} {each[-1]}" if len(each) > 1 else "".join(each)


def anchor(name: str) -> str:
    """A place that links lead to; it has a dot, so no heading is called the same."""
    return f"{{at:{name}}}"


def heading_anchor(heading: str) -> str:
    """The anchor that a heading gets."""
    return re.sub(r"[-\s]+", "-", re.sub(r"[^\w\s-]", "", heading).strip().lower())


def page(*parts: str) -> str:
    """A page that the builder wrote: front matter and parts."""
    return "---\nbuilt: true\n---\n" + "\n\n".join(part.strip("\n") for part in parts if part) + "\n"


def _row(cells: Iterable[str]) -> str:
    return "| " + " | ".join(cell.replace("\n", " ").replace("|", "\\|") for cell in cells) + " |"
