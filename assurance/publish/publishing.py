"""Publishes a case: pages poured into frames, with data and assets, staged and exchanged."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from markupsafe import escape

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.publish.frames import Frame, FrameRequest, RenderFrames, frames
from assurance.publish.guide import guide_texts, with_marks
from assurance.publish.staging import Staging, refuse_folder
from assurance.site.assets import site_assets
from assurance.site.block import TitleBlock, title_block
from assurance.site.pages import Page, each_page
from assurance.site.sections import ACROSS, FIRST_PAGE, GROUPS, GUIDE
from assurance.site.templates import Renderer, templates_folder


@dataclass(frozen=True, slots=True)
class PublishSummary:
    """What a publication did: where the site is, and how many of its files are new."""

    site_dir: Path
    pages: int
    written: int
    unchanged: int


def publish(
    case: CaseText, assessment: Assessment, site_dir: Path, *, render_frames: RenderFrames, cache_dir: Path
) -> PublishSummary:
    """Publishes the site, whole or not at all.

    Raises `SiteFolderRefused` where the folder holds something else than a published site.
    """
    refuse_folder(site_dir, case_folder=case.folder)
    shipped = templates_folder()
    texts = guide_texts(shipped / "guide", case.folder / case.settings.docs_dir)
    request = FrameRequest(GROUPS, texts, shipped / "theme")
    rendered = frames(request, render_frames=render_frames, cache_dir=cache_dir)
    pages = 0
    with Staging(site_dir) as stage:
        render = Renderer()
        for address, text in _pages(case, assessment, rendered=rendered, texts=texts, render=render):
            stage.put(address, text.encode())
            pages += 1
        for address, content in site_assets(case, assessment):
            stage.put(address, content)
        stage.take_over()
    return PublishSummary(site_dir, pages, stage.written, stage.linked)


def _pages(
    case: CaseText,
    assessment: Assessment,
    *,
    rendered: Mapping[str, str],
    texts: Mapping[str, str],
    render: Renderer,
) -> Iterator[tuple[str, str]]:
    block = title_block(assessment, case)
    filled = block.slots()
    poured = {
        name: Frame(with_marks(html) if name in texts else html, filled) for name, html in rendered.items()
    }
    for page in each_page(case, assessment, render=render):
        yield page.address, _pour(poured[page.section], page, block)
    for name in sorted(texts):
        title = "Reading guide" if name == GUIDE else name.partition("/")[2]
        yield f"{name}.html", _pour(poured[name], Page(f"{name}.html", name, title, ""), block)


def _pour(frame: Frame, page: Page, block: TitleBlock) -> str:
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
        }
    )


__all__ = ["FIRST_PAGE", "PublishSummary", "publish"]
