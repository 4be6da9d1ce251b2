"""Take the README's pictures of the companions: one state of each demo kit, as a browser shows it.

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
# What is shown of each kit: a cut while its sheet lies in the trimmer, a step of a page.
STATES = {
    "hill-line": "#/cut/cut-station-1%2F2",
    "roof-garden": "#/pages/layout-supper-on-the-roof%2F3",
}
SIZE = (1024, 700)


def picture_of(kit: str) -> Path:
    """Where the picture of a kit's companion lies."""
    return PICTURES / f"companion-{kit}.png"


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
        for kit, state in STATES.items():
            file = Path(folder) / f"{kit}.html"
            file.write_bytes(made(kit).companion.html)
            taken(page, file, state).quantize(128).save(picture_of(kit), optimize=True)
            print(picture_of(kit))
        browser.close()


if __name__ == "__main__":
    main()
