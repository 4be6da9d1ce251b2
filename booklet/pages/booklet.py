"""The booklet: every section in its order, every page in its place, written as one PDF."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.drawing.shapes.figure import Figure
from booklet.pages.book import Book, open_book
from booklet.pages.box import box_blocks
from booklet.pages.cover import cover_page
from booklet.pages.cut_aparts import cut_apart_blocks
from booklet.pages.cutting import cut_figures, cutting_blocks
from booklet.pages.fillers import back_cover, filler_pages
from booklet.pages.layouts import layout_blocks, layout_figures
from booklet.pages.page import Block, Page, arrange
from booklet.pages.pile import pile_blocks
from booklet.pages.reading import reading_blocks
from booklet.pages.scale import choose_scale
from booklet.pages.sorting import pocket_blocks, sorting_blocks
from booklet.pages.supplies import supply_blocks
from booklet.pages.write import Imprint, write_pages
from booklet.placing.resolved import ResolvedKit


@dataclass(frozen=True)
class Booklet:
    """A booklet laid out: its pages in reading order."""

    book: Book
    pages: tuple[Page, ...]

    def pdf(self, draft: bool = False) -> bytes:
        """The PDF in reading order, the same bytes for the same kit; a draft is marked on every page."""
        book = self.book
        return write_pages(self.pages, book.grid, book.palette, _imprint(book.resolved), draft)


def make_booklet(resolved: ResolvedKit) -> Booklet:
    """Lay out the whole booklet."""
    book = open_book(resolved, choose_scale(resolved))
    return Booklet(book, lay_out(book))


def draw_figures(resolved: ResolvedKit) -> tuple[Figure, ...]:
    """Every figure that is worth a file of its own, as the pages show it, without laying out all of them."""
    book = open_book(resolved, choose_scale(resolved))
    return (*cut_figures(book), *layout_figures(book))


def lay_out(book: Book) -> tuple[Page, ...]:
    """Every page in reading order, a multiple of four of them."""
    cover = Block((cover_page(book),))
    sections = (
        cover,
        *box_blocks(book),
        *pile_blocks(book),
        *reading_blocks(book),
        *cutting_blocks(book),
        *cut_apart_blocks(book),
        *sorting_blocks(book),
        *pocket_blocks(book),
        *layout_blocks(book),
        *supply_blocks(book),
    )
    return arrange(sections, filler_pages(book), back_cover(book))


def _imprint(resolved: ResolvedKit) -> Imprint:
    kit = resolved.kit
    dated = f"{kit.title}, {kit.month}" if kit.month else kit.title
    return Imprint(dated, kit.publisher, "Cutting and assembly instructions")
