"""The program: `booklet`, or `python -m booklet`."""

from __future__ import annotations

import signal
import sys
from typing import NoReturn


def run() -> NoReturn:
    """One command, and the end of the process.

    Whoever stops it, from the keyboard or by SIGTERM, sees no traceback, not while it loads either.
    """
    try:
        signal.signal(signal.SIGTERM, signal.default_int_handler)
        from booklet.cli.main import run_command

        run_command()
    except KeyboardInterrupt:
        print("booklet: stopped", file=sys.stderr)
        sys.exit(130)


if __name__ == "__main__":
    run()
