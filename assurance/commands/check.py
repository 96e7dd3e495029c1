"""`check`: lists what was found in a case, for a reader, a code host or a build server."""

import os
import shutil
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from assurance import __version__
from assurance.commands.options import FOUND, NO_CASE, assessed, folder_argument, on_option, opened_store
from assurance.model.verdicts import Weight

if TYPE_CHECKING:
    from assurance.model.checked import Checked

FORMATS = ("text", "json", "sarif", "junit")
FAIL_ON = (*(weight.value for weight in Weight), "never")
PIPE_WIDTH = 100  # columns of an excerpt where no terminal says how wide it is
STYLES = {
    "blocking": {"bold": True, "reverse": True},
    "caution": {"bold": True},
    "place": {"underline": True},
    "carets": {"bold": True},
}  # hue means verdict everywhere, so a weight has none; its word says it
EXITS = """\b
Exit codes:
  0  no finding is as heavy as --fail-on
  1  at least one finding is
  2  there is no case record in FOLDER, a word of the command
     is wrong, or FILE cannot be written"""


@click.command(epilog=EXITS)
@folder_argument
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True,
              help="text for a reader, json for the whole assessment, sarif for a code host, "
                   "junit for a build server.")  # fmt: skip
@click.option("--output", metavar="FILE", type=click.Path(dir_okay=False, path_type=Path),
              help="Write it to FILE, whole or not at all, and print the summary only.")  # fmt: skip
@click.option("--fail-on", type=click.Choice(FAIL_ON), default="blocking", show_default=True,
              help="Exit with 1 where a finding is at least this heavy.")  # fmt: skip
@click.option("--color/--no-color", "color", default=None,
              help="Bold and underlined words; if left out, on a terminal without NO_COLOR.")  # fmt: skip
@on_option
def check(
    folder: Path, form: str, output: Path | None, fail_on: str, day: date | None, color: bool | None
) -> None:
    """Check the case in FOLDER and list what was found."""
    checked, whole = _asked(folder, day, whole=form == "json")
    painted = output is None and _painted(color)
    text = whole or _report(checked, folder, form=form, fail_on=fail_on, painted=painted)
    if output is None:
        click.echo(text, nl=False, color=painted)
    else:
        _write(output, text)
        click.echo(_summary(checked), nl=False)
    sys.exit(_exit_code(checked, fail_on))


def _asked(folder: Path, day: date | None, *, whole: bool) -> tuple["Checked", str]:
    """The answer, and the whole assessment as JSON text where that is asked for."""
    if not whole:
        from assurance.checking import check_case

        return check_case(folder, day=day, store=opened_store(folder)), ""
    from assurance.checking import checked
    from assurance.site.data_out import as_text, assessment_json

    case, assessment = assessed(folder, day)
    return checked(assessment), as_text(assessment_json(assessment, case))


def _report(checked: "Checked", folder: Path, *, form: str, fail_on: str, painted: bool) -> str:
    from assurance.reading.source_lines import SourceLines

    if form == "junit":
        from assurance.reports.junit import junit_text
        from assurance.reports.weights import failing_weights

        return junit_text(checked, fails=failing_weights(fail_on))
    line_at = SourceLines(folder).at
    if form == "sarif":
        from assurance.reports.sarif import Origin, sarif_text

        return sarif_text(checked, Origin(__version__, _from_here(folder), line_at))
    from assurance.reports.text import Sheet, check_lines, unpainted

    sheet = Sheet(_width(), _paint if painted else unpainted, line_at)
    return "".join(f"{line}\n" for line in check_lines(checked, sheet))


def _summary(checked: "Checked") -> str:
    from assurance.reports.text import summary_lines

    return "".join(f"{line}\n" for line in summary_lines(checked))


def _paint(text: str, role: str) -> str:
    return click.style(text, **STYLES[role]) if role in STYLES else text


def _painted(color: bool | None) -> bool:
    """Whether to paint: as asked, else on a terminal that shows it, unless NO_COLOR is set."""
    if color is not None:
        return color
    dumb = os.environ.get("TERM") == "dumb" or bool(os.environ.get("NO_COLOR"))
    return sys.stdout.isatty() and not dumb


def _width() -> int:
    return shutil.get_terminal_size().columns if sys.stdout.isatty() else PIPE_WIDTH


def _from_here(folder: Path) -> str:
    """The way from the current folder to the case; empty where the case does not lie below it."""
    here, there = Path.cwd().resolve(), folder.resolve()
    way = there.relative_to(here).as_posix() if there.is_relative_to(here) else ""
    return "" if way == "." else way


def _write(output: Path, text: str) -> None:
    from assurance.reports.writing import write_report

    try:
        write_report(output, text)
    except (OSError, ValueError) as fault:
        told = fault.strerror if isinstance(fault, OSError) else fault
        click.echo(f"`{output}` was not written: {told}. Name another file under --output.", err=True)
        sys.exit(NO_CASE)


def _exit_code(checked: "Checked", fail_on: str) -> int:
    from assurance.reports.weights import failing_weights

    if not checked.case:
        return NO_CASE
    return FOUND if any(one.weight in failing_weights(fail_on) for one in checked.findings) else 0
