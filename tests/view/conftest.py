"""The live look collects garbage after each save: in a run of tests little of what is there is its own."""

from __future__ import annotations

import gc

import pytest


@pytest.fixture(scope="module", autouse=True)
def _what_others_keep_is_not_searched() -> None:
    gc.freeze()
