"""A booklet made into all that a print shop gets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.binding.binding import Binding
from booklet.binding.condition import PressInks
from booklet.binding.pictures import make_coarser
from booklet.binding.press_document import PressJob, press_document
from booklet.binding.press_file import PressStyle, page_sides, press_file, sheet_sides
from booklet.binding.press_marks import slug_place
from booklet.binding.sides import ImposedSide
from booklet.binding.write import opened_pages
from booklet.content.spans import plain_text
from booklet.content.words.language import ENGLISH, Language
from booklet.drawing.shapes.figure import Colour
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.process_inks import InkLimit, ProcessInks
from booklet.kit.kit import Kit
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.pages.booklet import LaidBooklet
from booklet.pages.press import SLUG_HEIGHT, Slug, write_press_pages, write_slugs
from booklet.pages.report import write_report


@dataclass(frozen=True)
class PressNames:
    """The names of the files: single pages, press sheets, the page for the printer."""

    pages: str
    sheets: str
    info: str


def press_files(
    kit: Kit,
    booklet: LaidBooklet,
    binding: Binding,
    inks: PressInks,
    names: PressNames,
    language: Language = ENGLISH,
) -> dict[str, bytes]:
    """Single pages and press sheets as PDF/X-1a:2003, and the page that tells how they are printed.

    By their names; the same booklet gives the same bytes.  Raises CreepError, StockTooSmallError, or
    PageOverflowError for a title that no page holds.
    """
    limit, code = ProcessInks(InkLimit(inks.limit)), language.code
    meaning = language.press.condition_means(inks.condition.value)
    style = PressStyle(binding, inks, meaning, plain_text(booklet.setup.document.title), booklet.edition)
    count = len(booklet.pages)
    pages, sheets = page_sides(count, binding), sheet_sides(count, binding)
    with opened_pages(write_press_pages(booklet, limit, binding.bleed)) as source:
        make_coarser(source)
        files = {
            name: press_file(source, sides, write_slugs(list(slugs), limit, code), style)
            for name, sides, slugs in (
                (names.pages, pages, _page_slugs(pages, style, language)),
                (names.sheets, sheets, _sheet_slugs(sheets, style, language)),
            )
        }
    job = PressJob((names.pages, names.sheets), count, sheets, style, tuple(font.value for font in Font))
    files[names.info] = write_report(press_document(kit, job, language), kit.page, Colour(kit.accent))
    return files


def _page_slugs(sides: Sequence[ImposedSide], style: PressStyle, language: Language) -> Iterator[Slug]:
    for number, side in enumerate(sides, start=1):
        said = language.press.slug_of_page(style.edition, number, len(sides))
        yield Slug(style.title, said, _room(side))


def _sheet_slugs(sides: Sequence[ImposedSide], style: PressStyle, language: Language) -> Iterator[Slug]:
    for side in sides:
        said = language.press.slug_of_sheet(
            style.edition, side.sheet + 1, len(sides) // 2, side.is_front, side.signature + 1
        )
        yield Slug(style.title, said, _room(side))


def _room(side: ImposedSide) -> float:
    return float(slug_place(side, Fraction(SLUG_HEIGHT)).room)
