"""Laid-out pages as the PDF in reading order: margins, bookmarks, links, viewer settings."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from booklet.content.edition import edition_keywords
from booklet.content.spans import plain_text
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.kit.kit_files import KitFile
from booklet.measure.dataclass import dataclass
from booklet.pages.canvas import BookletCanvas
from booklet.pages.compose import Page, page_numbers
from booklet.pages.draw_page import draw_page
from booklet.pages.edges import edges_of
from booklet.pages.open_canvas import ask_for_true_size, open_canvas, set_titles
from booklet.pages.reading import attach_files, describe_file, name_pages
from booklet.pages.setup import PageSetup

_DRAFT_SIZE, _DRAFT_TURN = 120.0, 55.0


@dataclass(frozen=True)
class FileFacts:
    """What a file is: of which edition, whether a draft, and the files that it is made of."""

    edition: str = ""
    is_draft: bool = False
    files: tuple[KitFile, ...] = ()

    @property
    def keywords(self) -> str:
        """The name of the edition, if there is one, and whether it is a draft of that."""
        return edition_keywords(self.edition, is_draft=self.is_draft)


_NO_FACTS = FileFacts()


def write_pages(
    setup: PageSetup,
    pages: Sequence[Page],
    facts: FileFacts = _NO_FACTS,
    make_canvas: type[BookletCanvas] = BookletCanvas,
) -> bytes:
    """The booklet as a PDF, one page after another as they are read.  The same pages give the same bytes."""
    out, document, grid = BytesIO(), setup.document, setup.grid
    size, page_of = (grid.width, grid.height), page_numbers(pages)
    canvas = open_canvas(
        make_canvas, out, document.language, pagesize=size, page_of=page_of, ways=document.ways
    )
    set_titles(canvas, document.title, document.author, document.subject)
    canvas.setKeywords(facts.keywords)
    ask_for_true_size(canvas)
    edges = edges_of(document.sections)
    outline = _Outline(canvas)
    for number, page in enumerate(pages, start=1):
        outline.add(page, number)
        _mark_anchors(canvas, number)
        draw_page(canvas, setup, page, number, edges)
        if facts.is_draft:
            _draft_mark(canvas, setup)
        canvas.showPage()
    name_pages(canvas, pages, setup.words)
    describe_file(canvas, document.language)
    attach_files(canvas, facts.files)
    canvas.save()
    return out.getvalue()


def _mark_anchors(canvas: BookletCanvas, number: int) -> None:
    for anchor, at in canvas.page_of.items():
        if at == number:
            canvas.bookmarkPage(anchor)


class _Outline:
    """The bookmarks: each part of the booklet, below it its sections."""

    def __init__(self, canvas: BookletCanvas) -> None:
        self._canvas = canvas
        self._level = 0

    def add(self, page: Page, number: int) -> None:
        """Mark what begins on a page."""
        for at, part in enumerate(part for part in page.parts if part.begins):
            section = part.section
            named, title = plain_text(section.part), plain_text(section.title)
            if named:
                self._mark(named, f"part-{number}-{at}", 0)
                self._level = 1
            if named != title:  # a part that is all one section is marked once
                said = f"{section.number}  {title}" if section.number else title
                self._mark(said, f"section-{number}-{at}", self._level)

    def _mark(self, title: str, key: str, level: int) -> None:
        self._canvas.bookmarkPage(key)
        self._canvas.addOutlineEntry(title, key, level, closed=0)


def _draft_mark(canvas: BookletCanvas, setup: PageSetup) -> None:
    """The word for a draft across the page, over figures too, thin enough to read through."""
    grid = setup.grid
    canvas.saveState()
    canvas.translate(grid.width / 2, grid.height / 2)
    canvas.rotate(_DRAFT_TURN)
    mode = canvas.set_thin()
    canvas.setFont(pdf_font_name(Font.SANS_BOLD), _DRAFT_SIZE)
    canvas.drawCentredString(0, -_DRAFT_SIZE / 3, plain_text(setup.words.draft), mode)
    canvas.restoreState()
