"""Progress for a person who waits at a terminal; silence in a pipe.

One line on standard error that is written over, without colour or any other code of a terminal.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from booklet.cli.plain_output import as_opened, escaped
from booklet.cutting.begun import Begun, not_told

if TYPE_CHECKING:
    from booklet.kit.kit import Kit

# Reports what is being done now.
Tell = Callable[[str], None]


class _Terminal:
    """What the line at the foot of the terminal shows now: nothing where none is written to."""

    shown = ""


@contextmanager
def progress() -> Iterator[Tell]:
    """Show what is being done, on standard error and only on a terminal, until all is done."""
    if not is_terminal():
        yield _no_report
        return
    _show("Reading the kit")
    try:
        yield _show
    finally:
        _show("")


def is_terminal() -> bool:
    """Whether a person sees what is said on standard error, as it is said."""
    return sys.stderr is not None and sys.stderr.isatty()


def note(text: str) -> None:
    """Print a line on standard error, above what is being done."""
    with out_of_the_way():
        print(text, file=sys.stderr)


@contextmanager
def out_of_the_way() -> Iterator[None]:
    """Clear the line of what is being done while something else is printed."""
    shown = _Terminal.shown
    if shown:
        _show("")
    yield
    if shown:
        _show(shown)


def _show(doing: str) -> None:
    width = shutil.get_terminal_size().columns - 1  # a full line would begin another
    line, terminal = escaped(doing)[:width], as_opened(sys.stderr)
    terminal.write(f"\r{line.ljust(len(_Terminal.shown))}\r{line}")
    terminal.flush()
    _Terminal.shown = line


@contextmanager
def planning_progress(kit: Kit) -> Iterator[Begun]:
    """Show which sheet is being planned, on standard error and only on a terminal, until all are."""
    if all(sheet.cuts is not None for sheet in kit.sheets):
        yield not_told
        return
    with progress() as tell:
        yield planning(tell)


def planning(tell: Tell) -> Begun:
    """What tells which sheet is being planned."""
    return lambda sheet, number, total: tell(f"Planning the cuts of {sheet}, {number} of {total}")


def _no_report(doing: str) -> None:
    """No terminal: report nothing."""
