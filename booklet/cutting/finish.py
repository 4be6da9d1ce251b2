"""What is done to a piece apart from cutting and placing it, and how that turns with it."""

from __future__ import annotations

from booklet.cutting.orientation import Orientation
from booklet.kit.fields import Edge, Face
from booklet.kit.steps import Corner
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactPoint, ExactRect
from booklet.measure.length import Size

_CLOCKWISE = (Corner.TOP_LEFT, Corner.TOP_RIGHT, Corner.BOTTOM_RIGHT, Corner.BOTTOM_LEFT)


@dataclass(frozen=True)
class Rounding:
    """Corners rounded to a radius; they are named as the piece lies on the page."""

    corners: tuple[Corner, ...]
    radius: Fraction


@dataclass(frozen=True)
class Hole:
    """A hole of a width; its middle is measured from the piece's top left corner, as it lies untilted."""

    middle: ExactPoint
    width: Fraction

    @property
    def rim(self) -> ExactRect:
        """The square about it, from the piece's top left corner."""
        x, y = self.middle.x - self.width / 2, self.middle.y - self.width / 2
        return ExactRect(x, y, self.width, self.width)

    def turned(self, quarters: int, size: Size) -> Hole:
        """The same hole once its piece, of this size until then, is turned by quarter turns clockwise."""
        x, y = self.middle.x, self.middle.y
        for _ in range(quarters):
            x, y, size = size.height - y, x, size.turned
        return Hole(ExactPoint(x, y), self.width)

    def as_laid(self, face: Face, quarters: int, size: Size) -> Hole:
        """A hole in an upright piece of this size, once the piece lies with a face up and is turned."""
        x = size.width - self.middle.x if face is Face.BACK else self.middle.x
        return Hole(ExactPoint(x, self.middle.y), self.width).turned(quarters, size)

    def moved(self, right: Fraction) -> Hole:
        """The same hole measured from a corner that lies so much further to the left."""
        return Hole(ExactPoint(self.middle.x + right, self.middle.y), self.width)


@dataclass(frozen=True)
class Finish:
    """What is done to a piece apart from placing it; edges and corners are named as it lies on the page."""

    roundings: tuple[Rounding, ...] = ()
    punched: tuple[Corner, ...] = ()
    inked: tuple[Edge, ...] = ()
    raised: bool = False
    holes: tuple[Hole, ...] = ()

    def with_more(self, other: Finish) -> Finish:
        """Both finishes on one piece."""
        if self is NOTHING_DONE or other is NOTHING_DONE:
            return self if other is NOTHING_DONE else other
        return Finish(
            self.roundings + other.roundings,
            tuple(dict.fromkeys(self.punched + other.punched)),
            tuple(dict.fromkeys(self.inked + other.inked)),
            self.raised or other.raised,
            self.holes + other.holes,
        )

    def as_laid(self, face: Face, quarters: int, size: Size) -> Finish:
        """What is done to an upright piece of this size, once that lies with a face up and is turned."""
        if self is NOTHING_DONE:
            return self
        if face is Face.FRONT:
            return self.turned(quarters, size)
        over = Finish(
            tuple(replace(one, corners=_turned_over(one.corners)) for one in self.roundings),
            _turned_over(self.punched),
            tuple(map(Orientation(Face.BACK).seen_at, self.inked)),
            self.raised,
            tuple(hole.as_laid(face, 0, size) for hole in self.holes),
        )
        return over.turned(quarters, size)

    def turned(self, quarters: int, size: Size) -> Finish:
        """The same once its piece, of this size until then, is turned by quarter turns clockwise."""
        return Finish(
            tuple(replace(one, corners=_turned(one.corners, quarters)) for one in self.roundings),
            _turned(self.punched, quarters),
            tuple(map(Orientation(quarters=quarters).seen_at, self.inked)),
            self.raised,
            tuple(hole.turned(quarters, size) for hole in self.holes),
        )


NOTHING_DONE = Finish()


def _turned_over(corners: tuple[Corner, ...]) -> tuple[Corner, ...]:
    """Corners as they are seen once their piece is turned over like the page of a book."""
    return tuple(_CLOCKWISE[(1 - _CLOCKWISE.index(corner)) % 4] for corner in corners)


def _turned(corners: tuple[Corner, ...], quarters: int) -> tuple[Corner, ...]:
    return tuple(_CLOCKWISE[(_CLOCKWISE.index(corner) + quarters) % 4] for corner in corners)
