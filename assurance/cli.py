"""The command line. Thin: each command reads, asks the layers below, and prints."""

import gc
import json
import sys
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from assurance import __version__
from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.model.names import nearest_name
from assurance.model.verdicts import Weight

if TYPE_CHECKING:
    from assurance.publish.frames import FrameRequest

NO_CASE = 2  # exit: there is no case record to work from
FOUND = 1  # exit: findings reach the weight asked for
_FAIL_ON = click.Choice([*(weight.value for weight in Weight), "never"])
_WEIGHTS = [weight.value for weight in Weight]
folder_argument = click.argument(
    "folder", default=".", type=click.Path(exists=True, file_okay=False, path_type=Path)
)
case_option = click.option(
    "--case", "folder", default=".", type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="Folder of the case; this one if left out.",
)  # fmt: skip


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


on_option = click.option("--on", "day", type=Day(), help="Judge as of this day instead of the case's own.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="holdwater")
def main() -> None:
    """An assurance case and risk analysis as YAML, worked out and published as a static site."""
    gc.disable()  # one short run: collecting costs a tenth of it and frees next to nothing
    own = str(Path(__file__).resolve().parents[1])
    here = {"", ".", str(Path.cwd())} - {own}  # a case folder holds data, never code
    sys.path[:] = [folder for folder in sys.path if folder not in here]


@main.group()
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


@main.command()
@folder_argument
@click.option("--json", "as_json", is_flag=True, help="Print the whole assessment as JSON.")
@click.option("--fail-on", type=_FAIL_ON, default="blocking", show_default=True,
              help="Exit with 1 where a finding is at least this heavy.")  # fmt: skip
@on_option
def check(folder: Path, as_json: bool, fail_on: str, day: date | None) -> None:
    """Check the case in FOLDER and list what was found."""
    case, assessment = _assess(folder, day)
    if as_json:
        from assurance.site.data_out import as_text, assessment_json

        click.echo(as_text(assessment_json(assessment, case)), nl=False)
    else:
        _print_check(assessment)
    sys.exit(_exit_code(assessment, fail_on))


def _print_check(assessment: Assessment) -> None:
    from assurance.findings_text import count_line, finding_lines, tally_line, top_lines

    for line in finding_lines(assessment.findings):
        click.echo(line)
    if assessment.findings:
        click.echo()
    for line in (*top_lines(assessment), tally_line(assessment), count_line(assessment.findings)):
        click.echo(line)


def _exit_code(assessment: Assessment, fail_on: str) -> int:
    if fail_on == "never":
        return 0
    heavy = _WEIGHTS[: _WEIGHTS.index(fail_on) + 1]
    return FOUND if any(one.weight.value in heavy for one in assessment.findings) else 0


@main.command()
@folder_argument
@on_option
@click.option("--site-dir", type=click.Path(file_okay=False, path_type=Path),
              help="Where the site goes; `site_dir` of mkdocs.yml if left out.")  # fmt: skip
def build(folder: Path, day: date | None, site_dir: Path | None) -> None:
    """Work out the case in FOLDER and publish its site, whatever the verdict."""
    from assurance.publish import SiteFolderRefused, publish
    from assurance.store import cache_folder

    case, assessment = _assess(folder, day)
    _refuse_without_case(case, assessment)
    target = site_dir or case.folder / case.settings.site_dir
    try:
        summary = publish(case, assessment, target, render_frames=_render_frames, cache_dir=cache_folder())
    except (SiteFolderRefused, OSError) as fault:
        click.echo(f"The site was not written: {fault}\nThe last site, if any, is as it was.", err=True)
        sys.exit(NO_CASE)
    _print_build(assessment, f"{summary.pages} pages", target)


def _render_frames(request: "FrameRequest") -> Mapping[str, str]:
    """Renders frames with MkDocs, which is imported only when frames are needed."""
    from assurance.mkdocs_plugin import render_frames

    return render_frames(request)


def _print_build(assessment: Assessment, pages: str, target: Path) -> None:
    from assurance.findings_text import count_line, finding_lines, tally_line, top_lines

    blocking = tuple(one for one in assessment.findings if one.weight is Weight.BLOCKING)
    for line in finding_lines(blocking):
        click.echo(line)
    for line in (*top_lines(assessment), tally_line(assessment), count_line(assessment.findings)):
        click.echo(line)
    click.echo(f"{pages}: {target / 'index.html'}")


def _refuse_without_case(case: CaseText, assessment: Assessment) -> None:
    if case.entries.get(assessment.case) is not None:
        return
    from assurance.findings_text import finding_lines

    for line in finding_lines(case.findings):
        click.echo(line, err=True)
    click.echo(f"No `case` record could be read in {case.folder}, so there is nothing to publish.", err=True)
    sys.exit(NO_CASE)


@main.command()
@click.argument("name")
@case_option
@on_option
def explain(name: str, folder: Path, day: date | None) -> None:
    """Explain a RULE, or why the record ID has its verdict."""
    from assurance.findings_text import reason_tree, rule_lines

    told = list(rule_lines(name))
    if not told:
        _, assessment = _assess(folder, day)
        if name not in assessment.verdicts:
            raise click.ClickException(_nothing_called(name, assessment))
        told = list(reason_tree(assessment, name))
    for line in told:
        click.echo(line)


def _nothing_called(name: str, assessment: Assessment) -> str:
    from assurance.findings_text import rule_names

    known = [*assessment.verdicts, *rule_names()]
    near = nearest_name(name, known)
    guess = f" Did you mean `{near}`?" if near else ""
    return f"There is neither a rule nor a record `{name}`.{guess}"


@main.command()
@click.option("--assessment", is_flag=True, help="The schema of assessment.json instead.")
def schema(assessment: bool) -> None:
    """Print the JSON Schema of the YAML files, for completion in an editor."""
    if assessment:
        from assurance.site.published import schema_text

        click.echo(schema_text(), nl=False)
        return
    from assurance.reading.schema import records_schema

    click.echo(json.dumps(records_schema(), indent=1, ensure_ascii=False))


def _assess(folder: Path, day: date | None) -> tuple[CaseText, Assessment]:
    from assurance.assess import assess
    from assurance.reading import read_case
    from assurance.store import default_store

    case = read_case(folder)
    return case, assess(case, as_of=day, store=default_store())


if __name__ == "__main__":
    main()
