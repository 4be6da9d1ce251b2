"""Blocks of words on a template: lines under one another, perhaps an arrow up or a ring before them."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.drawing.marks.ring import ring_in_text, small_ring_radius
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Colour, Fill, Line, Polygon, Shape, Stroke, Text
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.dataclass import dataclass, replace

_HEADING, _LINE = (Font.SANS_BOLD, 13.0), (Font.SANS, 10.0)
# From line to line, in parts of the size.
_LEADING = 1.3
_RING_GAP = 3.0
# The arrow: how wide it is with the white beside it, its head, its shaft.
_ARROW, _HALF_HEAD, _HEAD, _SHAFT = 18.0, 4.5, 9.0, 2.2
_ARROW_TONE = Colour("#8a8a8a")


@dataclass(frozen=True)
class WordBlock:
    """Lines of words under a heading; `up` puts an arrow before them, `ring` the number of a step."""

    lines: tuple[str, ...]
    heading: tuple[str, ...] = ()
    up: bool = False
    ring: int | None = None

    def wrapped(self, width: float) -> WordBlock:
        """The same words in lines of at most a width in points, as far as they break."""
        heading = tuple(line for each in self.heading for line in _wrapped(each, _HEADING, width))
        return replace(
            self,
            lines=tuple(line for each in self.lines for line in _wrapped(each, _LINE, width)),
            heading=heading,
        )

    def width(self, style: DrawingStyle) -> float:
        """How wide it runs, in points."""
        return self._before(style) + max(text_width(line, *face) for line, face in self._set)

    @property
    def _set(self) -> Iterator[tuple[str, tuple[Font, float]]]:
        """Each line with its face and size."""
        yield from ((line, _HEADING) for line in self.heading)
        yield from ((line, _LINE) for line in self.lines)

    def _before(self, style: DrawingStyle) -> float:
        ring = 0.0 if self.ring is None else 2 * small_ring_radius(style) + _RING_GAP
        return ring + (_ARROW if self.up else 0.0)

    @property
    def height(self) -> float:
        """How high it is, in points."""
        return sum(size * _LEADING for _, (_, size) in self._set)

    def shapes(self, box: Box, style: DrawingStyle) -> Iterator[Shape]:
        """The words in a box of their size."""
        left, top = box.left + self._before(style), box.top
        if self.up:
            yield from _arrow(box.left + _HALF_HEAD, box.top + 1.0, box.bottom - 1.0)
        if self.ring is not None:
            radius = small_ring_radius(style)
            yield ring_in_text(left - _RING_GAP - radius, top + _LINE[1] * _LEADING / 2, self.ring, style)
        for line, (font, size) in self._set:
            high = size * _LEADING
            baseline = top + high / 2 + cap_height(font, size) / 2
            yield Text(line, left, baseline, size, font, style.palette.ink, role="label")
            top += high


def _arrow(x: float, top: float, foot: float) -> Iterator[Shape]:
    """A light arrow that points up, as the print stands."""
    head = ((x, top), (x + _HALF_HEAD, top + _HEAD), (x - _HALF_HEAD, top + _HEAD))
    yield Polygon(head, Fill(_ARROW_TONE))
    yield Line((x, top + _HEAD - 0.5), (x, foot), Stroke(_ARROW_TONE, _SHAFT))


def _wrapped(text: str, face: tuple[Font, float], width: float) -> Iterator[str]:
    """A text in lines of at most a width in points, broken between words; a longer word stands alone."""
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if line and text_width(longer, *face) > width:
            yield line
            line = word
        else:
            line = longer
    yield line
