"""The page of commands, made from the commands themselves.

The guide carries it as a written page: the layers that publish stand below the commands. A test holds
the page to what this gives.
"""

from collections.abc import Iterator

import click

from assurance.reference.markdown import anchor, code, fenced, listed, page, table

NAME = "holdwater"
INTRODUCTION = """\
# Commands

`holdwater COMMAND --help` prints the same at the terminal. Every command works in the folder of the \
case, or takes it as FOLDER. None of them runs anything that a case brings, and none asks the network. \
`check` and `explain` write nothing into a case; `build` and `serve` write the site; `new` and `schema \
--write` add what they say they add, whole or not at all.

Results that took long are kept outside the case, in the cache folder of the user or in the folder \
that `HOLDWATER_CACHE` names. It may be deleted at any time."""
OPTIONS = ("Option", "Takes", "What it does")
PARTS = ("Command", "What it does", "Options of its own")


def commands_page(main: click.Group) -> str:
    """Every command with its options and exit codes, in Markdown."""
    context = click.Context(main, info_name=NAME)
    return page(
        INTRODUCTION, *(part for name in main.list_commands(context) for part in _command(context, name))
    )


def _command(above: click.Context, name: str) -> Iterator[str]:
    command, context = _under(above, name)
    yield f"## {name}"
    yield fenced(_usage(command, context), "text")
    yield _plain(command.help or "")
    options = tuple(_options(command))
    if options:
        yield table(OPTIONS, options)
    if isinstance(command, click.Group):
        yield table(PARTS, (_row(context, one) for one in command.list_commands(context)))
    if command.epilog:
        yield fenced(command.epilog.removeprefix("\b\n"), "text")


def _under(above: click.Context, name: str) -> tuple[click.Command, click.Context]:
    group = above.command
    assert isinstance(group, click.Group)
    command = group.get_command(above, name)
    if command is None:
        raise ValueError(f"the group lists `{name}` and does not give it")
    return command, click.Context(command, info_name=name, parent=above)


def _usage(command: click.Command, context: click.Context) -> str:
    return " ".join((context.command_path, *command.collect_usage_pieces(context)))


def _plain(help_text: str) -> str:
    return " ".join(help_text.split())


def _row(context: click.Context, name: str) -> tuple[str, ...]:
    command, own = _under(context, name)
    options = ", ".join(code(one.opts[0]) for one in command.params if isinstance(one, click.Option))
    shown = f"{anchor(f'{context.info_name}.{name}')}{code(_usage(command, own))}"
    return shown, _plain(command.help or ""), options


def _options(command: click.Command) -> Iterator[tuple[str, ...]]:
    for one in command.params:
        if isinstance(one, click.Option) and not one.hidden:
            names = ", ".join(code(name) for name in (*one.opts, *one.secondary_opts))
            yield names, _value(one), one.help or ""


def _value(option: click.Option) -> str:
    if option.is_flag:
        return "nothing"
    if isinstance(option.type, click.Choice):
        words = listed(code(str(word)) for word in option.type.choices)
        return f"{words}; {code(str(option.default))} if left out" if option.default else words
    return code(option.metavar or option.type.name.upper())
