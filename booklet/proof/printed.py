"""What a finished page shows, as it was read: letters, words, painted paths, forms, in the order of painting.

Coordinates are points from the page's top left corner, y down; colours are RGB from 0 to 255.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import pairwise
from math import hypot

from booklet.measure.dataclass import dataclass

NUMERATORS = "⁰¹²³⁴⁵⁶⁷⁸⁹"
DENOMINATORS = "₀₁₂₃₄₅₆₇₈₉"
POINTS_PER_MM = 360 / 127

Point = tuple[float, float]
Outline = tuple[Point, ...]
Colour = tuple[int, int, int]
# Boxes that are no farther apart, in points, meet.
_HAIR = 0.05
# A circle is drawn in so many curves, or more.
_LEAST_CURVES = 4
# Curves are followed in so many straight pieces.
_PIECES = 6
# What its four points weigh where each piece ends (Bernstein's polynomials).
_SHARES = tuple(
    ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    for t in (piece / _PIECES for piece in range(1, _PIECES + 1))
)
# What pypdfium2 puts where a line ends within a word: after a soft hyphen.
_LINE_END = "\ufffe"


@dataclass(frozen=True)
class Box:
    """An upright box."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def overlaps(self, other: Box, by: float = 0.0) -> bool:
        """Whether both share more than `by` points in each direction."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > by
            and min(self.bottom, other.bottom) - max(self.top, other.top) > by
        )

    def holds(self, other: Box, slack: float = 0.0) -> bool:
        """Whether another box lies within this one, or no farther out than `slack`."""
        return (
            self.left - slack <= other.left
            and other.right <= self.right + slack
            and self.top - slack <= other.top
            and other.bottom <= self.bottom + slack
        )

    def holds_point(self, point: Point, slack: float = 0.0) -> bool:
        """Whether a point lies within."""
        x, y = point
        return self.left - slack <= x <= self.right + slack and self.top - slack <= y <= self.bottom + slack

    def joined(self, other: Box) -> Box:
        """The box about both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )

    def common(self, other: Box) -> Box:
        """What both share; without extent where they are apart."""
        left, top = max(self.left, other.left), max(self.top, other.top)
        return Box(
            left, top, max(left, min(self.right, other.right)), max(top, min(self.bottom, other.bottom))
        )

    def grown(self, by: float) -> Box:
        """Larger by so much on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)


@dataclass(frozen=True)
class Letter:
    """A printed letter: the box of its ink, its size in points as it stands on the page, its colour.

    `order` is when it is painted, `baseline` where it stands, `angle` how far it is turned, in radians.
    """

    text: str
    box: Box
    size: float
    angle: float
    colour: Colour
    baseline: float
    order: int
    font: str

    @property
    def is_ink(self) -> bool:
        """Whether anything of it is seen."""
        return not self.text.isspace() and self.text != _LINE_END and self.box.width > 0

    @property
    def figure_height(self) -> float:
        """How high its ink is, upright or turned by a quarter."""
        return self.box.width if _is_quarter(self.angle) else self.box.height


@dataclass(frozen=True)
class Word:
    """Letters that stand on one line without a space between them."""

    letters: tuple[Letter, ...]
    box: Box

    @cached_property
    def text(self) -> str:
        return "".join(letter.text for letter in self.letters)

    @property
    def size(self) -> float:
        return self.letters[0].size

    @property
    def angle(self) -> float:
        return self.letters[0].angle

    @property
    def colour(self) -> Colour:
        return self.letters[0].colour

    @property
    def baseline(self) -> float:
        return self.letters[0].baseline


@dataclass(frozen=True)
class Stroke:
    """A straight stroke of a path: its ends, its width, its colour, its dashes, when it is painted."""

    start: Point
    end: Point
    width: float
    colour: Colour
    is_dashed: bool
    order: int

    @property
    def is_upright(self) -> bool:
        return abs(self.start[0] - self.end[0]) < 0.05 < abs(self.start[1] - self.end[1])

    @property
    def is_level(self) -> bool:
        return abs(self.start[1] - self.end[1]) < 0.05 < abs(self.start[0] - self.end[0])

    @property
    def length(self) -> float:
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])


@dataclass(frozen=True)
class Path:
    """A painted path: its outlines as points, its fill and its stroke, None where it has none.

    `box` is about what shows of it; its outlines may go on where it is clipped, to all of `clips`.
    """

    order: int
    outlines: tuple[tuple[Point, ...], ...]
    box: Box
    fill: Colour | None
    stroke: Colour | None
    width: float
    is_dashed: bool
    curves: int
    lines: int
    clips: tuple[Outline, ...] = ()

    @cached_property
    def is_circle(self) -> bool:
        """Whether it is a full circle: curves alone, all as far from the middle of a square box."""
        if self.lines or self.curves < _LEAST_CURVES or len(self.outlines) != 1:
            return False
        x, y = self.box.centre
        radius = self.box.width / 2
        return abs(self.box.width - self.box.height) < 0.05 and all(
            abs(hypot(u - x, v - y) - radius) < 0.02 + radius / 100 for u, v in self.outlines[0]
        )

    def covers(self, point: Point) -> bool:
        """Whether a point lies in its filled area (even-odd rule)."""
        if self.fill is None or not self.box.holds_point(point):
            return False
        x, y = point
        inside = False
        for outline in self.outlines:
            for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True):
                if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
                    inside = not inside
        return inside

    def strokes(self) -> Iterator[Stroke]:
        """Its straight strokes, but those that its clips cut off."""
        if self.stroke is None:
            return
        seen = self.box.grown(_HAIR)
        for outline in self.outlines:
            for start, end in pairwise(outline):
                if not self.clips or _meets(seen, start, end):
                    yield Stroke(start, end, self.width, self.stroke, self.is_dashed, self.order)


@dataclass(frozen=True)
class Form:
    """A form, a picture or a gradient on the page: the box of what shows of it, when it is painted.

    `outlines` are those to which it and its parts are cut, and those of its parts that are simple.
    """

    order: int
    box: Box
    outlines: tuple[Outline, ...] = ()


@dataclass(frozen=True, eq=False)
class Page:
    """What stands on one page, letters as they are read, all else as it is painted; compared by identity."""

    number: int
    width: float
    height: float
    letters: tuple[Letter, ...]
    paths: tuple[Path, ...]
    forms: tuple[Form, ...]

    @property
    def text(self) -> str:
        return "".join(letter.text for letter in self.letters)

    @cached_property
    def ink(self) -> tuple[Letter, ...]:
        """The letters that are seen."""
        return tuple(letter for letter in self.letters if letter.is_ink)

    @cached_property
    def words(self) -> tuple[Word, ...]:
        return tuple(_words(self.letters))

    @cached_property
    def words_said(self) -> tuple[str, ...]:
        """The words alone, as they are read."""
        return tuple(word.text for word in self.words)

    @cached_property
    def strokes(self) -> tuple[Stroke, ...]:
        """Every straight stroke; a curve's pieces among them."""
        return tuple(stroke for path in self.paths for stroke in path.strokes())

    @cached_property
    def circles(self) -> tuple[Path, ...]:
        return tuple(path for path in self.paths if path.is_circle)

    @cached_property
    def outlines(self) -> tuple[Outline, ...]:
        """Every outline that is painted or to which something is cut, those in forms among them."""
        of_paths = (outline for path in self.paths for outline in (*path.outlines, *path.clips))
        of_forms = (outline for form in self.forms for outline in form.outlines)
        return (*of_paths, *of_forms)

    @cached_property
    def bounded_outlines(self) -> tuple[tuple[Outline, Box], ...]:
        """Every outline with the box about it."""
        return tuple((outline, box_about(outline)) for outline in self.outlines)

    @property
    def is_left(self) -> bool:
        """Whether it lies left of the fold."""
        return self.number % 2 == 0


def _meets(box: Box, start: Point, end: Point) -> bool:
    """Whether the box about a stroke meets another."""
    (x0, y0), (x1, y1) = start, end
    return (
        min(x0, x1) <= box.right
        and box.left <= max(x0, x1)
        and min(y0, y1) <= box.bottom
        and box.top <= max(y0, y1)
    )


def along_curve(start: Point, one: Point, other: Point, end: Point) -> Iterator[Point]:
    """Points along a cubic curve, its end among them and its start not."""
    for a, b, c, d in _SHARES:
        yield (
            a * start[0] + b * one[0] + c * other[0] + d * end[0],
            a * start[1] + b * one[1] + c * other[1] + d * end[1],
        )


def box_about(outline: Outline) -> Box:
    """The box about an outline."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _is_quarter(angle: float) -> bool:
    return min(abs(angle - 1.571), abs(angle - 4.712)) < 0.01


def _words(letters: Sequence[Letter]) -> Iterator[Word]:
    held: list[Letter] = []
    for letter in letters:
        if not letter.is_ink:
            if held:
                yield _word(held)
            held = []
            continue
        if held and not _follows(held[-1], letter):
            yield _word(held)
            held = []
        held.append(letter)
    if held:
        yield _word(held)


def _follows(before: Letter, letter: Letter) -> bool:
    if (before.angle, before.colour) != (letter.angle, letter.colour) or abs(before.size - letter.size) > 0.1:
        return False
    if before.order == letter.order and before.angle:
        return True
    if _is_quarter(before.angle):
        gap = max(before.box.top - letter.box.bottom, letter.box.top - before.box.bottom)
        aside = abs(before.box.centre[0] - letter.box.centre[0])
        return aside < 0.4 * before.size and gap < 0.16 * before.size
    if before.angle:
        return False
    if abs(before.baseline - letter.baseline) > 0.1:
        return False
    gap = letter.box.left - before.box.right
    return -0.6 * before.size < gap < (0.6 if before.order == letter.order else 0.16) * before.size


def _word(letters: Sequence[Letter]) -> Word:
    box = letters[0].box
    for letter in letters[1:]:
        box = box.joined(letter.box)
    return Word(tuple(letters), box)
