"""The bar that shows whether a print has kept its size: a ruler of a round length at full size."""

from __future__ import annotations

from booklet.drawing.marks.trimmer_scale import (
    Band,
    Ruler,
    band_hang,
    band_height,
    band_shapes,
    drawn_divisions,
    numerals,
)
from booklet.drawing.marks.width_chain import Width, WidthChain, chain_shapes
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Figure, translated
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.words import print_length

# Lengths that a kitchen ruler shows and half a letter page holds, and marks that it carries.
_LENGTHS = {Unit.INCH: Fraction(4), Unit.CENTIMETRE: Fraction(10), Unit.MILLIMETRE: Fraction(100)}
_MARKS = {Unit.INCH: Fraction(1, 8), Unit.CENTIMETRE: Fraction(1, 10), Unit.MILLIMETRE: Fraction(1)}
_TICK = 11.0


def check_length(unit: Unit) -> Fraction:
    """How long the bar is, in the unit: 4 in or 10 cm."""
    return _LENGTHS[unit]


def check_words(unit: Unit) -> str:
    """How long the bar is, in words: `4 in`."""
    return f"{print_length(check_length(unit), unit)}\u00a0{unit.value}"


def print_check(unit: Unit, style: DrawingStyle) -> Figure:
    """A ruler of 4 in or 10 cm, with its dimension below; true when the page is printed at 100 %."""
    length, size = check_length(unit), style.scale_label_size
    ruler = Ruler(length, _MARKS[unit], unit, float(unit.points))
    hang, height, end = band_hang(size), band_height(_TICK, size), ruler.at(length)
    band = Band(Box(-hang, 0.0, end + hang, height), height, 0.0, _TICK, size, ruler)
    chain = WidthChain((Width(0.0, end, check_words(unit)),), height, -hang, end + hang, style)
    shown = numerals(ruler, (), size)
    shapes = (*band_shapes(band, shown, drawn_divisions(ruler), style), *chain_shapes(chain))
    moved = translated(shapes, hang, 0.0)
    return Figure("print-check", end + 2 * hang, chain.bottom, (moved,))
