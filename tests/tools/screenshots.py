"""Takes pictures of each kind of page of a published site: `python tests/tools/screenshots.py site`.

They go into `screenshots/`, which is not kept under version control: light, dark, phone and, where
`pdftoppm` is there, the printed sheets. The picture of the README is taken again too.
"""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "screenshots"
README_PICTURE = ROOT / "site_templates" / "picture" / "conclusion.png"
LARGEST = 200_000  # bytes of the picture of the README
SHEETS = 4  # printed sheets of a page that are looked at
README_SIZE = {"width": 1200, "height": 700}
WORST_FIRST = ("fails", "open", "out of date", "provisional", "holds")
LOOKS = {
    "light": {"viewport": {"width": 1280, "height": 800}, "color_scheme": "light"},
    "dark": {"viewport": {"width": 1280, "height": 800}, "color_scheme": "dark"},
    "phone": {"viewport": {"width": 390, "height": 844}, "color_scheme": "light"},
}


def main(site: Path) -> None:
    """Writes the pictures of a site and the picture of the README."""
    shutil.rmtree(PICTURES, ignore_errors=True)
    PICTURES.mkdir()
    with sync_playwright() as started:
        path = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
        browser = started.chromium.launch(executable_path=path, args=["--no-sandbox"])
        pages = one_of_each_kind(site)
        for name, look in LOOKS.items():
            context = browser.new_context(**look)
            for page in pages:
                _take(context, page, PICTURES / f"{_name_of(site, page)}-{name}.png")
            context.close()
        _print_sheets(browser, site, pages)
        _take_for_readme(browser, site)
        browser.close()
    print(f"{len(pages)} pages: {PICTURES}")


def one_of_each_kind(site: Path) -> list[Path]:
    """Every page that is no record's, and of each kind of record the page with the worst verdict."""
    verdicts = json.loads((site / "assessment.json").read_text("utf-8"))["verdicts"]

    def rank(page: Path) -> tuple[int, str]:
        word = verdicts.get(page.stem)
        return (WORST_FIRST.index(word) if word else len(WORST_FIRST)), page.stem

    found = []
    for folder in sorted({page.parent for page in site.rglob("*.html")}):
        pages = sorted(folder.glob("*.html"), key=rank)
        records = any(page.stem in verdicts for page in pages)
        found += pages[:1] if records else pages
    return sorted(found)


def _name_of(site: Path, page: Path) -> str:
    return page.relative_to(site).with_suffix("").as_posix().replace("/", "-")


def _take(context, page: Path, picture: Path) -> None:
    shown = context.new_page()
    shown.goto(page.resolve().as_uri())
    shown.screenshot(path=str(picture), full_page=True)
    shown.close()


def _print_sheets(browser, site: Path, pages: list[Path]) -> None:
    if shutil.which("pdftoppm") is None:
        print("The printed sheets are left out: pdftoppm is not there (apt-get install poppler-utils).")
        return
    shown = browser.new_page()
    for page in pages:
        shown.goto(page.resolve().as_uri())
        sheets = PICTURES / f"{_name_of(site, page)}-print.pdf"
        shown.pdf(path=str(sheets), prefer_css_page_size=True, print_background=True)
        command = [
            "pdftoppm",
            "-r",
            "60",
            "-l",
            str(SHEETS),
            "-png",
            str(sheets),
            str(sheets.with_suffix("")),
        ]
        subprocess.run(command, check=True)
        sheets.unlink()


def _take_for_readme(browser, site: Path) -> None:
    shown = browser.new_page(viewport=README_SIZE, color_scheme="light")
    shown.goto((site / "index.html").resolve().as_uri())
    README_PICTURE.parent.mkdir(parents=True, exist_ok=True)
    shown.screenshot(path=str(README_PICTURE))
    size = README_PICTURE.stat().st_size
    if size > LARGEST:
        raise SystemExit(f"{README_PICTURE} has {size} bytes; at most {LARGEST} are wanted.")
    print(f"{README_PICTURE}: {size} bytes")


if __name__ == "__main__":
    main(Path(sys.argv[1] if len(sys.argv) > 1 else "site"))
