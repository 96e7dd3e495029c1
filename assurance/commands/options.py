"""What several commands take: the folder, the day; and the exit codes that they share."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from assurance.commands.completion import complete_day

if TYPE_CHECKING:
    from assurance.model.assessment import Assessment
    from assurance.model.case import CaseText
    from assurance.store import Store

NO_CASE = 2  # exit: there is no case record to work from
FOUND = 1  # exit: findings reach the weight asked for
_FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)
folder_argument = click.argument("folder", default=".", type=_FOLDER)
case_option = click.option(
    "--case", "folder", default=".", type=_FOLDER, help="Folder of the case; this one if left out."
)


class Day(click.ParamType[date]):
    """A day such as 2026-03-12."""

    name = "date"

    def convert(self, value: str | date, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """The day, or a usage message."""
        if isinstance(value, date):
            return value
        try:
            return date.fromisoformat(value)
        except ValueError:
            self.fail(f"`{value}` is not a date such as 2026-03-12", param, ctx)


on_option = click.option(
    "--on",
    "day",
    type=Day(),
    shell_complete=complete_day,
    help="Judge as of this day instead of the case's own.",
)


def assessed(folder: Path, day: date | None) -> tuple["CaseText", "Assessment"]:
    """The case of a folder, read and assessed with the results kept in the user's store."""
    from assurance.checking.rechecking import Rechecker

    return Rechecker(folder, day=day, store=opened_store(folder)).again()


def opened_store(folder: Path) -> "Store | None":
    """The user's store; none, and a word on why, where it would lie inside the case."""
    from assurance.store import cache_folder, store_for

    store = store_for(folder)
    if store is None:
        click.echo(
            f"The cache folder `{cache_folder()}` lies inside the case, so nothing is kept there. "
            "Let HOLDWATER_CACHE name a folder outside of the case.",
            err=True,
        )
    return store
