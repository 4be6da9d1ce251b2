"""A real browser with a companion open in it: Debian's Chromium, driven by Playwright, and no network.

Where the environment names a `FIREFOX`, it is that one.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Playwright, sync_playwright

from tests.browser.chromium import FLAGS, chromium
from tests.browser.companion import Companion
from tests.web.demos import made

TABLET = {"width": 1024, "height": 768}

Open = Callable[..., Companion]

FIREFOX = os.environ.get("FIREFOX")
# Touch is off in a Firefox of a desktop.
_FIREFOX_SETTINGS: dict[str, str | float | bool] = {"dom.w3c_touch_events.enabled": 1}
# What Playwright cannot ask of Firefox: stillness, no script, a printed page; and pictures taken in Chromium.
chromium_alone = pytest.mark.skipif(FIREFOX is not None, reason="Firefox cannot be asked for this")


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    if FIREFOX is None and chromium() is None:
        pytest.skip("there is no Chromium here")
    # It writes into the folder of a user's settings, which no test may.
    folder = str(tmp_path_factory.mktemp("settings"))
    at_home: dict[str, str | float | bool] = {**os.environ, "XDG_CONFIG_HOME": folder}
    with sync_playwright() as playwright:
        opened = launched(playwright, at_home)
        yield opened
        opened.close()


def launched(playwright: Playwright, env: dict[str, str | float | bool]) -> Browser:
    """Chromium, or the Firefox that the environment names: as it is sold, by WebDriver BiDi."""
    if FIREFOX is not None:
        return playwright.firefox.launch(
            channel="moz-firefox", executable_path=FIREFOX, env=env, firefox_user_prefs=_FIREFOX_SETTINGS
        )
    return playwright.chromium.launch(executable_path=chromium(), args=FLAGS, env=env)


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("companions")


@pytest.fixture
def open_companion(browser: Browser, folder: Path) -> Iterator[Open]:
    """Opens a companion in a browser of its own; whatever it asks for, or complains of, fails the test."""
    contexts: list[BrowserContext] = []
    opened: list[Companion] = []

    def open_one(kit: str = "hill-line", at: str = "", html: bytes | None = None, **how: object) -> Companion:
        data = made(kit).companion.html if html is None else html
        file = folder / f"{kit}-companion.html"
        if not file.exists() or file.read_bytes() != data:
            file.write_bytes(data)
        settings = {"viewport": TABLET, "offline": True, **how}
        context = browser.new_context(**settings)  # type: ignore[arg-type]
        contexts.append(context)
        companion = Companion(context.new_page(), file)
        opened.append(companion)
        companion.go(at)
        return companion

    yield open_one
    for context in contexts:
        context.close()
    for companion in opened:
        assert companion.complaints == []
        assert companion.asked_for == []
