"""What `booklet press` does: write the booklet for a print shop, and a page that says how to print it."""

from __future__ import annotations

import argparse
import sys
from argparse import Namespace
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from booklet.cli.arguments import add_kit, add_out
from booklet.cli.asked import load_asked
from booklet.cli.binding_options import add_press_binding, press_binding_of
from booklet.cli.exits import Exit
from booklet.cli.progress import Tell, planning_progress, progress
from booklet.kit.errors import UsageError
from booklet.measure.dataclass import dataclass, replace

if TYPE_CHECKING:
    from booklet.binding.binding import Binding
    from booklet.binding.condition import PressInks
    from booklet.kit.kit import PageFormat
    from booklet.measure.exact import Fraction
    from booklet.placing.resolved import ResolvedKit
    from booklet.proof.press_clauses import Breach

_USUAL_INK = "300"
# So many breaches of a file that is not written are told one by one.
_MOST_TOLD = 20


def add_press(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    add_kit(parser)
    add_out(parser)
    parser.add_argument(
        "--bleed",
        metavar="LENGTH",
        help="how far pages are printed beyond their trim (default: 1/8 in, of metric pages 3 mm)",
    )
    parser.add_argument(
        "--ink-limit",
        metavar="PERCENT",
        default=_USUAL_INK,
        help=f"the most ink in one place, from 200 to 400 (default: {_USUAL_INK})",
    )
    parser.add_argument(
        "--condition",
        metavar="NAME",
        help="the print condition that the inks are for, by its registered name: FOGRA39, FOGRA51, FOGRA52, "
        '"CGATS TR 001", "CGATS TR 006", CGATS21-2-CRPC6 (default: FOGRA51 for metric pages, else the last)',
    )
    add_press_binding(parser)


def press(options: Namespace) -> Exit:
    """Write the single pages and the press sheets, both PDF/X-1a, and the page for the printer."""
    from booklet.cli.report import has_errors, tell_findings, tell_warnings_again
    from booklet.cli.written import tell_stale, write_set
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.findings import kit_findings

    loaded = load_asked(options)
    asked = _asked(options, loaded.kit.page)
    with planning_progress(loaded.kit) as begun:
        resolved = resolve_kit(loaded, begun=begun)
    findings = kit_findings(resolved)
    if has_errors(findings):
        ended = tell_findings(findings, loaded.source)
        print("Nothing was written: mend the errors; there is no draft for a press.", file=sys.stderr)
        return ended
    with progress() as tell:
        made = _made(resolved, asked, loaded.source.stem, tell)
        if made.breaches:
            _tell_breaches(made.breaches)
            return Exit.CALLED_WRONGLY
        written = write_set(options, loaded.source.stem, made.files, made.edition)
    print("\n".join(map(str, written)))
    tell_stale(options.out, loaded.source.stem, made.edition)
    ended = tell_findings(findings, loaded.source)
    tell_warnings_again(findings, loaded.source)
    return ended


# What was asked for.


@dataclass(frozen=True)
class _Asked:
    """The binding with its bleed, and the inks."""

    binding: Binding
    inks: PressInks


def _asked(options: Namespace, page: PageFormat) -> _Asked:
    """What the options say, before anything is laid out.  Raises UsageError or BindingError."""
    from booklet.binding.condition import PressInks, check_ink_limit, read_condition, usual_condition
    from booklet.binding.press_file import check_bleed, check_sheet, usual_press_sheet

    binding = press_binding_of(options, page)
    binding = replace(binding, bleed=_bleed(options.bleed, binding))
    check_bleed(binding.bleed, binding.page.unit)
    if options.press is None:
        binding = replace(binding, press=usual_press_sheet(binding, page))
    limit = _percent(options.ink_limit)
    check_ink_limit(limit)
    named = options.condition
    condition = usual_condition(page) if named is None else read_condition(named)
    check_sheet(binding)
    return _Asked(binding, PressInks(condition, limit))


def _bleed(text: str | None, binding: Binding) -> Fraction:
    """A bleed in points; of bare numbers in the unit of the page."""
    from booklet.kit.words import quoted
    from booklet.measure.exact import Fraction
    from booklet.measure.length import Unit, parse_length

    unit = binding.page.unit
    if text is None:
        return Unit.INCH.points / 8 if unit is Unit.INCH else Fraction(3) * Unit.MILLIMETRE.points
    try:
        return parse_length(text, unit) * unit.points
    except ValueError:
        raise UsageError(f"{quoted(text)} is no bleed: expected a length such as 3mm or 1/8in") from None


def _percent(text: str) -> Fraction:
    from booklet.kit.words import quoted
    from booklet.measure.exact import read_exact

    typed = text.strip().removesuffix("%").strip()
    is_number = typed.isascii() and typed.isdigit() and len(typed) <= len("400")
    if not is_number:
        raise UsageError(
            f"{quoted(text)} is no ink limit: expected whole percents from 200 to 400, such as 300"
        )
    return read_exact(typed)


# The files.


@dataclass(frozen=True)
class _Made:
    """The files by their names, their edition, and of each that breaks its standard what it breaks."""

    files: dict[str, bytes]
    edition: str
    breaches: dict[str, tuple[Breach, ...]]


def _made(resolved: ResolvedKit, asked: _Asked, stem: str, tell: Tell) -> _Made:
    from booklet.binding.press_job import PressNames, press_files
    from booklet.pages.booklet import make_booklet
    from booklet.proof.pdfx import pdfx_breaches

    tell("Laying out the pages")
    booklet = make_booklet(resolved)
    tell("Drawing the pages in their inks")
    names = PressNames(f"{stem}-press.pdf", f"{stem}-press-sheets.pdf", f"{stem}-press-info.pdf")
    files = press_files(resolved.kit, booklet, asked.binding, asked.inks, names)
    tell("Checking the files")
    limit = asked.inks.limit
    found = {name: pdfx_breaches(files[name], limit) for name in (names.pages, names.sheets)}
    breaches = {name: its for name, its in found.items() if its}
    return _Made(files, booklet.edition, breaches)


def _tell_breaches(breaches: Mapping[str, Sequence[Breach]]) -> None:
    """Say what a file breaks: no kit should cause it, but a print shop must not be the first to notice."""
    from booklet.proof.press_clauses import breach_text

    for name, found in breaches.items():
        for breach in found[:_MOST_TOLD]:
            print(f"{name}, {breach_text(breach)}", file=sys.stderr)
        if len(found) > _MOST_TOLD:
            print(f"{name}: and {len(found) - _MOST_TOLD} more", file=sys.stderr)
    print("Nothing was written: a print shop would refuse it.", file=sys.stderr)
