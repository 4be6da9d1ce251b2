"""The trimmer's scales on a page, found from what is drawn: a base line with marks of even pitch above it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from tests.finished.reader import Page, Stroke, Word

# A scale has at least so many marks, and its numerals stand at most so far above the longest, in points.
_LEAST_MARKS = 9
_NUMERAL_ROOM = 12.0
_SAME = 0.05


@dataclass(frozen=True)
class DrawnScale:
    """A scale: its base line, where its marks stand and how long they are, and the numerals above them."""

    base: float
    marks: tuple[tuple[float, float], ...]
    numerals: tuple[Word, ...]

    @property
    def longest(self) -> tuple[float, ...]:
        """Where its longest marks stand: the labelled divisions."""
        most = max(length for _, length in self.marks)
        return tuple(x for x, length in self.marks if length > most - _SAME)


def scales_on(page: Page) -> Iterator[DrawnScale]:
    """Every scale of a page."""
    by_base: dict[float, list[Stroke]] = defaultdict(list)
    for stroke in page.strokes:
        if abs(stroke.start[0] - stroke.end[0]) < _SAME and 2.0 < abs(stroke.start[1] - stroke.end[1]) < 20.0:
            by_base[round(max(stroke.start[1], stroke.end[1]), 1)].append(stroke)
    for base, strokes in by_base.items():
        for run in _runs(sorted(strokes, key=lambda stroke: stroke.start[0])):
            marks = tuple((stroke.start[0], abs(stroke.start[1] - stroke.end[1])) for stroke in run)
            top = base - max(length for _, length in marks)
            left, right = marks[0][0] - 6, marks[-1][0] + 6
            numerals = tuple(
                word
                for word in page.words
                if word.text.isdecimal()
                and not word.angle
                and left <= (word.box.left + word.box.right) / 2 <= right
                and top - _NUMERAL_ROOM < word.box.bottom <= top + 1.0
            )
            yield DrawnScale(base, marks, numerals)


def _runs(strokes: list[Stroke]) -> Iterator[list[Stroke]]:
    """Marks that follow each other at one pitch."""
    run: list[Stroke] = []
    for stroke in strokes:
        if run and stroke.start[0] - run[-1].start[0] < _SAME:  # a cut's mark lies on one of the scale
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
