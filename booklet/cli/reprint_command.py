"""What `booklet reprint` does: print lost pages again, from the reading file alone."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from typing import TYPE_CHECKING

from booklet.cli.arguments import add_out, add_paper, add_source, paper_of
from booklet.cli.exits import Exit
from booklet.cli.files import file_names
from booklet.cli.page_words import page_numbers
from booklet.cli.progress import planning, progress
from booklet.cli.source_kit import GivenFile, Source, lay_out_again, open_source
from booklet.kit.errors import UsageError
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    from booklet.kit.kit import PageFormat
    from booklet.pages.booklet import LaidBooklet
    from booklet.pages.office_paper import OfficePaper
    from booklet.pages.reprint import OnPaper
    from booklet.placing.resolved import ResolvedKit

# Of longer lists of names, so many are told.
_MANY = 12


def add_reprint(parser: ArgumentParser) -> None:
    """Declare what is printed again, and on what."""
    add_source(parser)
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument("--page", type=int, metavar="N", help="one page")
    what.add_argument("--leaf", type=int, metavar="N", help="one leaf, on both sides: pages 2N - 1 and 2N")
    what.add_argument("--sheet", metavar="ID", help="the pages of a sheet, by its id or its number")
    what.add_argument("--layout", metavar="ID", help="the pages of a layout, by its id or its number")
    what.add_argument("--pocket", metavar="P", help="the pages that list what a pocket holds")
    add_paper(parser)
    parser.add_argument("--large", action="store_true", help="as large as the paper allows, not true to size")
    add_out(parser)


@dataclass(frozen=True)
class _Wanted:
    """What is to be printed again: its name for the file, its pages, and of which leaf they are the sides."""

    name: str
    pages: tuple[int, ...]
    leaf: int | None = None


def reprint(options: Namespace) -> Exit:
    """Write the pages that are asked for, each on a side of paper, at true size or as large as it allows."""
    from booklet.cli.report import has_errors, tell_findings
    from booklet.cli.written import write_set
    from booklet.content.edition import IN_BLACK
    from booklet.pages.booklet import write_booklet
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.findings import kit_findings

    with progress() as tell:
        source = open_source(options)
        resolved = resolve_kit(source.loaded, begun=planning(tell))
        findings = kit_findings(resolved)
        if has_errors(findings) and not source.is_draft:
            ended = tell_findings(findings, source.loaded.source)
            print("Nothing was written: mend the errors first.", file=sys.stderr)
            return ended
        tell("Laying out the pages")
        laid = lay_out_again(source, resolved)
        wanted = _wanted(options, resolved, laid)
        file = write_booklet(laid, source.is_draft)
        if source.given is not None:
            tell("Comparing the pages")
            check_pages(source.given, laid, file, wanted.pages)
        paper = paper_of(options, resolved.kit.page)
        place = _lay(resolved.kit.page, paper, is_large=options.large)
        made = _on_paper(source, laid, file, wanted, place)
    black, large = IN_BLACK if source.is_black else "", "-large" if options.large else ""
    stem = source.loaded.source.stem
    (name,) = file_names([f"{stem}{black}-{wanted.name}{large}"])
    (written,) = write_set(options, stem, {f"{name}.pdf": made}, laid.edition)
    print(written)
    print(_how_to_print(place, paper.title, wanted))
    return Exit.WELL


# What is wanted.


def _wanted(options: Namespace, resolved: ResolvedKit, laid: LaidBooklet) -> _Wanted:
    """The pages that are asked for.  Raises UsageError, with what there is, for what is not there."""
    count = len(laid.pages)
    if options.page is not None:
        return _Wanted(f"page-{options.page}", (_numbered("page", options.page, count),))
    if options.leaf is not None:
        leaf = _numbered("leaf", options.leaf, count // 2)
        return _Wanted(f"leaf-{leaf}", (2 * leaf - 1, 2 * leaf), leaf)
    if options.sheet is not None:
        return _of_sheet(options.sheet, resolved, laid)
    if options.layout is not None:
        return _of_layout(options.layout, resolved, laid)
    return _of_pocket(options.pocket, resolved, laid)


def _numbered(what: str, number: int, count: int) -> int:
    if not 1 <= number <= count:
        several = "leaves" if what == "leaf" else f"{what}s"
        nearest = min(max(number, 1), count)
        raise UsageError(
            f"there is no {what} {number}: the booklet has {count} {several} (nearest: {nearest})"
        )
    return number


def _of_sheet(typed: str, resolved: ResolvedKit, laid: LaidBooklet) -> _Wanted:
    from booklet.content.cutting.sheets import cut_sheets
    from booklet.content.ways import sheet_anchor
    from booklet.pages.places import section_pages

    sheets = {sheet.sheet.id: str(sheet.number) for sheet in cut_sheets(resolved)}
    id = _known(typed, sheets, "sheet that is cut")
    return _Wanted(f"sheet-{id}", section_pages(laid.pages, sheet_anchor(id)))


def _of_layout(typed: str, resolved: ResolvedKit, laid: LaidBooklet) -> _Wanted:
    from booklet.content.ways import layout_anchor
    from booklet.kit.spreads import assembly_order
    from booklet.pages.places import section_pages

    layouts = resolved.kit.layouts
    numbers = {layouts[index].id: str(place) for place, index in enumerate(assembly_order(resolved.kit), 1)}
    id = _known(typed, numbers, "layout")
    return _Wanted(f"layout-{id}", section_pages(laid.pages, layout_anchor(id)))


def _of_pocket(typed: str, resolved: ResolvedKit, laid: LaidBooklet) -> _Wanted:
    """The pages of the sorting table on which a pocket stands; without the table, those of its layouts."""
    from booklet.content.ways import layout_anchor, pocket_anchor
    from booklet.kit.spreads import pockets_of
    from booklet.pages.places import anchored_pages, section_pages

    pocket = _known(typed, {name: name for name in pockets_of(resolved.kit)}, "pocket")
    pages = anchored_pages(laid.pages, pocket_anchor(pocket))
    if not pages:
        served = [layout.id for layout in resolved.kit.layouts if layout.pocket == pocket]
        shown = {page for id in served for page in section_pages(laid.pages, layout_anchor(id))}
        pages = tuple(sorted(shown))
    return _Wanted(f"pocket-{pocket}", pages)


def _known(typed: str, known: dict[str, str], what: str) -> str:
    """The id that is meant, by itself or by its number.  Raises UsageError with the nearest one."""
    from booklet.kit.words import nearest, quoted, shown

    if typed in known:
        return typed
    for id, number in known.items():
        if typed.strip().casefold() in (number.casefold(), id.casefold()):
            return id
    near = nearest(typed, known)
    hint = f" (nearest: {shown(near)})" if near else ""
    names = ", ".join(shown(id) for id in list(known)[:_MANY]) or "none"
    more = f" and {len(known) - _MANY} more" if len(known) > _MANY else ""
    raise UsageError(f"no {what} is called {quoted(typed)}{hint}; there are: {names}{more}")


# Whether a given file shows what its kit makes.


def check_pages(given: GivenFile, laid: LaidBooklet, made: bytes, pages: Sequence[int]) -> None:
    """Refuse a reading file whose pages are not those that its kit makes.

    One with the same bytes is not looked at; of any other the pages that are wanted are held against those
    of the kit.  Raises UsageError with the first page that is not as it is to be.
    """
    from booklet.proof.same_pages import pages_unlike

    if given.data == made:
        return
    if given.kit.pages != len(laid.pages):
        count = f"{given.name} has {given.kit.pages} pages, while its kit makes {len(laid.pages)}"
        raise UsageError(f"{count}: {_why(given, laid)}")
    unlike = pages_unlike(given.data, made, pages)
    if unlike:
        raise UsageError(f"page {unlike[0]} of {given.name} is not what its kit says: {_why(given, laid)}")


def _why(given: GivenFile, laid: LaidBooklet) -> str:
    """Why a file is not as its kit is made now: its edition tells which program made it."""
    from booklet import PROGRAM, VERSION

    if given.kit.edition.name == laid.edition:
        return "it was changed after it was made"
    program = given.kit.program or "an unknown program"
    made = f"it was made by another version of this program ({program}; this is {PROGRAM} {VERSION})"
    return f"{made}, which lays it out otherwise: print the page from the file itself"


# On paper.


def _lay(page: PageFormat, paper: OfficePaper, *, is_large: bool) -> OnPaper:
    """Where a page lies on its paper."""
    from booklet.binding.stock import STOCK_OF
    from booklet.pages.reprint import lay_on_paper

    trimmed, _ = STOCK_OF[page]
    return lay_on_paper(trimmed.upright, paper.upright, is_large=is_large)


def _on_paper(source: Source, laid: LaidBooklet, file: bytes, wanted: _Wanted, place: OnPaper) -> bytes:
    from booklet.binding.reprint import PageOnPaper, put_on_paper
    from booklet.content.words.language import ENGLISH
    from booklet.pages.reprint import PaperSide, Reprint, write_papers

    sides = tuple(PaperSide(page, wanted.leaf) for page in wanted.pages)
    kit = laid.setup.document.title
    what = Reprint(kit, laid.edition, len(laid.pages), source.loaded.kit.unit, sides)
    papers = write_papers(laid.setup, ENGLISH.reprint, what, place, laid.canvas)
    placed = [PageOnPaper(page, place.page, place.left, place.bottom, place.scale) for page in wanted.pages]
    return put_on_paper(papers, file, placed)


def _how_to_print(place: OnPaper, paper: str, wanted: _Wanted) -> str:
    """What a person does with the file now."""
    pages, them = page_numbers(wanted.pages), "it" if len(wanted.pages) == 1 else "them"
    if not place.is_true:
        return f"{pages} at {place.percent} % of true size on {paper}: nothing may be measured on {them}"
    sides = "on both sides, turned over on the long edge" if wanted.leaf else "on one side"
    bare = "" if place.has_words else "; there is no room beside it for marks or words"
    return f"{pages} at true size: print on {paper} at 100 %, without fitting, {sides}{bare}"
