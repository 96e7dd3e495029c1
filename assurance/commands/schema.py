"""`schema`: the shape of the YAML files, or of the published data, as JSON Schema."""

import sys
from pathlib import Path

import click

from assurance.commands.options import FOUND


@click.command()
@click.option("--case", "folder", is_flag=False, flag_value=".", metavar="[FOLDER]",
              type=click.Path(exists=True, file_okay=False, path_type=Path),
              help="List the ids of the case in FOLDER too, for editors to complete references.")  # fmt: skip
@click.option(
    "--write", is_flag=True, help="Put it into `schema.json` of the case, where editors look for it."
)
@click.option("--assessment", is_flag=True, help="The schema of assessment.json instead.")
def schema(folder: Path | None, write: bool, assessment: bool) -> None:
    """Print the JSON Schema of the YAML files, for completion in an editor."""
    if assessment and (folder or write):
        raise click.UsageError("`--assessment` stands alone; leave out `--case` and `--write`.")
    if write:
        _write(folder or Path())
    elif assessment:
        from assurance.site.published import schema_text

        click.echo(schema_text(), nl=False)
    else:
        _print(folder)


def _print(folder: Path | None) -> None:
    from assurance.reading import read_case
    from assurance.scaffold import schema_text

    click.echo(schema_text(read_case(folder) if folder else None), nl=False)


def _write(folder: Path) -> None:
    from assurance.reading import read_case
    from assurance.scaffold import write_schema

    try:
        click.echo(write_schema(read_case(folder)))
    except (ValueError, OSError) as fault:
        click.echo(f"The schema was not written: {fault}.", err=True)
        sys.exit(FOUND)
