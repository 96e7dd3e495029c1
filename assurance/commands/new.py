"""`new`: starts a case, or adds a record of any kind to one."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from assurance.commands.options import FOUND, case_option
from assurance.model.entry import SINGULAR

if TYPE_CHECKING:
    from assurance.model.fields import Record

KIND_OF = {word.replace(" ", "-"): kind for kind, word in SINGULAR.items() if kind != "case"}


class NewGroup(click.Group):
    """`new case`, and one command for each kind of record, made from the model when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The case first, then the kinds in the order of the model."""
        return [*super().list_commands(ctx), *KIND_OF]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name."""
        if cmd_name in KIND_OF:
            return _record_command(cmd_name)
        return super().get_command(ctx, cmd_name)


@click.group(cls=NewGroup)
def new() -> None:
    """Start a case, or add a record to one with its fields explained."""


@new.command("case")
@click.argument("folder", type=click.Path(path_type=Path))
def new_case(folder: Path) -> None:
    """Write a small whole case into a new FOLDER."""
    from assurance.scaffold import new_case as write_case

    try:
        written = write_case(folder)
    except (ValueError, OSError) as fault:
        click.echo(f"The case was not written: {fault}.", err=True)
        sys.exit(FOUND)
    for path in written:
        click.echo(path)
    click.echo(f"\nNext: cd {folder} && holdwater build")


def _record_command(word: str) -> click.Command:
    """The command that adds a record of one kind."""
    from assurance.model.kinds import KINDS

    kind = KIND_OF[word]
    record = KINDS[kind]
    options: list[click.Parameter] = [
        click.Option([f"--{field.replace('_', '-')}", field], help=record.model_fields[field].description,
                     metavar="TEXT")
        for field in _fields_on_the_line(record)
    ]  # fmt: skip

    @case_option
    @click.option("--in", "file", help="File to write into, from the case folder; chosen if left out.")
    @click.argument("id_", metavar="ID")
    def add(id_: str, folder: Path, file: str | None, **given: str | None) -> None:
        _add(kind, id_, folder, file, {field: value for field, value in given.items() if value is not None})

    doc = (record.__doc__ or "").strip().splitlines()[0]
    command = click.command(word, help=f"Add the {SINGULAR[kind]} ID, with its fields explained. {doc}")(add)
    command.params += options
    return command


def _fields_on_the_line(record: "type[Record]") -> list[str]:
    """The fields that can be given as an option: those it needs that one value can say, and the owner."""
    from assurance.reading.plans import leaf_of

    fields = record.model_fields
    needed = [name for name in fields if fields[name].is_required() and leaf_of(record, name).holds == "one"]
    return [*needed, *(["owner"] if "owner" in fields else [])]


def _add(kind: str, id_: str, folder: Path, file: str | None, given: dict[str, Any]) -> None:
    from assurance.reading import read_case
    from assurance.scaffold import Refused, add_record

    try:
        added = add_record(read_case(folder), kind, id_, given=given, file=file)
    except (Refused, OSError) as why:
        click.echo(f"Nothing was written: {why}.", err=True)
        sys.exit(FOUND)
    click.echo(f"{folder / added.file}:{added.line}")
    owner = " It has no owner yet: add `owner`." if added.unowned else ""
    click.echo(f"Next: write what says `To be written.`, then run `holdwater check`.{owner}")
