"""The pages of text: the reading guide that comes with the tool, and the Markdown pages of a case.

The guide starts at its `index`; its other pages stand in the folder that they have on disk, beside
those that are made from the installed code. The pages of a case stand in a folder of their own.
"""

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
_AT = re.compile(r"\{at:([A-Za-z0-9_-]+\.[A-Za-z0-9_-]+)\}")  # with a dot: no other anchor has one
_HEADING = re.compile(r"^#\s+(.+?)\s*#*\s*$", re.MULTILINE)
_TAG = re.compile(r"(<[^>]*>)")
_TO_INDEX = re.compile(r"\]\((\.\./)*index\.md(?=[)#])")


def guide_texts(shipped: Path, own: Mapping[str, str], *, made: Mapping[str, str]) -> Mapping[str, str]:
    """Markdown by address: the reading guide, what is made for it, and the case's own pages."""
    guide = read_pages(shipped)
    texts = {name: _to_first_page(text) for name, text in guide.items() if name != "index"}
    texts |= {GUIDE: _to_first_page(guide["index"]), **made}
    if own == guide:
        return texts
    texts |= {f"{FOLDER}/{name}": text for name, text in own.items()}
    if own:
        texts[GUIDE] = _with_own_pages(texts[GUIDE], own)
    return texts


def _with_own_pages(guide: str, own: Mapping[str, str]) -> str:
    """The guide with the pages of the case named ahead of its first section."""
    head, section, rest = guide.partition("\n## ")
    lines = "".join(f"- [{page_title(text, name)}]({FOLDER}/{name}.md)\n" for name, text in own.items())
    return f"{head}\n\n## Pages of this case\n\n{lines}{section}{rest}"


def with_marks(html: str) -> str:
    """A rendered page of text, its marks and anchors where it names them: `{mark:holds}`, `{at:a.b}`."""
    marked = "".join(one if one.startswith("<") else _with_marks(one) for one in _TAG.split(html))
    return marked.replace("<pre><code", '<pre tabindex="0"><code')  # what scrolls can be reached by key


def _with_marks(text: str) -> str:
    """The text between two tags with its marks; a mark within a tag would end the tag."""
    marked = _MARK.sub(lambda found: mark_by_name(found[1]) or found[0], text)
    return _AT.sub(r'<a id="\1"></a>', marked)


def page_title(text: str, name: str) -> str:
    """The first heading of a page of text as plain words, or its address."""
    found = _HEADING.search(text)
    return re.sub(r"[\[\]`]", "", found[1]) if found else name


def _to_first_page(text: str) -> str:
    """On disk the guide starts at `index.md`, in the site at an address of its own."""
    return _TO_INDEX.sub(lambda found: found[0].replace("index.md", f"{GUIDE}.md"), text)


def read_pages(folder: Path) -> dict[str, str]:
    """The Markdown pages of a folder by name, in order; links out of the folder are left alone."""
    return as_texts(page_contents(folder))


def as_texts(contents: Mapping[str, bytes]) -> dict[str, str]:
    """The pages as text, each line ended in one way; what is not UTF-8 shows as a sign of its own."""
    return {
        name: content.decode("utf-8-sig", errors="replace").replace("\r\n", "\n").replace("\r", "\n")
        for name, content in contents.items()
    }


def page_contents(folder: Path) -> dict[str, bytes]:
    """The Markdown pages of a folder as they lie there, by name, in order."""
    pages: dict[str, bytes] = {}
    for file in sorted(folder.rglob("*.md")) if folder.is_dir() else ():
        name = file.relative_to(folder).with_suffix("").as_posix()
        if _NAME.fullmatch(name) and _inside(file, folder) and len(pages) < MOST:
            pages[name] = file.read_bytes()
    return pages


def _inside(file: Path, folder: Path) -> bool:
    try:
        real = file.resolve()
    except (OSError, RuntimeError):  # a loop of links
        return False
    return real.is_file() and real.is_relative_to(folder.resolve()) and real.stat().st_size <= LARGEST
