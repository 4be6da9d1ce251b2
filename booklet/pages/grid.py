"""The page: its trimmed size, its margins, and what stands in them."""

from __future__ import annotations

from booklet.drawing.shapes.style import mm
from booklet.kit.kit import PageFormat
from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class Grid:
    """A page in points: trimmed size and margins; `inner` is the margin at the fold.

    The type area hangs from the top margin; the folio stands in the bottom one, the mark of a sheet or a
    pocket in the outer one.
    """

    width: float
    height: float
    inner: float
    outer: float
    top: float
    bottom: float

    @property
    def text_width(self) -> float:
        """The width of the type area."""
        return self.width - self.inner - self.outer

    @property
    def text_height(self) -> float:
        """The height of the type area."""
        return self.height - self.top - self.bottom

    def left(self, number: int) -> float:
        """Where the type area begins on a page: odd pages lie to the right of the fold."""
        return self.inner if number % 2 else self.outer


# Letter is 8 1/2 x 11 in (ASME Y14.1, A) and half letter 5 1/2 x 8 1/2 in; A4 is 210 x 297 mm and A5
# 148 x 210 mm (ISO 216).
GRIDS = {
    PageFormat.HALF_LETTER: Grid(396.0, 612.0, inner=36.0, outer=31.0, top=29.0, bottom=34.0),
    PageFormat.A5: Grid(mm(148), mm(210), inner=36.0, outer=32.0, top=27.0, bottom=32.0),
    PageFormat.LETTER: Grid(612.0, 792.0, inner=54.0, outer=46.0, top=40.0, bottom=46.0),
    PageFormat.A4: Grid(mm(210), mm(297), inner=52.0, outer=44.0, top=42.0, bottom=48.0),
    PageFormat.SQUARE_6_IN: Grid(432.0, 432.0, inner=36.0, outer=31.0, top=27.0, bottom=32.0),
    PageFormat.SQUARE_15_CM: Grid(mm(150), mm(150), inner=34.0, outer=31.0, top=26.0, bottom=31.0),
}
