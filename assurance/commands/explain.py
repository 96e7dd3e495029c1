"""`explain`: tells why a record has its verdict, or what a rule looks for."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from assurance.commands.completion import complete_name
from assurance.commands.options import assessed, case_option, on_option

if TYPE_CHECKING:
    from assurance.model.assessment import Assessment


@click.command()
@click.argument("name", shell_complete=complete_name)
@case_option
@on_option
def explain(name: str, folder: Path, day: date | None) -> None:
    """Explain a RULE, or why the record ID has its verdict."""
    from assurance.findings_text import reason_tree, rule_lines

    told = list(rule_lines(name))
    if not told:
        _, assessment = assessed(folder, day)
        if name not in assessment.verdicts:
            raise click.ClickException(_nothing_called(name, assessment))
        told = list(reason_tree(assessment, name))
    for line in told:
        click.echo(line)


def _nothing_called(name: str, assessment: "Assessment") -> str:
    from assurance.findings_text import rule_names
    from assurance.model.names import nearest_name

    known = [*assessment.verdicts, *rule_names()]
    near = nearest_name(name, known)
    guess = f" Did you mean `{near}`?" if near else ""
    return f"There is neither a rule nor a record `{name}`.{guess}"
