"""The commands: `booklet new`, `check`, `complete`, `draw`, `find`, `make`, `plan`, `press`, `proof`,
`reprint`, `rescue`, `schema`, `template`, `view`, `web`.

Each prints what it wrote and exits 0 when all is well, 1 when the kit has errors, 2 when it was called
wrongly or could not go on, 130 when it was stopped.  What a command does not need is not imported.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from functools import partial
from typing import NoReturn

from booklet import VERSION
from booklet.cli.exits import Exit
from booklet.cli.guard import complain, guarded
from booklet.cli.plain_output import plain_output
from booklet.cli.unstopped import unstopped
from booklet.cli.verbs import add_verbs

# New objects before a garbage collection: more than the 300 000 or so that the larger demo kit keeps.
_GC_THRESHOLD = 500_000


def run_command() -> NoReturn:
    """Run the command that was typed, and end the process.

    It ends at once: the interpreter would take down all that was made piece by piece, and take a command
    that was stopped in some of the standard library for one that nobody had dealt with.
    """
    raise_gc_threshold()
    code = main()
    for stream in (sys.stdout, sys.stderr):
        if stream is not None:
            stream.flush()
    os._exit(code)


def raise_gc_threshold() -> None:
    """Collect garbage less often: a command keeps most of what it makes, and to search that again and again
    takes a twentieth of its time (`make` of the larger demo kit, measured)."""
    gc.set_threshold(_GC_THRESHOLD)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code.  No error reaches the user as a traceback.

    Raises SystemExit for arguments that cannot be read, as argparse does.
    """
    if sys.stdout is None:  # it was closed when the program began
        complain("standard output is closed: nothing could be told")
        return Exit.CALLED_WRONGLY
    os.environ.pop("SOURCE_DATE_EPOCH", None)  # the PDF writer would take its dates from there
    with plain_output():
        with unstopped():  # argparse, stopped half-way, fails to put back what it has changed
            options = _parser().parse_args(arguments)
        return guarded(options.command, options)


def _greet(parser: argparse.ArgumentParser, options: argparse.Namespace) -> Exit:  # noqa: ARG001
    """What a newcomer sees who types no more than the program's name."""
    parser.print_help()
    return Exit.WELL


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="booklet",
        description="From a paper-craft kit spec to a printable cutting and assembly booklet.",
        epilog=(
            "For example, `booklet make hill-line` makes the booklet of a demo kit, and `booklet new my-kit` "
            "begins one of your own.  "
            "Exit codes: 0 all is well, 1 the kit has errors, 2 called wrongly, 130 stopped."
        ),
    )
    parser.add_argument(
        "--version", action="version", version=f"booklet {VERSION}", help="print the version and end"
    )
    parser.set_defaults(command=partial(_greet, parser))
    add_verbs(parser)
    return parser
