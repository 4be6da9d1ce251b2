"""The commands: `booklet new`, `check`, `draw`, `find`, `make`, `plan`, `press`, `proof`, `reprint`,
`rescue`, `schema`, `template`.

Each prints what it wrote and exits 0 when all is well, 1 when the kit has errors, 2 when it was called
wrongly or could not go on, 130 when it was stopped.  What a command does not need is not imported.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import NoReturn

from booklet import VERSION
from booklet.cli import (
    commands,
    find_command,
    plan_commands,
    press_command,
    proof_command,
    reprint_command,
    rescue_command,
    review_command,
    template_command,
)
from booklet.cli.binding_options import add_binding, add_printing
from booklet.cli.exits import Exit
from booklet.cli.find_command import add_find
from booklet.cli.reprint_command import add_reprint
from booklet.kit.errors import BookletError, KitError, SpecError

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

    Python's development mode (`python -X dev -m booklet`) shows the traceback of a fault of the program.
    Raises SystemExit for arguments that cannot be read, as argparse does.
    """
    if sys.stdout is None:  # it was closed when the program began
        _complain("standard output is closed: nothing could be told")
        return Exit.CALLED_WRONGLY
    _print_anything()
    os.environ.pop("SOURCE_DATE_EPOCH", None)  # the PDF writer would take its dates from there
    options = _parser().parse_args(arguments)
    try:
        code: Exit = options.command(options)
        sys.stdout.flush()  # so that a closed pipe is noticed here
        return code
    except SpecError as unread:
        commands.tell_problems(unread)
        return Exit.KIT_WRONG
    except BookletError as wrong:
        _complain(str(wrong))
        return Exit.KIT_WRONG if isinstance(wrong, KitError) else Exit.CALLED_WRONGLY
    except BrokenPipeError:
        _stop_writing()
        return Exit.WELL
    except OSError as trouble:
        _stop_writing()
        _complain(f"could not go on: {trouble.strerror or trouble}")
        return Exit.CALLED_WRONGLY
    except KeyboardInterrupt:
        _complain("stopped; what was there before is still there")
        return Exit.STOPPED
    except (MemoryError, RecursionError):
        _complain("the kit is larger than this computer can work out")
        return Exit.KIT_WRONG
    except Exception as fault:
        if sys.flags.dev_mode:
            raise
        _complain(_fault_text(fault))
        return Exit.CALLED_WRONGLY


def _print_anything() -> None:
    """Let a terminal that lacks a letter show its code instead, whatever a kit is called or says."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # what is closed is None
            stream.reconfigure(errors="backslashreplace")


def _complain(what: str) -> None:
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
    verbs = parser.add_subparsers(title="commands", metavar="COMMAND")

    def verb(name: str, command: Callable[[argparse.Namespace], Exit], help: str) -> argparse.ArgumentParser:
        made = verbs.add_parser(name, help=help)
        made.set_defaults(command=command)
        return made

    new = verb("new", commands.new, "start a kit: write a small commented spec that builds")
    new.add_argument("folder", type=Path, metavar="DIR", help="where to write it")
    check = verb("check", commands.check, "check a kit: cuts, pieces, pockets, layouts, supplies")
    _add_kit(check)
    check.add_argument("--json", action="store_true", help="print the findings as JSON")
    check.add_argument("--sheets", action="store_true", help="only the sheets: cuts, pieces and their sums")
    _add_strict(check)
    draw = verb("draw", commands.draw, "draw every figure as SVG")
    _add_kit(draw)
    _add_out(draw)
    _add_make(verb("make", commands.make, "make the booklet: PDFs to read and to print, figures, tables"))
    _add_plan(
        verb("plan", plan_commands.plan, "find the cuts of sheets that say `cuts: plan`, ready to paste")
    )
    rescue = verb(
        "rescue", rescue_command.rescue, "say how spoiled pieces can be cut again from what is left"
    )
    _add_kit(rescue)
    rescue.add_argument(
        "--spoiled",
        nargs="+",
        required=True,
        metavar="PIECE",
        help="pieces by label, such as 3D, or by name; say a name twice for two of them",
    )
    press = verb(
        "press", press_command.press, "write the booklet for a print shop: PDF/X-1a with bleed and marks"
    )
    _add_kit(press)
    _add_out(press)
    press_command.add_press(press)
    proof = verb("proof", proof_command.proof, "read the finished booklet back and prove every number on it")
    _add_kit(proof)
    _add_out(proof)
    proof.add_argument("--file", type=Path, metavar="PDF", help="a finished reading file, made before")
    proof.add_argument(
        "--print", type=Path, metavar="PDF", dest="print_file", help="a finished print file, made before"
    )
    proof.add_argument(
        "--against", type=Path, metavar="CSV", help="the claims of an earlier edition: say what has changed"
    )
    proof.add_argument("--json", action="store_true", help="print what was found as JSON")
    add_binding(proof)
    add_find(verb("find", find_command.find, "say on which pages a thing is, or write an index of all"))
    add_reprint(verb("reprint", reprint_command.reprint, "print a lost page again from its reading file"))
    template = verb("template", template_command.template, "print a piece or a layout at true size")
    _add_kit(template)
    template_command.add_template(template)
    _add_out(template)
    verb("schema", commands.schema, "print the JSON Schema of the spec, for editors")
    return parser


def _add_make(make: argparse.ArgumentParser) -> None:
    _add_kit(make)
    _add_out(make)
    how = make.add_mutually_exclusive_group()
    how.add_argument("--draft", action="store_true", help="make it in spite of errors, marked DRAFT")
    how.add_argument("--proof", action="store_true", help="prove it too; what does not hold is not printed")
    make.add_argument("--json", action="store_true", help="print what was written and found as JSON")
    _add_strict(make)
    make.add_argument(
        "--black",
        action="store_true",
        help="in one ink, for an office printer: KIT-black-read.pdf and KIT-black-print.pdf in the place of "
        "the files in colour and the figures",
    )
    add_printing(make)


def _add_plan(plan: argparse.ArgumentParser) -> None:
    _add_kit(plan)
    what = plan.add_mutually_exclusive_group()
    what.add_argument("--all", action="store_true", help="find cuts for sheets with written cuts, too")
    what.add_argument("--review", action="store_true", help="compare written cuts with the best found")
    what.add_argument(
        "--together", action="store_true", help="share pieces out over all sheets of a paper that say plan"
    )
    what.add_argument("--write", action="store_true", help="put the cuts into the file, where it says plan")
    plan.add_argument(
        "--price",
        type=review_command.price,
        metavar="P",
        help="of one sheet: --review tells what the saved paper is worth in a thousand kits",
    )


def _add_kit(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("kit", metavar="KIT", help="a kit spec, or the name of a demo kit")
    whose = parser.add_mutually_exclusive_group()
    whose.add_argument(
        "--trimmer", type=Path, metavar="FILE", help="make it for the trimmer that this file describes"
    )
    whose.add_argument(
        "--kit-trimmer",
        action="store_true",
        help="keep to the kit's trimmer, though there is one of your own",
    )


def _add_strict(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--strict", action="store_true", help="take warnings for errors, in a build script")


def _add_out(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--out", type=Path, default=Path("out"), metavar="DIR", help="where to write (default: out)"
    )
