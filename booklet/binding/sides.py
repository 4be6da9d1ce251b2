"""A side of a press sheet as data: where each page lies on it, its folds, its cuts, its boxes.

Exact points from the lower left corner of the side as the file shows it, x to the right, y up.
"""

from __future__ import annotations

from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size


@dataclass(frozen=True)
class Box:
    """An upright box by its edges."""

    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction

    @property
    def size(self) -> Size:
        """Its width and height."""
        return Size(self.right - self.left, self.top - self.bottom)

    def grown(self, by: Fraction) -> Box:
        """Larger by so much on every side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def within(self, other: Box) -> Box:
        """What of it lies in another one that it meets."""
        return Box(
            max(self.left, other.left),
            max(self.bottom, other.bottom),
            min(self.right, other.right),
            min(self.top, other.top),
        )

    def joined(self, other: Box) -> Box:
        """The box about both."""
        return Box(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )


def box_of(size: Size) -> Box:
    """A box of this size with its lower left corner at the origin."""
    return Box(Fraction(0), Fraction(0), size.width, size.height)


@dataclass(frozen=True)
class Line:
    """A straight line, upright or level, from its lower or left end."""

    x0: Fraction
    y0: Fraction
    x1: Fraction
    y1: Fraction

    @property
    def is_upright(self) -> bool:
        """Whether it runs from the foot of the side to its head."""
        return self.x0 == self.x1


@dataclass(frozen=True)
class PlacedPage:
    """A page on a side: its number from 1, its trim box, and the box beyond which nothing of it shows.

    `turn` counts quarter turns anticlockwise: 2 stands on its head.  The clip ends at the fold, and takes in
    the bleed at the other edges.
    """

    page: int
    trim: Box
    clip: Box
    turn: int


@dataclass(frozen=True)
class ImposedSide:
    """One side of a press sheet.

    `trim` is about all that is kept after cutting, `bleed` that with its bleed; a fold runs along the trim
    of one copy, a cut across the whole sheet, and none runs along the edge of the sheet.  `sheet` counts all
    press sheets from 0, `signature` the signatures, `depth` the sheets of a signature, 0 the outermost.
    """

    size: Size
    pages: tuple[PlacedPage, ...]
    folds: tuple[Line, ...]
    cuts: tuple[Line, ...]
    trim: Box
    bleed: Box
    sheet: int
    signature: int
    depth: int
    is_front: bool

    @property
    def is_outside(self) -> bool:
        """Whether it lies outermost once its signature is folded and nested."""
        return self.is_front and self.depth == 0


@dataclass(frozen=True)
class ImposedSheet:
    """A press sheet: its front, which looks outwards once it is folded, and its back."""

    front: ImposedSide
    back: ImposedSide

    @property
    def sides(self) -> tuple[ImposedSide, ImposedSide]:
        """Front and back, as a duplex printer prints them."""
        return self.front, self.back
