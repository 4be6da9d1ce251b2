"""The back cover: whose kit it was, and how to print a page again or the whole booklet at home."""

from __future__ import annotations

from reportlab.platypus import Flowable

from booklet.drawing.papers.swatch import swatch_strips
from booklet.kit.kit import PageFormat
from booklet.pages.book import Book
from booklet.pages.flow import FigureBox, Gap, Rule
from booklet.pages.page import Laid, Page, lay_on_one, story_height
from booklet.pages.type import rich, words
from booklet.pages.welcome import check_bar

_WHAT = "the back cover"
_TYPEFACES = "Set in Booklet Sans and Booklet Serif, made from Source Sans 3 and Source Serif 4."

# The white between the papers and the words below, and how high the papers must be to be worth showing.
_UNDER_STRIPS, _LEAST_STRIPS = 26.0, 40.0
# The sheet that a page of each format is printed on, two to a side.
_SHEETS = {PageFormat.HALF_LETTER: "Letter", PageFormat.A5: "A4"}


def back_cover(book: Book) -> Page:
    """The last page, bare: title and papers above, help with printing at the foot."""
    width, height = book.grid.text_width, book.grid.text_height
    below = lay_on_one(_printing(book), width, height, _WHAT)
    title = _title(book)
    free = height - story_height(title, width) - below[-1].y - below[-1].height
    if free > _LEAST_STRIPS + _UNDER_STRIPS:
        strips = swatch_strips(book.kit, book.papers, width, free - _UNDER_STRIPS)
        title.append(FigureBox(strips))
    last = below[-1]
    down = height - last.y - last.height
    above = lay_on_one(title, width, down, _WHAT)
    moved = tuple(Laid(at.flowable, at.x, at.y + down, at.width, at.height) for at in below)
    return Page((*above, *moved), book.kit.title, bookmark="Printing at home", bare=True)


def _title(book: Book) -> list[Flowable]:
    kit = book.kit
    made = f"{kit.publisher}  ·  {kit.month}" if kit.month else kit.publisher
    return [
        words(made, book.styles.kicker),
        words(kit.title, book.styles.title),
        Rule(book.palette.accent, weight=0.9, before=5.0, after=12.0),
    ]


def _printing(book: Book) -> list[Flowable]:
    sheet = _SHEETS[book.kit.page]
    lost = (
        "<b>A page lost?</b> Print it again from the file of single pages: at 100 %, without fitting to the "
        "page."
    )
    whole = (
        f"<b>The whole booklet at home?</b> Take the file for home printing: on {sheet}, on both sides, "
        "flipped on the short edge, or on the long one if the file was made for that. Lay the printed "
        "sheets on each other as they come, fold them in the middle, and staple along the fold."
    )
    body = book.styles.body
    return [
        rich(lost, body),
        Gap(8.0),
        rich(whole, body),
        Gap(16.0),
        *check_bar(book),
        Gap(16.0),
        words(_TYPEFACES, book.styles.note),
    ]
