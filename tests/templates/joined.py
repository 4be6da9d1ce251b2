"""Pages of a template as a person joins them: read by MuPDF, laid on each other by their register marks.

Nothing here knows how pages were cut up; all lengths are millimetres on paper, y down.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from math import atan2, cos, hypot, sin
from typing import Any

import numpy as np
import pymupdf

Point = tuple[float, float]
# Left, top, right, bottom.
Box = tuple[float, float, float, float]
# An inch is 25.4 mm (NIST SP 811, from memory) and 72 points.
_MM = 25.4 / 72
# Two ends are the same that lie this near each other.
_SAME = 0.01
# From the middle of a mark to its letter no more than so many millimetres.
_LETTER = 8.0


@dataclass(frozen=True)
class Stroke:
    """A straight stroke, the part of it that is not clipped away."""

    start: Point
    end: Point
    width: float
    is_dashed: bool

    @property
    def length(self) -> float:
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])


@dataclass(frozen=True)
class Sign:
    """A letter or figure: its size in points and the box about its ink."""

    text: str
    size: float
    box: Box


@dataclass(frozen=True)
class Page:
    """A page: what its window shows, and everything on it; the marks by their letters."""

    size: Point
    window: Box
    shown: tuple[Stroke, ...]
    others: tuple[Stroke, ...]
    signs: tuple[Sign, ...]
    marks: dict[str, Point]


def read_pages(file: bytes) -> list[Page]:
    """Every page of a PDF."""
    open_document: Any = pymupdf.open
    with open_document(stream=file, filetype="pdf") as document:
        return [_page(page) for page in document]


def _page(page: Any) -> Page:
    window, shown, others, circles = (0.0, 0.0, 0.0, 0.0), [], [], []
    for drawn in page.get_drawings(extended=True):
        if drawn["type"] == "clip":
            window = tuple(_MM * side for side in drawn["scissor"])
        elif drawn["type"] == "s":
            strokes = list(_strokes(drawn))
            if drawn["level"]:
                inside = (within(stroke, window) for stroke in strokes)
                shown += [stroke for stroke in inside if stroke is not None]
            else:
                others += strokes
            if [item[0] for item in drawn["items"]] == ["c"] * 4:
                box = drawn["rect"]
                circles.append(
                    (_MM * (box.x0 + box.x1) / 2, _MM * (box.y0 + box.y1) / 2, _MM * box.width / 2)
                )
    signs = tuple(_signs(page))
    marks = dict(_marks(shown, circles, signs))
    size = (_MM * page.rect.width, _MM * page.rect.height)
    return Page(size, window, tuple(shown), tuple(others), signs, marks)


def _strokes(drawn: Any) -> Iterator[Stroke]:
    """The straight pieces of a path, its curves in sixteen each."""
    width, is_dashed = drawn["width"] * _MM, bool(drawn["dashes"].strip("[] 0"))
    runs: list[list[Any]] = []
    for kind, *points in drawn["items"]:
        if kind == "re":
            box = points[0]
            corners = [(box.x0, box.y0), (box.x1, box.y0), (box.x1, box.y1), (box.x0, box.y1)]
            runs.append([*corners, corners[0]])
        elif kind == "qu":
            quad = points[0]
            runs.append([quad.ul, quad.ur, quad.lr, quad.ll, quad.ul])
        elif kind == "c":
            runs.append(list(_curve(points)))
        else:
            runs.append(points)
    if drawn.get("closePath") and runs:
        runs.append([runs[-1][-1], runs[0][0]])
    for run in runs:
        for one, other in pairwise(run):
            stroke = Stroke((one[0] * _MM, one[1] * _MM), (other[0] * _MM, other[1] * _MM), width, is_dashed)
            if stroke.length > 0:
                yield stroke


def _curve(points: Sequence[Any]) -> Iterator[Point]:
    for step in range(17):
        t = step / 16
        shares = (1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3
        x, y = (
            sum(share * point[axis] for share, point in zip(shares, points, strict=True)) for axis in (0, 1)
        )
        yield x, y


def within(stroke: Stroke, window: Sequence[float]) -> Stroke | None:
    """The part of a stroke within a window (Liang and Barsky)."""
    (x, y), (end_x, end_y) = stroke.start, stroke.end
    across, down, low, high = end_x - x, end_y - y, 0.0, 1.0
    left, top, right, bottom = window
    for step, room in ((-across, x - left), (across, right - x), (-down, y - top), (down, bottom - y)):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            low = max(low, room / step)
        else:
            high = min(high, room / step)
    if low > high:
        return None
    ends = [(x + across * share, y + down * share) for share in (low, high)]
    return replace(stroke, start=ends[0], end=ends[1])


def _signs(page: Any) -> Iterator[Sign]:
    blocks = page.get_text("rawdict", flags=pymupdf.TEXT_ACCURATE_BBOXES)["blocks"]
    spans = (
        span for block in blocks if block["type"] == 0 for line in block["lines"] for span in line["spans"]
    )
    for span in spans:
        for sign in span["chars"]:
            if not sign["c"].isspace():
                left, top, right, bottom = (_MM * side for side in sign["bbox"])
                yield Sign(sign["c"], span["size"], (left, top, right, bottom))


def _marks(
    strokes: Sequence[Stroke], circles: Iterable[tuple[float, float, float]], signs: Sequence[Sign]
) -> Iterator[tuple[str, Point]]:
    """Where two arms cross in the middle of a ring that they reach beyond, a letter beside it."""
    for x, y, radius in circles:
        through = [one for one in strokes if one.length > 2.5 * radius and _middle_is(one, (x, y))]
        level = [one for one in through if abs(one.start[1] - one.end[1]) < _SAME]
        upright = [one for one in through if abs(one.start[0] - one.end[0]) < _SAME]
        if level and upright:
            middle = (upright[0].start[0], level[0].start[1])
            name = "".join(sign.text for sign in signs if _stands_by(sign, middle))
            assert name, f"a mark without a letter at {middle}"
            yield name, middle


def _middle_is(stroke: Stroke, point: Point) -> bool:
    x, y = (stroke.start[0] + stroke.end[0]) / 2, (stroke.start[1] + stroke.end[1]) / 2
    return hypot(x - point[0], y - point[1]) < 0.05


def _stands_by(sign: Sign, middle: Point) -> bool:
    left, top, right, bottom = sign.box
    x, y = (left + right) / 2 - middle[0], middle[1] - (top + bottom) / 2
    return sign.text.islower() and max(abs(x), abs(y)) < _LETTER and min(abs(x), abs(y)) < _LETTER / 2


@dataclass(frozen=True)
class Laid:
    """How a page lies on the table: turned by an angle, then moved."""

    angle: float
    move: Point

    def point(self, point: Point) -> Point:
        x, y = point
        return (
            x * cos(self.angle) - y * sin(self.angle) + self.move[0],
            x * sin(self.angle) + y * cos(self.angle) + self.move[1],
        )


def joined(pages: Sequence[Page]) -> list[Laid]:
    """How each page lies, the first as it is, each other one by two marks that it shares with one before."""
    laid: dict[int, Laid] = {0: Laid(0.0, (0.0, 0.0))}
    while len(laid) < len(pages):
        number, shared, home = next(
            (number, sorted(pages[number].marks.keys() & pages[home].marks.keys()), home)
            for number in range(len(pages))
            if number not in laid
            for home in laid
            if len(pages[number].marks.keys() & pages[home].marks.keys()) >= 2
        )
        there = [laid[home].point(pages[home].marks[name]) for name in shared]
        laid[number] = _by_two([pages[number].marks[name] for name in shared], there)
    return [laid[number] for number in range(len(pages))]


def _by_two(here: Sequence[Point], there: Sequence[Point]) -> Laid:
    """The two marks that are farthest apart on each other."""
    one, other = max(
        combinations(range(len(here)), 2),
        key=lambda pair: hypot(*(here[pair[0]][axis] - here[pair[1]][axis] for axis in (0, 1))),
    )
    turn = _way(there[one], there[other]) - _way(here[one], here[other])
    turned = Laid(turn, (0.0, 0.0)).point(here[one])
    laid = Laid(turn, (there[one][0] - turned[0], there[one][1] - turned[1]))
    for mark, place in zip(here, there, strict=True):
        assert _apart(laid.point(mark), place) < _SAME, "the marks of two pages do not lie on each other"
    return laid


def _way(start: Point, end: Point) -> float:
    return atan2(end[1] - start[1], end[0] - start[0])


def _apart(one: Point, other: Point) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def on_table(pages: Sequence[Page]) -> list[Stroke]:
    """All that the windows of joined pages show, as they lie on the table."""
    return [
        replace(stroke, start=lies.point(stroke.start), end=lies.point(stroke.end))
        for page, lies in zip(pages, joined(pages), strict=True)
        for stroke in page.shown
    ]


def away(point: Point, stroke: Stroke) -> float:
    """How far a point is from the nearest point of a stroke's middle line."""
    (x, y), (end_x, end_y) = stroke.start, stroke.end
    across, down = end_x - x, end_y - y
    square = across * across + down * down
    share = ((point[0] - x) * across + (point[1] - y) * down) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - x - share * across, point[1] - y - share * down)


class Ground:
    """Strokes of which those near a place are found without looking at each."""

    def __init__(self, strokes: Sequence[Stroke]) -> None:
        self._strokes = strokes
        ends = np.array([(*one.start, *one.end, one.width / 2) for one in strokes]).reshape(-1, 5)
        low, high = np.minimum(ends[:, :2], ends[:, 2:4]), np.maximum(ends[:, :2], ends[:, 2:4])
        self._low, self._high = low - ends[:, 4:], high + ends[:, 4:]

    def beside(self, box: Box, reach: float) -> list[Stroke]:
        """The strokes whose ink may come nearer to a box than this; all others are farther from it."""
        start, end = np.array(box[:2]) - reach, np.array(box[2:]) + reach
        near = (self._high >= start) & (self._low <= end)
        return [self._strokes[at] for at in np.flatnonzero(near[:, 0] & near[:, 1]).tolist()]


def is_end(point: Point, strokes: Iterable[Stroke], within: float) -> bool:
    """Whether a stroke ends at a point, within so many millimetres."""
    return any(_apart(point, end) <= within for stroke in strokes for end in (stroke.start, stroke.end))
