"""A scale of inches and millimetres at true size, on one line, to measure a print by before it is used."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.drawing.shapes.figure import Anchor, Figure, Line, Shape, Text, translated
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, to_points

# How long each is, between which lengths its marks and its numerals stand, and which marks are longer.
_SCALES = {
    Unit.INCH: (4, Fraction(1, 8), Fraction(1), (Fraction(1), Fraction(1, 2))),
    Unit.MILLIMETRE: (100, Fraction(1), Fraction(10), (Fraction(10), Fraction(5))),
}
_MARKS = (9.0, 6.5, 4.0)
_NUMERAL_GAP, _UNIT_GAP = 2.5, 4.0


def two_scales(style: DrawingStyle) -> Figure:
    """Inches above the line and millimetres below it, both from its left end: 4 in and 100 mm."""
    size = style.note_size
    high = _MARKS[0] + _NUMERAL_GAP + cap_height(Font.SANS, size)
    longest = max(to_points(Fraction(length), unit) for unit, (length, *_) in _SCALES.items())
    left = text_width("0", Font.SANS, size) / 2
    right = max(text_width("100", Font.SANS, size) / 2 + _UNIT_GAP + text_width("mm", Font.SANS, size), 16.0)
    shapes = (
        *_scale(Unit.INCH, -1, style),
        *_scale(Unit.MILLIMETRE, 1, style),
        Line((0.0, 0.0), (longest, 0.0), style.narrow),
    )
    return Figure("scales", left + longest + right, 2 * high, (translated(shapes, left, high),))


def _scale(unit: Unit, way: int, style: DrawingStyle) -> Iterator[Shape]:
    """The marks of one scale, above the line for -1 and below it for 1, and its numerals."""
    length, mark, numbered, longer = _SCALES[unit]
    size, ink = style.note_size, style.palette.ink
    tall = cap_height(Font.SANS, size)
    baseline = -(_MARKS[0] + _NUMERAL_GAP) if way < 0 else _MARKS[0] + _NUMERAL_GAP + tall
    for at in range(int(length / mark) + 1):
        value = at * mark
        rank = next((rank for rank, each in enumerate(longer) if value % each == 0), len(longer))
        x = to_points(value, unit)
        yield Line((x, 0.0), (x, way * _MARKS[rank]), style.fine)
        if value % numbered == 0:
            yield Text(str(value), x, baseline, size, Font.SANS, ink, Anchor.MIDDLE, role="scale")
    end = to_points(Fraction(length), unit) + text_width(str(length), Font.SANS, size) / 2 + _UNIT_GAP
    yield Text(unit.value, end, baseline, size, Font.SANS, ink, role="scale")
