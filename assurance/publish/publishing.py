"""Publishes a case: pages poured into frames, with data and assets, staged and exchanged."""

from dataclasses import dataclass
from pathlib import Path

from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.publish.frames import FrameRequest, RenderFrames, frames
from assurance.publish.graph_layout import GraphLayout
from assurance.publish.guide import as_texts, guide_texts, page_contents
from assurance.publish.manifest import (
    INPUT_LIST,
    MANIFEST,
    SITE_LIST,
    Inputs,
    inputs_of,
    listed,
    manifest,
)
from assurance.publish.pouring import poured_pages
from assurance.publish.site_folder import refuse_folder
from assurance.publish.staging import Staging
from assurance.reference import reference_texts
from assurance.site import find_data
from assurance.site.argument_gsn_drawing import gsn_texts
from assurance.site.assets import site_assets
from assurance.site.sections import GROUPS
from assurance.site.templates import templates_folder
from assurance.store import Store


@dataclass(frozen=True, slots=True)
class PublishSummary:
    """What a publication did: where the site is, and how many of its files are new."""

    site_dir: Path
    pages: int
    written: int
    unchanged: int


def publish(
    case: CaseText,
    assessment: Assessment,
    site_dir: Path,
    *,
    render_frames: RenderFrames,
    cache_dir: Path | None,
) -> PublishSummary:
    """Publishes the site, whole or not at all; without a folder for caches nothing is kept.

    Raises `SiteFolderRefused` where the folder holds something else than a published site.
    """
    site_dir = site_dir if site_dir.name not in ("", "..") else site_dir.resolve()
    refuse_folder(site_dir, case_folder=case.folder)
    shipped = templates_folder()
    root, docs = case.folder.resolve(), (case.folder / case.settings.docs_dir).resolve()
    own = page_contents(docs) if docs.is_relative_to(root) else {}  # not behind a link out of the case
    by_path = {(docs / f"{name}.md").relative_to(root).as_posix(): text for name, text in own.items()}
    inputs = inputs_of(case, assessment, pages=by_path)
    texts = guide_texts(shipped / "guide", as_texts(own), made=reference_texts())
    request = FrameRequest(GROUPS, texts, shipped / "theme")
    rendered = frames(request, render_frames=render_frames, cache_dir=cache_dir)
    pages = 0
    with Staging(site_dir) as stage:
        for address, text in poured_pages(case, assessment, rendered=rendered, texts=texts, inputs=inputs):
            stage.put(address, text.encode())
            pages += address.endswith(".html")
        for address, content in site_assets(case, assessment, inputs=inputs.short()):
            stage.put(address, content)
        lay_out = GraphLayout(None if cache_dir is None else Store(cache_dir))
        for address, text in gsn_texts(assessment, lay_out):
            stage.put(address, text.encode())
        guide = {name: rendered[name] for name in texts}
        stage.put(find_data.ADDRESS, find_data.find_script(assessment, guide).encode())
        _put_manifest(stage, inputs, assessment)
        stage.take_over()
    return PublishSummary(site_dir, pages, stage.written, stage.linked)


def _put_manifest(stage: Staging, inputs: Inputs, assessment: Assessment) -> None:
    stage.put(INPUT_LIST, inputs.listed())
    site = dict(stage.digests)
    listed_site = listed(site.items())
    stage.put(SITE_LIST, listed_site)
    stage.put(MANIFEST, manifest(inputs, assessment, site=site, listed_site=listed_site))
