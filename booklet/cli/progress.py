"""Progress for a person who waits at a terminal; silence in a pipe."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

# Says what is being done now.
Tell = Callable[[str], None]


@contextmanager
def progress() -> Iterator[Tell]:
    """Show what is being done, on standard error and only on a terminal, until all is done."""
    if not sys.stderr.isatty():
        yield _keep_quiet
        return
    from rich.console import Console

    with Console(stderr=True).status("Reading the kit") as status:
        yield lambda doing: status.update(doing)


def _keep_quiet(doing: str) -> None:
    """Nobody is watching."""
