"""The trimmer's scale as it is drawn: its marks, its numerals on them, its stop.

Values are exact, in the kit's unit; points appear where a mark is drawn.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import (
    Anchor,
    Fill,
    Line,
    Path,
    Segment,
    Shape,
    Stroke,
    Text,
    filled_box,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import LEAST_LINE_DISTANCE, DrawingStyle
from booklet.kit.fields import Edge
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit

# The divisions that a hand trimmer's scale carries, coarse to fine, in the unit itself, and the steps between
# its numerals (common practice, no source).
_DIVISIONS = {
    Unit.INCH: tuple(Fraction(1, part) for part in (1, 2, 4, 8, 16, 32, 64)),
    Unit.CENTIMETRE: (Fraction(1), Fraction(1, 2), Fraction(1, 10), Fraction(1, 20)),
    Unit.MILLIMETRE: (Fraction(10), Fraction(5), Fraction(1), Fraction(1, 2)),
}
_NUMERAL_STEPS = {
    Unit.INCH: (1, 2, 3, 6, 12),
    Unit.CENTIMETRE: (1, 2, 5, 10),
    Unit.MILLIMETRE: (10, 20, 50, 100),
}


@dataclass(frozen=True)
class Ruler:
    """A trimmer's scale as drawn: from 0 to `length`, its finest division `mark`, in `unit`.

    `unit_points` is one unit at the drawing's scale, in points; `zero` is the side at which it begins.
    """

    length: Fraction
    mark: Fraction
    unit: Unit
    unit_points: float
    zero: Edge = Edge.LEFT

    @property
    def way(self) -> int:
        """Where its values rise to: 1 to the right, -1 to the left."""
        return 1 if self.zero is Edge.LEFT else -1

    def at(self, value: Fraction) -> float:
        """How far from its zero a value is drawn, in points."""
        return float(value) * self.unit_points


def divisions(unit: Unit, mark: Fraction) -> tuple[Fraction, ...]:
    """The divisions of a scale whose finest is `mark`, coarse to fine.

    A mark that divides no whole unit is one of a scale in another unit, which no numerals stand on: there
    the usual divisions of this unit are drawn, as far as they are no finer.
    """
    if (1 / mark).denominator != 1 and mark.denominator != 1:
        return tuple(each for each in _DIVISIONS[unit] if each >= mark) or _DIVISIONS[unit][:1]
    coarser = tuple(each for each in _DIVISIONS[unit] if each > mark and (each / mark).denominator == 1)
    return (*coarser, mark)


def drawn_divisions(ruler: Ruler) -> tuple[Fraction, ...]:
    """Those divisions whose marks lie at least 0.7 mm apart at the drawing's scale (ISO 128-2, from memory).

    The coarsest is always among them.
    """
    every = divisions(ruler.unit, ruler.mark)
    return every[:1] + tuple(each for each in every[1:] if ruler.at(each) >= LEAST_LINE_DISTANCE)


def is_numbered(value: Fraction, unit: Unit) -> bool:
    """Whether a trimmer has a numeral at this mark: at every inch or centimetre (common practice)."""
    return value % _NUMERAL_STEPS[unit][0] == 0


# Numerals.

_BETWEEN_NUMERALS = 3.0
_BESIDE_READING = 2.0


@dataclass(frozen=True)
class Numeral:
    """A numeral of the scale: the mark that it stands on, and whether a cut is made right there."""

    value: Fraction
    is_reading: bool

    @property
    def text(self) -> str:
        """The numeral as printed."""
        return str(self.value)

    def width(self, size: float) -> float:
        """How wide it is set, in points."""
        return text_width(self.text, self.font, size)

    @property
    def font(self) -> Font:
        """The zero and whole readings stand out."""
        return Font.SANS_BOLD if self.is_reading or self.value == 0 else Font.SANS


def numeral_step(ruler: Ruler, size: float) -> int:
    """The least even distance between numerals, in units, at which they stand clear of each other."""
    widest = text_width(str(int(ruler.length)), Font.SANS_BOLD, size)
    for step in _NUMERAL_STEPS[ruler.unit]:
        if ruler.at(Fraction(step)) >= widest + _BETWEEN_NUMERALS:
            return step
    return _NUMERAL_STEPS[ruler.unit][-1]


def numerals(
    ruler: Ruler, readings: Collection[Fraction], size: float, low: Fraction = Fraction(0)
) -> tuple[Numeral, ...]:
    """The numerals from `low` to the scale's end, evenly spaced, and any whole reading that has room beside.

    Each belongs on its mark; nothing moves or removes it.
    """
    step = numeral_step(ruler, size)
    first = -(-low // step) * step
    even = [
        Numeral(Fraction(value), value in readings) for value in range(first, int(ruler.length) + 1, step)
    ]
    whole = {value for value in readings if is_numbered(value, ruler.unit) and low <= value <= ruler.length}
    for value in sorted(whole - {numeral.value for numeral in even}):
        added = Numeral(value, is_reading=True)
        if all(_apart(added, other, ruler, size) for other in even):
            even.append(added)
    return tuple(sorted(even, key=lambda numeral: numeral.value))


def _apart(one: Numeral, other: Numeral, ruler: Ruler, size: float) -> bool:
    halves = (one.width(size) + other.width(size)) / 2
    return abs(ruler.at(one.value - other.value)) >= halves + _BESIDE_READING


# The band.

_SHORTER = 0.76  # each finer division's marks are so much shorter


@dataclass(frozen=True)
class Band:
    """Where a scale's tinted band lies: its `box`, and `base`, the line along its foot on which marks stand.

    `tick` is how long the longest mark is, `size` that of the numerals, in points; x is `zero` at the
    scale's zero, which may lie outside the band.
    """

    box: Box
    base: float
    zero: float
    tick: float
    size: float
    ruler: Ruler

    def x(self, value: Fraction) -> float:
        """Where a value is drawn."""
        return self.zero + self.ruler.way * self.ruler.at(value)

    @property
    def reach(self) -> tuple[float, float]:
        """How far from the scale's zero the band begins and ends, along the scale."""
        ends = (self.ruler.way * (x - self.zero) for x in (self.box.left, self.box.right))
        near, far = sorted(ends)
        return near, far

    @property
    def baseline(self) -> float:
        """Where the numerals stand."""
        return self.base - self.tick - 0.27 * self.size

    def numeral_box(self, numeral: Numeral) -> Box:
        """The box about a numeral's figures."""
        x, half = self.x(numeral.value), numeral.width(self.size) / 2
        return Box(x - half, self.baseline - cap_height(numeral.font, self.size), x + half, self.baseline)


def band_height(tick: float, size: float) -> float:
    """How high a band is with marks and numerals of these sizes, in points."""
    return tick + 0.27 * size + cap_height(Font.SANS, size) + 0.36 * size


def band_hang(size: float) -> float:
    """How far a band reaches past its scale to either side, so that numerals of this size stand on it."""
    return 0.84 * size


def band_shapes(
    band: Band, shown: Sequence[Numeral], marks: Sequence[Fraction], style: DrawingStyle
) -> Iterator[Shape]:
    """The tinted band with its marks, as fine as the last of `marks`, and its numerals."""
    box = band.box
    yield filled_box(box, Fill(style.palette.accent_tint), radius=style.fine_width * 5)
    yield _ticks(band, marks, style)
    for numeral in shown:
        yield Text(
            numeral.text,
            band.x(numeral.value),
            band.baseline,
            band.size,
            numeral.font,
            style.palette.ink,
            Anchor.MIDDLE,
            role="scale",
        )
    if box.left <= band.zero <= box.right:
        stop = Stroke(style.palette.ink, style.outline_width)
        yield Line((band.zero, band.base), (band.zero, band.base - band.tick), stop)


def _ticks(band: Band, marks: Sequence[Fraction], style: DrawingStyle) -> Path:
    """The marks that lie on the band, coarse ones longer, and the line along which they stand."""
    ruler, finest = band.ruler, marks[-1]
    ranks = [int(each / finest) for each in marks]
    pitch, (near, far) = ruler.at(finest), band.reach
    first = max(0, -int(-near // pitch))
    last = min(int(far // pitch), int(ruler.length / finest))
    segments: list[Segment] = []
    for number in range(first, last + 1):
        rank = next(rank for rank, each in enumerate(ranks) if number % each == 0)
        x = band.zero + ruler.way * number * pitch
        segments += (("M", x, band.base), ("L", x, band.base - band.tick * _SHORTER**rank))
    ends = (band.zero + ruler.way * at for at in (max(near, 0.0), min(far, ruler.at(ruler.length))))
    left, right = sorted(ends)
    segments += (("M", left, band.base), ("L", right, band.base))
    return Path(tuple(segments), stroke=style.fine)


# What runs down through a band to a cut.


def stem(
    x: float, top: float, foot: float, band: Band, shown: Sequence[Numeral], stroke: Stroke
) -> Iterator[Line]:
    """A straight stem from `top` to `foot`, interrupted where it would touch a numeral."""
    clear = stroke.width / 2 + 0.9
    gaps = [band.numeral_box(numeral).grown(1.1) for numeral in shown]
    gaps = [box for box in gaps if box.left - clear + 1.1 < x < box.right + clear - 1.1]
    ends = [top, *(max(top, end) for box in gaps[:1] for end in (box.top, box.bottom)), foot]
    for start, end in list(pairwise(ends))[::2]:
        if start < end:
            yield Line((x, start), (x, end), stroke)
