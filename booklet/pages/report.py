"""A document of one section on sheets of paper for an office, page after page: no covers, no press sheets."""

from __future__ import annotations

from functools import partial

from booklet.content.artist import Room
from booklet.content.blocks import Document
from booklet.content.figures import FigureRequest
from booklet.drawing.shapes.figure import Colour, Figure
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import palette_from_accent
from booklet.kit.kit import PageFormat
from booklet.measure.dataclass import replace
from booklet.pages.booklet import open_setup
from booklet.pages.compose import Page, PagePart
from booklet.pages.flow import break_story, column_height
from booklet.pages.grid import Grid
from booklet.pages.head import continued_head, section_head
from booklet.pages.office_paper import OfficePaper, usual_paper
from booklet.pages.story import story
from booklet.pages.write import write_pages

# The margin at both sides of each paper, and those above and below.
_SIDES = {OfficePaper.LETTER: 45.0, OfficePaper.A4: 42.0}
_TOP, _BOTTOM = 40.0, 44.0


def write_report(document: Document, page: PageFormat, accent: Colour) -> bytes:
    """The one section of a document as a PDF; the same document gives the same bytes.

    Raises PageOverflowError for words that no page holds, TypeError for a figure: a report has none.
    """
    (section,) = document.sections
    palette = palette_from_accent(accent)
    setup = replace(open_setup(document, page, palette, _draw, _measure), grid=_grid(usual_paper(page)))
    width, height = setup.grid.text_width, setup.grid.text_height
    flowables = [*section_head(setup, section, width), *story(setup, section.blocks, width)]
    columns = break_story(flowables, width, height, partial(continued_head, setup, section))
    pages = [
        Page(column, (PagePart(section, 0.0, column_height(column), begins=at == 0),))
        for at, column in enumerate(columns)
    ]
    return write_pages(setup, pages)


def _grid(paper: OfficePaper) -> Grid:
    size, side = paper.upright, _SIDES[paper]
    return Grid(float(size.width), float(size.height), inner=side, outer=side, top=_TOP, bottom=_BOTTOM)


def _draw(request: FigureRequest, room: Room) -> Figure:
    raise TypeError(f"{type(request).__name__} in a report, in {room}")


def _measure(request: FigureRequest, scale: Scale) -> tuple[float, float]:
    raise TypeError(f"{type(request).__name__} in a report, at {scale}")
