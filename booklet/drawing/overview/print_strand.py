"""A strand of paper: a line as thick as a ribbon in the ground of its print, its pattern along it.

A print seen from so far has no scale: lines, dots and dashes in its own inks stand for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.drawing.shapes.affine import translation
from booklet.drawing.shapes.figure import Cap, Colour, Group, Path, Segment, Shape, Stroke
from booklet.kit.paper import Pattern
from booklet.measure.dataclass import dataclass

# A strand's edge stands out so far on each side, in points, and is so much darker than its ground.
_EDGE, _DARKER = 0.35, 0.45


@dataclass(frozen=True)
class _Thread:
    """One line along a strand: how far below its middle and how thick, in parts of the strand's thickness,
    in which ink of the pattern, counted from 1, and its dashes in the same parts.
    """

    below: float
    thick: float
    ink: int
    dashes: tuple[float, ...] = ()
    cap: Cap = Cap.BUTT


_ROUND = Cap.ROUND
_THREADS: dict[Pattern, tuple[_Thread, ...]] = {
    Pattern.SOLID: (),
    Pattern.STRIPES: (_Thread(0.0, 0.36, 1), _Thread(-0.34, 0.1, 2), _Thread(0.34, 0.1, 2)),
    Pattern.DOTS: (_Thread(0.0, 0.5, 1, (0.0, 1.4), _ROUND),),
    Pattern.CHECKS: (_Thread(-0.25, 0.5, 1, (0.6, 0.6)), _Thread(0.25, 0.5, 1, (0.0, 0.6, 0.6, 0.0))),
    Pattern.GRID: (_Thread(0.0, 0.14, 1), _Thread(0.0, 1.0, 1, (0.14, 1.0))),
    Pattern.WAVES: (
        _Thread(-0.2, 0.2, 1, (1.0, 1.2), _ROUND),
        _Thread(0.2, 0.2, 1, (0.0, 1.1, 1.0, 0.1), _ROUND),
    ),
    Pattern.LEAVES: (
        _Thread(-0.18, 0.34, 1, (0.7, 1.5), _ROUND),
        _Thread(0.18, 0.34, 1, (0.0, 1.1, 0.7, 0.4), _ROUND),
    ),
    Pattern.STARS: (_Thread(0.0, 0.5, 1, (0.0, 2.4), _ROUND), _Thread(0.0, 0.22, 2, (0.0, 1.2), _ROUND)),
    Pattern.SCALLOPS: (_Thread(-0.22, 0.56, 1, (0.0, 0.7), _ROUND),),
    Pattern.CONFETTI: (
        _Thread(-0.24, 0.3, 1, (0.3, 2.1)),
        _Thread(0.02, 0.3, 2, (0.0, 0.9, 0.3, 1.2)),
        _Thread(0.26, 0.3, 3, (0.0, 1.6, 0.3, 0.5)),
    ),
}


def print_strand(
    course: tuple[Segment, ...], thickness: float, pattern: Pattern, colours: Sequence[Colour]
) -> Iterator[Shape]:
    """A strand along a course: its edge, its ground, and the pattern in its inks.

    `colours` are the ground and the inks of the pattern, as many as there are.
    """
    ground = colours[0]
    yield Path(course, stroke=Stroke(ground.darker(_DARKER), thickness + 2 * _EDGE))
    yield Path(course, stroke=Stroke(ground, thickness))
    for thread in _THREADS[pattern]:
        dashes = tuple(part * thickness for part in thread.dashes)
        stroke = Stroke(colours[thread.ink], thread.thick * thickness, dashes, thread.cap)
        line = Path(course, stroke=stroke)
        below = thread.below * thickness
        yield Group((line,), translation(0.0, below)) if below else line
