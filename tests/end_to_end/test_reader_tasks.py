"""What a reader looks for, from the Conclusion in a budget of clicks; every answer is the assessment's."""

import math
import re
from collections import Counter

import pytest
from offline_browser import chromium, offline_page, settle, visit
from published_demo import ROOT, demo

from assurance.model.verdicts import Missing

pytestmark = [pytest.mark.browser, pytest.mark.slow]
MOST_TABS = 250  # a page whose link lies further away is not one for a keyboard


@pytest.fixture(scope="module")
def browser():
    with chromium() as opened:
        yield opened


class Reader:
    """A reader at the Conclusion who counts clicks and reads what can be seen."""

    def __init__(self, browser):
        self.page = offline_page(browser)
        visit(self.page, demo().site, "index")
        settle(self.page)
        self.clicks = 0

    def click(self, found):
        found.first.click()
        settle(self.page)
        self.clicks += 1

    def rail(self, name):
        self.click(self.page.get_by_role("navigation", name="Pages").get_by_role("link", name=name))

    def sees(self, within="main"):
        return words(self.page.locator(within).first.inner_text())


@pytest.fixture
def reader(browser):
    return Reader(browser)


def words(text):
    """A text by its words and numbers alone: marks of layout and of YAML left out."""
    return re.sub(r"\W+", " ", text).strip()


def owner_of(missing: Missing):
    return demo().assessment.entries[demo().assessment.case].record.people[missing.owner].name


def owners():
    return Counter(one.owner for one in demo().assessment.missing)


def test_what_stands_between_today_and_the_use_is_one_click_away(reader):
    assert demo().assessment.missing
    reader.rail("Gaps")
    seen = reader.sees()
    for one in demo().assessment.missing:
        assert words(one.text) in seen
        assert words(one.remedy) in seen
        assert words(f"{one.place.file}:{one.place.line}") in seen
    assert reader.clicks <= 1


def least_cell():
    cells = [cell for worked in demo().assessment.worked.values() for cell in worked.cells]
    return min(
        (cell for cell in cells if cell.reserve_factor is not None), key=lambda cell: cell.reserve_factor
    )


def test_the_least_reserve_factor_and_its_row_in_the_file_are_three_clicks_away(reader):
    cell = least_cell()
    line = (ROOT / cell.file).read_text("utf-8").splitlines()[cell.row - 1]
    assert cell.row_name in line.split(",")  # the row that is named is the one in the file
    reader.rail("Strength")
    panel = reader.page.get_by_role("region", name="Least reserve factor")
    assert f"{math.floor(cell.reserve_factor * 100) / 100:.2f}" in panel.inner_text()  # rounded down
    assert words(f"row {cell.row} of {cell.file}") in words(panel.inner_text())
    reader.click(panel.get_by_role("link", name=f"row {cell.row}"))
    assert words(f"{cell.file}, row {cell.row}") in reader.sees()
    assert reader.clicks <= 3


@pytest.mark.parametrize("owner", sorted(owners()))
def test_every_open_item_of_one_owner_is_two_clicks_away(reader, owner):
    mine = [one for one in demo().assessment.missing if one.owner == owner]
    reader.rail("Gaps")
    heading = reader.page.get_by_role("rowheader", name=owner_of(mine[0]))
    seen = words(heading.locator("xpath=ancestor::tbody").inner_text())
    for one in demo().assessment.missing:
        assert (words(one.text) in seen) == (one in mine)
    assert reader.clicks <= 2


@pytest.mark.parametrize("owner", sorted(owners()))
def test_the_name_of_an_owner_on_the_conclusion_leads_to_all_of_it(reader, owner):
    name = next(owner_of(one) for one in demo().assessment.missing if one.owner == owner)
    reader.click(reader.page.locator("main").get_by_role("link", name=name, exact=True))
    heading = reader.page.get_by_role("rowheader", name=name)
    heading.wait_for(state="visible", timeout=5000)  # the page groups its rows anew after it has opened
    box = heading.bounding_box()
    assert 0 <= box["y"] <= reader.page.viewport_size["height"]
    assert reader.clicks <= 1


def test_who_relies_on_a_piece_of_evidence_is_two_clicks_away(browser):
    evidence = demo().assessment.of_kind("evidence")
    used = {id_: set(demo().assessment.used_by.get(id_, ())) for id_ in evidence}
    most, none = (
        max(used, key=lambda id_: (len(used[id_]), id_)),
        min(used, key=lambda id_: (len(used[id_]), id_)),
    )
    for id_ in (most, none):
        reader = Reader(browser)
        reader.rail("Evidence")
        reader.click(
            reader.page.locator("main").get_by_role("link", name=evidence[id_].record.title, exact=True)
        )
        told = reader.page.get_by_role("heading", name="Relied on by").locator(
            "xpath=following-sibling::*[1]"
        )
        linked = {link.get_attribute("href").split("/")[-1].split(".")[0] for link in told.locator("a").all()}
        assert linked == used[id_]
        assert reader.clicks <= 2


FOCUS = """() => {
  const one = document.activeElement, box = one.getBoundingClientRect(), style = getComputedStyle(one);
  return {words: one.textContent.trim(), href: one.getAttribute('href') || '', main: !!one.closest('main'),
          inView: box.bottom > 0 && box.top < innerHeight && box.width > 0 && box.height > 0,
          outlined: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2}}"""


def tab_to(page, wanted):
    """Goes on by Tab alone until what has the focus is wanted; the focus can be seen all the way."""
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        focus = page.evaluate(FOCUS)
        if wanted(focus):
            return focus
        assert focus["inView"], focus
        assert focus["outlined"], focus
    raise AssertionError(f"not reached by {MOST_TABS} presses of Tab: {page.url}")


def go_back(page):
    """Alt and the left arrow: a key of the browser's window, which this one has not; no page may take it."""
    page.evaluate("addEventListener('keydown', key => { window.taken = () => key.defaultPrevented })")
    page.keyboard.press("Alt+ArrowLeft")
    assert page.evaluate("window.taken()") is False
    page.go_back()


def test_by_keyboard_alone_a_reader_goes_from_the_conclusion_to_a_line_of_a_file_and_back(browser):
    page = offline_page(browser)
    visit(page, demo().site, "index")
    tab_to(page, lambda focus: focus["words"] == "Skip to the page")
    page.keyboard.press("Enter")
    tab_to(page, lambda focus: focus["main"] and focus["href"].startswith("gaps.html"))
    page.keyboard.press("Enter")
    page.wait_for_url("**/gaps.html*")
    place = tab_to(page, lambda focus: focus["main"] and re.fullmatch(r"\S+\.ya?ml:\d+", focus["words"]))
    page.keyboard.press("Enter")
    file, number = place["words"].rsplit(":", 1)
    line = page.locator(f"#L{number}")
    line.wait_for(state="visible", timeout=5000)
    assert line.inner_text().rstrip("\n") == (ROOT / file).read_text("utf-8").splitlines()[int(number) - 1]
    for address in ("gaps.html", "index.html"):
        go_back(page)
        page.wait_for_url(f"**/{address}*")
    assert page.get_by_text("May a person use it today?").is_visible()
    assert not page.noise
