"""The commands: most tests are of what comes before a booklet is laid out, or after."""

from __future__ import annotations

import signal

import pytest

# Tests that a shell runs in the background ignore an interrupt, and so would all programs that they start.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(autouse=True)
def _share(booklets_made_once: None) -> None:
    """Booklets are made once."""
