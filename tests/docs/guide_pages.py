"""The pages of text as tests read them: what is written, what is made, and what stands between backticks."""

import re
from functools import cache
from pathlib import Path

from assurance.publish.guide import guide_texts, read_pages
from assurance.reference import reference_texts
from assurance.site.templates import templates_folder

GUIDE = templates_folder() / "guide"
README = Path(__file__).parents[2] / "README.md"
CODE = re.compile(r"`([^`]+)`")
LINK = re.compile(r"\]\(([^)\s]+)\)")
FENCED = re.compile(r"^```.*?^```\s*?$", re.MULTILINE | re.DOTALL)
AT = re.compile(r"\{at:([^}]+)\}")
HEADING = re.compile(r"^#+\s+(.+)$", re.MULTILINE)


@cache
def written():
    """Every page that a person wrote, by name, the README with them."""
    pages = {name: text for name, text in read_pages(GUIDE).items() if "built: true" not in text[:40]}
    return {"README": README.read_text("utf-8"), **pages}


@cache
def published():
    """Every page of the guide by its address, as it goes into the site."""
    return guide_texts(GUIDE, {}, made=reference_texts())


def prose(text):
    """A page without its blocks of code."""
    return FENCED.sub("", text)


def spans(text):
    """What stands between backticks in the prose of a page."""
    return CODE.findall(prose(text))


def blocks(text, *languages):
    """The blocks of a page in these languages."""
    found = re.findall(r"^```([a-z]*)\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    return [block for language, block in found if language in languages]


def anchors(text):
    """The places of a page that a link may lead to."""
    headings = {
        re.sub(r"[-\s]+", "-", re.sub(r"[^\w\s-]", "", one).strip().lower())
        for one in HEADING.findall(prose(text))
    }
    return headings | set(AT.findall(text))
