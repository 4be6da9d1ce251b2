"""A drawing at true size over as many pages as it needs: which part of it each page shows.

All is exact, in points, of which an inch has 72.  Pages overlap, so that they can be joined.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import product

from booklet.cutting.labels import letter
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit
from booklet.pages.office_paper import WHITE_EDGE, OfficePaper

# A template fills what the printer reaches.
MARGIN = WHITE_EDGE
# How far pages that are joined overlap, 10 mm (common practice, no source).
OVERLAP = 10 * Unit.MILLIMETRE.points
# At the foot of each page, for its name, its scale and its plan.
FOOT = Fraction(94)


@dataclass(frozen=True)
class Tile:
    """A page's part of a drawing: its row and column, counted from 0, and what it shows of the drawing.

    Where a drawing does not fill its pages, some of a window lies beyond it.
    """

    row: int
    column: int
    window: ExactRect

    @property
    def name(self) -> str:
        """The row by its letter and the column by its number: `B2`."""
        return f"{letter(self.row)}{self.column + 1}"


@dataclass(frozen=True)
class Seam:
    """What two neighbouring pages both show, the first at the left or above."""

    first: Tile
    second: Tile
    shared: ExactRect

    @property
    def is_upright(self) -> bool:
        """Whether the pages lie side by side."""
        return self.first.row == self.second.row


@dataclass(frozen=True)
class Tiling:
    """A drawing in rows and columns of pages of one size, its middle in the middle of them all."""

    page: Size
    size: Size
    rows: int
    columns: int

    @property
    def window(self) -> Size:
        """How much of the drawing a page shows."""
        return window_of(self.page)

    @property
    def count(self) -> int:
        """How many pages it takes."""
        return self.rows * self.columns

    @cached_property
    def whole(self) -> ExactRect:
        """What all pages together show: the drawing in the middle of it."""
        window = self.window
        width = self.columns * (window.width - OVERLAP) + OVERLAP
        height = self.rows * (window.height - OVERLAP) + OVERLAP
        return ExactRect((self.size.width - width) / 2, (self.size.height - height) / 2, width, height)

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """The pages, row by row."""
        return tuple(
            self._tile(row, column) for row, column in product(range(self.rows), range(self.columns))
        )

    def _tile(self, row: int, column: int) -> Tile:
        window = self.window
        x = self.whole.x + column * (window.width - OVERLAP)
        y = self.whole.y + row * (window.height - OVERLAP)
        return Tile(row, column, ExactRect(x, y, window.width, window.height))

    @cached_property
    def seams(self) -> tuple[Seam, ...]:
        """Where pages are joined: each to the one at its right, and to the one below it."""
        return tuple(self._seams())

    def _seams(self) -> Iterator[Seam]:
        for tile in self.tiles:
            right, below = (tile.row, tile.column + 1), (tile.row + 1, tile.column)
            for row, column in (right, below):
                if row < self.rows and column < self.columns:
                    other = self.tiles[row * self.columns + column]
                    yield Seam(tile, other, _shared(tile.window, other.window))


def _shared(one: ExactRect, other: ExactRect) -> ExactRect:
    x, y = max(one.x, other.x), max(one.y, other.y)
    return ExactRect(x, y, min(one.right, other.right) - x, min(one.bottom, other.bottom) - y)


def window_of(page: Size) -> Size:
    """How much of a drawing a page of a size shows: what its printer reaches, but for the foot."""
    return Size(page.width - 2 * MARGIN, page.height - 2 * MARGIN - FOOT)


def tile(size: Size, paper: OfficePaper) -> Tiling:
    """A drawing of a size on the fewest pages of a paper, upright unless fewer do it lying on their sides."""
    upright = paper.upright
    return min((_tiled(size, page) for page in (upright, upright.turned)), key=lambda tiling: tiling.count)


def _tiled(size: Size, page: Size) -> Tiling:
    window = window_of(page)
    return Tiling(page, size, _needed(size.height, window.height), _needed(size.width, window.width))


def _needed(length: Fraction, window: Fraction) -> int:
    """The fewest windows that cover a length, each overlapping the next."""
    return max(1, -int((OVERLAP - length) // (window - OVERLAP)))
