"""Take the README's picture of a stage, in Chromium: the demo lesson after edge 8.

Run ``make figures``, which runs this after the drawings are made.
"""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Final

from playwright.sync_api import sync_playwright

from edgewise.publish.html import page

ROOT: Final = Path(__file__).parents[1]
LESSON: Final = ROOT / "examples" / "rain-gauges.md"
PICTURE: Final = ROOT / "docs" / "figures" / "tour-stage.png"
CHROMIUM: Final = "/usr/bin/chromium"
ROW: Final = 8


def main() -> None:
    """Build the lesson, open it at the row, and take what stands from figure to table."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        address = page.build(LESSON, Path(folder)).as_uri()
        browser = playwright.chromium.launch(
            executable_path=CHROMIUM, args=["--headless=new", "--no-sandbox", "--disable-gpu"]
        )
        shown = browser.new_page(viewport={"width": 1000, "height": 1700})
        shown.goto(f"{address}#row={ROW}")
        shown.evaluate("document.fonts.ready.then(() => true)")
        shown.locator(".stage").first.screenshot(path=PICTURE)
        browser.close()
    print(f"wrote {PICTURE.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
