"""The program: `booklet`, or `python -m booklet`."""

from __future__ import annotations

import sys

TYPE_CHECKING = False  # to import typing takes a moment in which it might be stopped
if TYPE_CHECKING:
    from typing import NoReturn

# In seconds; here and now it would be dropped, too.
_A_MOMENT = 0.01


def run() -> None:
    """One command, and the end of the process.

    Whoever stops it, from the keyboard or by SIGTERM, sees no traceback, not while it loads either: nothing
    is imported before somebody waits for that but what the interpreter has at hand.
    """
    try:
        sys.unraisablehook = _stop_again
        import signal

        signal.signal(signal.SIGTERM, signal.default_int_handler)
        from booklet.cli.main import run_command

        run_command()
    except KeyboardInterrupt:
        _end()
    except Exception as fault:
        from booklet.kit.errors import is_stop

        if not is_stop(fault):
            raise
        _end()


def _end() -> NoReturn:
    print("booklet: stopped", file=sys.stderr)
    sys.exit(130)


def _stop_again(unraisable: sys.UnraisableHookArgs) -> None:
    """Stop once more, in a moment, where a library that is called now drops what stops it."""
    if issubclass(unraisable.exc_type, KeyboardInterrupt):
        from threading import Timer

        Timer(_A_MOMENT, _interrupt).start()
    else:
        sys.__unraisablehook__(unraisable)


def _interrupt() -> None:
    """Interrupt what this process does, also where it waits for something."""
    import signal
    from _thread import interrupt_main
    from threading import main_thread

    thread = main_thread().ident
    if thread is not None and hasattr(signal, "pthread_kill"):
        signal.pthread_kill(thread, signal.SIGTERM)
    else:
        interrupt_main()


if __name__ == "__main__":
    run()
