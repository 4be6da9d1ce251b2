"""What every page needs at hand: the document, the grid, the type, and who draws its figures."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager

from booklet.content.artist import Room
from booklet.content.blocks import Document, Furniture, Picture
from booklet.content.figures import FigureRequest
from booklet.content.spans import plain_text
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.drawing.shapes.style import DrawingStyle, Palette
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass, replace
from booklet.pages.grid import Grid
from booklet.pages.type import Styles, TypeSizes

# Draws a figure within a room; one of a size of its own may take less.
Draw = Callable[[FigureRequest, Room], Figure]
# The width and height in points that a figure would have at a scale, found without drawing it.
Measure = Callable[[FigureRequest, Scale], tuple[float, float]]
# Prepares figures that will be drawn at these scales, beside what is done within.
Prepare = Callable[[Sequence[tuple[FigureRequest, Scale]]], AbstractContextManager[object]]


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
    prepare: Prepare

    @property
    def words(self) -> Furniture:
        """The words that pages add by themselves."""
        return self.document.furniture


@cached_on
def drawn(setup: PageSetup, picture: Picture, room: Room) -> Figure:
    """A figure in a room, drawn once: pages are tried.  It says what it shows as its picture does."""
    figure = setup.draw(picture.figure, room)
    return replace(figure, alt=plain_text(picture.alt), subject=picture.figure)


@cached_on
def measured(setup: PageSetup, request: FigureRequest, scale: Scale) -> tuple[float, float]:
    """The width and height in points that a figure would have at a scale, measured once."""
    return setup.measure(request, scale)


def scales_within(
    setup: PageSetup, requests: Sequence[FigureRequest], most: float
) -> Iterator[tuple[Scale, float]]:
    """The scales, largest first, at which no figure is wider than so many points, and how wide the widest is.

    Letters do not shrink with a scale: a figure is never narrower than its share of what it is at the first
    scale, so most scales that are too large are passed over without a measure.
    """
    first = ROUND_SCALES[0]
    largest = max(measured(setup, request, first)[0] for request in requests)
    for scale in ROUND_SCALES:
        if largest * float(first.reduction / scale.reduction) > most:
            continue
        widest = max(measured(setup, request, scale)[0] for request in requests)
        if widest <= most:
            yield scale, widest
