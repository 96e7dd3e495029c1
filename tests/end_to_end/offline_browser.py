"""Chromium without a network, which notes everything that a page says or asks for."""

import re

from site_browser import PHONE, WIDE, chromium

__all__ = ["NARROWEST", "PHONE", "WIDE", "chromium", "offline_page", "settle", "visit"]
NARROWEST = (320, 640)
ELSEWHERE = re.compile(r"^(?!file:|data:)")


def offline_page(browser, size=WIDE, scheme="light"):
    """A page whose `noise` holds what it wrote to the console, its faults and what it asked elsewhere."""
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        color_scheme=scheme,
        offline=True,
        reduced_motion="reduce",
    )
    page = context.new_page()
    page.noise = []
    page.on("console", lambda message: page.noise.append(f"console: {message.text}"))
    page.on("pageerror", lambda fault: page.noise.append(f"fault: {fault}"))
    page.on("requestfailed", lambda request: _note_failure(page, request))
    page.on("dialog", lambda dialog: (page.noise.append(f"dialog: {dialog.message}"), dialog.dismiss()))
    page.route(ELSEWHERE, lambda route: (page.noise.append(f"asked: {route.request.url}"), route.abort()))
    return page


def _note_failure(page, request):
    if request.failure != "net::ERR_ABORTED":  # the page was left before its icon had come
        page.noise.append(f"failed: {request.url} {request.failure}")


def visit(page, site, address):
    """Opens a page of a site by its address without the ending."""
    page.goto((site / f"{address}.html").as_uri())


def settle(page):
    """Waits until scripts that work a page over in steps have drawn what they were to draw."""
    page.evaluate("() => new Promise(done => requestAnimationFrame(() => setTimeout(done, 0)))")
