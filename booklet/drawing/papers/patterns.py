"""Printed papers: a face's pattern and borders as shapes that fill the sheet, in points at full size.

Each pattern is a few paths or rows of motifs, one a colour.  A face is drawn once to a document, as a symbol
that clips it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache
from math import ceil

from booklet.drawing.shapes.affine import Affine, Box, Point, compose, rotation, scaling, translation
from booklet.drawing.shapes.figure import (
    Cap,
    Colour,
    Fill,
    Group,
    Image,
    ImageSource,
    Motifs,
    Path,
    Rect,
    Row,
    Segment,
    Shape,
    Stroke,
)
from booklet.drawing.shapes.outlines import (
    Outline,
    arch,
    circle,
    filled,
    outline,
    rectangle,
    shared_rows,
    star,
    under,
    wave,
)
from booklet.drawing.shapes.windows import seen_rows
from booklet.kit.fields import Edge
from booklet.kit.paper import BorderStyle, Pattern, Print
from booklet.measure.dataclass import dataclass, replace


@dataclass(frozen=True)
class BorderPaint:
    """A border along one edge of a face, `width` points deep."""

    edge: Edge
    width: float
    colour: Colour
    style: BorderStyle = BorderStyle.BAND


@dataclass(frozen=True)
class FacePaint:
    """What a face is printed with: a pattern in colours, the ground first, or an image over the whole face.

    `repeat` is the pattern's period in points; None takes what suits the pattern.  Colours that a pattern
    wants and that are not given are mixed from those that are.
    """

    pattern: Pattern = Pattern.SOLID
    colours: tuple[Colour, ...] = (Colour("#ffffff"),)
    repeat: float | None = None
    borders: tuple[BorderPaint, ...] = ()
    image: ImageSource | None = None


# A finer pattern than this many periods to a side would print as a tone and only swell the file.
_MOST_PERIODS = 64


def paint_face(face: FacePaint, width: float, height: float) -> tuple[Shape, ...]:
    """A face `width` by `height` points large; motifs may run over its edges, where a symbol clips them."""
    if face.image is not None:
        return (Image(face.image, Box(0, 0, width, height)),)
    ground = Rect(0, 0, width, height, Fill(face.colours[0]))
    colours = _colours(face.colours)
    shapes: list[Shape] = [ground]
    if face.pattern is not Pattern.SOLID:
        usual, drawn = _PATTERNS[face.pattern]
        period = max(face.repeat or usual, max(width, height) / _MOST_PERIODS)
        shapes += _reaching(drawn(width, height, period, colours), Box(0, 0, width, height))
    return (*shapes, *(border_shapes(border, colours.ground, width, height) for border in face.borders))


# A rasteriser softens edges over a pixel, which is so large, in points of the sheet, where it is drawn small.
_SOFT = 18.0


def _reaching(shapes: Iterable[Shape], face: Box) -> Iterator[Shape]:
    """The shapes of a pattern without the motifs that lie wholly beyond its face."""
    for shape in shapes:
        if not isinstance(shape, Motifs):
            yield shape
        elif rows := seen_rows(shape, [face.grown(_SOFT)]):
            yield replace(shape, rows=rows)


@dataclass(frozen=True)
class _Colours:
    ground: Colour
    first: Colour
    second: Colour
    third: Colour


def _colours(given: Sequence[Colour]) -> _Colours:
    ground = given[0]
    first = given[1] if len(given) > 1 else _tone(ground)
    second = given[2] if len(given) > 2 else first.mixed(ground, 0.45)
    third = given[3] if len(given) > 3 else first.mixed(second, 0.5)
    return _Colours(ground, first, second, third)


def pattern_colours(printed: Print) -> tuple[Colour, ...]:
    """The ground of a print and the three colours of its pattern, mixed where they are not given."""
    colours = _colours(tuple(map(Colour, printed.colours)))
    return colours.ground, colours.first, colours.second, colours.third


def _tone(ground: Colour) -> Colour:
    """A tone on its ground: a little darker on a light one, lighter on a dark one."""
    return ground.darker(0.16) if ground.luminance > 0.2 else ground.lighter(0.28)


# Where motifs stand along a row, from left to right, and how far down the row lies.
_Places = tuple[tuple[float, ...], float]


def _lattice(width: float, height: float, across: float, down: float, stagger: float) -> Iterator[_Places]:
    """Points over a face in rows, every other row shifted by a share of the distance; one period over."""
    for row in range(-1, ceil(height / down) + 2):
        shift = across * stagger if row % 2 else 0.0
        columns = range(-1, ceil(width / across) + 2)
        yield tuple(column * across + shift for column in columns), row * down


def _moved(places: Iterable[_Places], dx: float, dy: float) -> Iterator[_Places]:
    return ((tuple(x + dx for x in xs), y + dy) for xs, y in places)


def _drawn(colour: Colour, width: float, parts: Iterable[tuple[Segment, ...]], cap: Cap = Cap.ROUND) -> Path:
    stroke = Stroke(colour, width, cap=cap)
    return Path(tuple(segment for part in parts for segment in part), stroke=stroke)


def _filled_rows(colour: Colour, rows: Iterable[Row]) -> Motifs:
    return Motifs(tuple(rows), Fill(colour))


def _drawn_rows(colour: Colour, width: float, rows: Iterable[Row]) -> Motifs:
    return Motifs(tuple(rows), stroke=Stroke(colour, width, cap=Cap.ROUND))


def _stripes(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    starts = [column * period for column in range(ceil(width / period) + 1)]

    def bars(at: float, wide: float) -> Iterator[tuple[Segment, ...]]:
        return (rectangle(x + at * period, 0, wide * period, height) for x in starts)

    yield filled(colours.first, *bars(0.08, 0.34))
    yield filled(colours.second, *bars(0.56, 0.06))
    yield filled(colours.second, *bars(0.88, 0.06))
    yield filled(colours.third, *bars(0.68, 0.14))


def _dots(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    # A square lattice and its middles, so that a quarter turn shows the same paper.
    places = tuple(_lattice(width, height, period, period, 0))
    for colour, shift, radius in ((colours.first, 0.25, 0.17), (colours.second, 0.75, 0.1)):
        dot = circle(0, 0, radius * period)
        yield _filled_rows(colour, shared_rows(dot, _moved(places, shift * period, shift * period)))


def _checks(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    # Gingham: where the two weaves cross the colour is full, elsewhere it is half ground.
    half = period / 2
    columns = [at * period for at in range(ceil(width / period) + 1)]
    rows = [at * period for at in range(ceil(height / period) + 1)]
    woven = colours.ground.mixed(colours.first, 0.5)
    yield filled(woven, *(rectangle(x, 0, half, height) for x in columns))
    yield filled(woven, *(rectangle(0, y, width, half) for y in rows))
    crossings = ((tuple(columns), y) for y in rows)
    yield _filled_rows(colours.first, shared_rows(rectangle(0, 0, half, half), crossings))


def _grid(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    def lines(shift: float) -> Iterator[tuple[Segment, ...]]:
        for at in range(ceil(max(width, height) / period) + 1):
            place = (at + shift) * period
            yield (("M", place, 0.0), ("L", place, height))
            yield (("M", 0.0, place), ("L", width, place))

    yield _drawn(colours.second, period * 0.04, lines(0.0), Cap.BUTT)
    yield _drawn(colours.first, period * 0.075, lines(0.5), Cap.BUTT)


def _waves(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    count = ceil(width / period) + 2
    step = period * 0.26

    line = wave((0.0, 0.0), count * period, period * 0.075, count)

    def rows(first: int) -> tuple[Row, ...]:
        lines = range(first - 2, ceil(height / step) + 2, 2)
        shifts = (-period if row % 4 in (0, 1) else -period / 2 for row in lines)
        return shared_rows(
            line, (((shift,), (row + 0.5) * step) for row, shift in zip(lines, shifts, strict=True))
        )

    yield _drawn_rows(colours.first, period * 0.045, rows(0))
    yield _drawn_rows(colours.second, period * 0.028, rows(1))


_SPRIG_LEAF = outline("M 0 0 C 12 -10 34 -12 46 0 C 34 12 12 10 0 0 Z")
_SPRIG_STEM = outline("M 0 34 C 3 14 -2 -10 4 -38")


# A leaf of a sprig: where it grows on the stem, how large it is, how it is turned.
_SPRIG = ((0.0, 20.0, 0.78, -28.0), (0.5, -2.0, 0.72, -34.0), (2.0, -20.0, 0.56, -42.0))


def _sprig(place: Affine, is_right: bool) -> Outline:
    """The leaves at one side of a stem."""
    return tuple(
        segment
        for x, y, size, angle in _SPRIG
        for segment in under(
            compose(scaling(size), rotation(angle if is_right else 180 - angle), translation(x, y), place),
            _SPRIG_LEAF,
        )
    )


def _leaves(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    # Along a row, and on from its end to the next, one sprig leans to the left and one to the right.
    rows = list(_lattice(width, height, period, period * 0.62, 0.5))
    ways = [compose(rotation(lean), scaling(period / 116)) for lean in (-24, 24)]
    leaning = [[(xs[(at * len(xs) + way) % 2 :: 2], y) for at, (xs, y) in enumerate(rows)] for way in (0, 1)]

    def everywhere(outlines: Iterable[Outline]) -> Iterator[Row]:
        pairs = zip(outlines, leaning, strict=True)
        return (row for part, places in pairs for row in shared_rows(part, places))

    stems = (under(way, _SPRIG_STEM) for way in ways)
    yield _drawn_rows(colours.first, period * 0.026, everywhere(stems))
    for colour, is_right in ((colours.first, True), (colours.second, False)):
        yield _filled_rows(colour, everywhere(_sprig(way, is_right) for way in ways))


def _stars(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    places = list(_lattice(width, height, period, period / 2, 0.5))
    shift = period / 4
    for colour, motif, across, down in (
        (colours.first, star(0, 0, period * 0.17), shift, shift),
        (colours.second, star(0, 0, period * 0.085), shift * 3, shift),
        (colours.third, circle(0, 0, period * 0.022), shift * 2, shift * 2),
    ):
        yield _filled_rows(colour, shared_rows(motif, _moved(places, across, down)))


def _scallops(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    # Rows of half circles, each row half a period lower and shifted by half a period: their rims close.
    places = list(_lattice(width, height, period, period / 2, 0.5))

    def rims(radius: float) -> tuple[Row, ...]:
        return shared_rows(arch(0, 0, radius * period, -1), places)

    yield _drawn_rows(colours.second, period * 0.035, rims(0.2))
    yield _drawn_rows(colours.second, period * 0.035, rims(0.34))
    yield _drawn_rows(colours.first, period * 0.05, rims(0.48))


def _scattered(side: float, count: int) -> Iterator[tuple[Point, float]]:
    """Points scattered evenly over a square, each with a number from 0 to 1 scattered as evenly.

    They follow Halton's sequence (1960; from memory): no clumps, and no rows that the eye could follow.
    """
    for at in range(1, count + 1):
        yield (_halton(at, 2) * side, _halton(at, 3) * side), _halton(at, 5)


# Finely strewn papers ask for ten thousand points, each by three numbers.
@lru_cache(maxsize=1 << 15)
def _halton(number: int, base: int) -> float:
    """The number's digits in a base, mirrored at the point."""
    value, share = 0.0, 1.0
    while number:
        share /= base
        number, digit = divmod(number, base)
        value += digit * share
    return value


def _confetti(width: float, height: float, period: float, colours: _Colours) -> Iterator[Shape]:
    side = max(width, height)
    strewn = tuple(_scattered(side, ceil((side / period) ** 2 * 2.4)))
    bar = rectangle(-0.13 * period, -0.03 * period, 0.26 * period, 0.06 * period)
    dots = (((x,), y) for (x, y), chance in strewn if chance < 1 / 3)
    bars = (
        under(compose(rotation(chance * 1620), translation(*place)), bar)
        for place, chance in strewn
        if 1 / 3 <= chance < 2 / 3
    )
    rings = (((x,), y) for (x, y), chance in strewn if chance >= 2 / 3)
    yield _filled_rows(colours.first, shared_rows(circle(0, 0, period * 0.075), dots))
    yield filled(colours.second, *bars)
    yield _drawn_rows(colours.third, period * 0.04, shared_rows(circle(0, 0, period * 0.06), rings))


# With periods in points that look well on a 12 in sheet.  With them every printed line is at least 2 pt wide,
# so that it keeps 0.18 mm where a sheet is drawn at 1:4.
_PATTERNS: dict[Pattern, tuple[float, Callable[[float, float, float, _Colours], Iterator[Shape]]]] = {
    Pattern.STRIPES: (72.0, _stripes),
    Pattern.DOTS: (48.0, _dots),
    Pattern.CHECKS: (54.0, _checks),
    Pattern.GRID: (54.0, _grid),
    Pattern.WAVES: (96.0, _waves),
    Pattern.LEAVES: (84.0, _leaves),
    Pattern.STARS: (84.0, _stars),
    Pattern.SCALLOPS: (60.0, _scallops),
    Pattern.CONFETTI: (54.0, _confetti),
}


def border_shapes(border: BorderPaint, ground: Colour, width: float, height: float) -> Group:
    """A border in place on a face `width` by `height` points large, as one group.

    Where a border is open it shows the face's ground, not its pattern.
    """
    length = height if border.edge.is_upright else width
    shapes = tuple(_BORDERS[border.style](length, border.width, border.colour, ground))
    return Group(shapes, _along_edge(border.edge, width, height), tag="border")


def _along_edge(edge: Edge, width: float, height: float) -> Affine:
    """From a border drawn along the top edge, its depth downwards, to where it belongs."""
    return {
        Edge.TOP: Affine(),
        Edge.RIGHT: Affine(0, 1, -1, 0, width, 0),
        Edge.BOTTOM: Affine(-1, 0, 0, -1, width, height),
        Edge.LEFT: Affine(0, -1, 1, 0, 0, height),
    }[edge]


def _band(length: float, depth: float, colour: Colour, ground: Colour) -> Iterator[Shape]:
    yield Rect(0, 0, length, depth, Fill(ground))
    yield Rect(0, 0, length, depth * 0.78, Fill(colour))
    yield Rect(0, depth * 0.88, length, depth * 0.12, Fill(colour))


def _scallop(length: float, depth: float, colour: Colour, ground: Colour) -> Iterator[Shape]:
    count = max(1, round(length / (depth * 0.95)))
    pitch = length / count
    radius = pitch / 2
    straight = max(0.0, depth - radius)
    parts = [rectangle(0, 0, length, straight)]
    parts += [arch((at + 0.5) * pitch, straight, radius, 1) for at in range(count)]
    yield filled(colour, *parts)
    holes = tuple((at + 0.5) * pitch for at in range(count)), straight + radius * 0.3
    yield _filled_rows(ground, shared_rows(circle(0, 0, radius * 0.2), [holes]))


def _wave(length: float, depth: float, colour: Colour, ground: Colour) -> Iterator[Shape]:
    yield Rect(0, 0, length, depth, Fill(ground))
    count = max(1, round(length / (depth * 1.7)))
    crest = wave((0, depth * 0.58), length, depth * 0.16, count)
    closed: tuple[Segment, ...] = (*crest, ("L", length, 0.0), ("L", 0.0, 0.0), ("Z",))
    yield filled(colour, closed)
    yield _drawn(colour, depth * 0.07, [wave((0, depth * 0.86), length, depth * 0.1, count)])
    foam = wave((0, depth * 0.3), length, depth * 0.13, count)
    yield _drawn(colour.mixed(ground, 0.6), depth * 0.055, [foam])


def _stitch(length: float, depth: float, colour: Colour, ground: Colour) -> Iterator[Shape]:
    yield Rect(0, 0, length, depth, Fill(ground.mixed(colour, 0.22)))
    count = max(1, round(length / (depth * 0.6)))
    pitch = length / count
    for share in (0.24, 0.76):
        dashes = (
            (("M", (at + 0.2) * pitch, depth * share), ("L", (at + 0.8) * pitch, depth * share))
            for at in range(count)
        )
        yield _drawn(colour, depth * 0.085, dashes)


def _dotted(length: float, depth: float, colour: Colour, ground: Colour) -> Iterator[Shape]:
    yield Rect(0, 0, length, depth, Fill(ground))
    count = max(1, round(length / (depth * 0.9)))
    pitch = length / count
    radius = min(depth * 0.28, pitch * 0.32)
    middles = tuple((at + 0.5) * pitch for at in range(count)), depth * 0.45
    yield _filled_rows(colour, shared_rows(circle(0, 0, radius), [middles]))
    between = tuple(at * pitch for at in range(1, count)), depth * 0.72
    if count > 1:
        yield _filled_rows(colour.mixed(ground, 0.35), shared_rows(circle(0, 0, radius * 0.36), [between]))


_BORDERS: dict[BorderStyle, Callable[[float, float, Colour, Colour], Iterator[Shape]]] = {
    BorderStyle.BAND: _band,
    BorderStyle.SCALLOP: _scallop,
    BorderStyle.WAVE: _wave,
    BorderStyle.STITCH: _stitch,
    BorderStyle.DOTS: _dotted,
}
