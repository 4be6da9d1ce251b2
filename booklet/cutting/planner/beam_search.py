"""A good pattern quickly, by beam search: for every bundle the few boxes with least scrap, joined two by two.

Two boxes side by side leave no scrap if they are of one height, else one rectangle of it above the lower one;
likewise when stacked.  Any edge-to-edge pattern can be had by such joins without more scrap, so with all
boxes kept this would find the fewest cuts; with a beam of boxes for each bundle it finds few, and quickly.

A piece that wants an edge of the sheet wants that edge of every box that holds it.  So two boxes that want
the same edge are not joined across it, and a box that wants two opposite edges is as long as the sheet.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.cutting.planner.patterns import PatternLeaf, PatternNode, join_parts
from booklet.cutting.planner.regions import BOTTOM, LEFT, RIGHT, TOP, Search, split_rows
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

# The most joins tried in all; the most and fewest boxes kept of one bundle, the width of the beam.
_JOINS = 8_000_000
_MOST, _LEAST = 48, 3

_SIDES, _ENDS = LEFT | RIGHT, TOP | BOTTOM


@dataclass(frozen=True)
class _Boxes:
    """The boxes of all bundles of a table, one row each: sides, rectangles of scrap, and origin.

    A box that is not there has sides larger than any sheet.  A box came about by an upright join (1) or a
    level one (0) of box `joins[..., 2]` of row `joins[..., 1]` and box `joins[..., 4]` of row
    `joins[..., 3]`; a piece by none (-1).  `wants` are the edges that each bundle wants, as bits.
    """

    wide: Ints
    tall: Ints
    scrap: Ints
    joins: Ints
    wants: Ints


def beam_search(search: Search, width: int, height: int) -> PatternNode:
    """A pattern of few cuts for all pieces of the table on a sheet that they fit.

    Raises `OutOfEffortError` if the effort runs out, LookupError if no box of all pieces stays in the beam.
    """
    import numpy as np

    table = search.table
    sizes = np.array([table.fields.size(int(code)) for code in table.codes])
    pairs = sum(len(split_rows(search, int(code))[0]) for code in table.codes)
    kept = max(_LEAST, min(_MOST, int((_JOINS // 2 // max(pairs, 1)) ** 0.5)))
    wants = np.array([search.wants(int(code)) for code in table.codes])
    boxes = _no_boxes(wants, kept, 2 * (width + height))
    for row in np.argsort(sizes, kind="stable").tolist():
        if sizes[row] == 1:
            _put_piece(search, boxes, row, (width, height))
        else:
            _put_joins(search, boxes, row, (width, height))
    whole = table.row(table.fields.whole)
    if whole is None:
        raise LookupError("the table has no box of all pieces")
    there = np.flatnonzero(boxes.wide[whole] <= width)
    if not len(there):
        raise LookupError("no box of all pieces is in the beam")
    wide, tall = boxes.wide[whole, there], boxes.tall[whole, there]
    scrap = boxes.scrap[whole, there] + (wide < width) + (tall < height)
    best = int(there[np.lexsort((wide * tall, scrap))[0]])
    return _padded(_pattern(search, boxes, whole, best), width, height, int(wants[whole]))


def _both(wants: int, edges: int) -> bool:
    return wants & edges == edges


def _no_boxes(wants: Ints, kept: int, far: int) -> _Boxes:
    import numpy as np

    wide, tall = (np.full((len(wants), kept), far, np.int64) for _ in range(2))
    return _Boxes(wide, tall, np.zeros_like(wide), np.full((len(wants), kept, 5), -1, np.int64), wants)


def _put_piece(search: Search, boxes: _Boxes, row: int, sheet: tuple[int, int]) -> None:
    kind, _ = next(search.table.fields.members(int(search.table.codes[row])))
    wants = int(boxes.wants[row])
    for at, (wide, tall) in enumerate(search.table.fields.kinds[kind].orientations):
        if (wide == sheet[0] or not _both(wants, _SIDES)) and (tall == sheet[1] or not _both(wants, _ENDS)):
            boxes.wide[row, at], boxes.tall[row, at] = wide, tall


def _put_joins(search: Search, boxes: _Boxes, row: int, sheet: tuple[int, int]) -> None:
    """Keep the best joins of all two halves of a bundle: least scrap first, then least area."""
    import numpy as np

    halves = split_rows(search, int(search.table.codes[row]))
    wide, tall, scrap = _all_joins(boxes, row, halves, sheet)
    search.effort.spend(1 + len(wide) // 1000)
    fit = np.flatnonzero((wide <= sheet[0]) & (tall <= sheet[1]))
    worth = scrap[fit] * (sheet[0] * sheet[1] + 1) + wide[fit] * tall[fit]
    kept = boxes.wide.shape[1]
    if len(fit) > kept * 8:
        near = np.sort(np.argpartition(worth, kept * 8)[: kept * 8])
        fit, worth = fit[near], worth[near]
    fit = fit[np.argsort(worth, kind="stable")]
    _, first = np.unique(wide[fit] * (sheet[1] + 1) + tall[fit], return_index=True)
    fit = fit[np.sort(first)[:kept]]
    number = len(fit)
    boxes.wide[row, :number], boxes.tall[row, :number] = wide[fit], tall[fit]
    boxes.scrap[row, :number] = scrap[fit]
    boxes.joins[row, :number] = _origins(fit, halves, kept)


def _all_joins(
    boxes: _Boxes, row: int, halves: tuple[Ints, Ints], sheet: tuple[int, int]
) -> tuple[Ints, Ints, Ints]:
    """Each box of each half with each of the other half: first all side by side, then all stacked."""
    import numpy as np

    wants = int(boxes.wants[row])
    full = (sheet[0] if _both(wants, _SIDES) else 0, sheet[1] if _both(wants, _ENDS) else 0)
    wide, tall, scrap = _joins_along(boxes, halves, (boxes.wide, boxes.tall), full, _SIDES, sum(sheet))
    tall_too, wide_too, scrap_too = _joins_along(
        boxes, halves, (boxes.tall, boxes.wide), full[::-1], _ENDS, sum(sheet)
    )
    return (
        np.concatenate([wide, wide_too]),
        np.concatenate([tall, tall_too]),
        np.concatenate([scrap, scrap_too]),
    )


def _joins_along(
    boxes: _Boxes,
    halves: tuple[Ints, Ints],
    sides: tuple[Ints, Ints],
    full: tuple[int, int],
    edges: int,
    far: int,
) -> tuple[Ints, Ints, Ints]:
    """Joins in one direction: lengths along it, breadths across it, scrap.

    `full` are the length and the breadth that the joined box must have at least, for its edges' sake; `edges`
    are the two edges across the direction, at the ends of the joined box.
    """
    import numpy as np

    parts, rests = halves
    length = sides[0][parts][:, :, None] + sides[0][rests][:, None, :]
    one, other = sides[1][parts][:, :, None], sides[1][rests][:, None, :]
    breadth = np.maximum(np.maximum(one, other), full[1])
    scrap = boxes.scrap[parts][:, :, None] + boxes.scrap[rests][:, None, :]
    scrap = scrap + (one < breadth) + (other < breadth) + (length < full[0])
    wants, wants_too = boxes.wants[parts], boxes.wants[rests]
    clash = (wants & wants_too & edges != 0) | (wants & edges == edges) | (wants_too & edges == edges)
    # An impossible join is made `far` longer, and so longer than the sheet.
    length = np.maximum(length, full[0]) + (clash * far)[:, None, None]
    return length.ravel(), breadth.ravel(), scrap.ravel()


def _origins(fit: Ints, halves: tuple[Ints, Ints], kept: int) -> Ints:
    """From places in the list of all joins: direction, row and box of the one half, and of the other."""
    import numpy as np

    each = len(halves[0]) * kept * kept
    pair, first, second = np.unravel_index(fit % max(each, 1), (len(halves[0]), kept, kept))
    upright = (fit < each).astype(np.int64)
    return np.stack([upright, halves[0][pair], first, halves[1][pair], second], axis=1)


def _pattern(search: Search, boxes: _Boxes, row: int, at: int) -> PatternNode:
    wide, tall = int(boxes.wide[row, at]), int(boxes.tall[row, at])
    upright, part, first, rest, second = (int(number) for number in boxes.joins[row, at])
    if part < 0:
        kind, _ = next(search.table.fields.members(int(search.table.codes[row])))
        return PatternLeaf(wide, tall, kind)
    halves = [
        (_pattern(search, boxes, half, box), int(boxes.wants[half]))
        for half, box in ((part, first), (rest, second))
    ]
    if halves[0][1] & (RIGHT if upright else BOTTOM) or halves[1][1] & (LEFT if upright else TOP):
        halves.reverse()
    if upright:
        parts = [_padded(half, half.width, tall, wants) for half, wants in halves]
        gap = PatternLeaf(wide - parts[0].width - parts[1].width, tall, None)
    else:
        parts = [_padded(half, wide, half.height, wants) for half, wants in halves]
        gap = PatternLeaf(wide, tall - parts[0].height - parts[1].height, None)
    between = [gap] if gap.width and gap.height else []
    return join_parts(bool(upright), (parts[0], *between, parts[1]))


def _padded(node: PatternNode, width: int, height: int, wants: int) -> PatternNode:
    """The rectangle with scrap beside it and above or below, the larger strip uncut."""
    if (width - node.width) * height >= (height - node.height) * width:
        return _widened(_heightened(node, height, wants), width, wants)
    return _heightened(_widened(node, width, wants), height, wants)


def _widened(node: PatternNode, width: int, wants: int) -> PatternNode:
    if node.width == width:
        return node
    scrap = PatternLeaf(width - node.width, node.height, None)
    return join_parts(True, (scrap, node) if wants & RIGHT else (node, scrap))


def _heightened(node: PatternNode, height: int, wants: int) -> PatternNode:
    if node.height == height:
        return node
    scrap = PatternLeaf(node.width, height - node.height, None)
    return join_parts(False, (scrap, node) if wants & BOTTOM else (node, scrap))
