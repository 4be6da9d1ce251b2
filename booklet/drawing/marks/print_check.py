"""The bar that shows whether a print has kept its size: a ruler of a round length at full size."""

from __future__ import annotations

from booklet.drawing.marks.dimension import Side, dimension
from booklet.drawing.marks.scale_bar import Ruler, scale_bar
from booklet.drawing.shapes.figure import Figure, bounds, translated
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.words import print_length

# Lengths that a kitchen ruler shows and half a letter page holds, and marks that it carries.
_LENGTHS = {Unit.INCH: Fraction(4), Unit.CENTIMETRE: Fraction(10), Unit.MILLIMETRE: Fraction(100)}
_MARKS = {Unit.INCH: Fraction(1, 8), Unit.CENTIMETRE: Fraction(1, 10), Unit.MILLIMETRE: Fraction(1)}
_FULL_SIZE = Scale(Fraction(1))


def check_length(unit: Unit) -> Fraction:
    """How long the bar is, in the unit: 4 in or 10 cm."""
    return _LENGTHS[unit]


def check_words(unit: Unit) -> str:
    """How long the bar is, in words: `4 in`."""
    return f"{print_length(check_length(unit), unit)}\u00a0{unit.value}"


def print_check(unit: Unit, style: DrawingStyle) -> Figure:
    """A ruler of 4 in or 10 cm, with its dimension below; true when the page is printed at 100 %."""
    points = float(unit.points)
    length = check_length(unit)
    ruler = scale_bar(0.0, 0.0, Ruler(length, _MARKS[unit], unit, points), (), style)
    measured = dimension(Side.BOTTOM, 0.0, 0.0, float(length) * points, check_words(unit), style)
    shapes = (*ruler.shapes, *measured.shapes)
    box = bounds(shapes)
    return Figure(
        "print-check",
        box.width,
        box.height,
        (translated(shapes, -box.left, -box.top),),
        f"A bar of {check_words(unit)} to lay a ruler on",
        _FULL_SIZE.words,
    )
