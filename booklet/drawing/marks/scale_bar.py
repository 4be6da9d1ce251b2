"""The trimmer's scale along a sheet's top edge, the readings on it, and enlarged views of a reading.

Values are exact, in the kit's unit; points appear where a mark is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, floor, inf

from booklet.drawing.marks.leaders import Seat, Seating, seat
from booklet.drawing.marks.marker import cut_marker
from booklet.drawing.marks.placement import Callout
from booklet.drawing.marks.trimmer_scale import Ruler as Ruler
from booklet.drawing.marks.trimmer_scale import divisions as divisions
from booklet.drawing.marks.trimmer_scale import drawn_divisions as drawn_divisions
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import (
    Anchor,
    Fill,
    Group,
    Line,
    Path,
    Polyline,
    Rect,
    Segment,
    Shape,
    Stroke,
    Text,
    bounds,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit

_LABEL_STEPS = {
    Unit.INCH: (1, 2, 3, 6, 12),
    Unit.CENTIMETRE: (1, 2, 5, 10),
    Unit.MILLIMETRE: (10, 20, 50, 100),
}
# How far an enlarged view reaches to either side of its reading.
_REACH = {Unit.INCH: Fraction(1), Unit.CENTIMETRE: Fraction(2), Unit.MILLIMETRE: Fraction(20)}


@dataclass(frozen=True)
class Reading:
    """A cut's number, the value at which it is made, and that value as printed."""

    number: str
    value: Fraction
    text: str


@dataclass(frozen=True)
class ScaleDrawing:
    """A drawn scale: its shapes, the box about them, and where its tinted band begins, below the readings."""

    shapes: tuple[Shape, ...]
    box: Box
    band_top: float


@dataclass(frozen=True)
class EnlargedView:
    """A drawn enlarged view, the box about it, where its scale stands, and the stretch that it shows."""

    shapes: tuple[Shape, ...]
    box: Box
    band_bottom: float
    low: Fraction
    high: Fraction


def label_step(ruler: Ruler, style: DrawingStyle) -> int:
    """The least distance between labels, in units, at which they stand clear of each other."""
    widest = text_width(str(int(ruler.length)), Font.SANS, style.scale_label_size)
    for step in _LABEL_STEPS[ruler.unit]:
        if ruler.at(Fraction(step)) >= widest + 4:
            return step
    return _LABEL_STEPS[ruler.unit][-1]


def is_labelled(value: Fraction, unit: Unit) -> bool:
    """Whether a trimmer labels this division of its scale: every inch or centimetre (common practice).

    A drawn scale may have room for fewer labels; there the reading itself stands over its mark.
    """
    return value % _LABEL_STEPS[unit][0] == 0


_TICK = 9.0
_LEAST_TICK = 3.6
_LABEL_GAP = 0.27  # of a label's size: its descenders end just above the marks
_BAND_END = 7.0
_EDGE_GAP = 3.0
_LABEL_CLEARANCE = 2.0
_FARTHEST_LABEL = 0.35  # of the way to the next label: beyond that a label would seem to name another mark


def scale_bar(
    x: float,
    y: float,
    ruler: Ruler,
    readings: Sequence[Reading],
    style: DrawingStyle,
    *,
    room: tuple[float, float] = (-inf, inf),
) -> ScaleDrawing:
    """The scale above a sheet whose top edge lies at `y`, its zero at `x`, with the readings of its cuts.

    Each reading has a numbered disc and its value above the scale, spread sideways on leaders where they
    come close, within `room` along x while they fit.
    """
    base = y - _EDGE_GAP
    step = label_step(ruler, style)
    marks = drawn_divisions(ruler)
    shapes: list[Shape] = [_band(x, base, ruler, style)]
    shapes.append(_ticks(x, base, ruler, marks, style))
    shapes.append(_zero(x, base, y, style))
    shapes += _labels(x, base, ruler, readings, step, style)
    shapes += _readings(x, base, y, ruler, readings, step, style, room)
    made = (Group(tuple(shapes), tag="scale"),)
    return ScaleDrawing(made, bounds(made), _band_top(base, style))


def _band_height(style: DrawingStyle) -> float:
    size = style.scale_label_size
    return _TICK + _LABEL_GAP * size + cap_height(Font.SANS, size) + 3.2


def _band_top(base: float, style: DrawingStyle) -> float:
    return base - _band_height(style)


def _label_baseline(base: float, style: DrawingStyle) -> float:
    return base - _TICK - _LABEL_GAP * style.scale_label_size


def _band(x: float, base: float, ruler: Ruler, style: DrawingStyle) -> Rect:
    height = _band_height(style)
    width = ruler.at(ruler.length) + 2 * _BAND_END
    return Rect(
        x - _BAND_END, _band_top(base, style), width, height, Fill(style.palette.accent_tint), radius=2.5
    )


def _ranks(marks: Sequence[Fraction]) -> list[int]:
    """Each division in finest ones, coarse to fine: a mark's rank is the first that divides its number."""
    return [int(each / marks[-1]) for each in marks]


def _rank(number: int, ranks: Sequence[int]) -> int:
    return next(rank for rank, each in enumerate(ranks) if number % each == 0)


def _ticks(x: float, base: float, ruler: Ruler, marks: Sequence[Fraction], style: DrawingStyle) -> Path:
    segments: list[Segment] = []
    pitch, ranks = ruler.at(marks[-1]), _ranks(marks)
    lengths = [max(_LEAST_TICK, _TICK * 0.76**rank) for rank in range(len(marks))]
    for number in range(int(ruler.length / marks[-1]) + 1):
        at = x + number * pitch
        segments += (("M", at, base), ("L", at, base - lengths[_rank(number, ranks)]))
    end = x + ruler.at(ruler.length)
    segments += (("M", x, base), ("L", end, base))
    return Path(tuple(segments), stroke=style.fine)


def _zero(x: float, base: float, y: float, style: DrawingStyle) -> Line:
    """The stop at which the sheet's edge lies."""
    return Line((x, y), (x, base - _TICK), Stroke(style.palette.ink, style.outline_width))


def _labels(
    x: float, base: float, ruler: Ruler, readings: Sequence[Reading], step: int, style: DrawingStyle
) -> list[Text]:
    stems = [x + ruler.at(reading.value) for reading in readings if reading.value % step]
    read = {reading.value for reading in readings}
    made: list[Text] = []
    for value in range(0, int(ruler.length) + 1, step):
        bold = value in read or value == 0
        label = Text(
            str(value),
            x + ruler.at(Fraction(value)),
            _label_baseline(base, style),
            style.scale_label_size,
            Font.SANS_BOLD if bold else Font.SANS,
            style.palette.accent if value in read else style.palette.ink,
            Anchor.MIDDLE,
            role="scale",
        )
        taken = made[-1].box.right + _LABEL_CLEARANCE if made else -inf
        at = _beside_stems(label, stems, ruler.at(Fraction(step)), taken)
        if at is not None:
            made.append(replace(label, x=at))
    return made


def _beside_stems(label: Text, stems: Sequence[float], pitch: float, taken: float) -> float | None:
    """A place near its mark where no stem runs through a label; None where that would mislead.

    `taken` is how far to the right the labels before it reach.
    """
    half = label.width / 2
    reach = half + 1.6
    near = [stem for stem in stems if abs(stem - label.x) < reach]
    places = (min(near) - reach, max(near) + reach) if near else (label.x,)
    for place in sorted(places, key=lambda place: abs(place - label.x)):
        free = all(abs(stem - place) >= reach - 1e-6 for stem in stems) and place - half >= taken
        if free and abs(place - label.x) <= _FARTHEST_LABEL * pitch:
            return place
    return None


def _readings(
    x: float,
    base: float,
    y: float,
    ruler: Ruler,
    readings: Sequence[Reading],
    step: int,
    style: DrawingStyle,
    room: tuple[float, float],
) -> list[Shape]:
    ordered = sorted(readings, key=lambda reading: reading.value)
    radius = style.disc_radius
    callouts = [
        Callout(x + ruler.at(reading.value), radius, radius + 3 + _reading_width(reading, style))
        for reading in ordered
    ]
    top = _band_top(base, style)
    seating = Seating(
        start=1.5, height=2 * radius, corridor=5.0, gap=6.0, low=room[0], high=room[1], leader_gap=0.0
    )
    shapes: list[Shape] = []
    for reading, place in zip(ordered, seat(callouts, seating), strict=True):
        at = x + ruler.at(reading.value)
        shapes += _stem(at, base, y, top, reading, step, place, style)
        middle = top - place.near - radius
        shapes.append(cut_marker(place.at, middle, reading.number, style))
        shapes.append(_reading_text(place.at + radius + 3, middle, reading, style))
    return shapes


def _reading_width(reading: Reading, style: DrawingStyle) -> float:
    return text_width(reading.text, Font.SANS_BOLD, style.reading_size)


def _reading_text(x: float, middle: float, reading: Reading, style: DrawingStyle) -> Text:
    baseline = middle + cap_height(Font.SANS_BOLD, style.reading_size) / 2
    return Text(
        reading.text, x, baseline, style.reading_size, Font.SANS_BOLD, style.palette.accent, role="reading"
    )


def _stem(
    at: float,
    base: float,
    y: float,
    top: float,
    reading: Reading,
    step: int,
    place: Seat,
    style: DrawingStyle,
) -> list[Shape]:
    """The leader from a disc to its mark; it stops short of a label that stands right there."""
    accent = style.palette.accent
    mark = Line((at, y), (at, base - _TICK), Stroke(accent, style.cut_width))
    way = [(s, top - depth) for s, depth in place.leader]
    if reading.value % step:
        way.insert(0, (at, base - _TICK))
    return [mark, Polyline(tuple(way), Stroke(accent, style.dimension_width))]


_VIEW_TICK = 17.0
_VIEW_ARROW = 11.0
_VIEW_MARGIN = 9.0


def enlarged_view(
    x: float, y: float, width: float, ruler: Ruler, reading: Reading, style: DrawingStyle
) -> EnlargedView:
    """A stretch of the scale about a reading, magnified to `width` points, its top left corner at (x, y).

    Every finest mark is drawn and the whole numbers labelled; an arrow below points at the reading's mark,
    as the cut runs towards it.  The stretch is an inch, or 2 cm, to either side, or less at an end of the
    scale.
    """
    low, high = _stretch(ruler, reading.value)
    inner = width - 2 * _VIEW_MARGIN
    big = replace(ruler, unit_points=inner / float(high - low))
    return shared_view(x, y, big, (low, high), [reading], style)


def shared_view(
    x: float,
    y: float,
    ruler: Ruler,
    stretch: tuple[Fraction, Fraction],
    readings: Sequence[Reading],
    style: DrawingStyle,
) -> EnlargedView:
    """A stretch of the scale, as large as `ruler` is drawn, its top left corner at (x, y).

    An arrow below points at the mark of each reading, all of which lie in the stretch; where they come close
    their discs move aside on leaders.
    """
    low, high = stretch
    width = ruler.at(high - low) + 2 * _VIEW_MARGIN
    origin = x + _VIEW_MARGIN - ruler.at(low)
    band = Box(x, y, x + width, y + _VIEW_TICK + 5 + cap_height(Font.SANS, style.dimension_size) + 4)
    shapes: tuple[Shape, ...] = (
        Rect(x, y, width, band.height, Fill(style.palette.accent_tint)),
        _view_ticks(origin, band, ruler, style),
        *_view_labels(origin, band, ruler, style),
        *_view_ends(origin, band, low, high, ruler, style),
        *_view_arrows(origin, band, ruler, readings, style),
    )
    made = (Group(shapes, tag="enlarged view"),)
    return EnlargedView(made, bounds(made), band.bottom, low, high)


def view_width(ruler: Ruler, reading: Reading) -> float:
    """How wide an enlarged view is, in points, that shows the scale as large as `ruler` is drawn."""
    low, high = _stretch(ruler, reading.value)
    return ruler.at(high - low) + 2 * _VIEW_MARGIN


def _stretch(ruler: Ruler, value: Fraction) -> tuple[Fraction, Fraction]:
    whole = 2 * _REACH[ruler.unit]
    low = max(Fraction(0), min(value - whole / 2, ruler.length - whole))
    return low, min(low + whole, max(ruler.length, value))


def _shown(origin: float, band: Box, ruler: Ruler, step: Fraction, half: float) -> range:
    """The multiples of a step whose mark or label, `half` wide to either side, lies within the band."""
    pitch = ruler.at(step)
    first = max(ceil((band.left + half - origin) / pitch), 0)
    last = min(floor((band.right - half - origin) / pitch), int(ruler.length / step))
    return range(first, last + 1)


def _view_ticks(origin: float, band: Box, ruler: Ruler, style: DrawingStyle) -> Path:
    pitch, ranks = ruler.at(ruler.mark), _ranks(divisions(ruler.unit, ruler.mark))
    segments: list[Segment] = []
    for number in _shown(origin, band, ruler, ruler.mark, style.dimension_width):
        at = origin + number * pitch
        segments += (
            ("M", at, band.bottom),
            ("L", at, band.bottom - _VIEW_TICK * 0.76 ** _rank(number, ranks)),
        )
    left, right = max(band.left, origin), min(band.right, origin + ruler.at(ruler.length))
    segments += (("M", left, band.bottom), ("L", right, band.bottom))
    return Path(tuple(segments), stroke=style.narrow)


def _view_labels(origin: float, band: Box, ruler: Ruler, style: DrawingStyle) -> list[Text]:
    step = Fraction(_LABEL_STEPS[ruler.unit][0])
    half = text_width(str(int(ruler.length)), Font.SANS_BOLD, style.dimension_size) / 2
    return [
        Text(
            str(number * step),
            origin + ruler.at(number * step),
            band.bottom - _VIEW_TICK - 5,
            style.dimension_size,
            Font.SANS_BOLD,
            style.palette.ink,
            Anchor.MIDDLE,
            role="scale",
        )
        for number in _shown(origin, band, ruler, step, half)
    ]


def _view_ends(
    origin: float, band: Box, low: Fraction, high: Fraction, ruler: Ruler, style: DrawingStyle
) -> list[Shape]:
    """The stop at the scale's zero, and freehand break lines where the scale runs on."""
    shapes: list[Shape] = []
    if low == 0:
        stop = Stroke(style.palette.ink, style.outline_width)
        shapes.append(Line((origin, band.bottom), (origin, band.bottom - _VIEW_TICK), stop))
    else:
        shapes.append(_break_line(band.left, band, style))
    if high < ruler.length:
        shapes.append(_break_line(band.right, band, style))
    return shapes


def _break_line(x: float, band: Box, style: DrawingStyle) -> Path:
    third = band.height / 3
    curve = ("C", x + 2.6, band.top + third, x - 2.6, band.bottom - third, x, band.bottom)
    return Path((("M", x, band.top), curve), stroke=style.fine)


def _view_arrows(
    origin: float, band: Box, ruler: Ruler, readings: Sequence[Reading], style: DrawingStyle
) -> list[Shape]:
    """An arrow to each reading's mark, from its disc and its value below."""
    ordered = sorted(readings, key=lambda reading: reading.value)
    radius = style.disc_radius
    callouts = [
        Callout(origin + ruler.at(reading.value), radius, radius + 3 + _reading_width(reading, style))
        for reading in ordered
    ]
    crowded = len(ordered) > 1
    seating = Seating(
        start=0.5,
        height=2 * radius,
        corridor=5.0 if crowded else 2.5,
        gap=6.0,
        # A lone disc stands straight under its mark, though its value may hang over the band's end.
        low=band.left if crowded else -inf,
        high=band.right if crowded else inf,
        leader_gap=0.0,
    )
    shapes: list[Shape] = []
    for reading, place in zip(ordered, seat(callouts, seating), strict=True):
        shapes += _view_arrow(origin + ruler.at(reading.value), band.bottom, place, style)
        middle = band.bottom + _VIEW_ARROW + 1 + place.near + radius
        shapes.append(cut_marker(place.at, middle, reading.number, style))
        shapes.append(_reading_text(place.at + radius + 3, middle, reading, style))
    return shapes


def _view_arrow(at: float, base: float, place: Seat, style: DrawingStyle) -> list[Shape]:
    accent = style.palette.accent
    half = _VIEW_ARROW / 6
    tail = base + _VIEW_ARROW + 1
    way = tuple((s, tail - 1 + depth) for s, depth in place.leader)
    return [
        Line((at, base), (at, base - _VIEW_TICK), Stroke(accent, style.cut_width * 1.2)),
        Path((("M", at, base + 1), ("L", at + half, tail), ("L", at - half, tail), ("Z",)), Fill(accent)),
        Polyline((*way, (way[-1][0], way[-1][1] + 1)), Stroke(accent, style.dimension_width)),
    ]
