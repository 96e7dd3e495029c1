"""Reads what a page of Markdown asks its reader to do: write a file, change one, run a command.

The forms are plain text, so that a person reads them as well:

- "In `FILE`:" before a fenced block: the block is the whole file.
- "At the end of `FILE`:" before a fenced block: the block is added there.
- "In `FILE`, in the place of the record `ID`:" before a fenced block: the block replaces that record.
- "In `FILE`, change `OLD` to `NEW`." `OLD` stands there once.
- a block of `console`: lines that start with `$ ` are commands, the others what they print; a line
  `...` stands for any number of lines.
- a block of `sh`: each line is a command.
- "Left out when this page is tested, because REASON:" before a block: the block is left out.

A block that follows none of these is there to be read.
"""

import re
from dataclasses import dataclass, replace

FENCE = re.compile(r"^```([a-z]*)\s*$")
WHOLE = re.compile(r"\b[Ii]n `([^`]+)`:$")
END = re.compile(r"\bAt the end of `([^`]+)`:$")
RECORD = re.compile(r"\bIn `([^`]+)`, in the place of the record `([^`]+)`:$")
CHANGE = re.compile(r"\bIn `([^`]+)`, change `([^`]+)` to `([^`]+)`\.")
ASKED = re.compile(r"`, change\b")
LEFT_OUT = re.compile(r"\bLeft out when this page is tested, because ([^:]+):$")


@dataclass(frozen=True)
class Step:
    """One thing to do; `line` is where its text starts on the page."""

    does: str  # "write", "append", "replace", "change", "run", "left out" or "read"
    line: int
    text: str = ""
    file: str = ""
    old: str = ""
    language: str = ""
    reason: str = ""


@dataclass(frozen=True)
class Command:
    """A command and what the page says it prints; `printed` is None where the page shows nothing."""

    line: int
    text: str
    printed: str | None


def steps_of(text):
    """Everything that a page asks for, in order."""
    paragraph, block = "", None
    for number, line in enumerate(text.splitlines(), 1):
        fence = FENCE.match(line)
        if block is not None:
            if fence and not fence[1]:
                yield named(block, paragraph)
                paragraph, block = "", None
            else:
                block = replace(block, text=block.text + line + "\n")
        elif fence:
            block = Step("read", number + 1, language=fence[1])
        elif line.strip():
            paragraph = f"{paragraph} {line.strip()}".strip()
            yield from changes(line, number)
        elif not WAITING.search(paragraph):
            paragraph = ""


WAITING = re.compile(r":$")  # a paragraph that ends so speaks of the block below it


def changes(line, number):
    found = CHANGE.findall(line)
    if len(found) != len(ASKED.findall(line)):
        raise ValueError(f"line {number}: a change is asked for in a form that nobody can follow")
    for file, old, new in found:
        yield Step("change", number, text=new, file=file, old=old)


def named(block, paragraph):
    """A block with what the paragraph above it says is to be done."""
    if found := LEFT_OUT.search(paragraph):
        return replace(block, does="left out", reason=found[1])
    if block.language == "console":
        return replace(block, does="run")
    if found := RECORD.search(paragraph):
        return replace(block, does="replace", file=found[1], old=found[2])
    if found := END.search(paragraph):
        return replace(block, does="append", file=found[1])
    if found := WHOLE.search(paragraph):
        return replace(block, does="write", file=found[1])
    return replace(block, does="run") if block.language == "sh" else block


def commands_of(step):
    """The commands of a block, each with what it prints."""
    if step.language == "sh":
        lines = enumerate(step.text.splitlines(), step.line)
        return [Command(number, line, None) for number, line in lines if line.strip()]
    found = []
    for number, line in enumerate(step.text.splitlines(), step.line):
        if line.startswith("$ "):
            found.append(Command(number, line.removeprefix("$ "), ""))
        elif found:
            found[-1] = replace(found[-1], printed=found[-1].printed + line + "\n")
        else:
            raise ValueError(f"line {number}: what is printed stands before any command")
    return found
