"""What is written on a drawing, each text where the figure puts it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from booklet.drawing.shapes.affine import Box, rotation
from booklet.drawing.shapes.figure import Group, Path, Shape, Text, bounds
from booklet.drawing.shapes.outlined import outlined
from tests.drawing.walking import walk

_SUPERIORS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789")
_INFERIORS = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")


def text_boxes(shapes: Iterable[Shape]) -> tuple[tuple[Text, Box], ...]:
    """Every text with its box in the outermost coordinates."""
    return tuple(
        (leaf, bounds([Group((leaf,), transform)]))
        for leaf, transform in walk(shapes)
        if isinstance(leaf, Text)
    )


def ink_boxes(shapes: Iterable[Shape]) -> tuple[tuple[Text, Box], ...]:
    """Every text with the box about what is printed of it, in the outermost coordinates."""
    found = []
    for leaf, move in walk(shapes):
        if isinstance(leaf, Text):
            middle = leaf.left + leaf.width / 2
            outlines = Path(outlined(leaf.text, leaf.font, leaf.size, middle, leaf.y))
            turned = rotation(leaf.rotation, (leaf.x, leaf.y)).then(move)
            found.append((leaf, bounds([Group((outlines,), turned)])))
    return tuple(found)


def measured_label(label: str) -> Fraction:
    """What a dimension's label says that its line measures: `4 x 1 1/2` is 6."""
    total = Fraction(1)
    for part in label.split("\u00a0×\u00a0"):
        total *= _printed(part)
    return total


def _printed(text: str) -> Fraction:
    """The value of a printed length: `11 5/8` in the font's own fraction figures, or `7.5`."""
    if "\u2044" not in text:
        return Fraction(text)
    over, under = text.split("\u2044")
    numerator = "".join(figure for figure in over if figure in "⁰¹²³⁴⁵⁶⁷⁸⁹")
    whole = over.removesuffix(numerator) or "0"
    return int(whole) + Fraction(int(numerator.translate(_SUPERIORS)), int(under.translate(_INFERIORS)))
