"""The marks of a press sheet, found in its picture: thin ticks at its edges, black to cut, grey to fold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tests.bindery.pictures import SCALE, Picture

# A tick is at least so long, in points, and ends before what is printed, of which a row is darker than that.
_SHORTEST = 6.0
_PRINTED = 0.15
# A tick is drawn about a pixel wide: its darkness across is that of a black pixel, or of a grey one.
_BLACK, _PALE = 0.7, 0.2
_EDGE = 3.0
# Marks at both ends of a line lie so near each other, in points.
_TRUE = 0.5


@dataclass(frozen=True)
class Marks:
    """Where a sheet is cut, in points from the left and from the top."""

    across: tuple[float, ...]
    down: tuple[float, ...]


def read_marks(front: Picture) -> Marks:
    """The cuts that a sheet asks for by marks at both ends."""
    return Marks(tuple(_cuts(front)), tuple(_cuts(front.T)))


def fold_marks(front: Picture) -> float:
    """Where a piece is folded, from its left, in points: the grey ticks at its head and its foot."""
    width = front.shape[1] / SCALE
    head, foot = (_pale(_ticks(each), width) for each in (front, front[::-1]))
    both = [one for one in head if any(abs(one - other) < _TRUE for other in foot)]
    if len(both) != 1:
        raise AssertionError(f"{len(both)} marks to fold at: {head} at the head, {foot} at the foot")
    return both[0]


def _pale(ticks: list[tuple[float, float]], width: float) -> list[float]:
    """The pale ticks, but for halves of black ones along the edges, where the piece was cut."""
    return [place for place, darkness in ticks if _PALE < darkness < _BLACK and _EDGE < place < width - _EDGE]


def _cuts(front: Picture) -> Iterator[float]:
    head, foot = (
        [place for place, darkness in _ticks(each) if darkness >= _BLACK] for each in (front, front[::-1])
    )
    for place in head:
        if any(abs(place - other) < _TRUE for other in foot):
            yield place


def _ticks(front: Picture) -> list[tuple[float, float]]:
    """Upright ticks above what is printed: where each is, in points, and how dark across, in pixels."""
    printed = np.flatnonzero((front > 0.5).mean(axis=1) > _PRINTED)
    band = front[: int(printed[0]) if len(printed) else len(front)]
    # How many rows of a column bear ink, one below the other.
    inked = band > 0.05
    longest = np.zeros(band.shape[1], int)
    run = np.zeros(band.shape[1], int)
    for row in inked:
        run = np.where(row, run + 1, 0)
        longest = np.maximum(longest, run)
    found, columns = [], np.flatnonzero(longest >= _SHORTEST * SCALE)
    for group in np.split(columns, np.flatnonzero(np.diff(columns) > 1) + 1):
        if len(group):
            # A tick that runs the other way may cross: it darkens few of the rows.
            dark = np.median(band[inked[:, group].any(axis=1)][:, group], axis=0)
            found.append(
                (float((dark * (group + 0.5)).sum() / dark.sum()) / SCALE, float(dark.sum()) / SCALE)
            )
    return found
