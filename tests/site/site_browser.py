"""Chromium for the tests of the site, and a page of it that keeps whatever it should not have said."""

import os
import shutil
from contextlib import contextmanager

import pytest

CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
WIDE, PHONE = (1280, 800), (390, 844)


@contextmanager
def chromium():
    """A browser; with none on the path, the one that playwright brings."""
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as started:
        options = {"executable_path": CHROMIUM} if CHROMIUM else {}
        opened = started.chromium.launch(args=["--no-sandbox"], **options)
        yield opened
        opened.close()


def open_page(browser, file, *, size=WIDE, **options):
    """A page of a site, with console messages, script faults and outside requests in `noise`."""
    context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **options)
    page = context.new_page()
    page.noise = []
    page.on("console", lambda message: page.noise.append(message.text))
    page.on("pageerror", lambda fault: page.noise.append(str(fault)))
    page.on("request", lambda one: None if one.url.startswith("file:") else page.noise.append(one.url))
    page.goto(file.as_uri() if hasattr(file, "as_uri") else file)
    return page
