"""What every message has to be in form: place, value, sentence, remedy, plain words."""

import re
from collections.abc import Iterator
from pathlib import Path

from assurance.model.numbers import NO_BREAK_SPACE
from assurance.model.verdicts import Finding

FORBIDDEN = re.compile(
    r"\b(error|invalid|please|successful(ly)?|simply|just|exception|traceback|pydantic|polars|NoneType|"
    r"None|True|False|str|int|float|dict|tuple|Errno)\b",
    re.IGNORECASE,
)
CASE_SENSITIVE = {"none", "true", "false"}  # plain words, unless written as the programming language does
TO_DO = {  # how a remedy starts, unless it asks `Did you mean ...?`
    "Add", "Answer", "Argue", "Ask", "Bring", "Change", "Check", "Close", "Complete", "Confirm",
    "Correct", "Do", "Give", "Have", "Indent", "Issue", "Keep", "Link", "List", "Look", "Move",
    "Name", "Nest", "Put", "Rate", "Repeat", "Rest", "Review", "Save", "Say", "Shorten", "Split",
    "Start", "Take", "Test", "Use", "Write",
}  # fmt: skip
QUOTED = re.compile(r"`([^`]*)`")
# Rules whose finding has no value at fault: something is absent, or the fault is in how two things relate.
NO_VALUE = {
    "case-missing": "a record is absent from the whole case",
    "case-without-hazards": "every hazard is absent",
    "date-missing": "a day is absent",
    "outside-method-limits": "the value is a count or a number that no file holds",
    "nested-too-deep": "the value is its own depth",
    "too-many-values": "the value is made by aliases and too long to show",
    "key-not-text": "a list or mapping as a key cannot be shown in a line",
}


def faults_of_form(finding: Finding, folder: Path) -> Iterator[str]:
    """Everything that is not as it must be in a finding, in words."""
    yield from _sentence("message", finding.message, (".", "?"))
    yield from _sentence("remedy", finding.remedy, (".", "?"))
    yield from _place(finding, folder)
    if finding.remedy.split(" ")[0] not in TO_DO and not finding.remedy.startswith("Did you mean `"):
        yield "the remedy does not start with what to do"
    if finding.rule not in NO_VALUE and not shows_a_value(finding, folder):
        yield f"the message shows nothing of {written_at(finding, folder)!r} in backticks"
    if finding.message.count("`") % 2 or finding.remedy.count("`") % 2:
        yield "a backtick is not closed"


def _sentence(name: str, text: str, ends: tuple[str, ...]) -> Iterator[str]:
    if not text.endswith(ends):
        yield f"the {name} does not end as a sentence"
    if not re.match(r"[A-Z`0-9]", text):
        yield f"the {name} starts with {text[:1]!r}"
    if any(not one.isprintable() and one != NO_BREAK_SPACE for one in text):
        yield f"the {name} holds what cannot be printed"
    if re.search(r"\bfail(s|ed)\b", QUOTED.sub("", text)) and not re.search(r"\b(test|claim|check)\b", text):
        yield f"the {name} says that something fails which is no test, claim or check"
    for found in FORBIDDEN.finditer(QUOTED.sub("", text)):
        if found[0].lower() not in CASE_SENSITIVE or found[0] != found[0].lower():
            yield f"the {name} says {found[0]!r}"


def _place(finding: Finding, folder: Path) -> Iterator[str]:
    place = finding.place
    path = folder / place.file
    if not place.file or place.line < 1 or place.column < 1:
        yield f"the place {place} has no file, line and column"
    elif path.is_file() and path.resolve().is_relative_to(folder.resolve()):
        lines = _lines(path) or [""]
        if place.line > len(lines) or place.column > len(lines[place.line - 1]) + 1:
            yield f"the place {place} is not in the file"
    elif (place.line, place.column) != (1, 1):
        yield f"the place {place} of what cannot be read is not its start"


def _lines(path: Path) -> list[str]:
    return path.read_bytes().decode("utf-8-sig", "replace").splitlines()


def shows_a_value(finding: Finding, folder: Path) -> bool:
    """Whether the message shows what stands at fault: the value, the record or part of one, or the file."""
    text = printed(re.sub(r"\s+", " ", _record_above(finding, folder) + written_at(finding, folder)))
    named = re.findall(r"[\w/-]+\.\w+", text)
    for shown in QUOTED.findall(finding.message):
        value = shown if shown == '""' else shown.strip('"').removesuffix("…")
        whole = value.partition(".")[0] == finding.record or value == finding.place.file
        a_file = any(value.endswith(f"/{name}") for name in named)  # told by its path from the case folder
        escaped = "\\" in value and value.partition("\\")[0] in text  # of a character told by its escape
        if (value and value in text) or whole or a_file or escaped:
            return True
    return False


def printed(text: str) -> str:
    """A text with what cannot be printed as its escape, as messages show it."""
    return "".join(one if one.isprintable() else repr(one)[1:-1] for one in text)


def _record_above(finding: Finding, folder: Path) -> str:
    """The lines of the record from its id to the line at fault, or of the file where no record is meant."""
    path = folder / finding.place.file
    above = _lines(path)[: finding.place.line - 1] if path.is_file() else []
    starts = [at for at, line in enumerate(above) if re.match(rf"\s*{finding.record or '#'}\s*:", line)]
    return " ".join(above[starts[-1] if starts else 0 :])


def written_at(finding: Finding, folder: Path) -> str:
    """The line that a finding points at; nothing where there is none."""
    path = folder / finding.place.file
    lines = _lines(path) if path.is_file() else []
    return lines[finding.place.line - 1] if 0 < finding.place.line <= len(lines) else ""
