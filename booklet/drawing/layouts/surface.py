"""What is seen where on a finished layout, as cells of a grid: by these the numbers find their places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import ceil, floor
from typing import TYPE_CHECKING

from booklet.drawing.layouts.ring_question import RingQuestion
from booklet.drawing.shapes.affine import Point
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Cells = NDArray[np.bool_]
    Weights = NDArray[np.float64]
    # Rows and columns of a part of the page.
    Window = tuple[slice, slice]

CELL = 1.0


@dataclass(frozen=True)
class Footprint:
    """Some cells of a page: those that are true of a window of it, and none beyond."""

    window: Window
    cells: Cells

    def holds(self, row: int, column: int) -> bool:
        """Whether a cell of the page is one of them."""
        rows, columns = self.window
        is_within = rows.start <= row < rows.stop and columns.start <= column < columns.stop
        return is_within and bool(self.cells[row - rows.start, column - columns.start])

    def over(self, window: Window) -> Cells:
        """The cells of another window, true where they are of these."""
        import numpy as np

        cells = np.zeros([part.stop - part.start for part in window], bool)
        add(cells, window, self)
        return cells


@dataclass(frozen=True)
class Surface:
    """A page in cells of `CELL` points, row by row from its top left; `shape` is how many rows and columns.

    `seen` holds for each item, and for the base (0), the cells of it that nothing covers; `whole` all cells
    of it.  `artwork` are the cells of printed words and pictures and of bows, `faces` the middles of
    photographs, as far as they are seen.
    """

    shape: tuple[int, int]
    seen: Mapping[int, Footprint]
    whole: Mapping[int, Footprint]
    artwork: Cells
    faces: Cells


def surface_of(question: RingQuestion) -> Surface:
    """The cells of a layout's items as they lie in the end."""
    import numpy as np

    page = question.page
    shape = max(1, round(page.height / CELL)), max(1, round(page.width / CELL))
    page_window = everywhere(shape)
    whole = {item.id: cells_within(item.outline, page_window) for item in question.items}
    artwork, faces, covered, laid = (np.zeros(shape, bool) for _ in range(4))
    seen: dict[int, Footprint] = {}
    for item in reversed(question.items):
        window, cells = whole[item.id].window, whole[item.id].cells
        shown = cells & ~covered[window]
        seen[item.id] = Footprint(window, shown)
        for field, outlines in ((artwork, item.artwork), (faces, item.faces)):
            for outline in outlines:
                field[window] |= cells_within(outline, window).over(window) & shown
        if item.is_bow:
            artwork[window] |= shown
        if item.covers:
            covered[window] |= cells
        laid[window] |= cells
    whole[question.base] = Footprint(page_window, np.ones(shape, bool))
    seen[question.base] = Footprint(page_window, ~laid)
    return Surface(shape, seen, whole, artwork, faces)


def add(cells: Cells, window: Window, footprint: Footprint) -> None:
    """Make those cells of a window true that are of a footprint."""
    both = overlap(window, footprint.window)
    cells[within(both, window)] |= footprint.cells[within(both, footprint.window)]


def meet(one: Footprint, other: Footprint) -> bool:
    """Whether two footprints have a cell in common."""
    rows, columns = both = overlap(one.window, other.window)
    if rows.start == rows.stop or columns.start == columns.stop:
        return False
    return bool((one.cells[within(both, one.window)] & other.cells[within(both, other.window)]).any())


def union(footprints: Sequence[Footprint]) -> Footprint:
    """The cells of any of one or more footprints."""
    import numpy as np

    rows, columns = (
        slice(min(part.start for part in parts), max(part.stop for part in parts))
        for parts in zip(*(each.window for each in footprints), strict=True)
    )
    cells = np.zeros((rows.stop - rows.start, columns.stop - columns.start), bool)
    for each in footprints:
        add(cells, (rows, columns), each)
    return Footprint((rows, columns), cells)


def window_of(cells: Cells) -> Window:
    """The least window that holds some cells; an empty one where there are none."""
    import numpy as np

    found = (np.flatnonzero(cells.any(axis=1 - axis)) for axis in range(2))
    rows, columns = (slice(int(at[0]), int(at[-1]) + 1) if len(at) else slice(0, 0) for at in found)
    return rows, columns


def trimmed(footprint: Footprint) -> Footprint:
    """The same cells in the least window that holds them."""
    least = window_of(footprint.cells)
    rows, columns = (
        slice(whole.start + part.start, whole.start + part.stop)
        for whole, part in zip(footprint.window, least, strict=True)
    )
    return Footprint((rows, columns), footprint.cells[least])


def grown(window: Window, reach: int, shape: tuple[int, int]) -> Window:
    """A window that reaches so many cells further on all sides, as far as there are any."""
    rows, columns = (
        slice(max(0, part.start - reach), min(count, part.stop + reach))
        for part, count in zip(window, shape, strict=True)
    )
    return rows, columns


def within(window: Window, around: Window) -> Window:
    """A window as it lies in one around it."""
    return _as_within(window[0], around[0]), _as_within(window[1], around[1])


def _as_within(part: slice, around: slice) -> slice:
    return slice(part.start - around.start, part.stop - around.start)


def overlap(one: Window, other: Window) -> Window:
    """The window in which two overlap; an empty one within the first where they do not."""
    return _shared(one[0], other[0]), _shared(one[1], other[1])


def _shared(one: slice, other: slice) -> slice:
    start = min(max(one.start, other.start), one.stop)
    return slice(start, max(start, min(one.stop, other.stop)))


def everywhere(shape: tuple[int, int]) -> Window:
    """The window that is the whole page."""
    return slice(0, shape[0]), slice(0, shape[1])


def cells_within(outline: Sequence[Point], window: Window) -> Footprint:
    """The cells of a window whose middles lie within an outline, by the even-odd rule."""
    import numpy as np

    # Beyond the outline each row is crossed as often on one side as on the other: nothing lies within.
    rows, columns = overlap(window, _reached(outline))
    inside = np.zeros((rows.stop - rows.start, columns.stop - columns.start), bool)
    xs, ys = ((np.arange(part.start, part.stop) + 0.5) * CELL for part in (columns, rows))
    for (x0, y0), (x1, y1) in pairwise((*outline, outline[0])):
        if y0 == y1:
            continue
        crossed = (y0 <= ys) != (y1 <= ys)
        at = x0 + (ys[crossed] - y0) * ((x1 - x0) / (y1 - y0))
        inside[crossed] ^= xs < at[:, None]
    return Footprint((rows, columns), inside)


def _reached(outline: Sequence[Point]) -> Window:
    """The cells to which an outline reaches, with one more on each side; they may lie beyond the page."""
    rows, columns = (
        slice(floor(min(along) / CELL) - 1, ceil(max(along) / CELL) + 1)
        for along in ([y for _, y in outline], [x for x, _ in outline])
    )
    return rows, columns


def window_sums(field: Weights | Cells, half: int, across: int | None = None) -> Weights:
    """For each cell the sum over the cells about it that reach `half` up and down, `across` to both sides.

    That is as far to the sides as up and down unless said.  What lies beyond the page counts nothing.
    """
    import numpy as np

    across = half if across is None else across
    high, wide = 2 * half + 1, 2 * across + 1
    rows, columns = field.shape
    # Cells are counted in whole numbers, which are summed faster.
    total = np.zeros((rows + high, columns + wide), np.int32 if field.dtype == bool else np.float64)
    total[half + 1 : half + 1 + rows, across + 1 : across + 1 + columns] = field
    np.cumsum(total, axis=0, out=total)
    down = total[high:] - total[:-high]
    np.cumsum(down, axis=1, out=down)
    sums: Weights = down[:, wide:] - down[:, :-wide]
    return sums


def sums_about(field: Cells, half: int, across: int | None = None) -> Weights:
    """What `window_sums` gives, for a field that is true in a small part of the page."""
    import numpy as np

    about = grown(window_of(field), max(half, across or 0), field.shape)
    sums = np.zeros(field.shape)
    sums[about] = window_sums(field[about], half, across)
    return sums


# An octagon in a circle of radius 1, as rectangles about its middle: half their heights and widths.
_OCTAGON = ((0.38, 0.92), (0.71, 0.71), (0.92, 0.38))


def touching(field: Cells, reach: float) -> Cells:
    """The cells about which a disc of a radius in points touches the field."""
    import numpy as np

    halves = [(round(high * reach / CELL), round(wide * reach / CELL)) for high, wide in _OCTAGON]
    touched: Cells = np.any([sums_about(field, *half) > 0.5 for half in halves], axis=0)
    return touched


def distances(point: Point, window: Window) -> Weights:
    """How far the middle of each cell of a window is from a point, in points."""
    import numpy as np

    rows, columns = ((np.arange(part.start, part.stop) + 0.5) * CELL for part in window)
    across, down = columns - point[0], rows - point[1]
    away: Weights = np.sqrt((across * across)[None, :] + (down * down)[:, None])
    return away


def cells_near(start: Point, end: Point, reach: float, shape: tuple[int, int]) -> Footprint:
    """The cells of a page whose middles are nearer than `reach` to the straight line between two points."""
    import numpy as np

    (x0, y0), (x1, y1) = start, end
    about = _reached([(x + way * reach, y + way * reach) for x, y in (start, end) for way in (-1, 1)])
    rows, columns = overlap(everywhere(shape), about)
    x, y = ((np.arange(part.start, part.stop) + 0.5) * CELL for part in (columns, rows))
    x, y = (x - x0)[None, :], (y - y0)[:, None]
    across, down = x1 - x0, y1 - y0
    square = across * across + down * down
    share = np.clip((x * across + y * down) / square, 0.0, 1.0) if square else 0.0
    return Footprint((rows, columns), np.hypot(x - share * across, y - share * down) < reach)


def block(cells: Cells, start: Point, end: Point, reach: float) -> None:
    """Take out of `cells` those nearer than `reach` to the straight line between two points."""
    near = cells_near(start, end, reach, cells.shape)
    cells[near.window] &= ~near.cells


def middle_of(row: int, column: int) -> Point:
    """The middle of a cell, in points."""
    return (column + 0.5) * CELL, (row + 0.5) * CELL


def cells_along(start: Point, end: Point, shape: tuple[int, ...]) -> Iterator[tuple[int, int]]:
    """The cells at about every point of a straight line that lie on a page of so many rows and columns."""
    rows, columns = shape
    (x0, y0), (x1, y1) = start, end
    steps = max(1, round(max(abs(x1 - x0), abs(y1 - y0)) / CELL))
    for at in range(steps + 1):
        row = int((y0 + (y1 - y0) * at / steps) // CELL)
        column = int((x0 + (x1 - x0) * at / steps) // CELL)
        if 0 <= row < rows and 0 <= column < columns:
            yield row, column
