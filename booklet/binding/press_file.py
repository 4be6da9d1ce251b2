"""The files for a print shop: single pages, and press sheets, both with bleed and marks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from booklet.binding.binding import Binding
from booklet.binding.condition import PressInks
from booklet.binding.copies import open_size
from booklet.binding.errors import BleedError, StockTooSmallError
from booklet.binding.lay import impose
from booklet.binding.pdfx import Intent, make_pdfx, saved_as_pdfx
from booklet.binding.press_marks import MARGIN, PRESS_STATES, SLUG_NAME, colour_bar, press_marks
from booklet.binding.print_file import both_sides
from booklet.binding.sides import ImposedSide, PlacedPage, box_of
from booklet.binding.stock import A3, A4, LEGAL, LETTER, SRA3, TABLOID, PaperStock
from booklet.binding.write import assemble, opened_pages
from booklet.kit.kit import PageFormat
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction, read_exact
from booklet.measure.length import Size, Unit
from booklet.measure.words import plain_length, plain_size

if TYPE_CHECKING:
    from pikepdf import Pdf

# A knife wanders by about a millimetre, and print shops ask for 3 mm or 1/8 in; more than half an inch only
# takes marks off the sheet (common practice, no source).
_LEAST_BLEED = Fraction(3, 2) * Unit.MILLIMETRE.points
_MOST_BLEED = Fraction(1, 2) * Unit.INCH.points
# Usual sheets, the smallest first; 13 x 19 in is what a Tabloid that bleeds is printed on (common practice).
_AMERICAN_SHEETS = (LETTER, LEGAL, TABLOID, PaperStock(Size(Fraction(13), Fraction(19)), Unit.INCH))
_METRIC_SHEETS = (A4, A3, SRA3)


@dataclass(frozen=True)
class PressStyle:
    """What both files of a job share: how it is bound, its inks and what they are for, title, edition."""

    binding: Binding
    inks: PressInks
    meaning: str
    title: str
    edition: str


def check_bleed(bleed: Fraction, unit: Unit) -> None:
    """Refuse a bleed, in points, that no cutter needs or no sheet has room for.  Raises BleedError."""
    if not _LEAST_BLEED <= bleed <= _MOST_BLEED:
        found, least, most = (_in(points, unit) for points in (bleed, _LEAST_BLEED, _MOST_BLEED))
        raise BleedError(
            f"a bleed of {found}: a knife wanders by about a millimetre, so that less than {least} may "
            f"show white at the edge, and more than {most} only takes the marks off the sheet; usual is 3 mm "
            "or 1/8 in"
        )


def _in(points: Fraction, unit: Unit) -> str:
    return f"{plain_length(points / unit.points, unit)} {unit.value}"


# Sides.


def page_sides(count: int, binding: Binding) -> tuple[ImposedSide, ...]:
    """Each page alone, with its bleed and the strip of marks about it, in reading order."""
    page, edge = binding.page.upright, binding.bleed + MARGIN
    size = Size(page.width + 2 * edge, page.height + 2 * edge)
    trim = box_of(size).grown(-edge)
    bleed = trim.grown(binding.bleed)
    return tuple(
        ImposedSide(
            size=size,
            pages=(PlacedPage(number, trim, bleed, 0),),
            folds=(),
            cuts=(),
            trim=trim,
            bleed=bleed,
            sheet=number - 1,
            signature=0,
            depth=0,
            is_front=bool(number % 2),
        )
        for number in range(1, count + 1)
    )


def sheet_sides(count: int, binding: Binding) -> tuple[ImposedSide, ...]:
    """Front and back of each press sheet in turn.

    Raises PageCountError, CreepError, or StockTooSmallError where the marks have no room.
    """
    check_sheet(binding)
    return tuple(both_sides(impose(count, binding)))


def check_sheet(binding: Binding) -> None:
    """Refuse a press sheet without room for the marks.  Raises StockTooSmallError, with one that has it."""
    needed, press = _with_marks(binding), binding.press
    if not binding.sheet.holds(needed):
        is_metric = press.unit is not Unit.INCH
        usual = (_METRIC_SHEETS, _AMERICAN_SHEETS) if is_metric else (_AMERICAN_SHEETS, _METRIC_SHEETS)
        nearest = _smallest([*usual[0], *usual[1]], needed)
        found, wanted = (_size_in(size, press.unit) for size in (binding.sheet, needed))
        raise StockTooSmallError(
            f"two pages with their bleed and the marks about it take {wanted}, and {press.title} is {found}: "
            f"expected {f'{nearest.title} or a larger sheet' if nearest else 'a larger sheet'}"
        )


def _size_in(points: Size, unit: Unit) -> str:
    size = Size(points.width / unit.points, points.height / unit.points)
    return f"{plain_size(size, unit)} {unit.value}"


def _with_marks(binding: Binding) -> Size:
    size, edge = open_size(binding), binding.bleed + MARGIN
    return Size(size.width + 2 * edge, size.height + 2 * edge)


def usual_press_sheet(binding: Binding, page: PageFormat) -> PaperStock:
    """The smallest usual sheet of the lands of a page format that has room for two pages and their marks."""
    usual = _METRIC_SHEETS if page.is_metric else _AMERICAN_SHEETS
    return _smallest(usual, _with_marks(binding)) or usual[-1]


def _smallest(sheets: Sequence[PaperStock], needed: Size) -> PaperStock | None:
    return next((stock for stock in sheets if stock.landscape.holds(needed)), None)


# Files.


def press_file(source: Pdf, sides: Sequence[ImposedSide], slugs: bytes, style: PressStyle) -> bytes:
    """A PDF/X-1a:2003 of these sides: the pages of `source` with their bleed, and what stands about them.

    `source` has the pages in process inks; `slugs` is a PDF with the slug line of each side in turn.
    Folded sheets get a colour bar too.  The same input gives the same bytes.

    Raises PageSizeError.
    """
    with opened_pages(slugs) as lines:
        height = read_exact(str(lines.pages[0].mediabox[3]))
        target = assemble(source, sides, style.binding, partial(_marks, style, height))
        _add_resources(target, lines)
        named = str(source.docinfo.get("/Keywords", ""))  # the name of the edition
        make_pdfx(target, style.title, named, Intent(style.inks.condition, style.meaning))
        return saved_as_pdfx(target)


def _marks(style: PressStyle, slug_height: Fraction, side: ImposedSide) -> Iterator[str]:
    yield from press_marks(side, slug_height)
    if side.folds:
        yield from colour_bar(side, style.inks.limit / 100 - 1)


def _add_resources(target: Pdf, lines: Pdf) -> None:
    """What the marks of each side name: the states of overprinting, the slug line."""
    import pikepdf

    states = pikepdf.Dictionary(
        {
            name: target.make_indirect(
                pikepdf.Dictionary(Type=pikepdf.Name.ExtGState, OP=is_over, op=is_over, OPM=1)
            )
            for name, is_over in PRESS_STATES.items()
        }
    )
    shared = target.make_indirect(states)
    for page, line in zip(target.pages, lines.pages, strict=True):
        page.obj.Resources["/ExtGState"] = shared
        page.obj.Resources.XObject[SLUG_NAME] = target.copy_foreign(line.as_form_xobject())
