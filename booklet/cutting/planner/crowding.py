"""Boxes that leave the other pieces no room: beside them on the sheet, or within what is left of it.

An edge-to-edge cut parts a box from any other piece.  A piece too wide to lie beside one lies above or below
it then, in rows of the sheet that the box does not touch.  All such pieces together need area enough in those
rows, and those wider than half the sheet lie one above the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from booklet.cutting.planner.kinds import Fields, PieceKind
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Codes = NDArray[np.int64]
    Rows = NDArray[np.unsignedinteger]


# Longer than any sheet, so that a piece that does not fit at all counts for more than there is.
_FAR = 1 << 17


@dataclass(frozen=True)
class BesideLimits:
    """What pieces of each kind need that cannot lie beside a box: of more kinds, the broader the box.

    `kinds` are the numbers of the kinds in the order in which they come to it; `beside` how many of them do,
    for boxes of each width.  Of each of them `areas` in square grid units, `lengths` the least length of one
    piece along the other direction, `piled` that of one that can have no other beside it, or 0.  `breadth`
    and `length` are the sheet's.
    """

    breadth: int
    length: int
    kinds: Codes
    beside: Codes
    areas: Codes
    lengths: Codes
    piled: Codes


def beside_limits(
    kinds: Sequence[PieceKind], size: tuple[int, int], places: Codes, upright: bool
) -> BesideLimits:
    """The limits for boxes as broad as one of the places: widths where `upright` is False, else heights."""
    import numpy as np

    breadth, length = size[::-1] if upright else size
    rows: list[tuple[int, int, int, int]] = []
    for kind in kinds:
        lies = [(h, w) if upright else (w, h) for w, h in kind.orientations if w <= size[0] and h <= size[1]]
        beyond = breadth - min((across for across, _ in lies), default=breadth + 1)
        along = min((long for _, long in lies), default=length + 1)
        alone = all(2 * across > breadth for across, _ in lies)
        rows.append((beyond, kind.area, along, along if alone else 0))
    beyond, *needed = np.array(rows, np.int64).T
    order = np.argsort(beyond, kind="stable")
    beside = np.searchsorted(beyond[order], places)
    return BesideLimits(breadth, length, order, beside, *(each[order] for each in needed))


def most_beside(fields: Fields, limits: BesideLimits, codes: Codes) -> Codes:
    """The longest that a box of each bundle may be at each breadth, so that all other pieces have room."""
    import numpy as np

    left = pieces_left(fields, codes)[:, limits.kinds]
    # What the first of the kinds need, what the first two do, and so on; nothing before them.
    needed: Codes = np.zeros((len(codes), len(limits.kinds) + 1), np.int64)
    areas, piled = (left * limits.areas).cumsum(axis=1), (left * limits.piled).cumsum(axis=1)
    one = np.maximum.accumulate(limits.lengths * (left > 0), axis=1)
    np.maximum(-(-areas // limits.breadth), np.maximum(piled, one), out=needed[:, 1:])
    longest: Codes = (limits.length - needed)[:, limits.beside]
    return longest


def pieces_left(fields: Fields, codes: Codes) -> Codes:
    """How many of each kind are not in a bundle: a row for each bundle."""
    import numpy as np

    units, masks = np.array(fields.units, np.int64), np.array(fields.masks, np.int64)
    counts = np.array([kind.count for kind in fields.kinds], np.int64)
    left: Codes = counts - (codes[:, None] & masks) // units
    return left


def is_crowded(
    kinds: Sequence[PieceKind], left: Codes, wide: NDArray[np.signedinteger], tall: NDArray[np.signedinteger]
) -> NDArray[np.bool_]:
    """Whether the pieces left cannot all lie in a remainder: a row for each bundle, remainders in columns.

    One may be too long, or those of more than half its height too wide side by side, or the like across.
    """
    import numpy as np

    wide, tall = np.broadcast_arrays(wide, tall)
    side_by_side, stacked = np.zeros(wide.shape, np.int32), np.zeros(wide.shape, np.int32)
    for at, kind in enumerate(kinds):
        widths, heights = np.full(wide.shape, _FAR, np.int32), np.full(wide.shape, _FAR, np.int32)
        for width, height in kind.orientations:
            fits = (width <= wide) & (height <= tall)
            np.minimum(widths, np.where(2 * height > tall, width, 0), out=widths, where=fits)
            np.minimum(heights, np.where(2 * width > wide, height, 0), out=heights, where=fits)
        number = left[:, at : at + 1].astype(np.int32)
        side_by_side += widths * number
        stacked += heights * number
    crowded: NDArray[np.bool_] = (side_by_side > wide) | (stacked > tall)
    return crowded
