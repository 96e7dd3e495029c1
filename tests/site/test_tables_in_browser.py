"""Tables of the demonstration as a reader uses them: by mouse, keyboard, address and without scripts."""

import csv
import io

import pytest
from published_demo import ONE_OF_EACH, demo
from site_browser import PHONE, chromium, open_page

from assurance.site import wording
from assurance.site.table_groups import anchor

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def browser():
    with chromium() as opened:
        yield opened


def at(browser, address, **options):
    name, hash_, asked = address.partition("#")
    return open_page(browser, (demo().site / f"{name}.html").as_uri() + hash_ + asked, **options)


def column(page, number, table=0):
    return page.locator(".table").nth(table).locator(f"tbody tr:not(.group) > :nth-child({number})")


def owner_of_most():
    owners = [wording.People(demo().assessment)(one.owner) for one in demo().assessment.missing]
    return max(sorted(set(owners)), key=owners.count), owners


def test_a_heading_sorts_by_value_and_says_so(browser):
    page = at(browser, "failure-modes")
    heading = page.get_by_role("columnheader", name="RPN now")
    assert heading.get_attribute("aria-sort") == "none"
    heading.get_by_role("button").click()
    causes = [one for every in demo().assessment.failure_modes.values() for one in every]
    wanted = sorted((one.rpn_now for one in causes if one.rpn_now is not None), reverse=True)
    assert [int(one.split()[0]) for one in column(page, 9).all_inner_texts()] == wanted
    assert heading.get_attribute("aria-sort") == "descending"
    assert not page.noise


def test_the_worst_verdict_comes_first_on_the_first_press(browser):
    page = at(browser, "hazards")
    page.get_by_role("columnheader", name="Verdict").get_by_role("button").click()
    words = column(page, 1).locator("title").all_text_contents()
    assessed = demo().assessment
    verdicts = sorted((assessed.verdicts[id_] for id_ in assessed.of_kind("hazards")), reverse=True)
    assert words == [one.word for one in verdicts]


def test_a_heading_sorts_by_keyboard_alone(browser):
    page = at(browser, "evidence")
    page.get_by_role("button", name="Date").focus()
    page.keyboard.press("Enter")
    page.locator("[aria-sort=ascending]").wait_for()
    entries = demo().assessment.of_kind("evidence").values()
    first = min(one.record.date for one in entries if one.record.date)
    assert column(page, 4).first.inner_text() == wording.day(first)
    assert page.evaluate("document.activeElement.textContent") == "Date"


def test_the_conclusion_leads_to_the_gaps_of_one_owner_and_a_button_back_to_all(browser):
    owner, owners = owner_of_most()
    page = at(browser, "index")
    page.get_by_role("link", name=owner).click()
    page.get_by_text(f"{owners.count(owner)} of {len(owners)} match").wait_for()
    assert page.url.endswith(f"gaps.html#owner={anchor(owner)}")
    assert column(page, 2).count() == owners.count(owner)
    page.get_by_role("button", name="Clear the filter").click()
    assert column(page, 2).count() == len(owners)
    assert "#" not in page.url


def test_only_these_leaves_one_group_and_the_address_brings_it_back(browser):
    owner, owners = owner_of_most()
    page = at(browser, "gaps")
    page.get_by_role("button", name=f"Only these: {owner}").click()
    again = at(browser, "gaps#" + page.url.partition("#")[2])
    again.get_by_text(f"{owners.count(owner)} of {len(owners)} match").wait_for()
    assert not again.noise


def test_what_matches_nothing_says_so_and_can_be_cleared(browser):
    page = at(browser, "gaps")
    page.get_by_label("Filter").first.fill("no such word")
    page.get_by_text("No gap matches.").wait_for()
    page.get_by_role("button", name="Clear the filter").first.click()
    assert column(page, 2).count() == len(demo().assessment.missing)


def test_a_filter_folds_accents_and_case_and_takes_every_word(browser):
    page = at(browser, "evidence")
    page.get_by_label("Filter").fill("TÉST bracket")
    page.locator(".told").filter(has_text="match").wait_for()
    for text in column(page, 2).all_inner_texts():
        assert "bracket" in text.lower()


def test_rows_group_another_way_and_a_group_folds(browser):
    page = at(browser, "evidence")
    page.get_by_role("button", name="kind", exact=True).click()
    kinds = sorted({one.record.kind for one in demo().assessment.of_kind("evidence").values()})
    lines = page.locator("tr.group b").all_inner_texts()
    assert [one.lower() for one in lines] == kinds
    page.locator(".folds").first.click()
    assert page.locator(".folds").first.get_attribute("aria-expanded") == "false"
    assert page.locator("tbody").first.locator("tr:visible").count() == 1


def test_copy_gives_the_rows_in_sight_in_their_order(browser):
    context = browser.new_context(permissions=["clipboard-read", "clipboard-write"])
    page = context.new_page()
    page.goto((demo().site / "strength.html").as_uri())
    page.get_by_label("Filter").fill("pivot")
    page.locator(".told").filter(has_text="match").wait_for()
    page.get_by_role("button", name="Copy as CSV").click()
    page.get_by_text("Copied").wait_for()
    rows = list(csv.DictReader(io.StringIO(page.evaluate("navigator.clipboard.readText()"), newline="")))
    assert len(rows) == column(page, 2).count()
    factors = [float(one["reserve factor [1]"]) for one in rows]
    assert factors == sorted(factors)


def test_where_the_clipboard_is_closed_the_text_stands_selected(browser):
    page = at(browser, "gaps")
    page.evaluate(
        """() => { document.execCommand = () => false;
        navigator.clipboard.writeText = () => Promise.reject(new Error("closed")); }"""
    )
    page.get_by_role("button", name="Copy as CSV").first.click()
    area = page.get_by_label("The rows as CSV")
    area.wait_for()
    assert area.input_value().startswith("verdict,")
    assert page.evaluate("document.activeElement.selectionEnd") == len(
        area.input_value().replace("\r\n", "\n")
    )


def test_the_head_of_a_long_table_stays_in_sight_under_the_title_block(browser):
    page = at(browser, "evidence")
    page.mouse.wheel(0, 1500)
    page.wait_for_function("scrollY > 1000")
    head = page.locator("thead th").nth(1).bounding_box()
    block = page.locator("header.block").bounding_box()
    assert head["y"] == pytest.approx(block["y"] + block["height"], abs=3)


def test_without_scripts_every_row_stands_and_the_csv_file_is_a_link(browser):
    page = at(browser, "gaps", java_script_enabled=False)
    assert column(page, 2).count() == len(demo().assessment.missing)
    assert not page.get_by_label("Filter").first.is_visible()
    assert not page.get_by_role("button", name="Copy as CSV").first.is_visible()
    assert page.get_by_role("link", name="Take away").first.get_attribute("href") == "tables/gaps.csv"


def test_a_long_sheet_shows_ten_rows_and_the_rest_on_demand(browser):
    work = next(one for one in demo().assessment.worked.values() if len(one.cells) > 10)
    page = at(browser, f"calculations/{work.id}")
    more = page.get_by_role("button", name=f"Show {len(work.cells) - 10} more")
    more.wait_for()
    assert column(page, 2).count() == 10
    more.click()
    assert column(page, 2).count() == len(work.cells)


@pytest.mark.parametrize("address", ["gaps", "strength", "records#group=nothing&sort=2&find=bracket"])
def test_the_accessibility_checker_reports_nothing_on_tables_in_use(browser, address):
    from axe_playwright_python.sync_playwright import Axe

    for options in ({}, {"size": PHONE}, {"color_scheme": "dark"}):
        page = at(browser, address, **options)
        page.locator(".tools").first.wait_for()
        assert not page.noise
        found = Axe().run(page).response["violations"]
        assert not found, [(one["id"], one["nodes"][0]["html"]) for one in found]


def test_on_a_phone_rows_sort_by_a_list_of_the_columns(browser):
    page = at(browser, "evidence", size=PHONE)
    page.get_by_label("Sort by").select_option(label="Relied on by")
    used = demo().assessment.used_by
    counts = sorted((len(used.get(id_, ())) for id_ in demo().assessment.of_kind("evidence")), reverse=True)
    assert [int(one) for one in column(page, 7).all_text_contents()] == counts
    page.get_by_label("Sort by").select_option(label="as it stands")
    assert [int(one) for one in column(page, 7).all_text_contents()] != counts


def test_one_button_opens_all_groups_and_folds_them_again(browser):
    page = at(browser, "records")
    page.get_by_role("button", name="Open all").click()
    assert page.locator("tbody.folded").count() == 0
    page.get_by_role("button", name="Fold all").click()
    assert page.locator("tbody.folded").count() == page.locator("tr.group").count() > 5


@pytest.mark.parametrize("width", [770, 900, 993, 1100])
def test_no_page_of_the_rail_scrolls_sideways_between_the_breaks(browser, width):
    page = at(browser, "index", size=(width, 700))
    for name in ONE_OF_EACH:
        page.goto((demo().site / f"{name}.html").as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width, name
