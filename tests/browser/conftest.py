"""A real browser: Debian's Chromium, driven by Playwright, with nothing of its own to do on a network.

Left out of a usual run (`-m browser` asks for these tests); `.ci/run` installs what they need and runs them.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

pytest.importorskip("playwright.sync_api")
from playwright.sync_api import Browser, sync_playwright

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


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    if _CHROMIUM is None:
        pytest.skip("there is no Chromium here")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=_CHROMIUM, args=_FLAGS)
        yield opened
        opened.close()
