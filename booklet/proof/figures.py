"""The figures of a page at the trimmer, found from what is drawn: outlines under a scale."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from booklet.proof.printed import POINTS_PER_MM, Box, Page, Path, Stroke, Word
from booklet.proof.scales import DrawnScale, scales_on

# ISO 128-2 (from memory): outlines are 0.5 mm wide.
OUTLINE = 0.5 * POINTS_PER_MM
_SAME_WIDTH = 0.02
# From an outline up to the base of its scale, at most.
_SCALE_ABOVE = 8.0


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
