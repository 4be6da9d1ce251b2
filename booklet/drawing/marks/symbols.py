"""Small drawings for what a step does: a scissors for snipping, a drop for ink, each 10 x 10 pt.

They stand in a line of text of 9 pt, so each is a few strokes of one weight with room between them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from booklet.drawing.shapes.figure import Cap, Circle, Colour, Fill, Join, Path, Shape, Stroke, Symbol
from booklet.drawing.shapes.outlines import Outline, circle, outline, rectangle, star

SYMBOL_SIDE = 10.0
# What may be left out, if the member likes; it is said of a step beside its verb.
OPTIONAL = "optional"
# Laying a piece down is what a step does if nothing else is said; what is done "by hand" has its own words.
NEED_NONE = frozenset({"place", "do"})

# 0.25 mm, the narrow line of ISO 128-2 (from memory).
_WEIGHT = 0.71
_DASH = (1.3, 1.1)


@dataclass(frozen=True)
class _Drawing:
    """Open and closed outlines, those that are dashed, those that are filled, and dots of (x, y, radius)."""

    lines: tuple[Outline, ...] = ()
    dashed: tuple[Outline, ...] = ()
    solid: tuple[Outline, ...] = ()
    dots: tuple[tuple[float, float, float], ...] = ()


def _lines(*texts: str) -> tuple[Outline, ...]:
    return tuple(outline(text) for text in texts)


_DRAWINGS = {
    # A print with two hills and the sun.
    "photo": _Drawing(
        lines=(
            rectangle(0.7, 1.4, 8.6, 7.2),
            *_lines("M 0.7 6.3 C 2.2 4.2 4.2 4.2 6.6 8.6 M 5.2 6.4 C 6.6 5.2 8.0 5.2 9.3 6.0"),
        ),
        dots=((6.7, 3.4, 0.9),),
    ),
    # A pencil over a line.
    "write": _Drawing(
        lines=_lines(
            "M 1.3 7.5 L 1.95 5.3 L 6.6 0.65 L 8.2 2.25 L 3.5 6.9 Z M 5.5 1.75 L 7.1 3.35",
            "M 1.3 9.3 L 9.0 9.3",
        )
    ),
    # Scissors, open.
    "snip": _Drawing(
        lines=(
            circle(2.2, 2.5, 1.5),
            circle(2.2, 7.5, 1.5),
            *_lines("M 3.45 3.4 L 9.4 7.9 M 3.45 6.6 L 9.4 2.1"),
        )
    ),
    # A leaf within the line along which it is trimmed.
    "trim_round": _Drawing(
        lines=_lines("M 3.2 6.8 C 2.6 4.0 4.2 2.8 7.0 3.0 C 7.2 5.8 6.0 7.4 3.2 6.8 L 5.4 4.6"),
        dashed=(circle(5.0, 5.0, 4.3),),
    ),
    # A rounded corner, and the sharp one that it had.
    "round": _Drawing(
        lines=_lines("M 1.0 1.2 L 2.6 1.2 C 6.1 1.2 8.8 3.9 8.8 7.4 L 8.8 9.0 L 1.0 9.0 Z"),
        dashed=_lines("M 5.4 1.2 L 8.8 1.2 L 8.8 4.6"),
    ),
    # A ticket with its corners punched, and a hole.
    "punch": _Drawing(
        lines=(
            *_lines(
                "M 2.5 1.5 L 7.5 1.5 C 7.5 2.5 8.3 3.3 9.3 3.3 L 9.3 6.7 C 8.3 6.7 7.5 7.5 7.5 8.5"
                " L 2.5 8.5 C 2.5 7.5 1.7 6.7 0.7 6.7 L 0.7 3.3 C 1.7 3.3 2.5 2.5 2.5 1.5 Z"
            ),
            circle(5.0, 5.0, 1.1),
        )
    ),
    # A drop over an edge.
    "ink": _Drawing(
        lines=_lines(
            "M 5.0 0.7 C 6.5 2.7 7.7 3.9 7.7 5.2 C 7.7 6.7 6.5 7.7 5.0 7.7"
            " C 3.5 7.7 2.3 6.7 2.3 5.2 C 2.3 3.9 3.5 2.7 5.0 0.7 Z",
            "M 1.0 9.3 L 9.0 9.3",
        )
    ),
    # An upright plate with an opening.
    "stencil": _Drawing(lines=(rectangle(1.4, 0.7, 7.2, 8.6),), solid=(star(5.0, 5.2, 2.9),)),
    # A bow.
    "ribbon": _Drawing(
        lines=_lines(
            "M 5.0 4.2 C 3.4 1.6 0.7 1.0 0.7 3.9 C 0.7 6.6 3.4 6.2 5.0 4.2"
            " C 6.6 1.6 9.3 1.0 9.3 3.9 C 9.3 6.6 6.6 6.2 5.0 4.2",
            "M 4.8 4.8 C 4.5 6.6 3.7 8.0 2.5 9.2 M 5.2 4.8 C 5.5 6.6 6.3 8.0 7.5 9.2",
        ),
        dots=((5.0, 4.3, 1.0),),
    ),
    # A roll with its end drawn off.
    "tape": _Drawing(
        lines=(circle(4.4, 4.9, 3.7), circle(4.4, 4.9, 1.6), *_lines("M 4.4 8.6 L 9.4 8.6 L 9.4 7.2")),
    ),
    # A card on two bits of foam.
    "raise": _Drawing(
        lines=(rectangle(0.7, 2.2, 8.6, 1.7), *_lines("M 0.7 8.1 L 9.3 8.1")),
        solid=(rectangle(1.4, 5.0, 2.6, 2.0), rectangle(6.0, 5.0, 2.6, 2.0)),
    ),
    # Small round things.
    "add": _Drawing(
        lines=(circle(3.4, 3.4, 2.2),), dots=((3.4, 3.4, 0.75), (7.7, 5.0, 1.2), (4.8, 8.1, 1.2))
    ),
    # Two pieces held together.
    "group": _Drawing(
        lines=(
            rectangle(1.0, 1.0, 3.4, 4.8),
            rectangle(5.6, 1.0, 3.4, 4.8),
            *_lines("M 1.0 7.3 L 1.0 8.9 L 9.0 8.9 L 9.0 7.3"),
        )
    ),
    "row": _Drawing(lines=tuple(rectangle(x, 2.0, 1.8, 6.0) for x in (0.7, 4.1, 7.5))),
    "column": _Drawing(lines=tuple(rectangle(2.0, y, 6.0, 1.8) for y in (0.7, 4.1, 7.5))),
    # One half at the fold, the other across it.
    "other_half": _Drawing(
        lines=_lines("M 5.0 1.9 L 9.2 1.9 L 9.2 8.1 L 5.0 8.1 M 5.0 0.5 L 5.0 9.5"),
        dashed=_lines("M 5.0 1.9 L 0.8 1.9 L 0.8 8.1 L 5.0 8.1"),
    ),
    # A needle, and the stitches behind it.
    "stitch": _Drawing(
        lines=_lines(
            "M 9.3 0.7 L 4.6 5.4",
            "M 4.6 5.4 C 3.9 5.5 3.0 6.3 2.8 7.2 C 3.7 7.0 4.5 6.1 4.6 5.4 Z",
            "M 0.7 9.3 L 2.3 9.3 M 4.0 9.3 L 5.6 9.3 M 7.3 9.3 L 8.9 9.3",
        )
    ),
    # A heart: if you like.
    OPTIONAL: _Drawing(
        lines=_lines(
            "M 5.0 8.8 C 2.5 6.9 0.8 5.3 0.8 3.6 C 0.8 2.3 1.8 1.4 2.9 1.4 C 3.9 1.4 4.6 1.9 5.0 2.8"
            " C 5.4 1.9 6.1 1.4 7.1 1.4 C 8.2 1.4 9.2 2.3 9.2 3.6 C 9.2 5.3 7.5 6.9 5.0 8.8 Z"
        )
    ),
}

SYMBOL_NAMES = tuple(_DRAWINGS)


@lru_cache(maxsize=128)
def step_symbol(name: str, colour: Colour) -> Symbol:
    """The symbol of a verb (or of what is optional), 10 x 10 pt, in one colour on nothing.

    Raises KeyError for a verb that has none.
    """
    drawing = _DRAWINGS[name]
    line = Stroke(colour, _WEIGHT, (), Cap.ROUND, Join.ROUND)
    dashed = Stroke(colour, _WEIGHT, _DASH, Cap.BUTT, Join.ROUND)
    shapes: list[Shape] = [Path(each, None, line) for each in drawing.lines]
    shapes += [Path(each, None, dashed) for each in drawing.dashed]
    shapes += [Path(each, Fill(colour)) for each in drawing.solid]
    shapes += [Circle(x, y, radius, Fill(colour)) for x, y, radius in drawing.dots]
    return Symbol(f"step {name} {colour.hex}", tuple(shapes), SYMBOL_SIDE, SYMBOL_SIDE)
