"""The commands: most tests are of what comes before a booklet is laid out, or after."""

from __future__ import annotations

import signal
from functools import cache

import pytest

from tests.cli.kits import Broken, broken_copy

# Tests that a shell runs in the background ignore an interrupt, and so would all programs that they start.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(autouse=True)
def _share(booklets_made_once: None) -> None:
    """Booklets are made once."""


@pytest.fixture(scope="session")
def broken(tmp_path_factory: pytest.TempPathFactory) -> Broken:
    """The larger demo kit with one line changed: copied once, however many tests it is for."""
    return cache(lambda one: broken_copy(one, tmp_path_factory.mktemp("broken")))
