"""The pages of text: the reading guide that comes with the tool, and the Markdown pages of a case."""

import re
from collections.abc import Mapping
from pathlib import Path

from assurance.site.marks import mark_by_name
from assurance.site.sections import GUIDE

LARGEST = 1_000_000  # bytes of one page
MOST = 500  # pages
FOLDER = "guide"  # where the pages of a case stand in the site
_NAME = re.compile(r"[A-Za-z0-9_-]+(?:/[A-Za-z0-9_-]+)*")
_MARK = re.compile(r"\{mark:([a-z ]+)\}")
_HEADING = re.compile(r"^#\s+(.+?)\s*#*\s*$", re.MULTILINE)


def guide_texts(shipped: Path, case_docs: Path) -> Mapping[str, str]:
    """Markdown by address: the reading guide, and the case's own pages where it has any."""
    guide = read_pages(shipped)
    own = read_pages(case_docs)
    texts = {GUIDE: guide["index"]}
    if own == guide:
        return texts
    texts |= {f"{FOLDER}/{name}": text for name, text in own.items()}
    if own:
        texts[GUIDE] += "\n\n## Pages of this case\n\n" + "".join(
            f"- [{_title(text, name)}]({FOLDER}/{name}.md)\n" for name, text in own.items()
        )
    return texts


def with_marks(html: str) -> str:
    """A rendered page of text with the marks drawn where it names them, as `{mark:holds}`."""
    return _MARK.sub(lambda found: mark_by_name(found[1]) or found[0], html)


def read_pages(folder: Path) -> dict[str, str]:
    """The Markdown pages of a folder by name, in order; links out of the folder are left alone."""
    pages: dict[str, str] = {}
    for file in sorted(folder.rglob("*.md")) if folder.is_dir() else ():
        name = file.relative_to(folder).with_suffix("").as_posix()
        if _NAME.fullmatch(name) and _inside(file, folder) and len(pages) < MOST:
            pages[name] = file.read_text("utf-8", errors="replace")
    return pages


def _inside(file: Path, folder: Path) -> bool:
    real = file.resolve()
    return real.is_file() and real.is_relative_to(folder.resolve()) and real.stat().st_size <= LARGEST


def _title(text: str, name: str) -> str:
    found = _HEADING.search(text)
    return re.sub(r"[\[\]`]", "", found[1]) if found else name
