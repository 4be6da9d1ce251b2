"""Room for words among the lines of a template: found on a grid of cells, never on a line or other words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil, hypot, sqrt
from typing import TYPE_CHECKING

from booklet.drawing.layouts.surface import block, cells_within, everywhere, window_of, window_sums
from booklet.drawing.shapes.affine import Box, Point, box_about

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Cells = NDArray[np.bool_]

# The side of a cell in points: words stand to within it as near to a line as they may.  A very large template
# has larger ones, so that there are no more than so many.
_CELL, _MOST_CELLS = 2.0, 1_000_000
# Words among many lines keep so far off them, in points.
_CLEAR = 1.5
# Places that are tried for words on a leader, every so many of the free cells, and points of the thing.
_STRIDE, _TRIED, _ENDS = 3, 400, 160


class LabelField:
    """What is free on a template of a size in points; words keep `clear` points off all lines."""

    def __init__(self, width: float, height: float, clear: float = _CLEAR) -> None:
        import numpy as np

        self._clear = clear
        self._cell = max(_CELL, sqrt(width * height / _MOST_CELLS))
        self.shape = max(1, ceil(height / self._cell)), max(1, ceil(width / self._cell))
        self._free: Cells = np.ones(self.shape, bool)
        self._words: list[Box] = []

    def keep_off(self, lines: Iterable[tuple[Point, Point]]) -> None:
        """Let no words touch these lines."""
        for start, end in lines:
            block(
                self._free, self._small(start), self._small(end), (self._clear + self._cell / 2) / self._cell
            )

    def keep_off_box(self, box: Box) -> None:
        """Let no words touch this box."""
        rows, columns = self.shape
        top, bottom = max(0, int(box.top / self._cell)), min(rows, ceil(box.bottom / self._cell))
        left, right = max(0, int(box.left / self._cell)), min(columns, ceil(box.right / self._cell))
        self._free[top:bottom, left:right] = False

    def cells(self, outlines: Iterable[Sequence[Point]]) -> Cells:
        """The cells within any of these outlines."""
        import numpy as np

        found = np.zeros(self.shape, bool)
        for outline in outlines:
            part = cells_within([self._small(point) for point in outline], everywhere(self.shape))
            found[part.window] |= part.cells
        return found

    def within(self, width: float, height: float, room: Cells) -> Box | None:
        """A box of words within a room, as near to the middle of the room as can be; taken then."""
        import numpy as np

        half_wide, half_high = self._halves(width, height)
        # Words within a room lie in the window about it.
        window = window_of(room)
        open_cells = self._free[window] & room[window]
        fits = window_sums(~open_cells, half_high, half_wide) < 0.5
        fits &= _inner(open_cells.shape, half_high, half_wide)
        if not fits.any():
            return None
        rows, columns = np.nonzero(room)
        row, column = (at + part.start for at, part in zip(np.nonzero(fits), window, strict=True))
        away = np.hypot(row - rows.mean(), column - columns.mean())
        at = int(np.argmin(np.round(away, 6)))
        return self._take(int(row[at]), int(column[at]), width, height)

    def beside(self, width: float, height: float, thing: Cells) -> tuple[Box, tuple[Point, Point]] | None:
        """The nearest free box for words, taken then, and a leader from it to a point of the thing."""
        import numpy as np

        half_wide, half_high = self._halves(width, height)
        fits = window_sums(~self._free, half_high, half_wide) < 0.5
        fits &= _inner(self.shape, half_high, half_wide)
        fits &= window_sums(thing, half_high, half_wide) < 0.5
        row, column = (each[::_STRIDE] for each in np.nonzero(fits))
        # A leader ends well within its thing, where that is wide enough.
        deep = window_sums(thing, 1) > 8.5
        ends = np.argwhere(deep if deep.any() else thing)
        ends = ends[:: max(1, len(ends) // _ENDS)]
        if not len(row) or not len(ends):
            return None
        down = np.maximum(np.abs(row[:, None] - ends[None, :, 0]) - half_high, 0)
        across = np.maximum(np.abs(column[:, None] - ends[None, :, 1]) - half_wide, 0)
        away = np.hypot(down, across)
        nearest = away.min(axis=1)
        for at in np.argsort(np.round(nearest, 6), kind="stable")[:_TRIED].tolist():
            end_row, end_column = ends[int(np.argmin(away[at]))].tolist()
            box = box_about(self._middle(int(row[at]), int(column[at])), width, height)
            end = self._middle(end_row, end_column)
            leader = _on_edge(box.grown(1.0), end), end
            if not any(_meets(leader, other) for other in self._words):
                self._take(int(row[at]), int(column[at]), width, height)
                self.keep_off([leader])
                return box, leader
        return None

    def _take(self, row: int, column: int, width: float, height: float) -> Box:
        box = box_about(self._middle(row, column), width, height)
        self._words.append(box)
        self.keep_off_box(box.grown(self._clear))
        return box

    def _small(self, point: Point) -> Point:
        """A point in cells."""
        return point[0] / self._cell, point[1] / self._cell

    def _middle(self, row: int, column: int) -> Point:
        return (column + 0.5) * self._cell, (row + 0.5) * self._cell

    def _halves(self, width: float, height: float) -> tuple[int, int]:
        """How many cells a box reaches from the one in its middle to the sides, and up and down."""
        across, down = (max(0, ceil(side / 2 / self._cell - 0.5)) for side in (width, height))
        return across, down


def _inner(shape: tuple[int, int], half_high: int, half_wide: int) -> Cells:
    """The cells about which a box does not reach beyond the template."""
    import numpy as np

    inner = np.zeros(shape, bool)
    inner[
        half_high : max(half_high, shape[0] - half_high), half_wide : max(half_wide, shape[1] - half_wide)
    ] = True
    return inner


def _on_edge(box: Box, point: Point) -> Point:
    """The point of a box that is nearest to another point."""
    return min(max(point[0], box.left), box.right), min(max(point[1], box.top), box.bottom)


def _meets(leader: tuple[Point, Point], box: Box) -> bool:
    return any(box.left < x < box.right and box.top < y < box.bottom for x, y in _steps(*leader))


def _steps(start: Point, end: Point) -> Iterator[Point]:
    count = max(1, ceil(hypot(end[0] - start[0], end[1] - start[1])))
    for at in range(count + 1):
        yield start[0] + (end[0] - start[0]) * at / count, start[1] + (end[1] - start[1]) * at / count
