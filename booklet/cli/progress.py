"""Progress for a person who waits at a terminal; silence in a pipe."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from booklet.cli.plain_output import as_opened

# Reports what is being done now.
Tell = Callable[[str], None]


@contextmanager
def progress() -> Iterator[Tell]:
    """Show what is being done, on standard error and only on a terminal, until all is done."""
    if not sys.stderr.isatty():
        yield _no_report
        return
    from rich.console import Console

    with Console(file=as_opened(sys.stderr)).status("Reading the kit") as status:
        yield lambda doing: status.update(doing)


def _no_report(doing: str) -> None:
    """No terminal: report nothing."""
