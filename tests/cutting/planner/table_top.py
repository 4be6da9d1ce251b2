"""A paper sheet as squares in a grid, cut and turned by hand: plans are carried out without the planner."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from booklet.cutting.planner import PlannedStep
from booklet.kit.fields import Turn
from booklet.measure.length import Size

Squares: TypeAlias = NDArray[np.int64]


def paper(size: Size) -> Squares:
    """A square for every unit, each knowing its column and row on the front."""
    rows, columns = np.mgrid[0 : int(size.height), 0 : int(size.width)]
    return np.dstack([columns, rows])


def cut(steps: Sequence[PlannedStep], size: Size) -> list[tuple[str, Squares]]:
    """What the steps leave on the table: names with their squares, as they lie."""
    table = [("the sheet", paper(size))]
    for step in steps:
        for name in step.take or ("the sheet",):
            at = next(i for i, (there, _) in enumerate(table) if there == name)
            _, squares = table.pop(at)
            turns = {None: 0, Turn.CLOCKWISE: -1, Turn.ANTICLOCKWISE: 1}[step.turn]
            squares = np.rot90(squares, turns)
            assert list(step.at) == sorted(step.at, reverse=True)
            cuts = [int(reading) for reading in reversed(step.at)]
            assert all(0 < reading < squares.shape[1] for reading in cuts)
            strips = np.split(squares, cuts, axis=1)
            table += list(zip(step.leaves, strips, strict=True))
    return table


def on_front(squares: Squares) -> tuple[int, int, int, int]:
    """Left, top, width and height of squares on the front of the sheet."""
    columns, rows = squares[..., 0], squares[..., 1]
    left, top = int(columns.min()), int(rows.min())
    return left, top, int(columns.max()) - left + 1, int(rows.max()) - top + 1
