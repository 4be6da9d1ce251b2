"""Small documents for tests, laid out with figures that are plain boxes, and read back."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.artist import Room
from booklet.content.blocks import (
    Arrangement,
    Block,
    Document,
    Furniture,
    Paragraph,
    Picture,
    Section,
    WritingLines,
)
from booklet.content.figures import (
    FigureRequest,
    FinishedPages,
    PaperBand,
    PaperStrips,
    PileFigure,
    PocketFigure,
    PrintCheck,
)
from booklet.content.spans import Line, Part, line, quiet
from booklet.drawing.shapes.figure import Colour, Figure, Fill, Rect
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import palette_from_accent
from booklet.kit.kit import PageFormat
from booklet.pages.booklet import LaidBooklet, lay_out, open_setup, write_booklet
from booklet.pages.setup import PageSetup
from booklet.proof.reader import Page, read_pages

ACCENT = Colour("#2d5f4e")
PALETTE = palette_from_accent(ACCENT)
BODY_WORDS = "Cut everything first, file each piece in its pocket, then make one layout at a time. "
# Figures that have a size of their own, in points.
_SIZES = {PrintCheck: (290.0, 40.0), PocketFigure: (24.0, 20.0)}


def sketch(request: FigureRequest, room: Room) -> Figure:
    """A grey box without a word, as large as the room, or as such a figure is."""
    width, height = _SIZES.get(type(request), (room.width, room.height or room.width / 2))
    if isinstance(request, FinishedPages):
        width, height = _fitting(len(request.layouts), 1.0, room)
    elif isinstance(request, PileFigure):
        height = (room.pitch or 12.0) * len(request.sheets)
    elif isinstance(request, PaperStrips):
        width, height = _fitting(1.0, 1.0, room)
    width, height = (width, height) if isinstance(request, PaperBand) else _fitting(width, height, room, 1.0)
    shape = Rect(0.0, 0.0, width, height, Fill(Colour("#cfd8dc")))
    return Figure(type(request).__name__, width, height, (shape,), "", "")


def _fitting(width: float, height: float, room: Room, most: float = 1000.0) -> tuple[float, float]:
    factor = min(most, room.width / width, (room.height or 1e6) / height)
    return width * factor, height * factor


def measured(request: FigureRequest, scale: Scale) -> tuple[float, float]:  # noqa: ARG001
    """No figure of these tests is drawn at a scale."""
    return 0.0, 0.0


def section(anchor: str, *blocks: Block, title: Part = "", **more: object) -> Section:
    """A section of this anchor, which is also its title unless it has another."""
    said = line(title or anchor.capitalize())
    return Section(anchor, said, blocks, **more)  # type: ignore[arg-type]


def text(*parts: Part) -> Paragraph:
    """A paragraph."""
    return Paragraph(line(*parts))


def words(count: int) -> Paragraph:
    """A paragraph of so many sentences, each about a line and a half."""
    return text(BODY_WORDS * count)


def picture(request: FigureRequest) -> Picture:
    """A picture without words."""
    return Picture(request, ())


NOTES = section("notes", WritingLines((), least=8), arrangement=Arrangement.COMPACT)
BACK = section("back", text("Printed at home."), arrangement=Arrangement.BACK_COVER)
FURNITURE = Furniture(line(quiet(", continued")), line("Your notes"), line("DRAFT"))


def document(
    *sections: Section,
    fillers: Sequence[Section] = (NOTES,),
    back: Section = BACK,
    language: str = "en",
    title: Line = (),
) -> Document:
    """A document of these sections."""
    said = title or line("Low Tide")
    return Document(
        language, said, line("Harbour Paper"), line("How to"), sections, tuple(fillers), back, FURNITURE
    )


def setup_of(made: Document, page: PageFormat = PageFormat.HALF_LETTER) -> PageSetup:
    """What the pages of a document are laid with."""
    return open_setup(made, page, PALETTE, sketch, measured)


def laid(made: Document, page: PageFormat = PageFormat.HALF_LETTER) -> LaidBooklet:
    """A document on its pages."""
    return lay_out(made, page, PALETTE, sketch, measured)


def read(made: Document) -> tuple[Page, ...]:
    """The pages of a document's PDF as another library reads them."""
    return read_pages(write_booklet(laid(made)))


def titles(booklet: LaidBooklet) -> list[list[str]]:
    """The anchors of the sections that each page shows."""
    return [[part.section.anchor for part in page.parts] for page in booklet.pages]


def said_on(page: Page) -> str:
    """The text of a page with single spaces."""
    return " ".join(page.text.replace("\u00a0", " ").split())
