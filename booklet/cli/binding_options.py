"""The options by which a booklet is printed and bound: paper, folding, copies, one side at a time."""

from __future__ import annotations

import argparse
from argparse import Namespace
from typing import TYPE_CHECKING

from booklet.cli.print_words import names_by_hand
from booklet.kit.errors import UsageError
from booklet.measure.dataclass import dataclass, replace

if TYPE_CHECKING:
    from booklet.binding.binding import Binding, Flat, Folded
    from booklet.binding.creep import Creep
    from booklet.binding.print_file import OutputStack
    from booklet.binding.write import Marks
    from booklet.kit.kit import PageFormat
    from booklet.measure.exact import Fraction

# As many copies as the press sheet holds.
_FIT = "fit"
# More than any press sheet holds, or any booklet has sheets: beyond this it is a number typed wrong.
_MOST = 999


def add_binding(parser: argparse.ArgumentParser) -> argparse._ArgumentGroup:
    """Declare the options of the print file, as `make` writes it and `proof` reads it; their group."""
    group = parser.add_argument_group("printing and binding")
    group.add_argument(
        "--press",
        metavar="SIZE",
        help="the paper to print on: Letter, Legal, Tabloid, A4, A3, SRA3, or a size with its unit such as "
        "9x12in (default: the usual paper that takes two pages side by side; with --flat one)",
    )
    group.add_argument(
        "--flip",
        choices=["long", "short"],
        default="short",
        help="the edge on which the printer flips the paper (default: short)",
    )
    group.add_argument(
        "--copies",
        metavar="N",
        help="how many copies of each sheet stand on one, with cut marks between; fit: as many as it holds",
    )
    group.add_argument(
        "--flat",
        action="store_true",
        help="leaves that are not folded, to punch or bind: page 1 on the front of the first, 2 on its back",
    )
    _add_folding(group)
    return group


def _add_folding(group: argparse._ArgumentGroup) -> None:
    group.add_argument(
        "--sheets-in-signature",
        metavar="N",
        help="fold and staple so many sheets at a time, the rest in a last one (default: all in one)",
    )
    group.add_argument(
        "--caliper",
        metavar="LENGTH",
        help="how thick one sheet of the paper is, such as 0.1mm or 0.004in: the pages of inner sheets move "
        "towards the fold by what the outer ones push them out, for a booklet that is trimmed once folded",
    )
    group.add_argument(
        "--fold-factor",
        metavar="F",
        help="how many times its caliper each sheet takes up at the fold: simple (1, the default), round "
        "(1.571), square (2), or a number measured on a folded dummy",
    )


def add_printing(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the print file, and of printing one side at a time."""
    add_binding(parser).add_argument(
        "--manual-duplex",
        choices=["face-down", "face-up"],
        help="for a printer of one side: fronts and backs as two files. face-down: it lays printed sheets "
        "face down, and the stack goes back as it lies, last sheet on top; face-up: it lays them face up, "
        "and the stack is turned over as one, first sheet on top",
    )


def add_press_binding(parser: argparse.ArgumentParser) -> None:
    """Declare the options of press sheets for a print shop: folded, one copy on a sheet, for both sides."""
    group = parser.add_argument_group("press sheets")
    group.add_argument(
        "--press",
        metavar="SIZE",
        help="the paper of the press sheets: Tabloid, A3, SRA3 and the like, or a size with its unit such as "
        "13x19in (default: the smallest usual one that takes two pages with their marks)",
    )
    _add_folding(group)
    parser.set_defaults(flip="short", copies=None, flat=False)


@dataclass(frozen=True)
class Printing:
    """How a booklet is bound, and how a printer of one side lays down its sheets; None for one of both."""

    binding: Binding
    stack: OutputStack | None


def printing_of(options: Namespace, page: PageFormat) -> Printing:
    """How the booklet is to be printed and bound.

    Raises UsageError or BindingError, with the reason, for what cannot be, alone or together.
    """
    from booklet.binding.print_file import OutputStack

    if options.proof and options.manual_duplex:
        raise UsageError(
            "fronts and backs apart hold the same sides as the file for both: prove that one, and leave out "
            "--proof, or --manual-duplex"
        )
    stack = OutputStack(options.manual_duplex) if options.manual_duplex else None
    return Printing(binding_of(options, page), stack)


def print_files(read_pdf: bytes, printing: Printing, stem: str, marks: Marks) -> dict[str, bytes]:
    """The file to print, or fronts and backs for a printer of one side, by the names of their files."""
    from booklet.binding.print_file import print_file, print_files_by_hand

    if printing.stack is None:
        return {f"{stem}-print.pdf": print_file(read_pdf, printing.binding, marks)}
    files = print_files_by_hand(read_pdf, printing.binding, printing.stack, marks)
    return dict(zip(names_by_hand(stem), files, strict=True))


def binding_of(options: Namespace, page: PageFormat) -> Binding:
    """How the booklet is to be bound.  Raises UsageError or BindingError, with the reason."""
    from booklet.binding.copies import copies_of

    binding = press_binding_of(options, page)
    copies_of(binding)  # what does not fit is said before any page is laid out
    return binding


def press_binding_of(options: Namespace, page: PageFormat) -> Binding:
    """How the booklet is to be bound; whether its press sheet holds the bleed and the marks is not seen to.

    Raises UsageError or BindingError, with the reason.
    """
    from booklet.binding.binding import Flip, home_binding
    from booklet.binding.stock import flat_sheet, read_press_sheet

    _refuse_together(options)
    usual = home_binding(page, Flip(options.flip))
    press = flat_sheet(page) if options.flat else usual.press
    return replace(
        usual,
        press=press if options.press is None else read_press_sheet(options.press),
        style=_style(options, page),
        copies=_copies(options.copies),
    )


def _refuse_together(options: Namespace) -> None:
    """Options of which one leaves nothing for the other to do."""
    folding = {
        "--sheets-in-signature": options.sheets_in_signature,
        "--caliper": options.caliper,
        "--fold-factor": options.fold_factor,
    }
    for name, value in folding.items():
        if options.flat and value is not None:
            raise UsageError(f"flat leaves are not folded: leave out {name}, or --flat")
    if options.fold_factor is not None and options.caliper is None:
        raise UsageError("a fold factor counts calipers: say how thick the paper is with --caliper")


def _style(options: Namespace, page: PageFormat) -> Folded | Flat:
    from booklet.binding.binding import Flat, Folded
    from booklet.measure.exact import read_exact
    from booklet.pages.grid import GRIDS

    if options.flat:
        return Flat()
    sheets = options.sheets_in_signature
    each = None if sheets is None else _count(sheets, "sheets in a signature")
    return Folded(each, _creep(options), read_exact(str(GRIDS[page].inner)))


def _creep(options: Namespace) -> Creep | None:
    from booklet.binding.creep import Creep

    if options.caliper is None:
        return None
    return Creep(_caliper(options.caliper), _factor(options.fold_factor))


def _caliper(text: str) -> Fraction:
    """A thickness with its unit, in points."""
    from booklet.kit.words import quoted
    from booklet.measure.length import Unit, parse_length

    try:
        in_mm, in_inches = (parse_length(text, unit) for unit in (Unit.MILLIMETRE, Unit.INCH))
    except ValueError:
        raise UsageError(
            f"{quoted(text)} is no caliper: expected a length such as 0.1mm or 0.004in"
        ) from None
    if in_mm != 0 and in_mm == in_inches:
        raise UsageError(f"the caliper {quoted(text)} has no unit: expected one such as 0.1mm or 0.004in")
    return in_mm * Unit.MILLIMETRE.points


def _factor(text: str | None) -> Fraction:
    from booklet.binding.creep import FOLD_FACTORS, SIMPLE_FOLD
    from booklet.kit.words import any_of, quoted
    from booklet.measure.length import Unit, parse_length

    if text is None:
        return SIMPLE_FOLD
    if text in FOLD_FACTORS:
        return FOLD_FACTORS[text]
    try:
        factors = {parse_length(text, unit) for unit in (Unit.MILLIMETRE, Unit.INCH)}
        (factor,) = factors  # two of them if there was a unit
    except ValueError:
        expected = any_of([*FOLD_FACTORS, "a number such as 1.6"])
        raise UsageError(f"{quoted(text)} is no fold factor: expected {expected}") from None
    return factor


def _copies(text: str | None) -> int | None:
    if text == _FIT:
        return None
    return 1 if text is None else _count(text, f"copies, or {_FIT} for as many as the sheet holds")


def _count(text: str, what: str) -> int:
    """A count of one or more.  Raises UsageError for anything else."""
    from booklet.kit.words import quoted

    is_count = text.isascii() and text.isdigit() and len(text) <= len(str(_MOST))
    if not is_count or not int(text):
        raise UsageError(f"{quoted(text)} is no such count: expected from 1 to {_MOST} {what}")
    return int(text)
