"""What is read in a finished file: how its booklet is laid out is tested elsewhere."""

from __future__ import annotations

import pytest


@pytest.fixture(autouse=True)
def _share(booklets_made_once: None) -> None:
    """Booklets are made once."""
