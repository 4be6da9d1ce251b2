"""A figure as plain data: shapes in points, x to the right, y down, the origin at the figure's top left.

    Shape = Line | Polyline | Polygon | Rect | Circle | Path | Motifs | Text | Image | Group | Use

What a diagram means is decided before a writer sees it; a writer only replays these records.  Nothing is
transparent: a lighter colour is mixed (`Colour.lighter`), never laid over.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import field
from enum import Enum
from functools import cached_property, lru_cache

from booklet.drawing.shapes.affine import (
    IDENTITY,
    Affine,
    Box,
    Point,
    bounds_of_boxes,
    bounds_of_points,
    rotation,
    translation,
)
from booklet.drawing.shapes.fonts import Font, font_metrics, text_width
from booklet.measure.dataclass import dataclass, replace

_HEX = re.compile(r"#[0-9a-f]{6}")


@dataclass(frozen=True)
class Colour:
    """An opaque colour, written `#1b5a78`."""

    hex: str

    def __post_init__(self) -> None:
        if not _HEX.fullmatch(self.hex):
            raise ValueError(f"a colour is # and six digits 0-9, a-f, not {self.hex!r}")

    @property
    def rgb(self) -> tuple[float, float, float]:
        """Red, green and blue from 0 to 1."""
        return _rgb(self.hex)

    @property
    def luminance(self) -> float:
        """Relative luminance from 0 (black) to 1 (white), after WCAG 2 (from memory)."""
        red, green, blue = (_linear(part) for part in self.rgb)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    def contrast(self, other: Colour) -> float:
        """Contrast ratio from 1 to 21, after WCAG 2 (from memory); text wants 4.5, graphics 3."""
        dark, light = sorted((self.luminance, other.luminance))
        return (light + 0.05) / (dark + 0.05)

    def mixed(self, other: Colour, share: float) -> Colour:
        """This colour with a share (0 to 1) of another mixed in."""
        return colour_from_rgb(
            *(mine + (theirs - mine) * share for mine, theirs in zip(self.rgb, other.rgb, strict=True))
        )

    def lighter(self, share: float) -> Colour:
        """Mixed with a share of white."""
        return self.mixed(WHITE, share)

    def darker(self, share: float) -> Colour:
        """Mixed with a share of black."""
        return self.mixed(BLACK, share)


@lru_cache(maxsize=1024)
def _rgb(hex_digits: str) -> tuple[float, float, float]:
    red, green, blue = (int(hex_digits[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return red, green, blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.03928 else float(((part + 0.055) / 1.055) ** 2.4)


def colour_from_rgb(red: float, green: float, blue: float) -> Colour:
    """A colour from parts between 0 and 1, to the nearest of 256 steps."""
    return Colour("#" + "".join(f"{round(part * 255):02x}" for part in (red, green, blue)))


WHITE = Colour("#ffffff")
BLACK = Colour("#000000")


class Cap(Enum):
    """How a stroke ends; the values are PDF's `J` numbers."""

    BUTT = 0
    ROUND = 1


class Join(Enum):
    """How a stroke turns a corner; the values are PDF's `j` numbers."""

    MITRE = 0
    ROUND = 1


class Anchor(Enum):
    """Which end of a text stands at its x; the values are SVG's words."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True)
class Stroke:
    """A line's colour, width in points, dashes (drawn, left out, ... in points), ends and corners."""

    colour: Colour
    width: float
    dash: tuple[float, ...] = ()
    cap: Cap = Cap.BUTT
    join: Join = Join.MITRE


@dataclass(frozen=True)
class Fill:
    """What an area is filled with."""

    colour: Colour


@dataclass(frozen=True)
class Line:
    """A straight line from start to end."""

    start: Point
    end: Point
    stroke: Stroke


@dataclass(frozen=True)
class Polyline:
    """Straight lines from point to point, left open."""

    points: tuple[Point, ...]
    stroke: Stroke


@dataclass(frozen=True)
class Polygon:
    """A closed area with straight edges."""

    points: tuple[Point, ...]
    fill: Fill | None = None
    stroke: Stroke | None = None


@dataclass(frozen=True)
class Rect:
    """An upright rectangle from its top left corner, its corners rounded by `radius`."""

    x: float
    y: float
    width: float
    height: float
    fill: Fill | None = None
    stroke: Stroke | None = None
    radius: float = 0.0

    @property
    def box(self) -> Box:
        """The rectangle as a box."""
        return Box(self.x, self.y, self.x + self.width, self.y + self.height)


@dataclass(frozen=True)
class Circle:
    """A circle about (x, y)."""

    x: float
    y: float
    radius: float
    fill: Fill | None = None
    stroke: Stroke | None = None


# ("M", x, y) moves, ("L", x, y) draws a line, ("C", x1, y1, x2, y2, x, y) a cubic curve, ("Z",) closes.
Segment = tuple[str] | tuple[str, float, float] | tuple[str, float, float, float, float, float, float]


@dataclass(frozen=True)
class Path:
    """Any number of open or closed outlines drawn as one, filled by the non-zero rule."""

    segments: tuple[Segment, ...]
    fill: Fill | None = None
    stroke: Stroke | None = None


@dataclass(frozen=True)
class Motif:
    """Outlines that are drawn together, many times: a dot of a paper, a letter of its words."""

    segments: tuple[Segment, ...]

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        return hash(self.segments)

    @cached_property
    def box(self) -> Box:
        """The box about it, where it is neither moved nor stretched."""
        return path_box(self.segments)


@dataclass(frozen=True)
class Row:
    """One motif set down along a line: its origin at each of `xs`, from left to right, and at `y`.

    It is stretched by `across` to the right, which is above zero, and by `down` downwards.
    """

    motif: Motif
    xs: tuple[float, ...]
    y: float
    across: float = 1.0
    down: float = 1.0

    @property
    def is_stretched(self) -> bool:
        """Whether its motif is larger, smaller or the other way up than as it was made."""
        return self.across != 1.0 or self.down != 1.0

    @cached_property
    def reach(self) -> Box:
        """How far the motif reaches from its origin, stretched."""
        left, top, right, bottom = self.motif.box
        top, bottom = sorted((top * self.down, bottom * self.down))
        return Box(left * self.across, top, right * self.across, bottom)

    @property
    def box(self) -> Box:
        """The box about all of the row."""
        left, top, right, bottom = self.reach
        return Box(self.xs[0] + left, self.y + top, self.xs[-1] + right, self.y + bottom)


@dataclass(frozen=True)
class Motifs:
    """Motifs in rows, drawn as one path would be that holds all their outlines.

    What lies over each other has to run the same way round, as it is filled one after the other or at once.
    """

    rows: tuple[Row, ...]
    fill: Fill | None = None
    stroke: Stroke | None = None

    @cached_property
    def box(self) -> Box:
        """The box about all of them, without their stroke; raises ValueError for none."""
        return bounds_of_boxes(row.box for row in self.rows)


@dataclass(frozen=True)
class Text:
    """One line of text.  `y` is the baseline; `rotation` turns clockwise in degrees about (x, y).

    `role` says what the text is for ("dimension", "reading", "label", ...), for tests and proofs.
    """

    text: str
    x: float
    y: float
    size: float
    font: Font
    colour: Colour
    anchor: Anchor = Anchor.START
    rotation: float = 0.0
    role: str = ""

    @property
    def width(self) -> float:
        """How wide the text runs, in points."""
        return text_width(self.text, self.font, self.size)

    @property
    def left(self) -> float:
        """Where the text starts before it is rotated."""
        if self.anchor is Anchor.START:
            return self.x
        return self.x - (self.width / 2 if self.anchor is Anchor.MIDDLE else self.width)

    @property
    def box(self) -> Box:
        """The upright box about the text, rotated as it is."""
        metrics = font_metrics(self.font)
        left = self.left
        flat = Box(
            left,
            self.y - metrics.ascent * self.size,
            left + self.width,
            self.y + metrics.descent * self.size,
        )
        return flat.under(rotation(self.rotation, (self.x, self.y))) if self.rotation else flat


@dataclass(frozen=True)
class ImageSource:
    """A picture's bytes (PNG or JPEG), fetched when a writer wants them; one key stands for one picture."""

    key: str
    read: Callable[[], bytes] = field(compare=False, repr=False)


def image_from_bytes(data: bytes) -> ImageSource:
    """A source from a picture's bytes; its key is their digest."""
    return ImageSource(hashlib.sha256(data).hexdigest()[:24], lambda: data)


@dataclass(frozen=True)
class Image:
    """A picture stretched over a box."""

    source: ImageSource
    box: Box


@dataclass(frozen=True)
class Dimension:
    """A printed dimension as a machine reads it, for tests and proofs: its line's ends and what it says."""

    start: Point
    end: Point
    label: str


@dataclass(frozen=True)
class Group:
    """Shapes moved together, clipped to a convex or concave outline in their own coordinates.

    `tag` names what the group is; `dimension` is set where it draws one.
    """

    children: tuple[Shape, ...]
    transform: Affine = IDENTITY
    clip: tuple[Point, ...] | None = None
    tag: str = ""
    dimension: Dimension | None = None


class DrawnLater(Collection["Shape"]):
    """Shapes that are drawn when somebody wants them first: what finds no room on a page never is."""

    def __init__(self, draw: Callable[[], Iterable[Shape]]) -> None:
        self._draw = draw

    @cached_property
    def _shapes(self) -> tuple[Shape, ...]:
        return tuple(self._draw())

    def __len__(self) -> int:
        return len(self._shapes)

    def __iter__(self) -> Iterator[Shape]:
        return iter(self._shapes)

    def __contains__(self, shape: object) -> bool:
        return shape in self._shapes


@dataclass(frozen=True)
class Symbol:
    """A drawing used many times, such as a paper's face: written once to a document, then referred to.

    Its shapes lie in (0, 0) to (width, height) and are clipped there.  Two with the same key are the same.
    """

    key: str
    shapes: Collection[Shape] = field(compare=False, repr=False)
    width: float = field(compare=False)
    height: float = field(compare=False)

    @property
    def box(self) -> Box:
        """Where the symbol's drawing lies."""
        return Box(0.0, 0.0, self.width, self.height)


@dataclass(frozen=True)
class Use:
    """A symbol drawn at a place; `clip` is an outline in the symbol's own coordinates."""

    symbol: Symbol
    transform: Affine = IDENTITY
    clip: tuple[Point, ...] | None = None


LeafShape = Line | Polyline | Polygon | Rect | Circle | Path | Motifs | Text | Image
Shape = LeafShape | Group | Use


@dataclass(frozen=True)
class Area:
    """A part of a figure, and what is seen there: for those who point at it."""

    box: Box
    what: object


@dataclass(frozen=True)
class Figure:
    """A finished drawing: its name, its size in points, its shapes.

    `alt` says in words what it shows; `scale` is the scale as printed, such as `Scale 1:4`; `subject` is
    whatever it was asked for with, for those who look at finished pages; `areas` are where the things lie
    that it shows, from below upwards.
    """

    name: str
    width: float
    height: float
    shapes: tuple[Shape, ...]
    alt: str = ""
    scale: str = ""
    subject: object = None
    areas: tuple[Area, ...] = ()


def filled_box(box: Box, fill: Fill | None = None, stroke: Stroke | None = None, radius: float = 0.0) -> Rect:
    """A box as a shape."""
    return Rect(box.left, box.top, box.width, box.height, fill, stroke, radius)


def figure_about(name: str, shapes: Sequence[Shape]) -> Figure:
    """A figure just as large as its shapes; raises ValueError for none."""
    box = bounds(shapes)
    return Figure(name, box.width, box.height, (translated(shapes, -box.left, -box.top),))


def translated(shapes: Iterable[Shape], dx: float, dy: float) -> Group:
    """The shapes as one group, moved."""
    return Group(tuple(shapes), translation(dx, dy))


def bounds(shapes: Iterable[Shape]) -> Box:
    """The box about shapes with half their strokes; clipped groups count only as far as they show.

    Raises ValueError where nothing shows.
    """
    return bounds_of_boxes(_boxes(shapes, IDENTITY))


def _boxes(shapes: Iterable[Shape], transform: Affine) -> Iterator[Box]:
    for shape in shapes:
        if isinstance(shape, Group):
            yield from _clipped(_boxes(shape.children, shape.transform.then(transform)), shape, transform)
        elif isinstance(shape, Use):
            inner = shape.transform.then(transform)
            yield from _clipped(iter((shape.symbol.box.under(inner),)), shape, transform)
        else:
            yield _leaf_box(shape, transform)


def _clipped(boxes: Iterator[Box], shape: Group | Use, transform: Affine) -> Iterator[Box]:
    if shape.clip is None:
        yield from boxes
        return
    window = bounds_of_points(map(shape.transform.then(transform).apply, shape.clip))
    for box in boxes:
        seen = box.common(window)
        if seen is not None:
            yield seen


def _leaf_box(leaf: LeafShape, transform: Affine) -> Box:
    if isinstance(leaf, Text) and leaf.rotation:
        flat = replace(leaf, rotation=0.0)
        return flat.box.under(rotation(leaf.rotation, (leaf.x, leaf.y)).then(transform))
    box = _own_box(leaf)
    stroke = getattr(leaf, "stroke", None)
    return (box.grown(stroke.width / 2) if stroke else box).under(transform)


def _own_box(leaf: LeafShape) -> Box:
    match leaf:
        case Line(start, end):
            return bounds_of_points((start, end))
        case Polyline(points) | Polygon(points):
            return bounds_of_points(points)
        case Circle(x, y, radius):
            return Box(x - radius, y - radius, x + radius, y + radius)
        case Path(segments):
            return path_box(segments)
        case _:
            return leaf.box


def path_box(segments: Sequence[Segment]) -> Box:
    """The box about the points of a path, with those that pull its curves."""
    # A cubic lies within the hull of its control points, so the box may be a little large but never small.
    across = [number for segment in segments for number in segment[1::2]]
    down = [number for segment in segments for number in segment[2::2]]
    return Box(min(across), min(down), max(across), max(down))
