"""What every page needs at hand: the document, the grid, the type, and who draws its figures."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from booklet.content.artist import Room
from booklet.content.blocks import Document, Furniture
from booklet.content.figures import FigureRequest
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle, Palette
from booklet.measure.cache import cached_on
from booklet.pages2.grid import Grid
from booklet.pages2.type import Styles, TypeSizes

# Draws a figure within a room; one of a size of its own may take less.
Draw = Callable[[FigureRequest, Room], Figure]
# The width and height in points that a figure would have at a scale, found without drawing it.
Measure = Callable[[FigureRequest, Scale], tuple[float, float]]


@dataclass(frozen=True, eq=False)
class PageSetup:
    """Everything that is settled before the first page is laid.

    Two are equal only if they are one, so that what is drawn for a setup can be kept by it.
    """

    document: Document
    grid: Grid
    sizes: TypeSizes
    palette: Palette
    styles: Styles
    drawing: DrawingStyle
    draw: Draw
    measure: Measure

    @property
    def words(self) -> Furniture:
        """The words that pages add by themselves."""
        return self.document.furniture


@cached_on
def drawn(setup: PageSetup, request: FigureRequest, room: Room) -> Figure:
    """A figure in a room, drawn once: pages are tried."""
    return setup.draw(request, room)
