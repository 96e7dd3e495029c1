"""The page of rules: what each looks for, why, what puts it right, and an example of each kind."""

import sys
from collections.abc import Iterator

from assurance.model.verdicts import ReasonKind, Weight
from assurance.reading.rule_examples import EXAMPLES, WHY
from assurance.reading.rules import INPUT_RULES
from assurance.reference.markdown import code, fenced, heading_anchor, link, page
from assurance.rules.docs import document
from assurance.rules.registry import RULES
from assurance.rules.view import Rule

READING = "Reading"
INTRODUCTION = """\
# Rules

What `check` looks for. Each rule reports **findings**, each at its place in a file. `holdwater explain \
RULE` prints the same text.

The weight behind a name is the usual one. Where a finding tells of a cause, its weight follows from \
what the cause does: what fails, speaks against the case or cannot be read is {mark:blocking} blocking, \
what leaves a record open or out of date is a {mark:caution} caution, what leaves it provisional is a \
{mark:note} note. `check` ends with exit code 1 where a finding reaches the weight given by `--fail-on`.

In the bad examples `# here` marks the line that is reported. All examples are run as tests. They are \
invented, and they stand within a case that is otherwise whole."""
ON_BROKEN = "A record or a file cannot be read whole. While that is so, the top claim is open."


def rules_page() -> str:
    """Every rule of the installed program under its group, in Markdown."""
    groups = rule_groups()
    return page(INTRODUCTION, _contents(groups), *_sections(groups), *_reading())


def rule_groups() -> dict[str, tuple[Rule, ...]]:
    """The rules by what they are about, in the order of their list."""
    found: dict[str, list[Rule]] = {}
    for rule in RULES:
        found.setdefault(_about(rule), []).append(rule)
    return {title: tuple(rules) for title, rules in found.items()}


def _about(rule: Rule) -> str:
    """What the module that holds a rule says it is about."""
    said = (sys.modules[rule.look.__module__].__doc__ or "").strip().splitlines()[0]
    about = said.removeprefix("Rules about ").partition(":")[0].rstrip(".")
    return about[:1].upper() + about[1:]


def _contents(groups: dict[str, tuple[Rule, ...]]) -> str:
    lines = [f"- {title}: {_linked(rule.name for rule in rules)}" for title, rules in groups.items()]
    return "\n".join([*lines, f"- {READING}: {_linked(name for name, _ in INPUT_RULES)}"])


def _linked(names: Iterator[str]) -> str:
    return ", ".join(link(code(name), f"#{name}") for name in names)


def _sections(groups: dict[str, tuple[Rule, ...]]) -> Iterator[str]:
    for title, rules in groups.items():
        yield f"## {title}"
        for rule in rules:
            yield from _one(rule)


def _one(rule: Rule) -> Iterator[str]:
    doc = document(rule)
    yield _headed(doc.name, doc.weight, doc.what)
    yield f"*Why:* {doc.why}"
    yield f"*Puts it right:* {doc.remedy}"
    yield f"Bad:\n\n{fenced(doc.bad)}"
    yield f"Good:\n\n{fenced(doc.good)}"


def _headed(name: str, weight: Weight, what: str) -> str:
    if heading_anchor(name) != name:
        raise ValueError(f"a link to the rule `{name}` would lead nowhere")
    return f"### {name}\n\n{{mark:{weight.value}}} {weight.value}. {what}"


def _reading() -> Iterator[str]:
    yield f"## {READING}"
    yield WHY
    yield _headed(ReasonKind.INPUT_BROKEN.value, Weight.BLOCKING, ON_BROKEN)
    for name, what in INPUT_RULES:
        example = EXAMPLES[name]
        yield _headed(name, Weight.BLOCKING, what)
        yield f"*Puts it right:* {example.remedy}"
        if example.bad:
            yield f"Bad:\n\n{fenced(example.bad)}"
            yield f"Good:\n\n{fenced(example.good)}"
