"""The tests in a browser are left out of a usual run: `-m browser` asks for them.

They need Playwright and Debian's Chromium; `.ci/run` installs both, and runs them.
"""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path

import pytest

if find_spec("playwright") is None:
    collect_ignore_glob = ["*.py"]
else:
    from tests.browser.opened import browser, folder, open_companion

    __all__ = ["browser", "folder", "open_companion"]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark every test of this folder."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)
