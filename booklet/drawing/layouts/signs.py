"""The sign of the layouts' figures that is explained: a flag on a ruler."""

from __future__ import annotations

from booklet.drawing.layouts.rulers import RulerFlag, rulers
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Figure, Fill, Group, figure_about, filled_box
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.words import print_length

_WIDTH, _SIDE = 64, 32.0


def flag_sign(number: int, value: Fraction, unit: Unit, style: DrawingStyle) -> Figure:
    """A page, its ruler and one flag, halfway along."""
    page = Box(0.0, 0.0, _WIDTH, _SIDE)
    scale = Scale(value * unit.points / Fraction(_WIDTH // 2))
    flag = RulerFlag(Edge.TOP, Edge.LEFT, value, print_length(value, unit), (number,))
    drawn = rulers(page, (flag,), unit, scale, style)
    outline = filled_box(page, Fill(style.palette.paper), style.narrow)
    return figure_about("sign-flag", [Group((outline, *drawn.shapes))])
