"""Takes the picture for the README from a published site: `python tests/tools/screenshots.py site`."""

import os
import shutil
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright

PICTURE = Path(__file__).parents[2] / "site_templates" / "picture" / "conclusion.png"
LARGEST = 200_000  # bytes
SIZE = {"width": 1200, "height": 700}


def main(site: Path) -> None:
    """Writes the picture of the Conclusion page."""
    with sync_playwright() as started:
        path = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
        browser = started.chromium.launch(executable_path=path, args=["--no-sandbox"])
        page = browser.new_page(viewport=SIZE, color_scheme="light")
        page.goto((site / "index.html").resolve().as_uri())
        PICTURE.parent.mkdir(parents=True, exist_ok=True)
        page.screenshot(path=str(PICTURE))
        browser.close()
    size = PICTURE.stat().st_size
    if size > LARGEST:
        raise SystemExit(f"{PICTURE} has {size} bytes; at most {LARGEST} are wanted.")
    print(f"{PICTURE}: {size} bytes")


if __name__ == "__main__":
    main(Path(sys.argv[1] if len(sys.argv) > 1 else "site"))
