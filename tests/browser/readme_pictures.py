"""Take the README's pictures of the companions: a few states of the demo kits, as a browser shows them.

Run `python -m tests.browser.readme_pictures` after a change that they show, and look at the result.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from playwright.sync_api import Page, sync_playwright

from tests.browser.chromium import FLAGS, chromium
from tests.web.demos import made

if TYPE_CHECKING:
    from PIL.Image import Image

PICTURES = Path(__file__).resolve().parents[2] / ".readme"
# Of which kit, and what, by the name of the picture: a cut while its sheet lies in the trimmer, a step of a
# page, the whole kit.
STATES = {
    "companion-hill-line": ("hill-line", "#/cut/cut-station-1%2F2"),
    "companion-roof-garden": ("roof-garden", "#/pages/layout-supper-on-the-roof%2F3"),
    "companion-whole-kit": ("roof-garden", "#/kit"),
}
SIZE = (1024, 700)


def picture_of(name: str) -> Path:
    """Where a picture of a companion lies."""
    return PICTURES / f"{name}.png"


def taken(page: Page, file: Path, state: str) -> Image:
    """A state of a companion that lies in a file, as it is seen."""
    from PIL import Image as Pixels

    page.goto(file.as_uri() + state)
    page.evaluate("document.fonts.ready")
    page.wait_for_timeout(300)
    return Pixels.open(BytesIO(page.screenshot())).convert("RGB")


def main() -> None:
    """Write the pictures with few colours, so that they stay small."""
    with sync_playwright() as playwright, TemporaryDirectory() as folder:
        browser = playwright.chromium.launch(executable_path=chromium(), args=FLAGS)
        width, height = SIZE
        page = browser.new_page(viewport={"width": width, "height": height}, reduced_motion="reduce")
        for name, (kit, state) in STATES.items():
            file = Path(folder) / f"{kit}.html"
            file.write_bytes(made(kit).companion.html)
            taken(page, file, state).quantize(128).save(picture_of(name), optimize=True)
            print(picture_of(name))
        browser.close()


if __name__ == "__main__":
    main()
