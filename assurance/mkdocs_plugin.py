"""The only place that knows MkDocs: renders the frames, and lets `mkdocs build` publish the same site."""

import logging
import shutil
import tempfile
from pathlib import Path
from xml.etree import ElementTree

from markdown import Markdown
from markdown.extensions import Extension
from markdown.treeprocessors import Treeprocessor
from mkdocs.commands.build import build
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin

from assurance.publish import FrameRequest, Group, PublishSummary, SiteFolderRefused, publish

_ALLOWED_LINKS = ("#", "http:", "https:", "mailto:")


class PlainText(Extension):
    """Markdown in which tags are text, not markup, and links lead only where a link may lead."""

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 - the name is that of the host
        """Takes raw tags out of the grammar."""
        md.preprocessors.deregister("html_block")
        md.inlinePatterns.deregister("html")
        md.inlinePatterns.deregister("automail", strict=False)
        md.treeprocessors.register(_SafeLinks(md), "safe-links", -10)


class _SafeLinks(Treeprocessor):
    def run(self, root: ElementTree.Element) -> None:
        for element in root.iter():
            if element.tag == "a":
                _clear_unsafe(element, "href")
            if element.tag == "img":
                element.attrib.pop("src", None)
                element.tag = "span"  # pages carry no pictures of their own yet
                element.text = element.attrib.pop("alt", "")
            if element.tag == "table":
                _let_fold(element)
            element.attrib.pop("style", None)


def _let_fold(table: ElementTree.Element) -> None:
    """Gives every cell but the first its column word: on a phone a row reads as a block."""
    headings = ["".join(heading.itertext()) for heading in table.iter("th")]
    table.set("class", "fold")
    for row in table.iter("tr"):
        for heading, cell in list(zip(headings, row.findall("td"), strict=False))[1:]:
            cell.set("data-h", heading)


def _clear_unsafe(element: ElementTree.Element, name: str) -> None:
    target = element.get(name, "").strip().lower()
    scheme, colon, _ = target.partition(":")
    if colon and "/" not in scheme and not target.startswith(_ALLOWED_LINKS):
        element.attrib.pop(name)


def render_frames(request: FrameRequest) -> dict[str, str]:
    """The frame of each section and text, rendered by MkDocs from a configuration of our own.

    Nothing of the case but its Markdown takes part: no hook, plugin, template or setting.
    """
    with tempfile.TemporaryDirectory(prefix="holdwater-frames-") as folder:
        docs, site = Path(folder, "docs"), Path(folder, "site")
        _write_sources(request, docs)
        build(_config(request, docs=docs, site=site, folder=Path(folder)))
        names = [section.name for group in request.groups for section in group.sections]
        return {name: _rendered(site, name) for name in sorted({*names, *request.texts})}


def _write_sources(request: FrameRequest, docs: Path) -> None:
    for group in request.groups:
        for section in group.sections:
            _write(docs / f"{section.name}.md", "---\nframe: true\n---\n")
    for name, text in request.texts.items():
        _write(docs / f"{name}.md", text)


def _write(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")


def _config(request: FrameRequest, *, docs: Path, site: Path, folder: Path) -> MkDocsConfig:
    config = MkDocsConfig(config_file_path=str(folder / "mkdocs.yml"))
    config.load_dict(
        {
            "site_name": "frames",
            "docs_dir": str(docs),
            "site_dir": str(site),
            "use_directory_urls": False,
            "theme": {"name": "material", "custom_dir": str(request.theme), "font": False},
            "plugins": [],
            "markdown_extensions": ["assurance.mkdocs_plugin:PlainText"],
            "nav": [_navigation(group) for group in request.groups],
            "validation": {"nav": {"omitted_files": "ignore"}, "links": {"not_found": "ignore"}},
        }
    )
    faults, _ = config.validate()
    if faults:
        raise RuntimeError(f"the configuration of the frames is refused: {faults}")
    return config


def _navigation(group: Group) -> dict[str, list[dict[str, str]]]:
    return {group.title: [{section.title: f"{section.name}.md"} for section in group.sections]}


def _rendered(site: Path, name: str) -> str:
    return (site / f"{name}.html").read_text("utf-8")


class _Settings(Config):  # type: ignore[no-untyped-call]
    """The plugin has no settings."""


class HoldwaterPlugin(BasePlugin[_Settings]):  # type: ignore[no-untyped-call]
    """Makes `mkdocs build` in a case folder publish the site that `holdwater build` publishes."""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Sends what MkDocs itself builds to a folder that is thrown away."""
        self._site_dir = Path(config.site_dir)
        self._thrown_away = tempfile.mkdtemp(prefix="holdwater-mkdocs-")
        config.site_dir = self._thrown_away
        return config

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Publishes the case that lies beside `mkdocs.yml`."""
        try:
            summary = publish_case(Path(config.config_file_path).resolve().parent, self._site_dir)
        except (SiteFolderRefused, OSError) as refused:
            raise PluginError(str(refused)) from None
        finally:
            shutil.rmtree(self._thrown_away, ignore_errors=True)
            config.site_dir = str(self._site_dir)
        logging.getLogger("mkdocs.plugins.holdwater").info("%d pages in %s", summary.pages, summary.site_dir)


def publish_case(folder: Path, site_dir: Path) -> PublishSummary:
    """Reads, assesses and publishes the case of a folder."""
    from assurance.assess import assess
    from assurance.reading import read_case
    from assurance.store import cache_folder_for

    case = read_case(folder)
    cache_dir = cache_folder_for(folder)
    return publish(case, assess(case), site_dir, render_frames=render_frames, cache_dir=cache_dir)
