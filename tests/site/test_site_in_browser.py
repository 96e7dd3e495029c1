"""The demonstration site as Chromium shows it: by mouse or not, wide and narrow, light and dark."""

import os
import re
import shutil

import pytest
from published_demo import demo

playwright = pytest.importorskip("playwright.sync_api")
CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
# With none on the path, the browser that playwright brings is used.
pytestmark = [pytest.mark.browser, pytest.mark.slow]
WIDE, PHONE, NARROWEST = (1280, 800), (390, 844), (320, 640)


@pytest.fixture(scope="module")
def browser():
    with playwright.sync_playwright() as started:
        options = {"executable_path": CHROMIUM} if CHROMIUM else {}
        opened = started.chromium.launch(args=["--no-sandbox"], **options)
        yield opened
        opened.close()


def outside(url):
    return not url.startswith("file:")


def open_page(browser, size, scheme="light"):
    context = browser.new_context(viewport={"width": size[0], "height": size[1]}, color_scheme=scheme)
    page = context.new_page()
    page.noise = []
    page.on("console", lambda message: page.noise.append(message.text))
    page.on("pageerror", lambda fault: page.noise.append(str(fault)))
    page.on("request", lambda request: page.noise.append(request.url) if outside(request.url) else None)
    return page


def visit(page, address):
    page.goto((demo().site / f"{address}.html").as_uri())


def each_kind():
    return demo().one_of_each_kind()


@pytest.mark.parametrize("size", [WIDE, PHONE, NARROWEST])
def test_no_page_scrolls_sideways_writes_to_the_console_or_asks_outside(browser, size):
    page = open_page(browser, size)
    for address in each_kind():
        visit(page, address)
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0], address
        assert not page.noise, address


def test_at_1280_every_table_fits_without_scrolling_sideways(browser):
    page = open_page(browser, WIDE)
    sheets = [f"calculations/{id_}" for id_ in demo().assessment.of_kind("calculations")]
    for address in ("strength", "failure-modes", "hazards", "calculations", "gaps", *sheets):
        visit(page, address)
        page.eval_on_selector_all("details", "all => all.forEach(one => one.open = true)")
        wide = "all => all.filter(one => one.scrollWidth > one.parentElement.clientWidth).length"
        assert page.eval_on_selector_all("main table", wide) == 0, address


def test_wide_tables_print_across_with_words_on_the_first_sheet(browser):
    page = open_page(browser, WIDE)
    for address in ("strength", "failure-modes"):
        visit(page, address)
        boxes = re.findall(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", page.pdf(prefer_css_page_size=True))
        assert boxes
        assert all(float(width) > float(height) for width, height in boxes)


@pytest.mark.parametrize(("size", "scheme"), [(WIDE, "light"), (WIDE, "dark"), (PHONE, "light")])
def test_the_accessibility_checker_reports_nothing(browser, size, scheme):
    from axe_playwright_python.sync_playwright import Axe

    axe = Axe()
    page = open_page(browser, size, scheme)
    for address in each_kind():
        visit(page, address)
        assert page.evaluate("document.documentElement.dataset.scheme") == scheme
        found = axe.run(page).response["violations"]
        assert not found, (address, [(one["id"], one["nodes"][0]["html"]) for one in found])


def test_at_1280_by_800_the_answer_the_conditions_and_the_hazards_are_in_sight(browser):
    page = open_page(browser, WIDE)
    visit(page, "index")
    for selector in (".answer", ".strips", ".a-missing .owner", ".levels"):
        box = page.locator(selector).first.bounding_box()
        assert box["y"] + box["height"] <= WIDE[1], selector


def test_the_dark_button_turns_every_page_and_is_remembered(browser):
    page = open_page(browser, WIDE)
    visit(page, "index")
    page.get_by_role("button", name="Dark").click()
    visit(page, "gaps")
    assert page.evaluate("document.documentElement.dataset.scheme") == "dark"
    page.get_by_role("button", name="Light").click()
    assert page.evaluate("document.documentElement.dataset.scheme") == "light"


def test_a_link_to_a_line_of_a_file_opens_the_record_as_written(browser):
    page = open_page(browser, WIDE)
    visit(page, "gaps")
    page.locator("a.place").first.click()
    page.locator("#as-written pre").wait_for(state="visible", timeout=5000)


def test_a_phone_finds_all_pages_behind_one_button(browser):
    page = open_page(browser, PHONE)
    visit(page, "index")
    assert not page.locator("#pages").is_visible()
    page.get_by_role("link", name="Pages").click()
    page.locator("#pages a").first.wait_for(state="visible", timeout=5000)


def test_a_keyboard_reaches_the_page_past_the_rail(browser):
    page = open_page(browser, WIDE)
    visit(page, "index")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the page"
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "main"


def test_paper_opens_what_is_folded_and_hides_the_rail(browser):
    page = open_page(browser, WIDE)
    page.emulate_media(media="print")
    visit(page, "records")
    assert not page.locator("#pages").is_visible()
    page.locator("tbody.folded").first.wait_for(state="attached")
    heights = page.eval_on_selector_all("tbody tr", "all => all.map(one => one.offsetHeight)")
    assert heights
    assert min(heights) > 0
