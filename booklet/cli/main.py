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
from typing import Any, NoReturn

from booklet import VERSION
from booklet.cli import commands, plan_commands, proof_command, rescue_command, review_command
from booklet.cli.arguments import add_kit, add_kits, add_out, add_strict
from booklet.cli.binding_options import add_binding, add_printing
from booklet.cli.exits import Exit
from booklet.cli.find_command import add_find, find
from booklet.cli.guard import Command, complain, guarded
from booklet.cli.plain_output import plain_output
from booklet.cli.press_command import add_press, press
from booklet.cli.reprint_command import add_reprint, reprint
from booklet.cli.several import add_several, make_kits
from booklet.cli.template_command import add_template, template
from booklet.cli.unstopped import unstopped

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


class _Parser(argparse.ArgumentParser):
    """A parser that takes a command's words wherever they stand, also after its options.

    argparse gives `find SOURCE --json WORDS` no words: a list that may be empty is closed by an option.
    """

    _is_mixing = False

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> tuple[Any, list[str]]:
        """Read the options first, and what stands between them then."""
        if self._is_mixing:  # the way of argparse to do so calls this method
            return super().parse_known_args(args, namespace)
        self._is_mixing = True
        try:
            return self.parse_known_intermixed_args(args, namespace)
        finally:
            self._is_mixing = False


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
    verbs = parser.add_subparsers(title="commands", metavar="COMMAND", parser_class=_Parser)
    for name, command, add_arguments, help in _commands():
        verb = verbs.add_parser(name, help=help)
        verb.set_defaults(command=command)
        add_arguments(verb)
    return parser


def _add_new(new: argparse.ArgumentParser) -> None:
    new.add_argument("folder", type=Path, metavar="DIR", help="where to write it")


def _add_check(check: argparse.ArgumentParser) -> None:
    add_kit(check)
    check.add_argument("--json", action="store_true", help="print the findings as JSON")
    check.add_argument("--sheets", action="store_true", help="only the sheets: cuts, pieces and their sums")
    add_strict(check)


def _add_draw(draw: argparse.ArgumentParser) -> None:
    add_kit(draw)
    add_out(draw)


def _add_make(make: argparse.ArgumentParser) -> None:
    add_kits(make)
    add_out(make)
    add_several(make)
    how = make.add_mutually_exclusive_group()
    how.add_argument("--draft", action="store_true", help="make it in spite of errors, marked DRAFT")
    how.add_argument("--proof", action="store_true", help="prove it too; what does not hold is not printed")
    make.add_argument("--json", action="store_true", help="print what was written and found as JSON")
    add_strict(make)
    make.add_argument(
        "--black",
        action="store_true",
        help="in one ink, for an office printer: KIT-black-read.pdf and KIT-black-print.pdf in the place of "
        "the files in colour and the figures",
    )
    add_printing(make)


def _add_plan(plan: argparse.ArgumentParser) -> None:
    add_kit(plan)
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


def _add_rescue(rescue: argparse.ArgumentParser) -> None:
    add_kit(rescue)
    rescue.add_argument(
        "--spoiled",
        nargs="+",
        required=True,
        metavar="PIECE",
        help="pieces by label, such as 3D, or by name; say a name twice for two of them",
    )


def _add_proof(proof: argparse.ArgumentParser) -> None:
    add_kit(proof)
    add_out(proof)
    proof.add_argument("--file", type=Path, metavar="PDF", help="a finished reading file, made before")
    proof.add_argument(
        "--print", type=Path, metavar="PDF", dest="print_file", help="a finished print file, made before"
    )
    proof.add_argument(
        "--against", type=Path, metavar="CSV", help="the claims of an earlier edition: say what has changed"
    )
    proof.add_argument("--json", action="store_true", help="print what was found as JSON")
    add_binding(proof)


def _add_nothing(verb: argparse.ArgumentParser) -> None:
    """The command takes no arguments."""


_AddArguments = Callable[[argparse.ArgumentParser], object]


def _commands() -> tuple[tuple[str, Command, _AddArguments, str], ...]:
    """Each command: its name, what it does, its arguments, and its line in the help."""
    return (
        ("new", commands.new, _add_new, "start a kit: write a small commented spec that builds"),
        ("check", commands.check, _add_check, "check a kit: cuts, pieces, pockets, layouts, supplies"),
        ("draw", commands.draw, _add_draw, "draw every figure as SVG"),
        ("make", make_kits, _add_make, "make the booklet: PDFs to read and to print, figures, tables"),
        (
            "plan",
            plan_commands.plan,
            _add_plan,
            "find the cuts of sheets that say `cuts: plan`, ready to paste",
        ),
        (
            "rescue",
            rescue_command.rescue,
            _add_rescue,
            "say how spoiled pieces can be cut again from what is left",
        ),
        ("press", press, add_press, "write the booklet for a print shop: PDF/X-1a with bleed and marks"),
        (
            "proof",
            proof_command.proof,
            _add_proof,
            "read the finished booklet back and prove every number on it",
        ),
        ("find", find, add_find, "say on which pages a thing is, or write an index of all"),
        ("reprint", reprint, add_reprint, "print a lost page again from its reading file"),
        ("template", template, add_template, "print a piece or a layout at true size"),
        ("schema", commands.schema, _add_nothing, "print the JSON Schema of the spec, for editors"),
    )
