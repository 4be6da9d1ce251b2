"""The commands: `booklet new`, `check`, `draw`, `make`, `schema`.

Each prints what it wrote and exits 0 when all is well, 1 when the kit has errors, 2 when it was called
wrongly.  What a command does not need is not imported.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from booklet.cli import commands
from booklet.kit.errors import BookletError, SpecError

EXIT_WELL = 0
EXIT_KIT_WRONG = 1
EXIT_CALLED_WRONGLY = 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code.  No error reaches the user as a traceback."""
    options = _parser().parse_args(arguments)
    try:
        return int(options.command(options))
    except SpecError as wrong:
        commands.tell_problems(wrong.problems, getattr(options, "json", False))
        return EXIT_KIT_WRONG
    except BookletError as wrong:
        print(f"booklet: {wrong}", file=sys.stderr)
        return EXIT_CALLED_WRONGLY
    except BrokenPipeError:
        sys.stderr.close()
        return EXIT_WELL
    except KeyboardInterrupt:
        print("booklet: stopped; nothing was left half-written", file=sys.stderr)
        return EXIT_CALLED_WRONGLY


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="booklet",
        description="From a paper-craft kit spec to a printable cutting and assembly booklet.",
    )
    verbs = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    _add_new(verbs)
    _add_check(verbs)
    _add_draw(verbs)
    _add_make(verbs)
    _add_schema(verbs)
    return parser


_Verbs = argparse._SubParsersAction  # what add_subparsers returns; argparse gives it no public name


def _add_new(verbs: _Verbs[argparse.ArgumentParser]) -> None:
    new = verbs.add_parser("new", help="start a kit: write a small commented spec that builds")
    new.add_argument("folder", type=Path, metavar="DIR", help="where to write it")
    new.set_defaults(command=commands.new)


def _add_check(verbs: _Verbs[argparse.ArgumentParser]) -> None:
    check = verbs.add_parser("check", help="check a kit: cuts, pieces, pockets, layouts, supplies")
    _add_kit(check)
    check.add_argument("--json", action="store_true", help="print the findings as JSON")
    check.set_defaults(command=commands.check)


def _add_draw(verbs: _Verbs[argparse.ArgumentParser]) -> None:
    draw = verbs.add_parser("draw", help="draw every figure as SVG")
    _add_kit(draw)
    _add_out(draw)
    draw.set_defaults(command=commands.draw)


def _add_make(verbs: _Verbs[argparse.ArgumentParser]) -> None:
    make = verbs.add_parser(
        "make", help="make the booklet: PDFs to read and to print, figures, sorting table"
    )
    _add_kit(make)
    _add_out(make)
    make.add_argument("--draft", action="store_true", help="make it in spite of errors, marked DRAFT")
    make.add_argument(
        "--flip",
        choices=["long", "short"],
        default="short",
        help="the edge on which the printer flips the paper (default: short)",
    )
    make.set_defaults(command=commands.make)


def _add_schema(verbs: _Verbs[argparse.ArgumentParser]) -> None:
    schema = verbs.add_parser("schema", help="print the JSON Schema of the spec, for editors")
    schema.set_defaults(command=commands.schema)


def _add_kit(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("kit", metavar="KIT", help="a kit spec, or the name of a demo kit")


def _add_out(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--out", type=Path, default=Path("out"), metavar="DIR", help="where to write (default: out)"
    )
