"""The trimmer's scales on a page, found from what is drawn: marks on a base line, numerals above."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.proof.printed import POINTS_PER_MM, Box, Page, Stroke, Word

# A scale has at least so many marks, and its numerals stand at most so far above the longest, in points.
_LEAST_MARKS = 4
_NUMERAL_ROOM = 12.0
_SAME = 0.05
# Marks are the finest lines of a page, 0.18 mm; what a cut draws on the scale is wider.
_MARK_WIDTH = 0.2 * POINTS_PER_MM


@dataclass(frozen=True)
class DrawnScale:
    """A scale: its base line, where its marks stand and how long they are, the numerals above them."""

    base: float
    marks: tuple[tuple[float, float], ...]
    numerals: tuple[Word, ...]

    @property
    def left(self) -> float:
        return self.marks[0][0]

    @property
    def right(self) -> float:
        return self.marks[-1][0]

    @property
    def top(self) -> float:
        return self.base - max(length for _, length in self.marks)

    @property
    def pitch(self) -> float:
        """From mark to mark, in points."""
        return (self.right - self.left) / (len(self.marks) - 1)

    @property
    def values(self) -> tuple[int, ...]:
        """What its numerals say, from left to right."""
        return tuple(int(word.text) for word in self.numerals)

    @property
    def box(self) -> Box:
        """The box about its marks."""
        return Box(self.left, self.top, self.right, self.base)

    def mark_of(self, numeral: Word) -> float:
        """Where the mark stands that is nearest to a numeral."""
        middle = numeral.box.centre[0]
        return min((x for x, _ in self.marks), key=lambda x: abs(x - middle))

    def unit_points(self) -> float:
        """From one unit to the next, in points, from the marks of its outermost numerals.

        Raises AssertionError for a scale of one numeral.
        """
        assert len(self.numerals) > 1, "one numeral tells no pitch"
        first, last = self.numerals[0], self.numerals[-1]
        return (self.mark_of(last) - self.mark_of(first)) / (int(last.text) - int(first.text))

    def x(self, value: float, unit_points: float | None = None) -> float:
        """Where a value lies, counted from the mark of its first numeral."""
        first = self.numerals[0]
        pitch = self.unit_points() if unit_points is None else unit_points
        return self.mark_of(first) + (value - int(first.text)) * pitch


@cached_on
def scales_on(page: Page) -> tuple[DrawnScale, ...]:
    """Every scale of a page that bears a numeral, from the top down."""
    strokes = [stroke for stroke in page.strokes if _is_mark(stroke)]
    found = [
        scale
        for marks in _rows(sorted(strokes, key=_foot))
        for run in _runs(sorted(marks, key=lambda stroke: stroke.start[0]))
        if (scale := _scale(page, run)).numerals
    ]
    return tuple(sorted(found, key=lambda scale: (scale.base, scale.left)))


def _is_mark(stroke: Stroke) -> bool:
    return stroke.is_upright and stroke.width < _MARK_WIDTH and 2.0 < stroke.length < 20.0


def _foot(stroke: Stroke) -> float:
    return max(stroke.start[1], stroke.end[1])


def _rows(strokes: Sequence[Stroke]) -> Iterator[list[Stroke]]:
    """Strokes that stand on one line, from strokes in the order of their feet."""
    row: list[Stroke] = []
    for stroke in strokes:
        if row and _foot(stroke) - _foot(row[-1]) > _SAME:
            yield row
            row = []
        row.append(stroke)
    if row:
        yield row


def _scale(page: Page, run: list[Stroke]) -> DrawnScale:
    base = max(map(_foot, run))
    marks = tuple((stroke.start[0], stroke.length) for stroke in run)
    top = base - max(length for _, length in marks)
    left, right = marks[0][0] - 6, marks[-1][0] + 6
    numerals = [
        word
        for word in page.words
        if word.text.isdecimal()
        and not word.angle
        and left <= word.box.centre[0] <= right
        and top - _NUMERAL_ROOM < word.box.bottom <= top + 1.0
    ]
    return DrawnScale(base, marks, tuple(sorted(numerals, key=lambda word: word.box.left)))


def _runs(strokes: list[Stroke]) -> Iterator[list[Stroke]]:
    """Marks that follow each other at one pitch."""
    run: list[Stroke] = []
    for stroke in strokes:
        if run and stroke.start[0] - run[-1].start[0] < _SAME:
            continue
        if len(run) > 1:
            pitch = run[1].start[0] - run[0].start[0]
            if abs(stroke.start[0] - run[-1].start[0] - pitch) > _SAME:
                if len(run) >= _LEAST_MARKS:
                    yield run
                run = run[-1:]
        run.append(stroke)
    if len(run) >= _LEAST_MARKS:
        yield run
