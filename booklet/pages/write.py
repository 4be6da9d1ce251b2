"""Write laid-out pages as the PDF in reading order: page furniture, bookmarks, viewer settings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO

from reportlab import rl_config
from reportlab.lib.colors import HexColor

from booklet.drawing.shapes.fonts import Font, pdf_font_name, text_width
from booklet.drawing.shapes.style import Palette
from booklet.pages.flow import BookCanvas
from booklet.pages.grid import Grid
from booklet.pages.page import Page, anchors
from booklet.pages.type import typographic

_FOLIO_SIZE = 9.0
_FOLIO_BASELINE = 22.0
# Least white between the running title and the number.
_FOLIO_GAP = 12.0


@dataclass(frozen=True)
class Imprint:
    """What the document says of itself."""

    title: str
    author: str
    subject: str


def write_pages(pages: Sequence[Page], grid: Grid, palette: Palette, imprint: Imprint, draft: bool) -> bytes:
    """The booklet as a PDF, one page after another as they are read.  The same pages give the same bytes."""
    out = BytesIO()
    rl_config.useA85 = 0
    canvas = BookCanvas(
        out,
        pagesize=(grid.width, grid.height),
        page_of=anchors(pages),
        invariant=1,
        pageCompression=1,
        initialFontName=pdf_font_name(Font.SANS),
        lang="en",
    )
    canvas.setTitle(imprint.title)
    canvas.setAuthor(imprint.author)
    canvas.setSubject(imprint.subject)
    canvas.setCreator("kit-booklet")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    canvas.setViewerPreference("PrintScaling", "None")
    for number, page in enumerate(pages, start=1):
        _write_page(canvas, page, number, grid, palette, draft)
    canvas.save()
    return out.getvalue()


def _write_page(
    canvas: BookCanvas, page: Page, number: int, grid: Grid, palette: Palette, draft: bool
) -> None:
    _bookmark(canvas, page, number)
    left = grid.left(number)
    for laid in page.laid:
        laid.flowable.drawOn(canvas, left + laid.x, grid.height - grid.top - laid.y - laid.height)
    if not page.bare:
        _folio(canvas, page, number, grid, palette)
    if draft:
        _draft_mark(canvas, grid)
    canvas.showPage()


def _bookmark(canvas: BookCanvas, page: Page, number: int) -> None:
    """A page's own bookmark, under that of the section that it opens; each needs a key of its own."""
    key = page.anchor or f"page-{number}"
    if page.section:
        canvas.bookmarkPage(f"section-{number}")
        canvas.addOutlineEntry(page.section, f"section-{number}", 0, closed=0)
    if page.anchor or page.bookmark:
        canvas.bookmarkPage(key)
    if page.bookmark:
        canvas.addOutlineEntry(page.bookmark, key, page.bookmark_level, closed=0)


def _folio(canvas: BookCanvas, page: Page, number: int, grid: Grid, palette: Palette) -> None:
    """The page number at the outer edge, the running title beside it."""
    left = grid.left(number)
    right = left + grid.text_width
    canvas.setFont(pdf_font_name(Font.SANS_BOLD), _FOLIO_SIZE)
    canvas.setFillColor(HexColor(palette.accent.hex))
    if number % 2:
        canvas.drawRightString(right, _FOLIO_BASELINE, str(number))
    else:
        canvas.drawString(left, _FOLIO_BASELINE, str(number))
    canvas.setFont(pdf_font_name(Font.SANS), _FOLIO_SIZE)
    canvas.setFillColor(HexColor(palette.soft_ink.hex))
    room = grid.text_width - text_width(str(number), Font.SANS_BOLD, _FOLIO_SIZE) - _FOLIO_GAP
    running = _shortened(typographic(page.running), room)
    if number % 2:
        canvas.drawString(left, _FOLIO_BASELINE, running)
    else:
        canvas.drawRightString(right, _FOLIO_BASELINE, running)


def _shortened(title: str, room: float) -> str:
    """A running title that fits its line: cut after a word, or within one that is too long by itself."""
    if _folio_width(title) <= room:
        return title
    fitting = next(end for end in range(len(title) - 1, -1, -1) if _folio_width(f"{title[:end]}…") <= room)
    cut = title[:fitting]
    if title[fitting] != " " and " " in cut.strip():
        cut = cut[: cut.rindex(" ")]
    return f"{cut.rstrip(' ,;:')}…"


def _folio_width(text: str) -> float:
    return text_width(text, Font.SANS, _FOLIO_SIZE)


def _draft_mark(canvas: BookCanvas, grid: Grid) -> None:
    """DRAFT across the page, over figures too, in a thin middle grey to read through on light and dark."""
    canvas.saveState()
    canvas.translate(grid.width / 2, grid.height / 2)
    canvas.rotate(55)
    canvas.setFillColor(HexColor("#7f868d"))
    canvas.setFillAlpha(0.26)
    canvas.setFont(pdf_font_name(Font.SANS_BOLD), 120)
    canvas.drawCentredString(0, -40, "DRAFT")
    canvas.restoreState()
