"""Books for the front and back pages, and what can be read off their pages once they are printed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import cache
from itertools import combinations
from pathlib import Path

import pypdfium2

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.scale import Scale
from booklet.kit.load import load_kit, parse_kit
from booklet.pages.book import Book, open_book
from booklet.pages.flow import PageReference
from booklet.pages.page import Block, Page, anchors
from booklet.pages.write import Imprint, write_pages
from booklet.placing.resolved import resolve_kit

SPECS = Path(__file__).parents[2] / "kit_specs"
QUARTER = Scale(Fraction(4))

SMALL = """
title: Low Tide
publisher: Harbour Paper
unit: in
sheet: 12 x 12
papers:
  shingle:
    title: Shingle print
    front: {pattern: waves, colours: ["#dfe9ec", "#5d8794"]}
    edges: {left: wave border}
  sand: {title: Sand, front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}
sheets:
  - id: shingle
    paper: shingle
    lay: {left: wave border}
    cuts:
      - {at: [8, 2 1/2], leaves: [strip, panel, strap]}
      - {take: panel, turn: clockwise, at: [7], leaves: [tall panel, scrap]}
  - {id: sand, paper: sand}
layouts:
  - id: ebb
    pocket: 1
    base: sand
    steps:
      - {place: strip, left: 0, top: 0}
      - {place: strap, right: 0, top: 0}
      - {place: tall panel, left: 3, top: 1}
"""


@cache
def demo(name: str) -> Book:
    """The book of a kit that comes with the project."""
    return open_book(resolve_kit(load_kit(SPECS / f"{name}.yaml")), QUARTER)


def book_of(text: str) -> Book:
    """The book of a spec's text."""
    return open_book(resolve_kit(parse_kit(text, "kit.yaml", SPECS)), QUARTER)


def pages_of(blocks: Iterable[Block]) -> tuple[Page, ...]:
    """All pages of some blocks."""
    return tuple(page for block in blocks for page in block.pages)


def printed(book: Book, pages: Sequence[Page]) -> pypdfium2.PdfDocument:
    """The pages as a PDF; references to pages that are not among them lead to blank ones after them."""
    wanted = {
        part.anchor
        for page in pages
        for laid in page.laid
        for part in parts_of(laid.flowable)
        if isinstance(part, PageReference)
    }
    blank = [Page((), "", anchor=anchor) for anchor in sorted(wanted - anchors(pages).keys())]
    pdf = write_pages([*pages, *blank], book.grid, book.palette, Imprint("", "", ""), draft=False)
    return pypdfium2.PdfDocument(pdf)


def parts_of(flowable: object) -> Iterable[object]:
    """A flowable and everything that stands within it, in stacks, columns and tables."""
    if isinstance(flowable, list | tuple):
        within = list(flowable)
    else:
        yield flowable
        within = _held_by(flowable)
    for part in within:
        yield from parts_of(part)


def _held_by(flowable: object) -> list[object]:
    held = [*getattr(flowable, "parts", ()), *(part for part, _ in getattr(flowable, "columns", ()))]
    for row in getattr(flowable, "_cellvalues", ()):
        held += row
    return held


def words_of(book: Book, pages: Sequence[Page]) -> list[str]:
    """The words of each page, with single spaces."""
    pdf = printed(book, pages)
    return [" ".join(pdf[at].get_textpage().get_text_range().split()) for at in range(len(pages))]


def text_boxes(page: pypdfium2.PdfPage) -> list[Box]:
    """The box about each run of text, y down."""
    text, height = page.get_textpage(), page.get_height()
    runs = (text.get_rect(at) for at in range(text.count_rects()))
    return [Box(left, height - top, right, height - bottom) for left, bottom, right, top in runs]


def assert_well_set(book: Book, pages: Sequence[Page], hang: float = 0.0) -> None:
    """No text lies over another or outside the margins, and none is set under 9 pt.

    A scale's first numeral may `hang` into the left margin by so many points.
    """
    pdf = printed(book, pages)
    for at in range(len(pages)):
        boxes = text_boxes(pdf[at])
        for one, other in combinations(boxes, 2):
            assert not one.grown(-0.2).overlaps(other.grown(-0.2)), (at, one, other)
        for box in boxes:
            assert book.grid.outer - 1 - hang <= box.left, (at, box)
            assert box.right <= book.grid.width - book.grid.outer + 1, (at, box)
            assert box.bottom <= book.grid.height - 18, (at, box)
        assert smallest_size(pdf[at]) >= 8.99


def smallest_size(page: pypdfium2.PdfPage) -> float:
    """The smallest font size on a page, in points."""
    import pypdfium2.raw as raw

    text = page.get_textpage()
    sizes = [raw.FPDFText_GetFontSize(text, at) for at in range(text.count_chars())]
    return min((size for size in sizes if size > 1), default=9.0)
