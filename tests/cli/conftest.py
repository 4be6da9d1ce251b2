"""The commands: most tests are of what comes before a booklet is laid out, or after."""

from __future__ import annotations

import pytest


@pytest.fixture(autouse=True)
def _share(booklets_made_once: None) -> None:
    """Booklets are made once."""
