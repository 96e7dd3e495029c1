"""The demonstration case, read, assessed and published once for all tests of the site."""

import atexit
import shutil
from dataclasses import dataclass
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from tempfile import mkdtemp

from assurance.assess import assess
from assurance.mkdocs_plugin import render_frames
from assurance.model.assessment import Assessment
from assurance.model.case import CaseText
from assurance.publish import publish
from assurance.reading import read_case
from assurance.site.sections import GROUPS
from assurance.store import Store

ROOT = Path(__file__).parents[2]
ONE_OF_EACH = tuple(section.name for group in GROUPS for section in group.sections)


@dataclass(frozen=True)
class Published:
    """A case with its published site."""

    case: CaseText
    assessment: Assessment
    site: Path

    def pages(self):
        return sorted(self.site.rglob("*.html"))

    def one_of_each_kind(self):
        """Addresses: every page of the rail, and of each kind the record with the worst verdict."""
        chosen = {}
        for id_ in sorted(
            self.assessment.entries, key=lambda one: (-self.assessment.verdicts.get(one, 0), one)
        ):
            chosen.setdefault(self.assessment.entries[id_].kind, f"{self.assessment.entries[id_].kind}/{id_}")
        return [*ONE_OF_EACH, *sorted(chosen.values())]


def publish_folder(folder, site, cache_dir):
    case = read_case(folder)
    assessment = assess(case, store=Store(cache_dir))
    publish(case, assessment, site, render_frames=render_frames, cache_dir=cache_dir)
    return Published(case, assessment, site)


@cache
def demo():
    folder = Path(mkdtemp(prefix="holdwater-demo-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return publish_folder(ROOT, folder / "site", folder / "cache")


@cache
def shared_cache():
    """Frames are the same for every case without pages of its own."""
    folder = Path(mkdtemp(prefix="holdwater-cache-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def publish_text(text, tmp_path):
    """A case written as one file, published."""
    (tmp_path / "claims").mkdir()
    (tmp_path / "claims" / "case.yml").write_text(text)
    return publish_folder(tmp_path, tmp_path / "site", shared_cache())


class Tags(HTMLParser):
    """Every start tag of a page with its attributes."""

    def __init__(self, text):
        super().__init__()
        self.found = []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.found.append((tag, dict(attributes)))

    handle_startendtag = handle_starttag
