"""Finding a record or a word: by keyboard and mouse, wide and on a phone, with and without scripts."""

import pytest
from published_demo import demo
from site_browser import PHONE, chromium, open_page

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def browser():
    with chromium() as opened:
        yield opened


def at(browser, address="index", **options):
    return open_page(browser, demo().site / f"{address}.html", **options)


def ask(page, text):
    page.get_by_role("combobox", name="Find a record or a word").fill(text)
    page.locator(".asking .told").filter(has_text="found").wait_for()
    return page.get_by_role("option").all_inner_texts()


def test_a_stroke_opens_it_arrows_choose_enter_goes_and_the_page_is_that_record(browser):
    page = at(browser)
    page.keyboard.press("/")
    page.keyboard.type("bracket-fat")
    options = page.get_by_role("option")
    options.first.wait_for()
    assert options.first.get_attribute("aria-selected") == "true"
    page.keyboard.press("ArrowDown")
    assert options.nth(1).get_attribute("aria-selected") == "true"
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Enter")
    page.wait_for_url("**/claims/bracket-fatigue.html")
    assert not page.noise


def test_escape_closes_and_empties_it(browser):
    page = at(browser)
    ask(page, "damper")
    page.keyboard.press("Escape")
    assert not page.get_by_role("listbox").is_visible()
    assert page.get_by_role("combobox").input_value() == ""


def test_a_stroke_typed_into_a_field_is_a_letter(browser):
    page = at(browser, "evidence")
    page.get_by_label("Filter").focus()
    page.keyboard.press("/")
    assert page.get_by_label("Filter").input_value() == "/"


def test_the_id_itself_comes_first_then_its_head_then_titles_statements_and_other_words(browser):
    page = at(browser)
    assert "blade-strength" in ask(page, "Blade-strength")[0].splitlines()[-1]
    assert all("bracket" in one.lower() for one in ask(page, "bracket")[:3])
    titles = [one.splitlines()[0] for one in ask(page, "pivot bracket")]
    ranks = ["pivot" in one.lower() and "bracket" in one.lower() for one in titles]
    assert ranks == sorted(ranks, reverse=True)


def test_words_are_sought_whole_from_their_head_without_accents_and_all_of_them(browser):
    page = at(browser)
    for one in ask(page, "FATÍGUE pivot"):
        assert "fatigue" in one.lower()
        assert "pivot" in one.lower()
    page.get_by_role("combobox").fill("atigue")
    page.get_by_text("Nothing is found.").wait_for()


def test_a_word_inside_a_record_is_shown_where_it_stands(browser):
    page = at(browser)
    found = ask(page, "as-printed surfaces")
    assert any("bracket-fatigue-surface" in one for one in found)
    assert page.locator("[role=option] mark").count() >= 2


@pytest.mark.parametrize(
    ("text", "address"),
    [
        ("failure modes", "failure-modes.html"),
        ("evidence-nobody-relies-on", "reading/rules.html#evidence-nobody-relies-on"),
        ("reserve_factors", "reading/methods.html#reserve_factors"),
    ],
)
def test_pages_rules_and_methods_are_found_from_any_depth_by_mouse(browser, text, address):
    page = at(browser, "claims/bracket-fatigue")
    ask(page, text)
    kinds = {"failure-modes.html": "Page", "reading/rules": "Rule", "reading/methods": "Method"}
    kind = next(word for head, word in kinds.items() if address.startswith(head))
    page.get_by_role("option").filter(has=page.get_by_text(kind, exact=True)).first.click()
    page.wait_for_url(f"**/{address}")


def test_on_a_phone_it_stands_inside_pages(browser):
    page = at(browser, size=PHONE)
    assert not page.get_by_role("combobox").is_visible()
    page.get_by_role("link", name="Pages").click()
    assert ask(page, "damper")
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE[0]
    assert not page.noise


def test_without_scripts_it_is_a_link_to_all_records(browser):
    page = at(browser, "claims/bracket-fatigue", java_script_enabled=False)
    page.get_by_role("link", name="Find a record or a word").first.click()
    page.wait_for_url("**/records.html")


@pytest.mark.parametrize("options", [{}, {"color_scheme": "dark"}, {"size": PHONE}])
def test_the_accessibility_checker_reports_nothing_on_an_open_list(browser, options):
    from axe_playwright_python.sync_playwright import Axe

    page = at(browser, **options)
    if options.get("size"):
        page.get_by_role("link", name="Pages").click()
    ask(page, "bracket")
    found = Axe().run(page).response["violations"]
    assert not found, [(one["id"], one["nodes"][0]["html"]) for one in found]
