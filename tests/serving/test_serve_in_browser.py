"""`serve` as Chromium shows it: an open page follows the edits, and the findings stand at its foot."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import expect, sync_playwright

pytestmark = [pytest.mark.browser, pytest.mark.slow]
ROOT = Path(__file__).parents[2]
CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
PATIENCE = 60_000  # ms on a busy machine
expect.set_options(timeout=PATIENCE)
CLAIM = "claims/serves-its-purpose.html"


@pytest.fixture(scope="module")
def browser():
    with sync_playwright() as started:
        options = {"executable_path": CHROMIUM} if CHROMIUM else {}
        opened = started.chromium.launch(args=["--no-sandbox"], **options)
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    """A copy of the demonstration, served: its folder and its address."""
    case = tmp_path_factory.mktemp("served") / "demo"
    for name in ("claims", "hazards"):
        shutil.copytree(ROOT / name, case / name)
    command = [sys.executable, "-m", "assurance.cli", "serve", str(case), "--port", "0"]
    own = {**os.environ, "HOLDWATER_CACHE": str(case.parent / "cache")}
    program = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=own)
    address = re.search(r"http://\S+/", program.stdout.readline())[0]
    assert "pages published" in program.stdout.readline()
    yield case, address
    program.terminate()
    program.wait(60)


@pytest.fixture
def page(browser, served):
    context = browser.new_context(viewport={"width": 1280, "height": 800})
    opened = context.new_page()
    opened.noise = []
    opened.on("console", lambda message: opened.noise.append(message.text))
    opened.on("pageerror", lambda fault: opened.noise.append(str(fault)))
    opened.goto(served[1] + CLAIM)
    expect(strip(opened)).to_contain_text("pages published")
    yield opened
    assert not opened.noise
    context.close()


def strip(page):
    return page.locator("#served")


def edit(served, file, old, new):
    path = served[0] / file
    text = path.read_text("utf-8")
    assert old in text, old
    path.write_text(text.replace(old, new, 1), "utf-8")


def test_an_open_page_shows_the_new_text_without_being_touched(page, served):
    edit(served, "claims/case.yml", "A technician steps over", "A technician walks over")
    expect(page.locator("h1")).to_contain_text("A technician walks over")
    assert page.url.endswith(CLAIM)
    expect(strip(page)).to_contain_text("No finding in claims/case.yml")


def test_a_finding_stands_at_the_foot_with_line_and_remedy_until_it_is_mended(page, served):
    edit(served, "claims/case.yml", "    quantity: function", "    quantiti: function")
    told = strip(page).locator("li", has_text="key-unknown")
    expect(told).to_contain_text(re.compile(r"claims/case\.yml:\d+:5"))
    expect(told).to_contain_text("Did you mean quantity?")
    expect(page.get_by_role("status")).to_contain_text("1 finding in claims/case.yml")
    edit(served, "claims/case.yml", "    quantiti: function", "    quantity: function")
    expect(strip(page).locator("li")).to_have_count(0)


def test_the_browser_goes_to_the_record_that_was_edited(page, served):
    edit(served, "hazards/actions.yml", "    what: ", "    what: Soon ")
    page.wait_for_url("**/actions/*.html", timeout=PATIENCE)
    expect(page.locator("main")).to_contain_text("Soon")


def test_it_stays_where_that_is_not_wanted_and_links_to_what_changed(page, served):
    page.get_by_label("Go to what changed").uncheck()
    edit(served, "hazards/actions.yml", "    what: ", "    what: Very ")
    link = strip(page).locator(".served-pages a")
    expect(link).to_have_count(1)
    assert page.url.endswith(CLAIM)
    link.click()
    expect(page.locator("main")).to_contain_text("Very")


def test_while_the_case_cannot_be_read_the_last_site_stays_and_the_fault_is_told(page, served):
    edit(served, "claims/case.yml", "case:\n", "cases:\n")
    expect(strip(page)).to_contain_text("the site stays as it was")
    expect(strip(page).locator("li", has_text="kind-unknown")).to_contain_text("claims/case.yml:4:1")
    assert page.url.endswith(CLAIM)
    edit(served, "claims/case.yml", "cases:\n", "case:\n")
    expect(strip(page)).to_contain_text("pages published")


def test_the_strip_can_be_folded_by_keyboard_and_stays_folded(page, served):
    edit(served, "claims/case.yml", "    quantity: function", "    quantiti: function")
    fold = page.get_by_role("button", name="Fold")
    fold.focus()
    page.keyboard.press("Enter")
    expect(strip(page).locator("#served-list")).to_be_hidden()
    expect(page.get_by_role("button", name="Show")).to_have_attribute("aria-expanded", "false")
    page.reload()
    expect(page.get_by_role("status")).to_contain_text("1 finding")
    expect(strip(page).locator("#served-list")).to_be_hidden()
    edit(served, "claims/case.yml", "    quantiti: function", "    quantity: function")
    expect(page.get_by_role("status")).to_contain_text("No finding")


def test_a_page_that_is_not_there_yet_is_shown_once_it_is(page, served):
    with page.expect_response(lambda answer: answer.status == 404):
        page.goto(served[1] + "contexts/brand-new.html")
    text = "contexts:\n  brand-new: {statement: A brand new one.}\n"
    (served[0] / "claims" / "more.yml").write_text(text)
    expect(page.locator("main")).to_contain_text("A brand new one.")
    page.noise[:] = [words for words in page.noise if "404" not in words]  # the browser tells that itself


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 390, 320])
def test_the_strip_passes_the_accessibility_checker_and_does_not_widen_the_page(
    browser, served, width, scheme
):
    from axe_playwright_python.sync_playwright import Axe

    context = browser.new_context(
        viewport={"width": width, "height": 800}, color_scheme=scheme, bypass_csp=True
    )
    page = context.new_page()
    page.goto(served[1] + CLAIM)
    edit(served, "claims/case.yml", "    quantity: function", "    quantiti: function")
    expect(strip(page).locator("li")).not_to_have_count(0)
    found = Axe().run(page, context="#served").response["violations"]
    edit(served, "claims/case.yml", "    quantiti: function", "    quantity: function")
    assert not [one["id"] for one in found]
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    expect(strip(page).locator("li")).to_have_count(0)
    context.close()
