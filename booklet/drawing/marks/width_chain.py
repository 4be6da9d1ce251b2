"""The widths of neighbouring strips on one dimension line below them, and a height at their right.

After ISO 129-1:2018 (from published extracts): extension lines start clear of the outline and pass the
dimension line; a text stands above its line and reads from below, along an upright line from the right.
A text that is wider than its strip moves under the line, in one row with others of its kind, on a short
leader where it cannot stand right there.  Where a strip is too narrow for an arrowhead at either end, its
neighbour's points at it from outside, or a dot stands between two such strips.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from booklet.cutting.labels import letter
from booklet.drawing.marks.placement import Callout, spread
from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import (
    Anchor,
    Circle,
    Dimension,
    Fill,
    Group,
    Line,
    Path,
    Polyline,
    Segment,
    Shape,
    Text,
)
from booklet.drawing.shapes.fonts import Font, cap_height, font_metrics, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.dataclass import dataclass, replace

TAG = "dimension"
_FONT = Font.SANS
_OVERSHOOT = 3.0
_GAP = 6.0
_LEADER = 6.0
_LINE_NEAR = 7.0  # a line with nothing above it
_ABOVE = 3.2  # from the line to a text above it
_FREE = 2.2  # from the outline to a text above the line
_CLEAR = 4.0  # from the outline to a text along an upright line, and from there to the line
# Letters of so many strips in a row are told by the first and the last.
_MANY = 4
_LETTERS = tuple(letter(at) for at in range(200))


@dataclass(frozen=True)
class Width:
    """A strip, or several alike: where it starts and ends, its width as printed, letters to stand with it."""

    start: float
    end: float
    label: str
    letters: str = ""

    @property
    def middle(self) -> float:
        """Halfway along."""
        return (self.start + self.end) / 2


@dataclass(frozen=True)
class WidthChain:
    """A line of widths below an outline whose foot lies at `edge`; texts under it keep `low` to `high`.

    Where they do not fit they run on to the right.
    """

    widths: tuple[Width, ...]
    edge: float
    low: float
    high: float
    style: DrawingStyle

    def is_above(self, width: Width) -> bool:
        """Whether a width's text has room above its own line."""
        room = width.end - width.start - 2 * self.style.text_clearance
        return text_width(width.label, _FONT, self.style.dimension_size) <= room

    @cached_property
    def line(self) -> float:
        """Where the dimension line runs."""
        if any(map(self.is_above, self.widths)):
            ascent = font_metrics(_FONT).ascent * self.style.dimension_size
            return self.edge + _FREE + ascent + _ABOVE
        return self.edge + _LINE_NEAR

    @cached_property
    def under(self) -> tuple[Width, ...]:
        """The widths of which something stands under the line."""
        return tuple(width for width in self.widths if width.letters or not self.is_above(width))

    @cached_property
    def places(self) -> tuple[float, ...]:
        """Where the middle of each text under the line stands."""
        halves = [self.half(width) for width in self.under]
        callouts = [Callout(width.middle, half, half) for width, half in zip(self.under, halves, strict=True)]
        return tuple(spread(callouts, _GAP, self.low, self.high)) if callouts else ()

    def half(self, width: Width) -> float:
        """Half of how wide the rows of a text under the line run."""
        return max(text_width(row, font, self.style.dimension_size) for row, font in self.rows(width)) / 2

    def rows(self, width: Width) -> tuple[tuple[str, Font], ...]:
        """What stands under the line of a width, row by row."""
        label = () if self.is_above(width) else ((width.label, _FONT),)
        return (*label, *(((width.letters, Font.SANS_BOLD),) if width.letters else ()))

    @cached_property
    def row_top(self) -> float:
        """Where the texts under the line begin."""
        moved = any(map(_is_off, self.under, self.places))
        return self.line + _OVERSHOOT + (_LEADER if moved else 0.6)

    @property
    def row_pitch(self) -> float:
        """From one baseline under the line to the next."""
        return self.style.dimension_size * 1.15

    def baseline(self, row: int) -> float:
        """Where a row of texts under the line stands."""
        return self.row_top + font_metrics(_FONT).ascent * self.style.dimension_size + row * self.row_pitch

    @cached_property
    def bottom(self) -> float:
        """How far down all reaches."""
        if not self.under:
            return self.line + _OVERSHOOT
        rows = max(len(self.rows(width)) for width in self.under)
        return self.baseline(rows - 1) + font_metrics(_FONT).descent * self.style.dimension_size

    @cached_property
    def left(self) -> float:
        """How far left the first row under the line reaches; where nothing stands there, its right end."""
        return min(
            (place - self.half(width) for place, width in zip(self.places, self.under, strict=True)),
            default=self.high,
        )

    @cached_property
    def right(self) -> float:
        """How far right the texts under the line reach; where nothing stands there, their left end."""
        return max(
            (place + self.half(width) for place, width in zip(self.places, self.under, strict=True)),
            default=self.low,
        )


def _is_off(width: Width, place: float) -> bool:
    """Whether a text's middle came to stand beside its strip, so that it wants a leader."""
    return not width.start <= place <= width.end


def chain_shapes(chain: WidthChain) -> Iterator[Shape]:
    """The line, its ends, extension lines and texts."""
    style = chain.style
    places = dict(zip(chain.under, chain.places, strict=True))
    for x in _bounds(chain):
        start, end = (x, chain.edge + style.extension_gap), (x, chain.line + _OVERSHOOT)
        yield Line(start, end, style.narrow)
    for width in chain.widths:
        yield from _measured(chain, width, places.get(width))
    yield from _ends(chain)


def _bounds(chain: WidthChain) -> list[float]:
    return sorted({x for width in chain.widths for x in (width.start, width.end)})


def _measured(chain: WidthChain, width: Width, place: float | None) -> Iterator[Shape]:
    """One width's line and text; letters that stand with it are no part of the dimension."""
    style = chain.style
    start, end = (width.start, chain.line), (width.end, chain.line)
    parts: list[Shape] = [Line(start, end, style.narrow)]
    rows = list(chain.rows(width)) if place is not None else []
    if chain.is_above(width):
        parts.append(_text(width.label, (width.middle, chain.line - _ABOVE), style))
    elif place is not None:
        parts.append(_text(width.label, (place, chain.baseline(0)), style))
    yield Group(tuple(parts), tag=TAG, dimension=Dimension(start, end, width.label))
    if place is None:
        return
    if _is_off(width, place):
        knee, foot = (width.middle, chain.line + _OVERSHOOT), (place, chain.row_top - 0.8)
        yield Polyline(((width.middle, chain.line), knee, foot), style.narrow)
    if width.letters:
        yield _text(width.letters, (place, chain.baseline(len(rows) - 1)), style, Font.SANS_BOLD, "piece")


def _text(words: str, at: Point, style: DrawingStyle, font: Font = _FONT, role: str = TAG) -> Text:
    return Text(words, *at, style.dimension_size, font, style.palette.ink, Anchor.MIDDLE, role=role)


def _ends(chain: WidthChain) -> Iterator[Shape]:
    """Arrowheads within wide strips, at both ends; a dot where only narrow ones meet."""
    style = chain.style
    wide = [width for width in chain.widths if width.end - width.start >= _least_for_arrows(style)]
    heads = [
        part
        for width in wide
        for tip, way in ((width.start, 1.0), (width.end, -1.0))
        for part in arrowhead((tip, chain.line), (way, 0.0), style)
    ]
    if heads:
        yield Path(tuple(heads), Fill(style.palette.ink))
    pointed = {x for width in wide for x in (width.start, width.end)}
    yield from (_dot((x, chain.line), style) for x in _bounds(chain) if x not in pointed)


def _least_for_arrows(style: DrawingStyle) -> float:
    return 2 * style.arrow_length + 6.0


def _dot(at: Point, style: DrawingStyle) -> Circle:
    return Circle(*at, style.arrow_width / 2, Fill(style.palette.ink))


def arrowhead(tip: Point, way: Point, style: DrawingStyle) -> tuple[Segment, ...]:
    """A filled arrowhead with its tip here, its tail `way` from it: a direction of length 1."""
    length, half = style.arrow_length, style.arrow_width / 2
    tail = (tip[0] + way[0] * length, tip[1] + way[1] * length)
    across = (-way[1] * half, way[0] * half)
    return (
        ("M", *tip),
        ("L", tail[0] + across[0], tail[1] + across[1]),
        ("L", tail[0] - across[0], tail[1] - across[1]),
        ("Z",),
    )


# Upright, at the right.


def height_room(label: str, height: float, style: DrawingStyle) -> float:
    """How far from the outline a height of so many points reaches."""
    if _is_along(label, height, style):
        return 2 * _CLEAR + _height_of_text(style) + _OVERSHOOT
    return _LINE_NEAR + _OVERSHOOT + _ASIDE + text_width(label, _FONT, style.dimension_size)


_ASIDE = 1.5


def _is_along(label: str, height: float, style: DrawingStyle) -> bool:
    """Whether a text has room along its own upright line."""
    return text_width(label, _FONT, style.dimension_size) + 2 * style.text_clearance <= height


def _height_of_text(style: DrawingStyle) -> float:
    return font_metrics(_FONT).ascent * style.dimension_size


def height_shapes(outline: Box, edge: float, label: str, style: DrawingStyle) -> Iterator[Shape]:
    """The height of an outline, right of `edge`; its text reads from the right.

    Where the text has no room along the line it stands beside it, upright.
    """
    top, bottom = outline.top, outline.bottom
    is_along = _is_along(label, bottom - top, style)
    x = edge + (2 * _CLEAR + _height_of_text(style) if is_along else _LINE_NEAR)
    for y in (top, bottom):
        yield Line((edge + style.extension_gap, y), (x + _OVERSHOOT, y), style.narrow)
    start, end = (x, top), (x, bottom)
    middle = (top + bottom) / 2
    if is_along:
        words = replace(_text(label, (x - _CLEAR, middle), style), rotation=-90.0)
    else:
        # Not below the outline, where the widths stand.
        baseline = min(middle + cap_height(_FONT, style.dimension_size) / 2, bottom - _ASIDE)
        place = (x + _OVERSHOOT + _ASIDE, baseline)
        words = replace(_text(label, place, style), anchor=Anchor.START)
    yield Group((Line(start, end, style.narrow), words), tag=TAG, dimension=Dimension(start, end, label))
    if bottom - top >= _least_for_arrows(style):
        heads = (*arrowhead(start, (0.0, 1.0), style), *arrowhead(end, (0.0, -1.0), style))
        yield Path(heads, Fill(style.palette.ink))
    else:
        yield from (_dot((x, y), style) for y in (top, bottom))


def merged(widths: Sequence[Width], alike: Sequence[bool], times: str) -> tuple[Width, ...]:
    """Neighbours that are alike as one: `4 x 1 1/2`; `alike` says of each whether it is like the one before.

    The letters of all stand in their order, or of many in a row the first and the last: `D–J`.
    """
    runs: list[list[Width]] = []
    for width, same in zip(widths, alike, strict=True):
        if same and runs:
            runs[-1].append(width)
        else:
            runs.append([width])
    return tuple(_joined(run, times) for run in runs)


def _joined(run: Sequence[Width], times: str) -> Width:
    if len(run) == 1:
        return run[0]
    label = f"{len(run)}\u00a0{times}\u00a0{run[0].label}"
    letters = [width.letters for width in run if width.letters]
    return Width(run[0].start, run[-1].end, label, _in_short(letters))


def _in_short(letters: Sequence[str]) -> str:
    if len(letters) >= _MANY and all(one in _LETTERS for one in letters):
        low, high = sorted(map(_LETTERS.index, (letters[0], letters[-1])))
        run = _LETTERS[low : high + 1]
        if tuple(letters) in (run, run[::-1]):
            return f"{letters[0]}–{letters[-1]}"
    return " ".join(letters)
