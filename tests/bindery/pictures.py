"""Pictures of finished pages and press sides, rendered by a library that had no part in making them.

A picture is darkness from 0 (paper) to 1 (black), rows from the top, `SCALE` pixels to a point.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

import numpy as np
import pypdfium2
from numpy.typing import NDArray

SCALE = 1
# A thousandth of a pixel is none.
_HAIR = 0.001

Picture = NDArray[np.float32]
# What differs between two renderings of one thing that lie a fraction of a pixel apart: a block of so many
# points is compared by its mean, of which that is no more than a quarter.
_BLOCK = 6
_SAME = 0.25
# Pictures are compared within this border, in points: on it lie the marks for folding and cutting.
_BORDER = 3
# Beyond this many points nothing is looked for.
_FARTHEST = 12


@dataclass(frozen=True)
class Side:
    """A picture of a page or a press side, and its size in points, which may end within a pixel."""

    picture: Picture
    width: float
    height: float


def rendered(pdf: bytes) -> list[Side]:
    """A picture of every page of a PDF, exactly to scale: pixels begin at the top left corner."""
    with pypdfium2.PdfDocument(pdf) as document:
        return [_rendered(document, number) for number in range(len(document))]


def rendered_page(pdf: bytes, number: int) -> Side:
    """A picture of one page, by its number from 1."""
    with pypdfium2.PdfDocument(pdf) as document:
        return _rendered(document, number - 1)


def _rendered(document: pypdfium2.PdfDocument, number: int) -> Side:
    page = document[number]
    width, height = page.get_size()
    if not (width.is_integer() and height.is_integer()):
        # A page that is no whole number of pixels is stretched to one: let it have whole points of paper.
        whole = (0, height - ceil(height), ceil(width), height)
        page.set_mediabox(*whole)
        page.set_cropbox(*whole)
        page.close()
        page = document[number]
    pixels = page.render(scale=SCALE, grayscale=True).to_numpy().squeeze()
    kept = pixels[: ceil(height * SCALE - _HAIR), : ceil(width * SCALE - _HAIR)]
    return Side((255 - kept) / np.float32(255), width, height)


def turned(side: Side, turns: int) -> Side:
    """A picture after quarter turns anticlockwise, from its new top left corner, which may lie in a pixel."""
    rows, columns = side.picture.shape
    right, below = columns / SCALE - side.width, rows / SCALE - side.height
    left, top = ((0.0, 0.0), (0.0, right), (right, below), (below, 0.0))[turns % 4]
    size = (side.width, side.height) if turns % 2 == 0 else (side.height, side.width)
    return Side(part(np.rot90(side.picture, turns), left, top, size), *size)


def part(picture: Picture, left: float, top: float, size: tuple[float, float]) -> Picture:
    """What lies so far from the top left, all in points; fractions of a pixel are shared out.

    Beyond the picture there is nothing.
    """
    width, height = (round(length * SCALE) for length in size)
    rows = _along(picture, top * SCALE, height)
    return _along(rows.T, left * SCALE, width).T


def _along(picture: Picture, start: float, count: int) -> Picture:
    whole = int(np.floor(start + _HAIR))
    share = np.float32(max(start - whole, 0))
    if share < _HAIR and whole >= 0 and whole + count <= len(picture):
        return picture[whole : whole + count]
    if whole >= 0 and whole + count < len(picture):
        taken = picture[whole : whole + count + 1]
    else:
        taken = np.zeros((count + 1, picture.shape[1]), np.float32)
        low, high = max(whole, 0), min(whole + count + 1, len(picture))
        taken[low - whole : max(high, low) - whole] = picture[low : max(high, low)]
    if share <= _HAIR:
        return taken[:-1]
    shared = taken[:-1] * (1 - share)
    shared += taken[1:] * share
    return shared


def is_same(one: Picture, other: Picture) -> bool:
    """Whether two pictures show the same, each thing in its place to about a point."""
    return one.shape == other.shape and worst_block(one, other) < _SAME


def worst_block(one: Picture, other: Picture) -> float:
    """By how much the darkness of the block differs that differs most, blocks being a few points wide."""
    return float(np.abs(_blocks(one) - _blocks(other)).max())


def _blocks(picture: Picture) -> Picture:
    border, block = _BORDER * SCALE, _BLOCK * SCALE
    inner = picture[border:-border, border:-border]
    rows, columns = (length // block for length in inner.shape)
    cut = inner[: rows * block, : columns * block]
    # Whole rows are summed before columns: numpy takes ten times as long for both at once.
    down = np.add.reduce(cut.reshape(rows, block, columns * block), axis=1)
    across = np.add.reduce([down[:, at::block] for at in range(block)])
    return np.asarray(across / block**2, np.float32)


def shift_across(found: Picture, wanted: Picture) -> float:
    """How far to the right of where it is wanted a picture lies, in points, to a fraction of a pixel.

    First the whole pixels by which both agree best, then the rest from how steeply the darkness changes.
    """
    one, other = (_profile(picture) for picture in (found, wanted))
    reach = _FARTHEST * SCALE
    middle = other[reach:-reach]
    errors = [
        float(((one[reach + by : len(one) - reach + by] - middle) ** 2).sum()) for by in range(-reach, reach)
    ]
    whole = int(np.argmin(errors)) - reach
    moved = one[reach + whole : len(one) - reach + whole]
    slope = np.gradient((moved + middle) / 2)
    return (whole - float((slope * (moved - middle)).sum() / (slope**2).sum())) / SCALE


def _profile(picture: Picture) -> Picture:
    border = _BORDER * SCALE
    return np.asarray(picture[border:-border].mean(axis=0), np.float32)


def shift_down(found: Picture, wanted: Picture) -> float:
    """How far below where it is wanted a picture lies, in points."""
    return shift_across(found.T, wanted.T)
