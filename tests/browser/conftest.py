"""A real browser with a companion open in it: Debian's Chromium, driven by Playwright, without any network.

Left out of a usual run (`-m browser` asks for these tests); `.ci/run` installs what they need and runs them.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

pytest.importorskip("playwright.sync_api")
from playwright.sync_api import Browser, BrowserContext, sync_playwright

from tests.browser.companion import Companion
from tests.web.demos import made

_CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium")
_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
TABLET = {"width": 1024, "height": 768}

Open = Callable[..., Companion]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    if _CHROMIUM is None:
        pytest.skip("there is no Chromium here")
    # It writes into the folder of a user's settings, which no test may.
    at_home: dict[str, str | float | bool] = {
        **os.environ,
        "XDG_CONFIG_HOME": str(tmp_path_factory.mktemp("settings")),
    }
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=_CHROMIUM, args=_FLAGS, env=at_home)
        yield opened
        opened.close()


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
