"""Every name that the guide puts between backticks is one that the program has."""

import re
import typing

import pytest
from guide_pages import blocks, spans, written

from assurance.cli import main
from assurance.commands.check import FORMATS
from assurance.methods.registry import METHODS
from assurance.methods.stress import STRESSES
from assurance.model.entry import SINGULAR
from assurance.model.kinds import KINDS
from assurance.model.units import units
from assurance.model.verdicts import Verdict, Weight
from assurance.reading.rules import INPUT_RULES
from assurance.reference.field_types import parts_of
from assurance.risk.scheme import LIKELIHOODS, SEVERITIES
from assurance.rules.registry import RULES
from assurance.site.published import published_schema

# Words of other tools and of the examples, which nothing in the program can vouch for.
OTHERS = {
    "bash", "zsh", "fish", "~/.bashrc", "sha256sum", "shasum -a 256", "pre-commit", ".pre-commit-config.yaml",
    "# here", "record.result", "mkdocs build", "make test-quick", "LICENSE", ".git/hooks/pre-commit",
}  # fmt: skip
# Keys of the manifest, which the page on checking a folder works out, and words that stand in code.
IN_CODE = {"site", "inputs", "not_read", "packages", "tool", "never", "HOLDWATER_CACHE", *STRESSES}
FILE = re.compile(r"[\w./-]+\.(yml|csv|txt|json|html|md|sha256|toml|parquet)(:\d+)?|[\w-]+/")


def every_record():
    """Each kind of record and each part of one."""
    found, waiting = [], list(KINDS.values())
    for record in waiting:
        if record not in found:
            found.append(record)
            waiting += parts_of(record)
    return found


def words_of_fields():
    """Fields, and the words of those that take one of a few."""
    for record in every_record():
        hints = typing.get_type_hints(record, include_extras=True)
        for name in record.model_fields:
            yield name
            yield from _words(hints[name])


def _words(hint):
    if typing.get_origin(hint) is typing.Literal:
        yield from map(str, typing.get_args(hint))
    for part in typing.get_args(hint):
        if not isinstance(part, str):
            yield from _words(part)


def names_of_methods():
    for method in METHODS.values():
        yield method.name
        yield from (spec.name for spec in (*method.inputs, *method.results))


def keys_of(schema):
    """Every key that the published data may have."""
    parts = (schema, *schema["$defs"].values())
    return {key for part in parts for key in part.get("properties", {})}


def commands_and_options():
    waiting = [("holdwater", main)]
    for path, command in waiting:
        yield path
        yield path.removeprefix("holdwater ")
        for option in command.params:
            yield from (*option.opts, *option.secondary_opts)
        context = command.make_context(path, [], resilient_parsing=True)
        if hasattr(command, "list_commands"):
            waiting += [
                (f"{path} {one}", command.get_command(context, one)) for one in command.list_commands(context)
            ]


KNOWN = {
    *(rule.name for rule in RULES), *(name for name, _ in INPUT_RULES), *KINDS, *SINGULAR.values(),
    *words_of_fields(), *names_of_methods(), *units(), *(one.word for one in Verdict),
    *(one.value for one in Weight), *keys_of(published_schema()), *commands_and_options(), *FORMATS,
    *SEVERITIES, *LIKELIHOODS, *IN_CODE, *OTHERS,
}  # fmt: skip


def own_words(text):
    """What a page writes into files itself: ids, headings and words of its examples."""
    typed = "\n".join(blocks(text, "yaml", "csv", "text", "console", "sh"))
    return set(re.findall(r"[\w.-]+", typed))


def is_known(span, own):
    """Whether a span names what exists: in the program, in a file the page writes, or as YAML of it."""
    if span in KNOWN or FILE.fullmatch(span) or span in own:
        return True
    words = span.split()
    if words[0] == "holdwater" or words[0].startswith("--"):
        options = {word for word in words if word.startswith("-")}
        return options <= KNOWN and (words[0] != "holdwater" or f"holdwater {words[1]}" in KNOWN)
    key = re.match(r"([\w-]+): ?", span)
    return bool(key) and key[1] in (KNOWN | own)


@pytest.mark.parametrize("name", sorted(written()))
def test_every_name_between_backticks_exists(name):
    text = written()[name]
    own = own_words(text) | own_words(written()["reading/tutorial"])
    asked = re.sub(r"change `[^`]+` to `[^`]+`", "", re.sub(r"```.*?```", "", text, flags=re.DOTALL))
    assert [span for span in spans(asked) if not is_known(span, own)] == []


@pytest.mark.parametrize("name", sorted(written()))
def test_every_command_that_a_page_shows_exists_with_its_options(name):
    text = written()[name]
    lines = "\n".join([*blocks(text, "console", "sh", "yaml"), *spans(text)]).splitlines()
    for line in lines:
        for words in re.findall(r"(?:^|[;&|] ?|\$ |run: |- )(holdwater (?:new )?[a-z-]+[^|;&]*)", line):
            path = " ".join(words.split()[: 3 if words.startswith("holdwater new ") else 2])
            assert path in KNOWN, line
            assert set(re.findall(r" (--[a-z-]+)", words)) <= KNOWN, line
