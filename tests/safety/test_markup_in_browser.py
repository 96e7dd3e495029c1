"""In Chromium, without a network, nothing that a case brings runs, opens or asks for anything."""

import pytest
from offline_browser import chromium, offline_page, settle, visit
from test_markup import VARIANTS, nasty

BROUGHT_IN = """() => {
  const all = [...document.querySelectorAll('*')];
  const never = 'script:not([src]), iframe, object, embed, img, style, base, form';
  const odd = all.filter(one => one.matches(never)
    || [...one.attributes].some(a => a.name.startsWith('on') || a.name === 'style'
      || /^\\s*(javascript|data):/i.test(a.value) && ['href', 'src', 'xlink:href'].includes(a.name)));
  return {hit: window.__hit !== undefined, odd: odd.map(one => one.outerHTML.slice(0, 200))};
}"""
SEARCHES = ("onerror", "script", "constructor", "__proto__", "toString")


@pytest.fixture(scope="module")
def browser():
    with chromium() as opened:
        yield opened


def assert_clean(page, address):
    found = page.evaluate(BROUGHT_IN)
    assert (found, page.noise) == ({"hit": False, "odd": []}, []), address


@pytest.mark.browser
@pytest.mark.slow
@pytest.mark.parametrize("variant", VARIANTS)
def test_no_page_runs_or_asks_for_anything(browser, variant):
    site = nasty(variant).site
    page = offline_page(browser)
    for file in sorted(site.rglob("*.html")):
        visit(page, site, file.relative_to(site).with_suffix("").as_posix())
        settle(page)
        assert_clean(page, file)
    page.context.close()


@pytest.mark.browser
@pytest.mark.slow
def test_what_scripts_write_into_a_page_is_text_too(browser):
    site = nasty("standing").site
    page = offline_page(browser)
    for address in ("index", "argument", "records", "hazards", "strength"):
        visit(page, site, address)
        settle(page)
        for opener in page.query_selector_all("[data-find], main button, main summary"):
            if opener.is_visible():
                opener.click()
                settle(page)
                assert_clean(page, address)
        for field in page.query_selector_all("input:not([type=checkbox])"):
            for word in SEARCHES if field.is_visible() else ():
                field.fill(word)
                settle(page)
                assert_clean(page, f"{address} {word}")
    page.context.close()
