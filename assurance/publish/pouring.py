"""The pages of a site, poured into the frames of their sections."""

from collections.abc import Iterator, Mapping

from markupsafe import Markup, escape

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.publish.frames import Frame
from assurance.publish.guide import page_title, with_marks
from assurance.publish.manifest import MANIFEST, Inputs
from assurance.site.block import TitleBlock, title_block
from assurance.site.pages import Page, each_page
from assurance.site.sections import ACROSS, FIRST_PAGE, GUIDE
from assurance.site.templates import Renderer

_FOOT = Markup(
    '<footer class="under">Worked out from inputs <code>{}</code>. '
    f'<a href="{MANIFEST}">Which files these are</a>, each with its sha256.</footer>'
)


def poured_pages(
    case: CaseText,
    assessment: Assessment,
    *,
    rendered: Mapping[str, str],
    texts: Mapping[str, str],
    inputs: Inputs,
) -> Iterator[tuple[str, str]]:
    """Every page with its address, and what is drawn beside pages."""
    block = title_block(assessment, case)
    filled = block.slots()
    poured = {
        name: Frame(with_marks(html) if name in texts else html, filled) for name, html in rendered.items()
    }
    for page in each_page(case, assessment, render=Renderer()):
        yield page.address, _pour(poured[page.section], page, block, inputs)
        yield from page.beside
    for name in sorted(texts):
        title = "Reading guide" if name == GUIDE else page_title(texts[name], name.partition("/")[2])
        yield f"{name}.html", _pour(poured[name], Page(f"{name}.html", name, title, ""), block, inputs)


def _pour(frame: Frame, page: Page, block: TitleBlock, inputs: Inputs) -> str:
    at_section = page.address == f"{page.section}.html"
    root = "../" * page.address.count("/")
    return frame.pour(
        {
            "title": str(escape(f"{page.title} - {block.item}")),
            "page": str(escape(page.title)),
            "root": root,
            "sheet": "across" if at_section and page.section in ACROSS else "upright",
            "notice": block.notices(root),
            "current": "page" if at_section else "true",
            "main": page.body,
            "foot": str(_FOOT.format(inputs.short())) if page.section == FIRST_PAGE else "",
        }
    )
