"""The artwork of a cut-apart sheet's printed elements, in points at full size."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from booklet.drawing.papers.pictures import frame_depth, frame_shapes, picture_shapes
from booklet.drawing.shapes.affine import Box, rotation
from booklet.drawing.shapes.figure import Colour, Fill, Group, Motifs, Shape, bounds, filled_box
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.outlined import letters
from booklet.kit.element import ElementFrame, ElementPicture
from booklet.measure.dataclass import dataclass

_AIR = 4.0
# A strip this many times as high as wide has its words along it, read from the right.
_UPRIGHT = 2.6
_LEADING = 1.22
_LARGEST = 60.0
_FONT = Font.SERIF_BOLD
_SMALLER = 0.92
# How much of a side the margin may take, with a frame and without.
_FRAMED, _PLAIN = 0.3, 0.2


@dataclass(frozen=True)
class ElementPaint:
    """One printed element: its box on the sheet, its colours, its frame, words and picture."""

    box: Box
    ground: Colour
    ink: Colour
    frame: ElementFrame = ElementFrame.NONE
    words: str | None = None
    picture: ElementPicture | None = None

    @cached_property
    def shown_words(self) -> str | None:
        """Its words; None where the typeface holds none of their letters, so that nothing of them shows."""
        has_outlines = self.words is not None and letters(self.words, _FONT, _LARGEST, 0.0, 0.0)
        return self.words if has_outlines else None


def element_shapes(paint: ElementPaint) -> tuple[Shape, ...]:
    """The element's ground, frame, picture and words."""
    box = paint.box
    ground = filled_box(box, Fill(paint.ground))
    return (ground, *frame_shapes(paint.frame, box, paint.ink), *_contents(paint, _inside(paint)))


def artwork_boxes(paint: ElementPaint) -> tuple[Box, ...]:
    """The boxes about the element's picture and its words, by which it is recognised."""
    return tuple(bounds([shape]) for shape in _contents(paint, _inside(paint)))


def words_box(paint: ElementPaint) -> Box | None:
    """The box about the element's words; None where it bears none."""
    if not paint.shown_words:
        return None
    *_, words = _contents(paint, _inside(paint))
    return bounds([words])


def _inside(paint: ElementPaint) -> Box:
    """The room within any frame: as much off each side as a double frame takes, and air."""
    box = paint.box
    margin, most = frame_depth(box) + _AIR, _PLAIN if paint.frame is ElementFrame.NONE else _FRAMED
    across, down = min(margin, box.width * most), min(margin, box.height * most)
    return Box(box.left + across, box.top + down, box.right - across, box.bottom - down)


def _contents(paint: ElementPaint, inside: Box) -> Iterator[Shape]:
    if paint.picture and not paint.shown_words:
        yield picture_shapes(
            paint.picture, inside.grown(-min(inside.width, inside.height) * 0.06), paint.ink, _second(paint)
        )
        return
    room = inside
    if paint.picture:
        picture, room = _shared(inside)
        yield picture_shapes(paint.picture, picture, paint.ink, _second(paint))
    if paint.shown_words and room.height > _UPRIGHT * room.width:
        yield _upright_words(paint.shown_words, room, paint.ink)
    elif paint.shown_words:
        yield _words(paint.shown_words, room, paint.ink)


def _upright_words(words: str, room: Box, ink: Colour) -> Group:
    x, y = room.centre
    lying = Box(x - room.height / 2, y - room.width / 2, x + room.height / 2, y + room.width / 2)
    return Group((_words(words, lying, ink),), rotation(-90, (x, y)))


def _second(paint: ElementPaint) -> Colour:
    return paint.ink.mixed(paint.ground, 0.5)


def _shared(inside: Box) -> tuple[Box, Box]:
    """Room for the picture and for the words: side by side on a wide element, else one above the other."""
    if inside.width > inside.height * 1.35:
        side = min(inside.height, inside.width * 0.34)
        picture = Box(inside.left, inside.top, inside.left + side, inside.bottom)
        return picture, Box(inside.left + side * 1.18, inside.top, inside.right, inside.bottom)
    side = min(inside.width, inside.height * 0.56)
    picture = Box(inside.left, inside.top, inside.right, inside.top + side)
    return picture, Box(inside.left, inside.top + side * 1.08, inside.right, inside.bottom)


def _words(words: str, room: Box, ink: Colour) -> Motifs:
    """The words as large as the room allows, in the middle of it."""
    size, lines = _fitted(words, room, _FONT)
    height = (len(lines) - 1) * size * _LEADING + cap_height(_FONT, size)
    baseline = room.centre[1] - height / 2 + cap_height(_FONT, size)
    rows = [
        row
        for number, line in enumerate(lines)
        for row in letters(line, _FONT, size, room.centre[0], baseline + number * size * _LEADING)
    ]
    return Motifs(tuple(rows), Fill(ink))


def _fitted(words: str, room: Box, font: Font) -> tuple[float, list[str]]:
    """The largest size at which the words, broken into lines, fit the room, and those lines."""
    size = _LARGEST
    while True:
        lines = _broken(words, room.width, font, size)
        high = (len(lines) - 1) * size * _LEADING + size
        if high <= room.height and all(text_width(line, font, size) <= room.width for line in lines):
            return size, lines
        size *= _SMALLER


def _broken(words: str, width: float, font: Font, size: float) -> list[str]:
    """Lines as typed, broken further where they are wider than the room."""
    lines: list[str] = []
    for typed in words.splitlines():
        line = ""
        for word in typed.split():
            longer = f"{line} {word}".strip()
            if line and text_width(longer, font, size) > width:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return lines
