"""What every page needs at hand: the resolved kit, the grid, the type, the drawing style, the papers."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.figure import Colour
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle, Palette, palette_from_accent
from booklet.kit.kit import Kit
from booklet.measure.length import Unit
from booklet.pages.grid import GRIDS, Grid, TypeSizes
from booklet.pages.type import Styles, make_styles
from booklet.placing.resolved import ResolvedKit


@dataclass(frozen=True, eq=False)
class Book:
    """Everything that is settled before the first page is laid; `scale` is the sheets' drawing scale.

    Two are equal only if they are one, so that what is drawn for a book can be kept by it.
    """

    resolved: ResolvedKit
    grid: Grid
    palette: Palette
    sizes: TypeSizes
    styles: Styles
    drawing: DrawingStyle
    papers: KitPapers
    scale: Scale

    @property
    def kit(self) -> Kit:
        """The kit."""
        return self.resolved.kit

    @property
    def unit(self) -> Unit:
        """The kit's unit, in which all its lengths are."""
        return self.resolved.kit.unit


def open_book(resolved: ResolvedKit, scale: Scale) -> Book:
    """Settle the look of a kit's booklet from its accent colour and its page format."""
    palette = palette_from_accent(Colour(resolved.kit.accent))
    sizes = TypeSizes()
    return Book(
        resolved=resolved,
        grid=GRIDS[resolved.kit.page],
        palette=palette,
        sizes=sizes,
        styles=make_styles(palette, sizes),
        drawing=DrawingStyle(palette=palette),
        papers=KitPapers(resolved.kit, resolved.folder),
        scale=scale,
    )
