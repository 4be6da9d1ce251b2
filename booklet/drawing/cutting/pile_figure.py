"""The pile as it lies on the table: sheets seen from the front and above, the first to cut on top."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.cutting.model import CutSheet
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.lying import lie
from booklet.drawing.shapes.affine import Affine, Point, scaling
from booklet.drawing.shapes.figure import (
    Figure,
    Fill,
    Polygon,
    Polyline,
    Shape,
    Stroke,
    Use,
)
from booklet.drawing.shapes.scale import TRUE_SIZE
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.dataclass import dataclass
from booklet.measure.geometry import rect_at_origin
from booklet.placing.resolved import ResolvedKit

# Seen so: a depth of 1 looks 0.42 high and leans 0.3 to the right.
_RISE = 0.42
_LEAN = 0.3
# Each further sheet of one kind shows so far below the one above it, in points.
_THICKNESS = 2.6
_LEADER_GAP = 3.0


@dataclass(frozen=True)
class PileLook:
    """How large the pile is drawn: the longest edge, the distance from sheet to sheet, the whole width."""

    longest: float
    pitch: float
    width: float

    @property
    def depth(self) -> float:
        """How high the largest sheet looks, in points."""
        return self.longest * _RISE

    def row_middle(self, at: int) -> float:
        """The height at which the leader of a sheet ends, counted from the top."""
        return self.depth + at * self.pitch


def pile_figure(
    resolved: ResolvedKit, papers: KitPapers, sheets: Sequence[CutSheet], look: PileLook, style: DrawingStyle
) -> Figure:
    """The sheets from the top down, each as it is to lie, with a leader to the right side."""
    unit = resolved.kit.unit
    longest = max(float(max(sheet.size.width, sheet.size.height) * unit.points) for sheet in sheets)
    factor = look.longest / longest
    shapes: list[Shape] = []
    for at in reversed(range(len(sheets))):
        shapes += _sheet(resolved, papers, sheets[at], look.row_middle(at), factor, style)
    for at, sheet in enumerate(sheets):
        shapes += _leader(resolved, sheet, look, look.row_middle(at), factor, style)
    height = look.row_middle(len(sheets) - 1) + look.pitch / 2
    return Figure("pile", look.width, height, tuple(shapes))


def _tilt(depth: float, front: float) -> Affine:
    """From a sheet seen from above to how it is seen in the pile, its front edge at `front`."""
    return Affine(1.0, 0.0, -_LEAN, _RISE, _LEAN * depth, front - _RISE * depth)


def _sheet(
    resolved: ResolvedKit,
    papers: KitPapers,
    sheet: CutSheet,
    front: float,
    factor: float,
    style: DrawingStyle,
) -> Iterator[Shape]:
    lying = sheet.whole[0].lying
    unit = resolved.kit.unit
    seen = lying.seen_size(sheet.size)
    width, depth = (float(side * unit.points) * factor for side in (seen.width, seen.height))
    edge = Stroke(style.palette.ink, style.dimension_width)
    corners = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    for copy in reversed(range(1, sheet.sheet.count)):
        place = _tilt(depth, front + min(copy, 3) * _THICKNESS)
        yield Polygon(_seen(corners, place), Fill(style.palette.paper), edge)
    place = _tilt(depth, front)
    flat = lie(rect_at_origin(sheet.size), sheet.size, lying, unit, TRUE_SIZE).then(scaling(factor))
    symbol = papers.sheet(sheet.index, lying.face)
    yield Use(symbol, flat.then(place), symbol.box.corners)
    yield Polygon(_seen(corners, place), None, edge)


def _seen(corners: Sequence[Point], place: Affine) -> tuple[Point, ...]:
    return tuple(place.apply(corner) for corner in corners)


def _leader(
    resolved: ResolvedKit, sheet: CutSheet, look: PileLook, front: float, factor: float, style: DrawingStyle
) -> Iterator[Shape]:
    """From beside the sheet's right edge to the right of the figure; over no paper."""
    seen = sheet.whole[0].lying.seen_size(sheet.size)
    width, depth = (float(side * resolved.kit.unit.points) * factor for side in (seen.width, seen.height))
    # Higher than the next sheet's far corner, which shows at the right below it.
    up = min(max(look.depth - look.pitch, 0.0) + _LEADER_GAP, depth * _RISE)
    start = (width + up * _LEAN / _RISE + _LEADER_GAP, front - up)
    beyond = look.longest * (1 + _LEAN) + _LEADER_GAP
    end = (look.width, front)
    knee = (min(beyond + up, end[0] - _LEADER_GAP), front)
    yield Polyline((start, (beyond, start[1]), knee, end), style.narrow)
