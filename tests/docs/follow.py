"""Does what a page of Markdown says, literally and in order, in an empty folder.

`python tests/docs/follow.py PAGE ...` writes what the commands print into the pages, so that a
person can look at what changed. The tests only compare.
"""

import re
import subprocess
import sys
import tempfile
import threading
from dataclasses import dataclass
from pathlib import Path

from steps_of_text import commands_of, steps_of

BIN = Path(sys.executable).parent
SYSTEM = "/usr/local/bin:/usr/bin:/bin"
LONGEST = 600  # s that a page may take, installing included
MARKER = "holdwater-docs-done"
BLOCKED = re.compile(r"^[1-9]\d* blocking finding", re.MULTILINE)


@dataclass(frozen=True)
class Printed:
    """A command of a page and what it really printed."""

    line: int
    command: str
    stated: str | None
    real: str
    code: int

    @property
    def ended_well(self):
        """Whether the code is the one that the command is to end with: `check` tells of what blocks."""
        blocked = self.command.startswith("holdwater check") and BLOCKED.search(self.real)
        return self.code == (1 if blocked else 0)

    @property
    def agrees(self):
        """Whether it printed what the page says; where the page shows nothing, whether it worked."""
        as_stated = self.stated is None or re.fullmatch(pattern(self.stated), self.real)
        return self.ended_well and bool(as_stated)


def pattern(stated):
    """What is stated as a pattern in which a line `...` stands for any lines."""
    lines = stated.splitlines(keepends=True)
    return "".join("(?:.*\n)*" if line == "...\n" else re.escape(line) for line in lines)


class Reader:
    """Somebody at a terminal who does what the page says, in one shell from the first line to the last."""

    def __init__(self, folder, *, environment=None, instead=None):
        self.folder = folder
        self.instead = instead or {}
        self.shell = subprocess.Popen(
            ["bash", "--noprofile", "--norc"],
            cwd=folder, env=environment or plain_environment(folder),
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8",
        )  # fmt: skip
        self.alarm = threading.Timer(LONGEST, self.shell.kill)
        self.alarm.start()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.alarm.cancel()
        self.shell.stdin.close()
        self.shell.stdout.close()
        self.shell.kill()
        self.shell.wait()

    def follow(self, text):
        """Does every step; gives what each command printed. A step that cannot be done raises."""
        printed = []
        for step in steps_of(text):
            if step.does == "run":
                printed += [self.run(command) for command in commands_of(step)]
            elif step.does not in ("read", "left out"):
                self.edit(step)
        return printed

    def run(self, command):
        """One command with what it printed and the code it ended with."""
        printed, code = self._told(self.instead.get(command.text, command.text))
        if code is None:
            raise AssertionError(f"the shell ended at line {command.line}: {command.text}\n{printed}")
        return Printed(command.line, command.text, command.printed, printed, code)

    def _told(self, typed):
        self.shell.stdin.write(f"{{ {typed}\n}} </dev/null\necho {MARKER} $?\n")
        self.shell.stdin.flush()
        lines = []
        for line in self.shell.stdout:
            before, ended, code = line.partition(MARKER)
            lines.append(before)
            if ended:
                return "".join(lines), int(code)
        return "".join(lines), None

    def edit(self, step):
        """Writes, adds to or changes a file, where the shell stands."""
        file = self.where() / step.file
        if step.does == "write":
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(step.text, "utf-8")
            return
        before = file.read_text("utf-8")
        file.write_text(changed(before, step), "utf-8")

    def where(self):
        """The folder in which the shell stands."""
        return Path(self._told("pwd")[0].rstrip("\n"))


def changed(before, step):
    """The text of a file after a step. What is to be replaced stands there once."""
    if step.does == "append":
        return before + step.text
    if step.does == "change":
        if before.count(step.old) != 1:
            raise AssertionError(f"line {step.line}: `{step.old}` stands {before.count(step.old)} times")
        return before.replace(step.old, step.text)
    start, end = record_lines(before, step)
    lines = before.splitlines(keepends=True)
    return "".join((*lines[:start], step.text, *lines[end:]))


def record_lines(text, step):
    """The first line of a record and the first one after it."""
    lines = text.splitlines()
    starts = [at for at, line in enumerate(lines) if line.startswith(f"  {step.old}:")]
    if len(starts) != 1:
        raise AssertionError(f"line {step.line}: {step.file} holds {len(starts)} records `{step.old}`")
    after = (at for at in range(starts[0] + 1, len(lines)) if re.match(r" {0,2}\S", lines[at]))
    end = next(after, len(lines))
    while not lines[end - 1].strip():
        end -= 1  # blank lines between this record and the next stay
    return starts[0], end


def plain_environment(folder, *, tools=True):
    """What a fresh terminal has, the installed tool where it is asked for, and no settings of anyone."""
    return {
        "PATH": f"{BIN}:{SYSTEM}" if tools else SYSTEM,
        "HOME": str(folder),
        "LANG": "C.UTF-8",
        "HOLDWATER_CACHE": str(folder.parent / f"{folder.name}-cache"),
    }


def rewritten(text, printed):
    """A page with what the commands really print in the place of what it says."""
    lines = text.splitlines()
    for one in reversed(printed):
        if one.stated is None or one.agrees or not one.ended_well:
            continue
        end = one.line + one.stated.count("\n")
        lines[one.line : end] = one.real.splitlines()
    return "\n".join(lines) + "\n"


def main(pages):
    for page in map(Path, pages):
        text = page.read_text("utf-8")
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made, "empty")
            folder.mkdir()
            with Reader(folder) as reader:
                printed = reader.follow(text)
        for one in printed:
            if not one.ended_well:
                print(f"{page}:{one.line}: `{one.command}` ended with {one.code}\n{one.real}")
        page.write_text(rewritten(text, printed), "utf-8")
        other = sum(not one.agrees for one in printed)
        print(f"{page}: {other} of {len(printed)} commands printed something else")


if __name__ == "__main__":
    main(sys.argv[1:])
