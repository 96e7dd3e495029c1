"""Markup in any text of a case is text on the page: no element, attribute, address or script comes of it."""

import json
import re
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from tempfile import mkdtemp
from xml.etree import ElementTree

import pytest
from nasty_records import KINDS, PAYLOAD, write_case
from published_demo import demo, publish_folder

from assurance.publish.frames import POLICY
from assurance.reading import read_case
from assurance.site.script_data import as_script

VARIANTS = {
    "whole": {},
    "standing": {"without": ("retired", "undeveloped")},
    "without arguments": {"without": ("retired", "argument", "arguments")},
    "broken": {"broken": True, "without": ("retired",)},
}
NEVER = {
    "iframe",
    "object",
    "embed",
    "style",
    "img",
    "base",
    "form",
    "template",
    "foreignObject",
    "textarea",
}
ADDRESS = re.compile(r"(?!\s*(javascript|data|vbscript|file):)", re.IGNORECASE)


@cache
def nasty(variant):
    folder = Path(mkdtemp(prefix="holdwater-nasty-")) / 'case "><img src=x onerror=alert(1)>'
    folder.mkdir()
    return publish_folder(write_case(folder, **VARIANTS[variant]), folder / "site", folder.parent / "cache")


class Page(HTMLParser):
    """The start tags of a page in order, with their attributes, and what is said between them."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.inside, self.script_texts, self.text = [], "", [], []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, attributes))
        self.inside = tag

    def handle_startendtag(self, tag, attributes):
        self.tags.append((tag, attributes))

    def handle_endtag(self, tag):
        self.inside = "" if tag == self.inside else self.inside

    def handle_data(self, data):
        self.text.append(data)
        if self.inside in ("script", "style"):
            self.script_texts.append(data)


def faults(file):
    """What a page holds that no page of ours may hold."""
    page = Page(file.read_text("utf-8"))
    yield from (f"<{tag}>" for tag, _ in page.tags if tag in NEVER)
    yield from (f"text in a script: {text}" for text in page.script_texts if text.strip())
    for tag, attributes in page.tags:
        for name, value in attributes:
            if name.startswith("on") or (
                name in ("style", "srcdoc", "formaction", "http-equiv") and tag != "meta"
            ):
                yield f"{tag} {name}={value}"
            if name in ("href", "src", "xlink:href", "action") and not ADDRESS.match(value or ""):
                yield f"{tag} {name}={value}"
            if tag == "script" and name == "src" and not (file.parent / value).resolve().is_file():
                yield f"a script that is not of the site: {value}"
    head = [(tag, dict(attributes)) for tag, attributes in page.tags if tag in ("meta", "script", "link")]
    if head[:2] != [
        ("meta", {"charset": "utf-8"}),
        ("meta", {"http-equiv": "Content-Security-Policy", "content": POLICY}),
    ]:
        yield "the policy does not stand first"
    if sum(one.get("http-equiv", "").lower() == "content-security-policy" for _, one in head) != 1:
        yield "more than one policy"


@pytest.mark.slow
@pytest.mark.parametrize("variant", VARIANTS)
def test_no_text_of_a_case_becomes_an_element_an_attribute_or_an_address(variant):
    site = nasty(variant).site
    pages = sorted(site.rglob("*.html"))
    assert len(pages) > 40
    assert {file.relative_to(site).as_posix(): found for file in pages if (found := list(faults(file)))} == {}


def test_every_page_of_the_demo_has_the_policy_first_and_nothing_inline():
    site = demo().site
    assert {file.name: found for file in site.rglob("*.html") if (found := list(faults(file)))} == {}


@pytest.mark.slow
def test_no_case_brings_a_tag_that_the_demo_does_not_have():
    known = {tag for file in demo().site.rglob("*.html") for tag, _ in Page(file.read_text("utf-8")).tags}
    known |= {"aside"}  # the notice of a case
    for variant in VARIANTS:
        for file in nasty(variant).site.rglob("*.html"):
            assert {tag for tag, _ in Page(file.read_text("utf-8")).tags} <= known, file


@pytest.mark.slow
def test_every_kind_of_record_was_filled_whole_and_is_shown_as_text():
    published = nasty("standing")
    kinds = {entry.kind for entry in published.case.entries.values() if entry.record is not None}
    assert kinds == set(KINDS)
    assert published.case.findings == ()
    for id_, entry in published.case.entries.items():
        file = published.site / ("index.html" if entry.kind == "case" else f"{entry.kind}/{id_}.html")
        text = "".join(Page(file.read_text("utf-8")).text)
        assert "<script>window.__hit=1;alert(1)</script><img src=x onerror" in text, id_


@pytest.mark.slow
@pytest.mark.parametrize("variant", VARIANTS)
def test_a_drawing_to_take_away_holds_no_script_and_leads_nowhere(variant):
    drawings = sorted(nasty(variant).site.rglob("*.svg"))
    assert drawings
    for file in drawings:
        text = file.read_text("utf-8")
        assert "<!" not in text
        for element in ElementTree.fromstring(text).iter():
            assert element.tag.rpartition("}")[2] not in {
                "script",
                "foreignObject",
                "image",
                "use",
                "style",
                "a",
            }
            assert not [name for name in element.attrib if name.startswith("on") or name.endswith("href")]


@pytest.mark.slow
@pytest.mark.parametrize("variant", VARIANTS)
def test_data_written_as_scripts_ends_nothing(variant):
    scripts = [file for file in nasty(variant).site.rglob("*.js") if "alert(1)" in file.read_text("utf-8")]
    assert scripts
    for file in scripts:
        text = file.read_text("utf-8")
        assert not re.search(r"</script|<!--|\u2028|\u2029", text, re.IGNORECASE), file
        assert json.loads(text[text.index("(") + 1 : text.rindex(")")]), file


def test_a_key_that_would_change_an_object_is_written_as_a_key_of_its_own():
    text = as_script("f", {"__proto__": {"a": 1}, "t": '"__proto__":', "__proto__ ": 1, "u": "__proto__"})
    assert '["__proto__"]:{"a":1}' in text
    assert text.count('["__proto__"]') == 1


def test_the_broken_case_is_wrong_in_every_way():
    rules = {one.rule for one in read_case(nasty("broken").case.folder).findings}
    assert len(rules) >= 9
    assert any(PAYLOAD[:20] in one.message for one in nasty("broken").case.findings)
