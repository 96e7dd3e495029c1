"""The published demonstration site as a reviewer opens it: from the disk, with no network at all."""

import re
from urllib.parse import unquote, urldefrag

import pytest
from offline_browser import NARROWEST, PHONE, WIDE, chromium, offline_page, settle, visit
from published_demo import Tags, demo

LARGEST_SITE, LARGEST_PAGE = (
    5_000_000,
    300_000,
)  # bytes: what a reviewer may be asked to carry and to wait for
USABLE = 1_000  # ms from asking for the first page to its having run all that it runs
LINKS = ("href", "src", "action", "poster", "xlink:href", "data-script")
NAMES_IDS = ("aria-labelledby", "aria-describedby", "aria-controls", "aria-owns", "for", "headers")
AXE = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
AXE_OPTIONS = {"runOnly": {"type": "tag", "values": AXE}, "resultTypes": ["violations"]}
GUIDE = ("reading/tutorial", "reading/rules", "reading/records", "reading/commands")  # of each make one
browser_test = pytest.mark.browser


@pytest.fixture(scope="module")
def browser():
    with chromium() as opened:
        yield opened


def pages_by_address():
    return {page.relative_to(demo().site).with_suffix("").as_posix(): page for page in demo().pages()}


def each_kind():
    """One page of each kind: all that are no record's, and of each kind of record the worst."""
    return sorted(
        {*demo().one_of_each_kind(), *(each for each in pages_by_address() if "/" not in each), *GUIDE}
    )


@browser_test
@pytest.mark.slow
def test_every_page_opens_from_the_disk_in_silence_and_asks_for_nothing_elsewhere(browser):
    page = offline_page(browser)
    for address in pages_by_address():
        visit(page, demo().site, address)
        assert page.title(), address
        assert not page.noise, address


def known_ids(tags):
    return {attributes["id"] for _, attributes in tags if "id" in attributes}


def test_every_link_anchor_and_name_of_an_id_leads_somewhere():
    tags = {page.resolve(): Tags(page.read_text("utf-8")).found for page in demo().pages()}
    ids = {page: known_ids(found) for page, found in tags.items()}
    broken = []
    for page, found in tags.items():
        for _, attributes in found:
            for target in (attributes[name] for name in LINKS if attributes.get(name)):
                path, anchor = urldefrag(unquote(target))
                file = (page.parent / path).resolve() if path else page
                there = file.is_file() and file.is_relative_to(demo().site.resolve())
                if not there or (anchor and file.suffix == ".html" and anchor not in ids[file]):
                    broken.append((page.name, target))
            for name in NAMES_IDS:
                broken += [
                    (page.name, name, id_)
                    for id_ in (attributes.get(name) or "").split()
                    if id_ not in ids[page]
                ]
    assert not broken


def test_links_that_scripts_make_lead_somewhere_too():
    """Data for scripts name pages by address; each that looks like one is there."""
    looking = re.compile(r'"((?:[a-z_-]+/)?[A-Za-z][\w-]*\.html)(?:#[^"]*)?"')
    for script in demo().site.rglob("*.js"):
        for address in looking.findall(script.read_text("utf-8")):
            assert (demo().site / address).is_file(), (script.name, address)


@browser_test
@pytest.mark.slow
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [WIDE, PHONE], ids=["wide", "phone"])
def test_the_accessibility_checker_finds_nothing_on_any_kind_of_page(browser, size, scheme):
    from axe_playwright_python.sync_playwright import Axe

    axe, page, found = Axe(), offline_page(browser, size, scheme), []
    for address in each_kind():
        visit(page, demo().site, address)
        settle(page)
        assert page.evaluate("document.documentElement.dataset.scheme") == scheme
        told = axe.run(page, options=AXE_OPTIONS).response
        assert told["passes"], address  # it did look
        found += [(address, one["id"], one["nodes"][0]["html"]) for one in told["violations"]]
    assert not found


# What a keyboard can scroll is marked by its place in the order of Tab.
UNMARKED = """() => [...document.querySelectorAll('body *')].filter(one =>
  one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0
  && /auto|scroll/.test(getComputedStyle(one).overflowX)
  && !one.matches('[tabindex="0"], textarea, input, select')
).map(one => one.outerHTML.slice(0, 120))"""


@browser_test
@pytest.mark.slow
def test_at_320_nothing_scrolls_sideways_but_what_is_marked_to(browser):
    # WCAG 2.2, 1.4.10 Reflow: 320 px wide without scrolling both ways, but for what needs two dimensions.
    page, wide = offline_page(browser, NARROWEST), {}
    for address in each_kind():
        visit(page, demo().site, address)
        page.eval_on_selector_all("details", "all => all.forEach(one => one.open = true)")
        settle(page)
        if page.evaluate("document.documentElement.scrollWidth") > NARROWEST[0]:
            wide[address] = "the page"
        elif unmarked := page.evaluate(UNMARKED):
            wide[address] = unmarked
    assert not wide


@browser_test
@pytest.mark.timed
def test_the_first_page_is_usable_within_a_second(browser):
    times = []
    for _ in range(5):
        page = offline_page(browser)
        visit(page, demo().site, "index")
        settle(page)
        times.append(page.evaluate("performance.now()"))
        loaded = page.evaluate("performance.getEntriesByType('navigation')[0].loadEventEnd")
        assert 0 < loaded <= times[-1]
        page.context.close()
    assert min(times) < USABLE


def test_the_site_and_each_page_are_small_enough():
    sizes = {path.relative_to(demo().site).as_posix(): path.stat().st_size
             for path in demo().site.rglob("*") if path.is_file()}  # fmt: skip
    assert sum(sizes.values()) < LARGEST_SITE
    assert not {name: size for name, size in sizes.items() if name.endswith(".html") and size >= LARGEST_PAGE}
