"""The text of a rule, taken apart: what it looks for, why, what puts it right, a bad and a good example."""

import inspect
import textwrap
from dataclasses import dataclass
from functools import cache

from assurance.model.verdicts import Weight
from assurance.rules.view import Rule

WIDTH = 88  # columns of a terminal
SECTIONS = ("Why:", "Put right:", "Bad::", "Good::")


@dataclass(frozen=True, slots=True)
class RuleDoc:
    """The documentation of one rule; `bad` and `good` are YAML, empty where none can show the fault."""

    name: str
    weight: Weight
    what: str
    why: str
    remedy: str
    bad: str
    good: str

    @property
    def text(self) -> str:
        """The whole of it as plain text, for a terminal."""
        prose = [self.what, f"Why: {self.why}", f"Put right: {self.remedy}"]
        parts = [f"{self.name} ({self.weight.value})", *(textwrap.fill(one, WIDTH) for one in prose)]
        if self.bad:
            parts += ["Bad:", _indented(self.bad), "Good:", _indented(self.good)]
        return "\n\n".join(parts) + "\n"


@cache
def document(rule: Rule) -> RuleDoc:
    """The documentation of a rule, as it is written at its function.

    Raises `ValueError` where the function does not say all of it.
    """
    parts = _parts(inspect.cleandoc(rule.doc))
    lacking = [name for name in ("", *SECTIONS) if not parts.get(name, "").strip()]
    if lacking:
        named = ", ".join(name or "a first line" for name in lacking)
        raise ValueError(f"the rule `{rule.name}` must say {named}")
    what, why, remedy = (_prose(parts[name]) for name in ("", "Why:", "Put right:"))
    bad, good = (textwrap.dedent(parts[name]).strip("\n") + "\n" for name in ("Bad::", "Good::"))
    return RuleDoc(rule.name, rule.weight, what, why, remedy, bad, good)


def _parts(doc: str) -> dict[str, str]:
    """The text under each heading; what stands before the first has the empty one."""
    found: dict[str, str] = {}
    current = ""
    for line in doc.splitlines():
        heading = next((name for name in SECTIONS if line.startswith(name)), None)
        if heading is not None:
            current, line = heading, line.removeprefix(heading)
        found[current] = found.get(current, "") + line + "\n"
    return found


def _prose(text: str) -> str:
    return " ".join(text.split())


def _indented(text: str) -> str:
    return textwrap.indent(text.rstrip("\n"), "    ")
