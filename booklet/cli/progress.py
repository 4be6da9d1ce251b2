"""Progress for a person who waits at a terminal; silence in a pipe."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def working(what: str) -> Iterator[None]:
    """Show what is being done until it is done, on standard error and only on a terminal."""
    if not sys.stderr.isatty():
        yield
        return
    from rich.console import Console

    with Console(stderr=True).status(what):
        yield
