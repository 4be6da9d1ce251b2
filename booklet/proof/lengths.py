"""Lengths as they are drawn, measured on the page and held against the numbers beside them.

What is drawn is found from ink alone: cut lines under a scale, arrowheads outside a finished page, and the
scale that each figure states.  The claims tell which number each is to show.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import pairwise

from booklet.content.spans import Role
from booklet.kit.fields import Edge
from booklet.measure.length import Unit
from booklet.proof.claim import Claim
from booklet.proof.figures import CutFigure, at_heading, below, cut_figures
from booklet.proof.printed import POINTS_PER_MM, Box, Page

_POINTS = {Unit.INCH: 72.0, Unit.CENTIMETRE: 10 * POINTS_PER_MM, Unit.MILLIMETRE: POINTS_PER_MM}
# From a figure down to the words that state its scale, or from its scale up to the heading that does.
_SCALE_BELOW, _SCALE_ABOVE = 62.0, 110.0
# A place that is drawn farther from its number, in millimetres on paper, is wrong: a third of the width of a
# fine line.
TOLERANCE = 0.05
# Arrowheads and strokes of rulers stand so far outside a finished page at most, in points.
_RULER = 24.0


@dataclass(frozen=True)
class Measured:
    """A claim, and how far from its number it is drawn in millimetres on paper; None where nothing is."""

    claim: Claim
    off: float | None

    @property
    def holds(self) -> bool:
        """Whether it is drawn where it says."""
        return self.off is not None and self.off <= TOLERANCE


def measured(claims: Sequence[Claim], pages: Sequence[Page]) -> tuple[Measured, ...]:
    """Every reading and every flag, measured on its page."""
    by_page: defaultdict[int, list[Claim]] = defaultdict(list)
    for claim in claims:
        by_page[claim.page].append(claim)
    return tuple(found for page in pages for found in _on_page(page, by_page[page.number]))


def _on_page(page: Page, claims: Sequence[Claim]) -> Iterator[Measured]:
    cuts = [cut for figure in cut_figures(page) for cut in _drawn_cuts(figure)]
    for claim in claims:
        if claim.kind is Role.READING and claim.cut is not None:
            off = [abs(drawn - _points(claim) / ratio) for drawn, ratio in cuts]
            yield Measured(claim, min(off) / POINTS_PER_MM if off else None)
    flags = [claim for claim in claims if claim.counted is not None]
    if flags:
        yield from _measured_flags(page, flags)


def _points(claim: Claim) -> float:
    """A claimed length at true size."""
    assert claim.unit is not None
    return float(claim.value[0]) * _POINTS[claim.unit]


def _drawn_cuts(figure: CutFigure) -> Iterator[tuple[float, float]]:
    """The cut lines of a figure: how far in points each lies from the zero of the scale, and how many times
    smaller than in truth the figure says that it is drawn.
    """
    scale, ratio = figure.scale, stated_scale(figure)
    if ratio is None or len(scale.numerals) < 2:
        return
    way = 1.0 if scale.unit_points() > 0 else -1.0
    for line in figure.cuts:
        yield way * (line.start[0] - scale.x(0)), ratio


def stated_scale(figure: CutFigure) -> float | None:
    """How many times smaller than in truth a figure says that it is drawn; None where it does not say."""
    near = (
        at_heading(figure.page, figure.scale.box, _SCALE_ABOVE),
        below(figure.page, figure.outline, _SCALE_BELOW),
    )
    return next(filter(None, (_ratio_in([word.text for word in words]) for words in near)), None)


def _ratio_in(words: Sequence[str]) -> float | None:
    """The first scale that words state, as how many times smaller."""
    stated = (word for before, word in pairwise(words) if before == "Scale")
    return next((float(word.partition(":")[2]) for word in stated if word.startswith("1:")), None)


# At the table.


def _measured_flags(page: Page, flags: Sequence[Claim]) -> Iterator[Measured]:
    """Each flag's value from the edge that it counts from to the nearest end of an arrow along the other."""
    outline, ratio = finished_page(page), _ratio_in(page.words_said)
    if outline is None or ratio is None:
        yield from (Measured(claim, None) for claim in flags)
        return
    ends = {
        along: [*arrow_ends(page, outline, along), *oblique_strokes(page, outline, along)] for along in Edge
    }
    for claim in flags:
        assert claim.counted is not None
        along, start = claim.counted
        length = _points(claim) / ratio
        place = {
            Edge.LEFT: outline.left + length,
            Edge.RIGHT: outline.right - length,
            Edge.TOP: outline.top + length,
            Edge.BOTTOM: outline.bottom - length,
        }[start]
        off = min((abs(end - place) for end in ends[along]), default=None)
        yield Measured(claim, None if off is None else off / POINTS_PER_MM)


def finished_page(page: Page) -> Box | None:
    """The outline of the finished page: the largest empty one within which all was painted before it."""
    filled = [path for path in page.paths if path.fill is not None]
    painted = [(item.order, item.box) for items in (page.forms, filled) for item in items]
    outlines = [
        path.box
        for path in page.paths
        if path.stroke is not None and path.fill is None and not path.curves and path.lines in (3, 4)
        if _is_filled(path.box, [box for order, box in painted if order < path.order])
    ]
    return max(outlines, key=lambda box: box.width * box.height, default=None)


def _is_filled(outline: Box, painted: Sequence[Box]) -> bool:
    """Whether what is painted within an outline reaches to all of its sides."""
    within = [box for box in painted if outline.holds(box, 1.0)]
    return bool(within) and reduce(Box.joined, within).holds(outline, 1.0)


def arrow_ends(page: Page, outline: Box, along: Edge) -> list[float]:
    """Where arrowheads outside an edge of a page have corners: across, or down at its sides."""
    heads = [
        outlines
        for path in page.paths
        if path.fill is not None and not path.curves and path.box.width < 8 and path.box.height < 8
        for outlines in path.outlines
        if len(outlines) == 4 and _lies_outside(path.box, outline, along)
    ]
    return [point[1 if along.is_upright else 0] for head in heads for point in head]


def oblique_strokes(page: Page, outline: Box, along: Edge) -> list[float]:
    """Where the middles of short oblique strokes lie outside an edge, instead of arrows that would meet."""
    found = []
    for stroke in page.strokes:
        (x0, y0), (x1, y1) = stroke.start, stroke.end
        box = Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))
        is_oblique = abs(box.width - box.height) < 0.05 and 2.0 < box.width < 6.0
        if is_oblique and _lies_outside(box, outline, along):
            found.append(box.centre[1 if along.is_upright else 0])
    return found


def _lies_outside(box: Box, outline: Box, along: Edge) -> bool:
    """Whether something lies close outside an edge."""
    off = {
        Edge.LEFT: outline.left - box.right,
        Edge.RIGHT: box.left - outline.right,
        Edge.TOP: outline.top - box.bottom,
        Edge.BOTTOM: box.top - outline.bottom,
    }[along]
    return 0 < off < _RULER
