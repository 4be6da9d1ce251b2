"""The proof: booklets are made and read once where nothing of that is tested."""

from __future__ import annotations

import pytest


@pytest.fixture(autouse=True)
def _share(booklets_made_once: None) -> None:
    """Booklets are made once."""
