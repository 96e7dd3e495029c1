"""Every link of the guide leads to a page and a place that are there."""

import posixpath
import re

import pytest
from guide_pages import LINK, README, anchors, prose, published


@pytest.mark.parametrize("address", sorted(published()))
def test_every_link_of_the_guide_leads_somewhere(address):
    texts = published()
    for target in LINK.findall(prose(texts[address])):
        path, _, place = target.partition("#")
        page = posixpath.normpath(posixpath.join(posixpath.dirname(address), path)) if path else address
        named = re.sub(r"\.(md|html)$", "", page)
        assert named in texts, target
        assert not place or place in anchors(texts[named]), target


def test_every_link_of_the_readme_leads_to_a_file():
    for target in LINK.findall(README.read_text("utf-8")):
        assert (README.parent / target).is_file(), target


def test_every_page_is_reached_from_the_first():
    texts, reached, waiting = published(), set(), ["reading-guide"]
    while waiting:
        address = waiting.pop()
        if address in reached:
            continue
        reached.add(address)
        for target in LINK.findall(texts[address]):
            path = posixpath.join(posixpath.dirname(address), target.partition("#")[0])
            named = re.sub(r"\.(md|html)$", "", posixpath.normpath(path))
            waiting += [named] if named in texts else []
    assert reached == set(texts)
