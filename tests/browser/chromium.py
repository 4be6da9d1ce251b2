"""Chromium as Debian installs it, driven by Playwright, with nothing of its own to do on a network."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

CHROMIUM = shutil.which("chromium")
# Every browser begins with an empty profile, as Playwright makes one for each.
_FLAGS = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
)


@contextmanager
def a_browser() -> Iterator[Browser]:
    """Chromium without a window."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(_FLAGS))
        yield browser
        browser.close()


@contextmanager
def a_page(address: str, width: int = 1440, height: int = 900, **options: Any) -> Iterator[Page]:
    """A page of its own in a browser of its own, at an address."""
    with a_browser() as browser:
        page = browser.new_page(viewport={"width": width, "height": height}, **options)
        page.goto(address)
        yield page
