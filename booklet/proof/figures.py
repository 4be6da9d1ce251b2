"""The figures of a page, found from what is drawn: outlines under a scale, numbers in rings and discs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from booklet.proof.printed import POINTS_PER_MM, Box, Letter, Page, Path, Stroke, Word
from booklet.proof.scales import DrawnScale, scales_on

# ISO 128-2 (from memory): outlines are 0.5 mm wide.
OUTLINE = 0.5 * POINTS_PER_MM
_SAME_WIDTH = 0.02
# From an outline up to the base of its scale, at most.
_SCALE_ABOVE = 8.0
WHITE = (255, 255, 255)
# Rings and discs about numbers have radii between these.
_LEAST_RADIUS, _MOST_RADIUS = 4.5, 14.0


@dataclass(frozen=True)
class Numbered:
    """A number in a circle: a ring on white, or a filled disc."""

    circle: Path
    letters: tuple[Letter, ...]

    @property
    def number(self) -> int:
        return int("".join(letter.text for letter in self.letters))

    @property
    def is_disc(self) -> bool:
        """Whether it is filled with a colour."""
        return self.circle.fill is not None and sum(self.circle.fill) < 3 * 235


@cache
def numbered(page: Page) -> tuple[Numbered, ...]:
    """Every number in a circle, each letter in the smallest circle about it."""
    circles = [path for path in page.circles if _LEAST_RADIUS <= path.box.width / 2 <= _MOST_RADIUS]
    inside: dict[int, list[Letter]] = {}
    for letter in page.ink:
        about = [at for at, circle in enumerate(circles) if _is_within(letter, circle)]
        if about and letter.text.isdecimal():
            smallest = min(about, key=lambda at: circles[at].box.width)
            inside.setdefault(smallest, []).append(letter)
    return tuple(
        Numbered(circles[at], tuple(sorted(letters, key=lambda letter: letter.box.left)))
        for at, letters in inside.items()
    )


def _is_within(letter: Letter, circle: Path) -> bool:
    (x, y), (cx, cy) = letter.box.centre, circle.box.centre
    return (x - cx) ** 2 + (y - cy) ** 2 < (circle.box.width / 2) ** 2


@cache
def encircled(page: Page) -> frozenset[int]:
    """The letters of a page that stand in circles, by identity."""
    return frozenset(id(letter) for each in numbered(page) for letter in each.letters)


def letters_right_of(page: Page, box: Box, room: float) -> list[Letter]:
    """The letters right of a box on its line, but for those in circles, from left to right."""
    signs = encircled(page)
    found = [
        letter
        for letter in page.ink
        if box.right <= letter.box.left < box.right + room
        and box.centre[1] < letter.baseline < box.bottom + 1.0
        and id(letter) not in signs
    ]
    return sorted(found, key=lambda letter: letter.box.left)


# At the trimmer.


@dataclass(frozen=True)
class CutFigure:
    """A sheet or a piece under the scale: its outline, the scale, its cut lines from left to right."""

    page: Page
    outline: Box
    scale: DrawnScale
    cuts: tuple[Stroke, ...]


@cache
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
    return path.fill is None and is_wide and not path.curves and path.lines in (3, 4) and path.box.height > 10


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


@cache
def lens_scales(page: Page) -> tuple[DrawnScale, ...]:
    """The scales of a page that lie on a tinted band and stand on no outline."""
    figures = cut_figures(page)
    bands = [path.box for path in page.paths if path.fill not in (None, WHITE) and path.box.height > 12.0]
    return tuple(
        scale
        for scale in scales_on(page)
        if all(scale is not figure.scale for figure in figures)
        and any(band.holds(scale.box, 1.0) for band in bands)
    )


def in_reading_order(figures: Iterable[CutFigure]) -> list[CutFigure]:
    """Figures page by page, from the top down."""
    return sorted(figures, key=lambda figure: (figure.page.number, figure.outline.top))


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
