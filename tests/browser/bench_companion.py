"""What a companion weighs, and when it is first seen: `python -m tests.browser.bench_companion`.

The bars: that of hill-line is under 2 MB, and first seen in less than a second.
"""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import sync_playwright

from tests.browser.chromium import FLAGS, chromium
from tests.web.demos import made

_MOST_BYTES, _MOST_SECONDS = 2_000_000, 1.0
_RUNS = 5
_SEEN = "performance.getEntriesByName('first-contentful-paint')[0].startTime"
_ELEMENTS = "document.querySelectorAll('*').length"


def main() -> None:
    """Print each bar, met or NOT met; of several runs the quickest, as other work only slows them."""
    with sync_playwright() as playwright, TemporaryDirectory() as folder:
        for kit in ("hill-line", "roof-garden"):
            file = Path(folder) / f"{kit}.html"
            file.write_bytes(made(kit).companion.html)
            seconds, elements = [], 0
            for _ in range(_RUNS):
                browser = playwright.chromium.launch(executable_path=chromium(), args=FLAGS)
                page = browser.new_page(viewport={"width": 1024, "height": 768})
                page.goto(file.as_uri())
                page.wait_for_timeout(300)
                seconds.append(page.evaluate(_SEEN) / 1000)
                elements = page.evaluate(_ELEMENTS)
                browser.close()
            size = file.stat().st_size
            print(f"{kit}: {size / 1e6:.2f} MB, {_met(size < _MOST_BYTES)}; {elements} elements; first seen")
            print(f"  after {min(seconds):.2f} s, {_met(min(seconds) < _MOST_SECONDS)}")


def _met(holds: bool) -> str:
    return "met" if holds else "NOT met"


if __name__ == "__main__":
    main()
