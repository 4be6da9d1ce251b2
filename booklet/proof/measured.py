"""What is drawn, measured: how far from where or how large it is to be."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from math import inf

from booklet.content.blocks import Section
from booklet.content.spans import plain_text
from booklet.drawing.shapes.figure import Figure
from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.pages.booklet import LaidBooklet
from booklet.pages.boxes import FigureBox, all_in
from booklet.pages.edges import edges_of, margin_figure
from booklet.proof.printed import POINTS_PER_MM, Box

_POINTS = {Unit.INCH: 72.0, Unit.CENTIMETRE: 10 * POINTS_PER_MM, Unit.MILLIMETRE: POINTS_PER_MM}
# What is drawn farther from its number, in millimetres on paper, is wrong: a quarter of the width of a fine
# line.
TOLERANCE = 0.05
# Longer marks may stand at each unit, or at every second, fifth or tenth.
_REPEATS = (2, 5, 10)
# A mark may stand at each unit alone, or where units are narrow, at every second, fifth or tenth, or
# as far apart as a half of five.
_COARSE = (1.0, 2.0, 2.5, 5.0, 10.0, 25.0, 50.0, 100.0, 250.0, 500.0)


@dataclass(frozen=True)
class Drawn:
    """Something that a page is to show in its place and size, and that no text says: its key, what it is."""

    key: str
    page: int
    said: str
    source: SpecPath | None = None


@dataclass(frozen=True)
class Measured:
    """Something drawn, and how far it is in millimetres from where it is to be; None where nothing is.

    `box` is where on the page it was looked for, in points, if that is known.
    """

    claim: Drawn
    off: float | None
    box: Box | None = None

    @property
    def holds(self) -> bool:
        """Whether it is drawn where it says."""
        return self.off is not None and self.off <= TOLERANCE


@dataclass(frozen=True)
class Shown:
    """A figure that a page shows: in which section, and as what it was drawn."""

    page: int
    anchor: str
    figure: Figure

    @property
    def request(self) -> object:
        """What it was asked to show."""
        return self.figure.subject


def shown_figures(laid: LaidBooklet) -> tuple[Shown, ...]:
    """Every figure of a booklet, in the order of the pages; after those of a page its margins, as one."""
    edges = edges_of(laid.setup.document.sections)
    found: list[Shown] = []
    for number, page in enumerate(laid.pages, 1):
        for placed in page.column:
            anchor = anchor_of(page.part_at(placed.y).section)
            figures = (each.figure for each in all_in(placed.flowable) if isinstance(each, FigureBox))
            found += [Shown(number, anchor, figure) for figure in figures]
        found.append(Shown(number, f"page {number}", margin_figure(laid.setup, page, number, edges)))
    return tuple(found)


def anchor_of(section: Section) -> str:
    """What a section is called in keys."""
    return section.anchor or plain_text(section.title)


def points(length: Fraction | int, unit: Unit, ratio: float = 1.0) -> float:
    """A length in points, so many times smaller than in truth."""
    return float(length) * _POINTS[unit] / ratio


def millimetres(off: Iterable[float]) -> float | None:
    """The least of some distances in points, in millimetres; None of none, and of what is endlessly far."""
    least = min(off, default=inf)
    return None if least == inf else least / POINTS_PER_MM


def sides_off(one: Box, other: Box) -> float:
    """How far in points the sides of two boxes are apart at most."""
    return max(
        abs(one.left - other.left),
        abs(one.top - other.top),
        abs(one.right - other.right),
        abs(one.bottom - other.bottom),
    )


def marks_off(marks: Sequence[tuple[float, float]], zero: float, unit: float) -> float | None:
    """How far in millimetres the marks of a scale are from where and how long they are to be, at most.

    `marks` are the place and the length of each from left to right, in points; `zero` is where one of them
    stands for a whole number, `unit` how far apart whole numbers are.  They stand at one pitch, so many to
    the unit or one to so many units, and their lengths come again with each unit or a few.  None for a single
    mark.
    """
    if len(marks) < 2:
        return None
    pitch = pitch_of(marks)
    in_unit = max(round(abs(unit) / pitch), 1)
    wanted = abs(unit) * min(_COARSE, key=lambda many: abs(many * abs(unit) / in_unit - pitch)) / in_unit
    numbered = [(round((place - zero) / pitch), place, length) for place, length in marks]
    beside = max(abs(place - zero - at * wanted) for at, place, _ in numbered)
    lengths = [(at, length) for at, _, length in numbered]
    periods = [in_unit, *(in_unit * many for many in _REPEATS if 3 * in_unit * many <= len(marks))]
    uneven = min(_unevenness(lengths, period) for period in periods)
    return max(in_unit * abs(wanted - pitch), beside, uneven) / POINTS_PER_MM


def pitch_of(marks: Sequence[tuple[float, float]]) -> float:
    """How far apart the marks of a scale are, two or more, from left to right."""
    return (marks[-1][0] - marks[0][0]) / (len(marks) - 1)


def _unevenness(lengths: Sequence[tuple[int, float]], period: int) -> float:
    """How much lengths differ, at most, that come again after so many marks."""
    alike: defaultdict[int, list[float]] = defaultdict(list)
    for at, length in lengths:
        alike[at % period].append(length)
    return max(max(group) - min(group) for group in alike.values())


def extras(drawn: Iterable[float], wanted: Iterable[float]) -> Iterator[float]:
    """How far in points each of some places is from the nearest that is wanted; endlessly of none."""
    places = list(wanted)
    for place in drawn:
        yield min((abs(place - each) for each in places), default=inf)
