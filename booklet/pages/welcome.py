"""The page inside the front cover: a welcome, what stands where, and a bar to check the print by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.platypus import Flowable

from booklet.cutting.model import CutSheet
from booklet.drawing.marks.print_check import check_words, print_check
from booklet.drawing.shapes.fonts import Font, pdf_font_name
from booklet.kit.kit import layout_title
from booklet.pages.book import Book
from booklet.pages.cut_steps import Numbered
from booklet.pages.cutting import cut_apart_sheets, cut_sheets, numbers_said
from booklet.pages.flow import Beside, FigureBox, Gap, PageReference, Stack
from booklet.pages.head import page_head, story_pages
from booklet.pages.lists import heading, list_table
from booklet.pages.page import Block, Start, story_height
from booklet.pages.pile import has_pile
from booklet.pages.supplies import GLANCE, has_glance
from booklet.pages.type import cell_words, rich, words

_GUTTER = 20.0
_NUMBER_WIDTH = 24.0
_WELCOME = (
    "All that lies in this box becomes finished pages, and this booklet goes with you from the first cut to "
    "the last photograph."
)
_WAY = (
    "<b>Cut</b> every sheet, in the order of the pile.",
    "<b>File</b> each piece in the pocket that its label names.",
    "<b>Make</b> one layout at a time from its pocket, and tick off as you go.",
)


def welcome_block(book: Book) -> Block:
    """The left page of the first opening; a long welcome goes on over the page, below the bar."""
    head, said = page_head(book, book.kit.title, "Welcome"), _said(book)
    bar = check_bar(book)
    whole, short = _listed(book, layouts=True), _listed(book, layouts=False)
    stories = ([*head, *said, *listed, Gap(14.0), *bar] for listed in (whole, short))
    fitting = (s for s in stories if story_height(s, book.grid.text_width) <= book.grid.text_height)
    story = next(fitting, [*head, *bar, Gap(14.0), *said, *short])
    return Block(story_pages(book, story, "Welcome", "welcome"), Start.LEFT)


def _said(book: Book) -> list[Flowable]:
    return [words(book.kit.welcome or _WELCOME, book.styles.body), Gap(8.0), _way(book)]


def _listed(book: Book, *, layouts: bool) -> list[Flowable]:
    """What is in the booklet, under a heading that stays with it."""
    before, *rest = heading(book, "In this booklet")
    return [before, Stack([*rest, _contents(book, layouts=layouts)])]


def _way(book: Book) -> Flowable:
    lines = [
        Numbered((at,), rich(markup, book.styles.body), book.drawing) for at, markup in enumerate(_WAY, 1)
    ]
    return Stack(lines, gap=3.0)


def check_bar(book: Book) -> list[Flowable]:
    """The bar that shows whether the page was printed at its size, and what to do if it was not."""
    length = check_words(book.unit)
    said = (
        f"<b>Is this page its true size?</b> The bar below measures {length}. If a ruler says otherwise, "
        "print again at 100 %, without fitting to the page."
    )
    return [
        rich(said, book.styles.small),
        Gap(8.0),
        FigureBox(print_check(book.unit, book.drawing)),
    ]


@dataclass(frozen=True)
class _Entry:
    """A line of the contents: what, and the anchor of the page where it begins."""

    text: str
    anchor: str


def _contents(book: Book, *, layouts: bool) -> Flowable:
    """Sections at the left, each layout at the right, with their pages; or the layouts as one section."""
    width = (book.grid.text_width - _GUTTER) / 2
    titled = [_Entry(layout_title(layout), f"layout-{layout.id}") for layout in book.kit.layouts]
    if layouts:
        columns = [_sections(book), titled]
    else:
        entries = [*_sections(book), _Entry("The layouts", titled[0].anchor)]
        half = (len(entries) + 1) // 2
        columns = [entries[:half], entries[half:]]
    return Beside([(_column(book, entries, width), width) for entries in columns], _GUTTER)


def _sections(book: Book) -> list[_Entry]:
    entries = [_Entry("In the box", "box"), _Entry("Tools and cautions", "tools")]
    if has_pile(book.kit):
        entries.append(_Entry("The pile", "pile"))
    cut, apart = cut_sheets(book), cut_apart_sheets(book)
    if cut or apart:
        entries.append(_Entry("How to read the cutting pages", "cutting"))
    entries += [*_sheets("Cutting", cut), *_sheets("Cutting apart", apart)]
    entries += [
        _Entry("Where every piece goes", "sorting"),
        _Entry("What each pocket holds", "pockets"),
    ]
    if has_glance(book):
        entries.append(_Entry("Photographs and supplies", GLANCE))
    return entries


def _sheets(what: str, sheets: Sequence[CutSheet]) -> list[_Entry]:
    """What is done to these sheets, and their numbers; nothing where there are none."""
    if not sheets:
        return []
    called = "sheet" if len(sheets) == 1 else "sheets"
    said = f"{what}, {called} {numbers_said([sheet.number for sheet in sheets])}"
    return [_Entry(said, f"sheet-{sheets[0].sheet.id}")]


def _column(book: Book, entries: list[_Entry], width: float) -> Flowable:
    font = pdf_font_name(Font.SANS_BOLD)
    rows = [
        (
            cell_words(entry.text, book.styles.small),
            PageReference(entry.anchor, font, book.sizes.small, book.palette.accent),
        )
        for entry in entries
    ]
    return list_table(
        book, rows, (width - _NUMBER_WIDTH, _NUMBER_WIDTH), commands=[("RIGHTPADDING", (1, 0), (1, -1), 0)]
    )
