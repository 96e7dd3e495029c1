"""`new`: starts a case, or adds a record to one."""

from pathlib import Path

import click


@click.group()
def new() -> None:
    """Start something new."""


@new.command("case")
@click.argument("folder", type=click.Path(path_type=Path))
def new_case(folder: Path) -> None:
    """Write a small whole case into a new FOLDER."""
    from assurance.scaffold import new_case as write_case

    try:
        written = write_case(folder)
    except (ValueError, OSError) as fault:
        raise click.ClickException(f"The case was not written: {fault}.") from None
    for path in written:
        click.echo(path)
    click.echo(f"\nNext: cd {folder} && holdwater build")
