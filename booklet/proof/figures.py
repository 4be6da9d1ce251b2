"""The figures of a page at the trimmer, found from what is drawn: outlines under a scale."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import reduce
from itertools import pairwise
from math import hypot

from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.measure.words import APPROXIMATELY
from booklet.proof.printed import (
    NUMERATORS,
    POINTS_PER_MM,
    Box,
    Outline,
    Page,
    Path,
    Point,
    Stroke,
    Word,
    box_about,
)
from booklet.proof.scales import DrawnScale, scales_on

# ISO 128-2 (from memory): outlines are 0.5 mm wide.
OUTLINE = 0.5 * POINTS_PER_MM
# ISO 128-2 (from memory): dimension lines are 0.25 mm wide.
NARROW = 0.25 * POINTS_PER_MM
_SAME_WIDTH = 0.02
# What is no higher, in points, is no outline: a strip of a sixteenth of an inch at 1:10 is higher.
_FLAT = 0.4
# From an outline up to the base of its scale, at most.
_SCALE_ABOVE = 8.0
# Dimension lines lie so near an outline, end so near what they measure, and their numbers stand so near them.
_CHAIN_BELOW, _NEAR_BOUND, _TEXT_BELOW, _ALONG = 30.0, 0.6, 36.0, 14.0
# The number of a height that is lower than its figures stands out above and below by so much at most.
_ABOUT = 6.0
# A dot at a line's end is so large at most, and so long an arrowhead.
_DOT, _HEAD = 4.0, 9.0
_TRIANGLE = 3
# Two points so near each other are one.
_SAME_POINT = 0.01
# The baselines of words on one line are no farther apart, in points.
_SAME_LINE = 1.0
# A space between two words is at most so wide, in parts of their size.
_SPACE = 0.45
# What is less is none: the figures of a fraction stand so near its whole number.
_THIN = 0.18


# At the trimmer.


@dataclass(frozen=True)
class CutFigure:
    """A sheet or a piece under the scale: its outline, the scale, its cut lines from left to right."""

    page: Page
    outline: Box
    scale: DrawnScale
    cuts: tuple[Stroke, ...]


@cached_on
def cut_figures(page: Page) -> tuple[CutFigure, ...]:
    """Every outline of a page with a scale above it, from the top down."""
    found = []
    scales = scales_on(page)
    for path in page.paths:
        if not is_outline(path):
            continue
        above = [scale for scale in scales if _stands_on(scale, path.box)]
        if above:
            found.append(CutFigure(page, path.box, above[0], tuple(_cuts(page, path.box))))
    return tuple(sorted(found, key=lambda figure: figure.outline.top))


def is_outline(path: Path) -> bool:
    """Whether a path is an upright rectangle in an outline's width, and empty."""
    is_wide = abs(path.width - OUTLINE) < _SAME_WIDTH
    is_high = path.box.height > _FLAT
    return path.fill is None and is_wide and not path.curves and path.lines in (3, 4) and is_high


def _stands_on(scale: DrawnScale, outline: Box) -> bool:
    return 0 < outline.top - scale.base < _SCALE_ABOVE and abs(scale.left - outline.left) < 2.0


def _cuts(page: Page, outline: Box) -> Iterator[Stroke]:
    """Dashed strokes from the top to the foot of an outline."""
    strokes = [stroke for stroke in page.strokes if stroke.is_dashed and stroke.is_upright]
    for stroke in sorted(strokes, key=lambda stroke: stroke.start[0]):
        top, foot = sorted((stroke.start[1], stroke.end[1]))
        if abs(top - outline.top) < 0.3 and abs(foot - outline.bottom) < 0.3:
            x = stroke.start[0]
            if outline.left - 0.3 < x < outline.right + 0.3:
                yield stroke


def at_heading(page: Page, box: Box, room: float) -> tuple[Word, ...]:
    """The upright words above a box, no farther up than `room`, in the right half of the page."""
    return tuple(
        word
        for word in page.words
        if not word.angle and word.box.left > page.width / 2 and box.top - room < word.box.top < box.top
    )


def below(page: Page, box: Box, room: float) -> tuple[Word, ...]:
    """The upright words under a box, no farther down than `room`, that begin within its width."""
    return tuple(
        word
        for word in page.words
        if not word.angle
        and box.left - 12.0 <= word.box.left <= box.right
        and box.bottom < word.box.top < box.bottom + room
    )


# Dimensions about a figure.


@dataclass(frozen=True)
class Dimension:
    """A number beside a dimension line, or so many times one: what it says, where it stands."""

    said: str
    box: Box


def width_lines(figure: CutFigure) -> tuple[Stroke, ...]:
    """The dimension lines under a figure, from left to right: level, from one cut or side to another."""
    outline = figure.outline
    bounds = [outline.left, outline.right, *(cut.start[0] for cut in figure.cuts)]
    found = [
        stroke
        for stroke in figure.page.strokes
        if stroke.is_level
        and not stroke.is_dashed
        and abs(stroke.width - NARROW) < _SAME_WIDTH
        and 0 < stroke.start[1] - outline.bottom < _CHAIN_BELOW
        and all(min(abs(x - bound) for bound in bounds) < _NEAR_BOUND for x, _ in (stroke.start, stroke.end))
    ]
    return tuple(sorted(found, key=lambda stroke: min(stroke.start[0], stroke.end[0])))


def line_ends(page: Page, line: Stroke) -> tuple[float, ...]:
    """Where arrowheads end and dots stand on a dimension line, along it."""
    (x0, y0), (x1, y1) = line.start, line.end
    along, across = (1, x0) if line.is_upright else (0, y0)
    low, high = sorted((y0, y1) if along else (x0, x1))
    found = [arrow_tip(head) for head in arrowheads(page)] + [
        path.box.centre for path in page.circles if path.fill is not None and path.box.width < _DOT
    ]
    near = [point for point in found if abs(point[1 - along] - across) < _NEAR_BOUND]
    return tuple(sorted(point[along] for point in near if low - 2.0 < point[along] < high + 2.0))


@cached_on
def arrowheads(page: Page) -> tuple[Outline, ...]:
    """The small filled triangles of a page."""
    return tuple(
        corners
        for path in page.paths
        if path.fill is not None and not path.curves
        for outline in path.outlines
        if not path.clips or path.box.grown(0.1).holds(box_about(outline))
        if len(corners := _corners(outline)) == _TRIANGLE and _is_small(box_about(corners))
    )


def _corners(outline: Outline) -> Outline:
    """The points of an outline, those left out that stand where the one before or the first does."""
    kept: list[Point] = []
    for x, y in outline:
        if not any(hypot(x - u, y - v) < _SAME_POINT for u, v in (*kept[:1], *kept[-1:])):
            kept.append((x, y))
    return tuple(kept)


def _is_small(box: Box) -> bool:
    return max(box.width, box.height) < _HEAD


def arrow_tip(head: Outline) -> Point:
    """The tip of an arrowhead: the corner from which the nearer of the others is farthest."""
    return max(head, key=lambda one: min(hypot(one[0] - x, one[1] - y) for x, y in head if (x, y) != one))


def widths_said(figure: CutFigure) -> tuple[Dimension, ...]:
    """The numbers under a figure, from left to right: those that belong to its dimension lines."""
    lines = width_lines(figure)
    if not lines:
        return ()
    page, outline = figure.page, figure.outline
    foot = min(floor(figure), lines[0].start[1] + _TEXT_BELOW)
    room = Box(outline.left - 30.0, outline.bottom, outline.right + 30.0, foot)
    words = [
        word
        for word in page.words
        if not word.angle and room.holds_point(word.box.centre) and _is_of_dimension(word.text)
        if not any(circle.box.holds(word.box, 1.0) for circle in page.circles)
    ]
    return tuple(sorted(joined(words), key=lambda one: one.box.centre[0]))


def floor(figure: CutFigure) -> float:
    """Down to where what stands below a figure is its own: to the words that state its scale, or to the
    page's foot.
    """
    stated = (word.box.top for word in figure.page.words if word.text == "Scale")
    return min((top for top in stated if top > figure.outline.bottom), default=figure.page.height)


def height_line(figure: CutFigure) -> Stroke | None:
    """The dimension line at the right side of a figure; None where there is none."""
    outline = figure.outline
    found = [
        stroke
        for stroke in figure.page.strokes
        if stroke.is_upright
        and not stroke.is_dashed
        and abs(stroke.width - NARROW) < _SAME_WIDTH
        and 0 < stroke.start[0] - outline.right < _CHAIN_BELOW
        and abs(min(stroke.start[1], stroke.end[1]) - outline.top) < _NEAR_BOUND
        and stroke.length > outline.height / 2
    ]
    return min(found, key=lambda stroke: stroke.start[0], default=None)


def height_said(figure: CutFigure, line: Stroke) -> Dimension | None:
    """The number at a figure's height: along its line, or upright beside it; None where there is none."""
    outline, x = figure.outline, line.start[0]
    room = Box(x - _ALONG, outline.top - _ABOUT, x + 40.0, outline.bottom + _ABOUT)
    near = [
        word
        for word in figure.page.words
        if room.holds_point(word.box.centre) and _is_of_dimension(word.text)
        if word.angle or word.box.left > x
    ]
    numbers = (word for word in near if word.text != APPROXIMATELY)
    nearest = min(numbers, key=lambda word: abs(word.box.centre[0] - x), default=None)
    if nearest is None:
        return None
    is_about = any(word.text == APPROXIMATELY and word.angle == nearest.angle for word in near)
    return Dimension(f"{APPROXIMATELY} {nearest.text}" if is_about else nearest.text, nearest.box)


def _is_of_dimension(text: str) -> bool:
    return text in ("×", APPROXIMATELY) or any(part.isdigit() or part in NUMERATORS for part in text[:1])


def joined(words: Iterable[Word]) -> Iterator[Dimension]:
    """Words that stand on one line with no more than a space between them, as one text each."""
    for line in _lines(words):
        held: list[Word] = []
        for word in sorted(line, key=lambda word: word.box.left):
            if held and word.box.left - held[-1].box.right > _SPACE * word.size:
                yield _text(held)
                held = []
            held.append(word)
        yield _text(held)


def _lines(words: Iterable[Word]) -> Iterator[list[Word]]:
    """Words by the lines on which they stand, from the top down."""
    line: list[Word] = []
    for word in sorted(words, key=lambda word: word.baseline):
        if line and word.baseline - line[0].baseline > _SAME_LINE:
            yield line
            line = []
        line.append(word)
    if line:
        yield line


def _text(words: list[Word]) -> Dimension:
    box = reduce(Box.joined, (word.box for word in words))
    said = words[0].text
    for before, word in pairwise(words):
        is_apart = word.box.left - before.box.right > _THIN * word.size
        said += f" {word.text}" if is_apart else word.text
    return Dimension(said, box)
