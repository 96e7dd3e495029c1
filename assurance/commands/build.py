"""`build`: works a case out and publishes its site."""

import sys
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from assurance.commands.options import NO_CASE, assessed, folder_argument, on_option
from assurance.model.verdicts import Weight

if TYPE_CHECKING:
    from assurance.model.assessment import Assessment
    from assurance.model.case import CaseText
    from assurance.publish import FrameRequest


@click.command()
@folder_argument
@on_option
@click.option("--site-dir", type=click.Path(file_okay=False, path_type=Path),
              help="Where the site goes; `site_dir` of mkdocs.yml if left out.")  # fmt: skip
def build(folder: Path, day: date | None, site_dir: Path | None) -> None:
    """Work out the case in FOLDER and publish its site, whatever the verdict."""
    from assurance.publish import SiteFolderRefused, publish
    from assurance.store import cache_folder_for

    case, assessment = assessed(folder, day)
    _refuse_without_case(case, assessment)
    target = site_dir or case.folder / case.settings.site_dir
    try:
        summary = publish(
            case, assessment, target, render_frames=render_frames, cache_dir=cache_folder_for(folder)
        )
    except (SiteFolderRefused, OSError) as fault:
        click.echo(f"The site was not written: {fault}\nThe last site, if any, is as it was.", err=True)
        sys.exit(NO_CASE)
    _print(assessment, f"{summary.pages} pages", target)


def render_frames(request: "FrameRequest") -> Mapping[str, str]:
    """Renders frames with MkDocs, which is imported only when frames are needed."""
    from assurance.mkdocs_plugin import render_frames as render

    return render(request)


def _print(assessment: "Assessment", pages: str, target: Path) -> None:
    from assurance.findings_text import count_line, finding_lines, tally_line, top_lines

    blocking = tuple(one for one in assessment.findings if one.weight is Weight.BLOCKING)
    for line in finding_lines(blocking):
        click.echo(line)
    for line in (*top_lines(assessment), tally_line(assessment), count_line(assessment.findings)):
        click.echo(line)
    click.echo(f"{pages}: {target / 'index.html'}")


def _refuse_without_case(case: "CaseText", assessment: "Assessment") -> None:
    if case.entries.get(assessment.case) is not None:
        return
    from assurance.findings_text import finding_lines

    for line in finding_lines(case.findings):
        click.echo(line, err=True)
    click.echo(f"No `case` record could be read in {case.folder}, so there is nothing to publish.", err=True)
    sys.exit(NO_CASE)
