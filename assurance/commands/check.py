"""`check`: lists what was found in a case."""

import sys
from datetime import date
from pathlib import Path

import click

from assurance.commands.options import FOUND, assessed, folder_argument, on_option
from assurance.model.assessment import Assessment
from assurance.model.verdicts import Weight

_WEIGHTS = [weight.value for weight in Weight]


@click.command()
@folder_argument
@click.option("--json", "as_json", is_flag=True, help="Print the whole assessment as JSON.")
@click.option("--fail-on", type=click.Choice([*_WEIGHTS, "never"]), default="blocking", show_default=True,
              help="Exit with 1 where a finding is at least this heavy.")  # fmt: skip
@on_option
def check(folder: Path, as_json: bool, fail_on: str, day: date | None) -> None:
    """Check the case in FOLDER and list what was found."""
    case, assessment = assessed(folder, day)
    if as_json:
        from assurance.site.data_out import as_text, assessment_json

        click.echo(as_text(assessment_json(assessment, case)), nl=False)
    else:
        _print(assessment)
    sys.exit(_exit_code(assessment, fail_on))


def _print(assessment: Assessment) -> None:
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
