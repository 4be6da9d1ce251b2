"""Discs with the numbers of cuts, straight over or under their marks on the scale.

Where discs would touch, they take turns on two rows.  Cuts nearer than that become one bracket: the first
and the last disc, a dash between them and a line along their marks.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from booklet.drawing.marks.marker import cut_marker
from booklet.drawing.shapes.figure import Line, Shape, Stroke
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.dataclass import dataclass

_DASH = 5.0
_BETWEEN = 1.0
_DASH_HALF = 1.8
_OFF_BAND = 2.4
_BETWEEN_ROWS = 1.2


@dataclass(frozen=True)
class CutMark:
    """A cut's number and where its mark stands along the scale, in points."""

    number: int
    at: float


@dataclass(frozen=True)
class Disc:
    """A disc of a head: its middle along the scale, its row outwards from 0, its number."""

    at: float
    row: int
    number: int


@dataclass(frozen=True)
class Head:
    """What stands over one cut, or over several that lie too near each other for discs of their own.

    `cuts` and `discs` are in order from the zero outwards; a `bracket` tells that the discs stand for all
    cuts along its line, `dashes` are where a disc stands for those left out after it.
    """

    cuts: tuple[CutMark, ...]
    discs: tuple[Disc, ...]
    left: float
    right: float
    is_bracket: bool = False
    dashes: tuple[float, ...] = ()

    @property
    def rows(self) -> int:
        """On how many rows its discs stand."""
        return 1 + max(disc.row for disc in self.discs)


def cut_heads(cuts: Sequence[CutMark], least: float, style: DrawingStyle) -> tuple[Head, ...]:
    """Heads for all cuts, from the zero outwards, none touching another; none begins left of `least`.

    Discs that would touch take turns on two rows; where even so one's stem would, they become a bracket.
    """
    heads: list[Head] = []
    for cut in sorted(cuts, key=lambda cut: cut.at):
        head = _head((cut,), least, style)
        while heads and heads[-1].right + _BETWEEN > head.left:
            head = _head((*heads.pop().cuts, *head.cuts), least, style)
        heads.append(head)
    return tuple(heads)


def _head(cuts: Sequence[CutMark], least: float, style: DrawingStyle) -> Head:
    return _alternating(cuts, style) if _may_alternate(cuts, style) else _bracket(cuts, least, style)


def _may_alternate(cuts: Sequence[CutMark], style: DrawingStyle) -> bool:
    """Whether discs on two rows stand clear of each other, and the far ones' stems of the near ones."""
    radius = style.disc_radius
    stems = all(right.at - left.at >= radius + 0.7 * style.cut_width for left, right in pairwise(cuts))
    return stems and all(
        right.at - left.at >= 2 * radius + _BETWEEN for left, right in zip(cuts, cuts[2:], strict=False)
    )


def _alternating(cuts: Sequence[CutMark], style: DrawingStyle) -> Head:
    # The cut that is made first keeps the near row.
    shift = int(len(cuts) > 1 and cuts[0].number > cuts[1].number)
    discs = tuple(Disc(cut.at, (place + shift) % 2, cut.number) for place, cut in enumerate(cuts))
    if len(cuts) == 1:
        discs = (Disc(cuts[0].at, 0, cuts[0].number),)
    return Head(tuple(cuts), discs, cuts[0].at - style.disc_radius, cuts[-1].at + style.disc_radius)


def _bracket(cuts: Sequence[CutMark], least: float, style: DrawingStyle) -> Head:
    """Discs side by side, where they can straight over the marks at the ends; a dash for numbers left out."""
    radius = style.disc_radius
    runs = list(_runs([cut.number for cut in cuts]))
    numbers: list[int] = []
    offsets: list[float] = []
    dashes: list[float] = []
    at = radius
    for run in runs:
        for place, number in enumerate(run[:1] if len(run) == 1 else (run[0], run[-1])):
            if place and len(run) > 2:
                dashes.append(at - radius)
                at += _DASH
            elif numbers:
                at += _BETWEEN
            numbers.append(number)
            offsets.append(at)
            at += 2 * radius
    width, first, last = at - radius, cuts[0].at, cuts[-1].at
    if len(runs) == 1 and last - first + 2 * radius >= width:
        ends = tuple(Disc(x, 0, number) for x, number in zip((first, last), numbers, strict=True))
        return Head(
            tuple(cuts), ends, first - radius, last + radius, True, ((first + last) / 2,) if dashes else ()
        )
    left = max((first + last - width) / 2, least)
    discs = tuple(Disc(left + x, 0, number) for x, number in zip(offsets, numbers, strict=True))
    middles = tuple(left + x + _DASH / 2 for x in dashes)
    return Head(tuple(cuts), discs, min(left, first), max(left + width, last), True, middles)


def _runs(numbers: Sequence[int]) -> Iterator[list[int]]:
    """The numbers in order, cut into stretches that count up or down by ones."""
    run = [numbers[0]]
    for number in numbers[1:]:
        step = number - run[-1]
        if abs(step) == 1 and (len(run) == 1 or step == run[1] - run[0]):
            run.append(number)
        else:
            yield run
            run = [number]
    yield run


def heads_height(heads: Sequence[Head], style: DrawingStyle) -> float:
    """How far heads reach from the band, in points."""
    rows = max((head.rows for head in heads), default=0)
    return rows * (2 * style.disc_radius + _BETWEEN_ROWS) + _OFF_BAND - _BETWEEN_ROWS if rows else 0.0


@dataclass(frozen=True)
class Side:
    """The side of a band on which discs stand: its edge, and `way` outwards from there, up -1 or down +1."""

    edge: float
    way: int

    def middle(self, row: int, style: DrawingStyle) -> float:
        """The height of the middles of a row's discs."""
        out = _OFF_BAND + style.disc_radius + row * (2 * style.disc_radius + _BETWEEN_ROWS)
        return self.edge + self.way * out


def head_shapes(heads: Sequence[Head], side: Side, style: DrawingStyle) -> Iterator[Shape]:
    """The discs, dashes and bracket lines; stems are drawn by who knows where they end."""
    for head in heads:
        for x in head.dashes:
            y = side.middle(0, style)
            yield Line((x - _DASH_HALF, y), (x + _DASH_HALF, y), Stroke(style.palette.ink, style.cut_width))
        for disc in head.discs:
            yield cut_marker(disc.at, side.middle(disc.row, style), str(disc.number), style)
        if head.is_bracket:
            y = side.edge + side.way * _OFF_BAND / 2
            line = Stroke(style.palette.accent, style.dimension_width * 1.4)
            yield Line((head.cuts[0].at, y), (head.cuts[-1].at, y), line)


def stem_start(head: Head, cut: CutMark, side: Side, style: DrawingStyle) -> float | None:
    """Where the stem of a cut begins: at its own disc; None where it has none straight over it."""
    disc = next((disc for disc in head.discs if disc.number == cut.number and disc.at == cut.at), None)
    return None if disc is None else side.middle(disc.row, style) - side.way * style.disc_radius
