"""Stretches of the trimmer's scale at true size, with the marks of cuts that lie near each other.

A hand lays the figure beside its own scale: every mark of the trimmer is there, at its true distance.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from functools import cached_property

from booklet.drawing.cutting.stage_figure import StageView
from booklet.drawing.marks.cut_discs import (
    CutMark,
    Head,
    Side,
    cut_heads,
    head_shapes,
    heads_height,
    stem_start,
)
from booklet.drawing.marks.trimmer_scale import (
    Band,
    Ruler,
    band_hang,
    band_height,
    band_shapes,
    divisions,
    is_numbered,
    numerals,
)
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Figure, Line, Path, Shape, Stroke, translated
from booklet.drawing.shapes.scale import TRUE_SIZE
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, to_points

# How far a stretch reaches past its outermost cuts, and how much of the scale between two cuts is left out.
_MARGIN = {Unit.INCH: Fraction(3, 8), Unit.CENTIMETRE: Fraction(1), Unit.MILLIMETRE: Fraction(10)}
_TICK = 16.0
_BETWEEN, _BETWEEN_ROWS = 8.0, 8.0
_BREAK, _EDGE = 2.6, 0.3  # how far a break line swings, and half its width
_MARK_PAST = 1.12  # a cut's mark is so much longer than the scale's longest


@dataclass(frozen=True)
class Stretch:
    """What is shown of the scale, from `low` to `high`, and the value and the number of each cut on it."""

    low: Fraction
    high: Fraction
    cuts: tuple[tuple[Fraction, int], ...]


def lens_stretches(view: StageView, cuts: Collection[int], width: float) -> tuple[Stretch, ...]:
    """The stretches of the scale that show these cuts, from left to right, none longer than `width` points.

    Cuts stand on one stretch unless much of the scale between them would show for nothing.
    """
    wanted = sorted((cut.value, cut.number) for cut in view.cuts if cut.number in cuts)
    groups: list[list[tuple[Fraction, int]]] = []
    for cut in wanted:
        if groups and _belongs(groups[-1], cut, view, width):
            groups[-1].append(cut)
        else:
            groups.append([cut])
    stretches = tuple(Stretch(*_reach(group, view), tuple(group)) for group in groups)
    return stretches if view.zero is Edge.LEFT else stretches[::-1]


def _belongs(
    group: Sequence[tuple[Fraction, int]], cut: tuple[Fraction, int], view: StageView, width: float
) -> bool:
    low, high = _reach([*group, cut], view)
    is_near = cut[0] - group[-1][0] <= 3 * _MARGIN[view.unit]
    return is_near and to_points(high - low, view.unit) <= width


def _reach(group: Sequence[tuple[Fraction, int]], view: StageView) -> tuple[Fraction, Fraction]:
    """A little past the outermost cuts, as far as a numeral if there is none between."""
    margin = _MARGIN[view.unit]
    low, high = max(group[0][0] - margin, Fraction(0)), min(group[-1][0] + margin, view.reach)
    room = margin / 3
    below, above = _numbered_below(low, view.unit), _numbered_above(high, view.unit)
    if _numbered_above(low + room, view.unit) <= high - room:
        return low, high
    if low - below <= above - high or above + room > view.reach:
        return max(below - room, Fraction(0)), high
    return low, above + room


def _numbered_below(value: Fraction, unit: Unit) -> Fraction:
    whole = Fraction(value.numerator // value.denominator)
    while not is_numbered(whole, unit):
        whole -= 1
    return whole


def _numbered_above(value: Fraction, unit: Unit) -> Fraction:
    whole = Fraction(-(-value.numerator // value.denominator))
    while not is_numbered(whole, unit):
        whole += 1
    return whole


def lens_figure(
    view: StageView, cuts: Collection[int], width: float, style: DrawingStyle, name: str
) -> Figure:
    """The stretches side by side and under one another, at most `width` points wide."""
    plan = _Plan(view, tuple(sorted(cuts)), width, style)
    shapes: list[Shape] = []
    for stretch, (x, y) in zip(plan.stretches, plan.places, strict=True):
        shapes.append(translated(_stretch_shapes(plan, stretch), x, y))
    return Figure(name, *plan.size, tuple(shapes), "", f"{view.labels.scale} {TRUE_SIZE.ratio}")


@dataclass(frozen=True)
class _Plan:
    """Where everything stands, each stretch's band with its top left corner at (0, 0)."""

    view: StageView
    cuts: tuple[int, ...]
    width: float
    style: DrawingStyle

    @property
    def room(self) -> float:
        """The width that bands may take."""
        return self.width - 2 * (_BREAK + _EDGE)

    @cached_property
    def stretches(self) -> tuple[Stretch, ...]:
        hang = band_hang(self.style.dimension_size)
        return lens_stretches(self.view, self.cuts, self.room - 2 * hang)

    @cached_property
    def ruler(self) -> Ruler:
        view = self.view
        return Ruler(view.reach, view.mark, view.unit, to_points(Fraction(1), view.unit), view.zero)

    def ends(self, stretch: Stretch) -> tuple[float, float]:
        """How far the band reaches past the zero and past the scale's end, where a stretch ends there."""
        hang = band_hang(self.style.dimension_size)
        return hang * (stretch.low == 0), hang * (stretch.high == self.view.reach)

    def length(self, stretch: Stretch) -> float:
        """How long the band of a stretch is, in points."""
        return self.ruler.at(stretch.high - stretch.low) + sum(self.ends(stretch))

    def band(self, stretch: Stretch) -> Band:
        """The band of a stretch."""
        size = self.style.dimension_size
        height = band_height(_TICK, size)
        box = Box(0.0, 0.0, self.length(stretch), height)
        before = self.ends(stretch)[0] - self.ruler.at(stretch.low)
        zero = before if self.view.zero is Edge.LEFT else box.right - before
        return Band(box, height, zero, _TICK, size, self.ruler)

    def heads(self, stretch: Stretch) -> tuple[Head, ...]:
        """The discs under a stretch."""
        band = self.band(stretch)
        marks = [CutMark(number, band.x(value)) for value, number in stretch.cuts]
        return cut_heads(marks, 0.0, self.style)

    def height(self, stretch: Stretch) -> float:
        """How high a stretch and its discs are."""
        return self.band(stretch).box.height + heads_height(self.heads(stretch), self.style)

    @cached_property
    def rows(self) -> tuple[tuple[Stretch, ...], ...]:
        """The stretches that stand side by side."""
        rows: list[list[Stretch]] = []
        for stretch in self.stretches:
            taken = sum(self.length(each) + _BETWEEN for each in rows[-1]) if rows else 0.0
            if rows and taken + self.length(stretch) <= self.room:
                rows[-1].append(stretch)
            else:
                rows.append([stretch])
        return tuple(map(tuple, rows))

    @cached_property
    def places(self) -> tuple[tuple[float, float], ...]:
        """Where each stretch's band begins."""
        places: list[tuple[float, float]] = []
        y = _EDGE
        for row in self.rows:
            x = _BREAK + _EDGE
            for stretch in row:
                places.append((x, y))
                x += self.length(stretch) + _BETWEEN
            y += max(map(self.height, row)) + _BETWEEN_ROWS
        return tuple(places)

    @cached_property
    def size(self) -> tuple[float, float]:
        """How wide and high all is."""
        rights, bottoms = [0.0], [0.0]
        for stretch, (x, y) in zip(self.stretches, self.places, strict=True):
            rights += [x + self.length(stretch), *(x + head.right for head in self.heads(stretch))]
            bottoms.append(y + self.height(stretch))
        return max(rights) + _BREAK + _EDGE, max(bottoms)


def _stretch_shapes(plan: _Plan, stretch: Stretch) -> Iterator[Shape]:
    style, band = plan.style, plan.band(stretch)
    readings = {value for value, _ in stretch.cuts}
    every = numerals(plan.ruler, readings, band.size)
    shown = [numeral for numeral in every if band.box.holds(band.numeral_box(numeral))]
    yield from band_shapes(band, shown, divisions(plan.view.unit, plan.view.mark), style)
    yield from _breaks(plan, stretch, band)
    side = Side(band.base, 1)
    stroke = Stroke(style.palette.accent, style.cut_width * 1.5)
    for head in plan.heads(stretch):
        for cut in head.cuts:
            foot = stem_start(head, cut, side, style)
            end = band.base if foot is None else foot
            yield Line((cut.at, band.base - band.tick * _MARK_PAST), (cut.at, end), stroke)
    yield from head_shapes(plan.heads(stretch), side, style)


def _breaks(plan: _Plan, stretch: Stretch, band: Band) -> Iterator[Path]:
    """A freehand line at each end where the scale runs on."""
    sides = (band.box.left, band.box.right)[:: band.ruler.way]
    runs_on = (stretch.low > 0, stretch.high < plan.view.reach)
    for is_broken, x in zip(runs_on, sides, strict=True):
        if is_broken:
            third = band.box.height / 3
            top, bottom = band.box.top, band.box.bottom
            curve = ("C", x + _BREAK, top + third, x - _BREAK, bottom - third, x, bottom)
            yield Path((("M", x, top), curve), stroke=plan.style.fine)
