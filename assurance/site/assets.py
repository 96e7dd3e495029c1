"""Everything of the site that is not a page: style, scripts, marks, and the data with its schema."""

from collections.abc import Iterator
from pathlib import Path

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.site.argument_data import argument_script
from assurance.site.argument_dot import argument_dot
from assurance.site.block import title_block
from assurance.site.data_out import as_text, assessment_json
from assurance.site.templates import templates_folder


def site_assets(case: CaseText, assessment: Assessment, *, inputs: str) -> Iterator[tuple[str, bytes]]:
    """Each file by its address; `inputs` are the digits that name what the site was built from."""
    folder = templates_folder() / "assets"
    yield "assets/site.css", _style(folder)
    yield "assets/print.css", _print_style(case, assessment, folder, inputs).encode()
    for file in sorted((*folder.glob("*.js"), folder / "icon.svg")):
        yield f"assets/{file.name}", file.read_bytes()
    yield "assessment.json", as_text(assessment_json(assessment, case)).encode()
    yield "assets/argument-data.js", argument_script(assessment).encode()
    yield "argument.dot", argument_dot(assessment).encode()
    yield "assessment.schema.json", (folder / "assessment.schema.json").read_bytes()


def _style(folder: Path) -> bytes:
    """The style sheets as one file, in their order."""
    return b"".join(file.read_bytes() for file in sorted((folder / "style").glob("*.css")))


def _print_style(case: CaseText, assessment: Assessment, folder: Path, inputs: str) -> str:
    """The print rules with the foot of the sheet: item, issue, day and inputs."""
    block = title_block(assessment, case)
    issue = f"issue {block.issue}" if block.issue else ""
    parts = (block.item, issue, f"as of {block.as_of}", f"inputs {inputs}")
    foot = ", ".join(part for part in parts if part)
    return (folder / "print.css").read_text("utf-8").replace("FOOT-OF-SHEET", _css_text(foot))


def _css_text(text: str) -> str:
    """A text inside quotes of a style sheet: everything but letters, digits and blanks as code points.

    The blank after a code point belongs to it.
    """
    return "".join(one if one.isalnum() or one == " " else f"\\{ord(one):06x} " for one in text)
