"""`completion`: lets a shell complete commands, options, and the ids of the case at hand."""

import re
from collections.abc import Iterator
from pathlib import Path

import click
from click.shell_completion import CompletionItem, get_completion_class

SHELLS = ("bash", "zsh", "fish")
AS_OF = re.compile(r"^\s+as_of:\s*[\"']?(\d{4}-\d{2}-\d{2})", re.MULTILINE)
HOW = """\b
bash   in ~/.bashrc:  eval "$(holdwater completion bash)"
zsh    in ~/.zshrc:   eval "$(holdwater completion zsh)"
fish   holdwater completion fish \\
         > ~/.config/fish/completions/holdwater.fish"""


@click.command(epilog=HOW)
@click.argument("shell", type=click.Choice(SHELLS))
@click.pass_context
def completion(ctx: click.Context, shell: str) -> None:
    """Print the script that lets SHELL complete commands, options and ids."""
    made = get_completion_class(shell)
    if made is None:
        raise click.ClickException(f"There is no completion for `{shell}`.")
    script = made(ctx.find_root().command, {}, "holdwater", "_HOLDWATER_COMPLETE")
    click.echo(script.source_template % script.source_vars())


def complete_id(ctx: click.Context, _: click.Parameter, begun: str) -> list[CompletionItem]:
    """The ids of the case that begin so, each with its kind; a broken case gives what can be seen."""
    found = {id_: kind for kind, id_ in _ids(ctx) if id_.startswith(begun)}
    return [CompletionItem(id_, help=kind) for id_, kind in sorted(found.items())]


def complete_name(ctx: click.Context, param: click.Parameter, begun: str) -> list[CompletionItem]:
    """The ids of the case and the names of rules that begin so."""
    from assurance.findings_text import rule_names

    rules = [CompletionItem(name, help="rule") for name in sorted(rule_names()) if name.startswith(begun)]
    return [*complete_id(ctx, param, begun), *rules]


def complete_day(ctx: click.Context, _: click.Parameter, begun: str) -> list[CompletionItem]:
    """The day that the case itself speaks of."""
    days = {found[1] for text in _texts(ctx) for found in AS_OF.finditer(text)}
    return [CompletionItem(day) for day in sorted(days) if day.startswith(begun)]


def _ids(ctx: click.Context) -> Iterator[tuple[str, str]]:
    from assurance.reading.glance import seen_ids

    for text in _texts(ctx):
        yield from ((seen.kind, seen.id) for seen in seen_ids(text))


def _texts(ctx: click.Context) -> Iterator[str]:
    from assurance.reading.folders import record_files

    for file in record_files(Path(ctx.params.get("folder") or ".")):
        yield file.text
