"""A print room and a bindery in numpy: sheets are printed, turned, cut, folded, nested and leafed through.

It knows what a person at the table knows: the sheets in the order in which they come out, their marks, how
large a page is to be, how thick the paper is.  It does not know which page belongs where.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

import numpy as np

from tests.bindery.marks import Marks, fold_marks, read_marks
from tests.bindery.pictures import SCALE, Picture, Side, part, turned, worst_block

# Pieces narrower than this, in points, fall off as waste.
_WASTE = 24.0
# What a cut may be off, in points.
_OFF = 0.75


class SpoiledError(Exception):
    """What went wrong at the table."""


@dataclass(frozen=True)
class Sheet:
    """A printed sheet: its front, and its back as it is seen once the sheet is turned like a page."""

    front: Side
    back: Side

    @property
    def width(self) -> float:
        return self.front.width

    @property
    def height(self) -> float:
        return self.front.height


@dataclass(frozen=True)
class Work:
    """What is to become of the sheets: a page's width and height in points, how the printer turns sheets over
    (`long` or `short` edge), how many copies stand on a sheet, how many sheets are nested (None: all of
    them), whether they stay flat, and how far each nested sheet pushes out the next, in points.
    """

    page: tuple[float, float]
    flip: str = "short"
    copies: int = 1
    nested: int | None = None
    is_flat: bool = False
    pushed: float = 0.0


# The print room.


def printed(sides: Sequence[Side], flip: str) -> list[Sheet]:
    """What a printer of both sides lays down: the first side of a pair is the front."""
    if len(sides) % 2:
        raise SpoiledError("the last sheet has no back")
    return [_turned_over(*pair, flip) for pair in zip(sides[::2], sides[1::2], strict=True)]


def printed_by_hand(fronts: Sequence[Side], backs: Sequence[Side], work: Work, tray: str) -> list[Sheet]:
    """All fronts, the stack put back in, all backs: each goes on the sheet that lies on top.

    A printer that lays sheets `face-down` has the last one on top, its blank back up, and it goes back so.
    One that lays them `face-up` has the last one on top, its front up: turned over, the first is on top.
    """
    if len(fronts) != len(backs):
        raise SpoiledError(f"{len(fronts)} fronts, {len(backs)} backs")
    laid = list(range(len(fronts)))  # from the bottom of the tray to its top
    stack = laid if tray == "face-down" else laid[::-1]
    behind = {stack.pop(): back for back in backs}  # taken in from the top
    return [_turned_over(front, behind[number], work.flip) for number, front in enumerate(fronts)]


def _turned_over(front: Side, back: Side, flip: str) -> Sheet:
    """A sheet turned about its long or its short edge to print the back.

    About an upright edge that is how a page is turned; about a level one the back stands on its head then.
    """
    has_upright_axis = (flip == "short") is (front.width >= front.height)
    return Sheet(front, back if has_upright_axis else turned(back, 2))


# The table.


def bound(sheets: Sequence[Sheet], work: Work, first: Picture) -> list[list[Picture]]:
    """The pages of each copy, leafed through from its cover; `first` is what the cover shows.

    The pile is cut at the marks of the sheet on top.  Each copy is turned so that its cover is upright.
    """
    pieces = list(_pieces(sheets[0], read_marks(sheets[0].front.picture), work))
    if len(pieces) != work.copies:
        raise SpoiledError(f"{len(pieces)} copies come off the sheet, {work.copies} were wanted")
    return [list(_leafed([_cut(sheet, piece) for sheet in sheets], work, first)) for piece in pieces]


@dataclass(frozen=True)
class _Piece:
    """A part of a sheet between cuts, in points from its front's top left."""

    left: float
    top: float
    width: float
    height: float


def _pieces(sheet: Sheet, marks: Marks, work: Work) -> Iterator[_Piece]:
    """What lies between the cuts and is as large as an open sheet, but for margins that no mark cuts off."""
    wanted = _open(work)
    for top, bottom in _between(marks.down, sheet.height):
        for left, right in _between(marks.across, sheet.width):
            piece = _Piece(left, top, right - left, bottom - top)
            sides = (piece.width, piece.height)
            is_turned = abs(sides[0] - wanted[0]) > abs(sides[0] - wanted[1]) and wanted[0] != wanted[1]
            is_large = _holds(sides, wanted[::-1] if is_turned else wanted)
            if is_large and _is_printed(_cut(sheet, piece).front.picture):
                yield piece


def _is_printed(front: Picture) -> bool:
    """Whether more than marks stand on a piece."""
    edge = int(_WASTE * SCALE)
    return bool(front[edge:-edge, edge:-edge].any())


def _between(cuts: Sequence[float], length: float) -> Iterator[tuple[float, float]]:
    edges = (0.0, *cuts, length)
    yield from ((low, high) for low, high in pairwise(edges) if high - low > _WASTE)


def _holds(piece: tuple[float, float], wanted: tuple[float, float]) -> bool:
    return all(wide - wish > -_OFF for wide, wish in zip(piece, wanted, strict=True))


def _open(work: Work) -> tuple[float, float]:
    """Width and height of a sheet before it is folded."""
    width, height = work.page
    return (width, height) if work.is_flat else (2 * width, height)


def _cut(sheet: Sheet, piece: _Piece) -> Sheet:
    """A piece of a sheet; from the back it lies as far from the right edge."""
    size, from_right = (piece.width, piece.height), sheet.width - piece.left - piece.width
    front = part(sheet.front.picture, piece.left, piece.top, size)
    back = part(sheet.back.picture, from_right, piece.top, size)
    return Sheet(Side(front, *size), Side(back, *size))


def _in_hand(sheet: Sheet, turns: int) -> Sheet:
    """A piece turned by quarter turns anticlockwise; seen from behind it turns the other way."""
    return Sheet(turned(sheet.front, turns), turned(sheet.back, -turns))


def _leafed(pile: Sequence[Sheet], work: Work, first: Picture) -> Iterator[Picture]:
    """The pages of one copy in order."""
    turns = min(range(4), key=lambda turns: _unlike_cover(turned(pile[0].front, turns), work, first))
    upright = [_in_hand(sheet, turns) for sheet in pile]
    if work.is_flat:
        for sheet in upright:
            _check_size(sheet, work.page)
            for side in (sheet.front, sheet.back):
                yield part(side.picture, 0, 0, work.page)
        return
    nested = work.nested or len(upright)
    for start in range(0, len(upright), nested):
        yield from _signature(upright[start : start + nested], work)


def _unlike_cover(front: Side, work: Work, first: Picture) -> float:
    """How unlike the cover the front of a piece is when it is held so."""
    wanted = _open(work)
    if abs(front.height - wanted[1]) > _OFF or front.width - wanted[0] < -_OFF:
        return 1.0
    left = 0.0 if work.is_flat else front.width / 2
    return worst_block(part(front.picture, left, 0, work.page), first)


def _check_size(leaf: Sheet, page: tuple[float, float]) -> None:
    if abs(leaf.width - page[0]) > _OFF or abs(leaf.height - page[1]) > _OFF:
        raise SpoiledError(f"a leaf of {leaf.width:.1f} x {leaf.height:.1f} pt, wanted {page}")


def _signature(sheets: Sequence[Sheet], work: Work) -> Iterator[Picture]:
    """Sheets folded together at the marks of the outermost and stapled: the pages as they are turned.

    Each nested sheet lies farther out by its depth times what one pushes; the face is trimmed a page's width
    from the fold of the outermost, and what lies at the fold of an inner one is lost in it.
    """
    fold = fold_marks(sheets[0].front.picture)
    behind = sheets[0].width - fold  # the fold, seen from the back
    depths = list(enumerate(sheets))
    for depth, sheet in depths:
        yield _right_of(sheet.front, fold, depth, work)
        yield _left_of(sheet.back, behind, depth, work)
    for depth, sheet in reversed(depths):
        yield _right_of(sheet.back, behind, depth, work)
        yield _left_of(sheet.front, fold, depth, work)


def _right_of(side: Side, fold: float, depth: int, work: Work) -> Picture:
    """The page right of the fold, from the fold of the outermost sheet to the face."""
    out = depth * work.pushed
    page = part(side.picture, fold - out, 0, work.page)
    return _lost(page, slice(0, ceil(out * SCALE)))


def _left_of(side: Side, fold: float, depth: int, work: Work) -> Picture:
    """The page left of the fold, from the face to the fold of the outermost sheet."""
    out = depth * work.pushed
    page = part(side.picture, fold - work.page[0] + out, 0, work.page)
    return _lost(page, slice(page.shape[1] - ceil(out * SCALE), page.shape[1]))


def _lost(page: Picture, columns: slice) -> Picture:
    """A page of which some columns are lost in the fold."""
    if columns.start == columns.stop:
        return page
    left = np.array(page)
    left[:, columns] = 0
    return left
