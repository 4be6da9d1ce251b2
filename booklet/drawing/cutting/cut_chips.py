"""Chips on strips: each strip's letters, size and way to go, where they have room; else out on a leader."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from booklet.drawing.marks.leaders import Seat, Seating, seat
from booklet.drawing.marks.marker import Chip, chip_size, piece_chip
from booklet.drawing.marks.placement import Callout
from booklet.drawing.shapes.affine import Box, rotation
from booklet.drawing.shapes.figure import Anchor, Circle, Fill, Group, Polyline, Rect, Shape, Stroke, Text
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle

_MARGIN = 1.2  # between a chip and the edges of its strip
_LINE_SIDE = 5.0
_LINE_TOP = 2.6
_LINE_GAP = 5.0
# Chips with their sizes may hang in so many rows; deeper, and the sizes are left to the words.
_FEW_ROWS = 2


@dataclass(frozen=True)
class StripChip:
    """What is to stand on a strip, and the strip's box; `goes` may be broken at its line feeds.

    A chip is `off` the strip where it would hide something that is to be seen.
    """

    letters: str
    size: str
    goes: str
    box: Box
    off: bool = False


@dataclass(frozen=True)
class Chips:
    """Drawn chips, and the boxes of those that hang below the outline."""

    shapes: tuple[Shape, ...]
    below: tuple[Box, ...]


def strip_chips(
    strips: Sequence[StripChip], style: DrawingStyle, bottom: float, room: tuple[float, float]
) -> Chips:
    """Chips for strips from left to right, each in the middle of its strip.

    Those that find no room there hang under the outline; see `hanging_chips`.
    """
    shapes: list[Shape] = []
    outside: list[StripChip] = []
    for strip in strips:
        drawn = None if strip.off else inside_chip(strip, style)
        if drawn is None:
            outside.append(strip)
        else:
            shapes += drawn
    hung = hanging_chips(outside, style, bottom, room)
    return Chips((*shapes, *hung.shapes), hung.below)


def inside_chip(strip: StripChip, style: DrawingStyle) -> tuple[Shape, ...] | None:
    """The chip in the fullest form that its strip has room for; None where it has none."""
    box = strip.box
    wide, high = box.width - 2 * _MARGIN, box.height - 2 * _MARGIN
    for note in _notes(strip):
        width, height = chip_size(strip.letters, note, style)
        if width <= wide and height <= high:
            return piece_chip(box.centre, strip.letters, note, style).shapes
    width, height = line_chip_size(strip, style)
    if width <= wide and height <= high:
        return line_chip(strip, *box.centre, style).shapes
    if height <= wide and width <= high:
        return line_chip(strip, *box.centre, style, upright=True).shapes
    return None


def _notes(strip: StripChip) -> Iterator[str]:
    """The lines under a chip's letters, widest form first."""
    whole = strip.goes.replace("\n", " ")
    yield "\n".join(part for part in (strip.size, whole) if part)
    if whole != strip.goes:
        yield "\n".join((strip.size, strip.goes))


def _line_note(strip: StripChip) -> str:
    return "  ".join(part for part in (strip.size, strip.goes.replace("\n", " ")) if part)


def line_chip_size(strip: StripChip, style: DrawingStyle) -> tuple[float, float]:
    """Width and height of a chip that stands on one line."""
    letters = text_width(strip.letters, Font.SANS_BOLD, style.disc_text_size)
    note = text_width(_line_note(strip), Font.SANS, style.note_size)
    height = cap_height(Font.SANS_BOLD, style.disc_text_size) + 2 * _LINE_TOP
    return letters + (_LINE_GAP if note else 0.0) + note + 2 * _LINE_SIDE, height


def line_chip(
    strip: StripChip, x: float, y: float, style: DrawingStyle, *, upright: bool = False, framed: bool = False
) -> Chip:
    """A chip on one line about (x, y): letters, then size and way.  An upright one reads from the right."""
    palette = style.palette
    width, height = line_chip_size(strip, style)
    left = x - width / 2
    baseline = y + cap_height(Font.SANS_BOLD, style.disc_text_size) / 2
    after = left + _LINE_SIDE + text_width(strip.letters, Font.SANS_BOLD, style.disc_text_size) + _LINE_GAP
    frame = Stroke(palette.rule, style.fine_width) if framed else None
    ground = Rect(left, y - height / 2, width, height, Fill(palette.paper), frame, radius=3.0)
    letters = Text(
        strip.letters,
        left + _LINE_SIDE,
        baseline,
        style.disc_text_size,
        Font.SANS_BOLD,
        palette.ink,
        role="piece",
    )
    note = Text(
        _line_note(strip),
        after,
        baseline,
        style.note_size,
        Font.SANS,
        palette.accent,
        Anchor.START,
        role="pocket",
    )
    box = Box(left, y - height / 2, left + width, y + height / 2)
    if not upright:
        return Chip((Group((ground, letters, note), tag="chip"),), box)
    turn = rotation(-90, (x, y))
    return Chip((Group((ground, letters, note), turn, tag="chip"),), box.under(turn))


def hanging_chips(
    strips: Sequence[StripChip], style: DrawingStyle, bottom: float, room: tuple[float, float]
) -> Chips:
    """Chips in rows under the outline's `bottom`, within `room` along x, each on a leader from its strip.

    Where many would hang deep or not keep within the room they say less: the letters and the way, then the
    letters only.  What is left out stands in the words beside the figure.
    """
    full = list(strips)
    unsized = [replace(strip, size="") for strip in strips]
    bare = [replace(strip, size="", goes="") for strip in strips]
    seated = [(saying, _seats(saying, style, room)) for saying in (full, unsized, bare)]
    keeping = [one for one in seated if _keeps_within(one[1], room)] or seated[-1:]
    saying, seats = keeping[0]
    if len(keeping) > 1 and keeping[1][0] is unsized and _rows(seats) > max(_FEW_ROWS, _rows(keeping[1][1])):
        saying, seats = keeping[1]
    shapes: list[Shape] = []
    boxes: list[Box] = []
    for strip, found in zip(saying, seats, strict=True):
        shapes += _leader(strip, found, style, bottom)
        chip = line_chip(strip, found.at, bottom + (found.near + found.far) / 2, style, framed=True)
        shapes += chip.shapes
        boxes.append(chip.box)
    return Chips(tuple(shapes), tuple(boxes))


def _keeps_within(seats: Sequence[Seat], room: tuple[float, float]) -> bool:
    return all(room[0] <= s <= room[1] for found in seats for s, _ in found.leader)


def _rows(seats: Sequence[Seat]) -> int:
    return len({round(found.near, 3) for found in seats})


def _seats(strips: Sequence[StripChip], style: DrawingStyle, room: tuple[float, float]) -> Sequence[Seat]:
    sizes = [line_chip_size(strip, style) for strip in strips]
    callouts = [
        Callout(strip.box.centre[0], width / 2, width / 2)
        for strip, (width, _) in zip(strips, sizes, strict=True)
    ]
    height = max((height for _, height in sizes), default=0.0)
    return seat(callouts, Seating(start=3.0, height=height, corridor=6.0, gap=5.0, low=room[0], high=room[1]))


def _leader(strip: StripChip, found: Seat, style: DrawingStyle, bottom: float) -> Iterator[Shape]:
    """From a dot within the strip down to its chip, on a path of paper white that parts it from the print."""
    x = strip.box.centre[0]
    start = strip.box.bottom - min(5.0, strip.box.height / 2)
    way = ((x, start), *((s, bottom + depth) for s, depth in found.leader))
    yield Polyline(
        ((x, start), (x, strip.box.bottom)), Stroke(style.palette.paper, 3 * style.dimension_width)
    )
    yield Polyline(way, style.narrow)
    yield Circle(x, start, 1.7, Fill(style.palette.ink))
