"""Pages for a printing press: in its inks, and printed beyond their trim where something reaches it."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO

from booklet.content.edition import edition_keywords
from booklet.drawing.shapes.figure import BLACK
from booklet.drawing.shapes.fonts import Font, text_width
from booklet.drawing.writers.inks import Inks
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.pages.booklet import LaidBooklet
from booklet.pages.compose import page_numbers
from booklet.pages.draw_page import draw_page
from booklet.pages.edges import edges_of, shortened
from booklet.pages.open_canvas import open_canvas, set_titles
from booklet.pages.press_canvas import PressCanvas

# The size of letters that a printer reads beside the pages, and the height of a line of them.
SLUG_SIZE, SLUG_HEIGHT = 8.0, 10.0
_SLUG_DROP = 2.2


def write_press_pages(laid: LaidBooklet, inks: Inks, bleed: Fraction) -> bytes:
    """The pages in reading order as a PDF in the inks of a press: the same pages give the same bytes.

    Each page is larger than its trim by `bleed`, in points, on all four sides.
    """
    beyond, setup = float(bleed), laid.setup
    grid, document = setup.grid, setup.document
    out = BytesIO()
    size = (grid.width + 2 * beyond, grid.height + 2 * beyond)
    canvas = _open(out, size, inks, page_numbers(laid.pages), document.language)
    canvas.setTrimBox((beyond, beyond, beyond + grid.width, beyond + grid.height))
    canvas.setBleedBox((0, 0, *size))
    set_titles(canvas, document.title, document.author, document.subject)
    canvas.setKeywords(edition_keywords(laid.edition))
    edges = replace(edges_of(document.sections), bleed=beyond)
    for number, page in enumerate(laid.pages, start=1):
        canvas.translate(beyond, beyond)
        draw_page(canvas, setup, page, number, edges)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


@dataclass(frozen=True)
class Slug:
    """A line for a margin: a title, which may be cut, what must stand after it, and its room in points."""

    title: str
    rest: str
    room: float

    @property
    def text(self) -> str:
        """The line as it fits its room."""
        room = self.room - text_width(self.rest, Font.SANS, SLUG_SIZE)
        return f"{shortened(self.title, SLUG_SIZE, room)}{self.rest}"


def write_slugs(slugs: Sequence[Slug], inks: Inks, language: str) -> bytes:
    """Lines for the margins of a press file as a PDF, each on a page as long and as high as it is."""
    out = BytesIO()
    canvas = _open(out, (1.0, SLUG_HEIGHT), inks, {}, language)
    for slug in slugs:
        canvas.setPageSize((text_width(slug.text, Font.SANS, SLUG_SIZE), SLUG_HEIGHT))
        inks.set_text(canvas, BLACK)
        canvas.setFont(pdf_font_name(Font.SANS), SLUG_SIZE)
        canvas.drawString(0.0, _SLUG_DROP, slug.text)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _open(
    out: BytesIO, size: tuple[float, float], inks: Inks, page_of: dict[str, int], language: str
) -> PressCanvas:
    return open_canvas(
        PressCanvas, out, language, pagesize=size, page_of=page_of, inks=inks, pdfVersion=(1, 4)
    )
