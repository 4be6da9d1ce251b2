"""Run a command so that no error of it reaches the user as a traceback."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Callable

from booklet.cli.exits import Exit
from booklet.kit.errors import BookletError, KitError, SpecError

Command = Callable[[Namespace], Exit]


def guarded(command: Command, options: Namespace) -> Exit:
    """What a command ends with; what stops it is told on standard error, in one line.

    Python's development mode (`python -X dev -m booklet`) shows the traceback of a fault of the program.
    """
    try:
        code = command(options)
        sys.stdout.flush()  # so that a closed pipe is noticed here
        return code
    except SpecError as unread:
        _tell_problems(unread)
        return Exit.KIT_WRONG
    except BookletError as wrong:
        complain(str(wrong))
        return Exit.KIT_WRONG if isinstance(wrong, KitError) else Exit.CALLED_WRONGLY
    except BrokenPipeError:
        _stop_writing()
        return Exit.WELL
    except OSError as trouble:
        _stop_writing()
        complain(f"could not go on: {trouble.strerror or trouble}")
        return Exit.CALLED_WRONGLY
    except KeyboardInterrupt:
        complain("stopped; what was there before is still there")
        return Exit.STOPPED
    except (MemoryError, RecursionError):
        complain("the kit is larger than this computer can work out")
        return Exit.KIT_WRONG
    except Exception as fault:
        if sys.flags.dev_mode:
            raise
        complain(_fault_text(fault))
        return Exit.CALLED_WRONGLY


def _tell_problems(unread: SpecError) -> None:
    """Print what keeps a spec from being read, where it is not what was asked for."""
    from booklet.cli.report import problem_lines

    print("\n".join(problem_lines(unread)), file=sys.stderr)


def complain(what: str) -> None:
    """Say on standard error what keeps the program from going on."""
    if sys.stderr is not None:
        print(f"booklet: {what}", file=sys.stderr)


def _stop_writing() -> None:
    """Nothing more can be written out: keep the interpreter from flushing to it at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _fault_text(fault: Exception) -> str:
    """What went wrong and in which of our modules, in one line and without a path of this computer."""
    trace, module, line = fault.__traceback__, "booklet", 0
    while trace is not None:
        name = trace.tb_frame.f_globals.get("__name__", "")
        if name.startswith("booklet."):
            module, line = name, trace.tb_lineno
        trace = trace.tb_next
    kind = type(fault).__name__
    return f"this is a fault of the program, not of your kit: {kind} in {module}, line {line}"
