"""Changes to what a page draws: lines, arrowheads, outlines, marks, things moved, left out or thinned.

All moves are half a mark of the kit's trimmer, at the scale that is stated nearest to what is moved.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from booklet.measure.length import Unit
from tests.tampering.record import Tampering
from tests.tampering.streams import (
    Corner,
    Drawn,
    Edits,
    Forms,
    Instruction,
    Point,
    Sheet,
    box_of,
    edited,
    grown,
    instruction,
    moved,
)
from tests.tampering.texts import rings

# Half a mark of the trimmer's ruler, in points: a thirty-second of an inch, half a millimetre.
HALF_MARK = {Unit.INCH: 72 / 32, Unit.MILLIMETRE: 36 / 25.4, Unit.CENTIMETRE: 36 / 25.4}
_STATED = re.compile(r"Scale 1:([0-9.]+)")
# ISO 128-2 (from memory): outlines are 0.5 mm wide; the marks of a scale are the finest lines, 0.18 mm.
_OUTLINE, _FINE = 1.4, 0.6
_LEAST_MARKS = 4
_STRETCHED = 1.02
# An arrowhead is at most so long and so wide, in points; the heads of signs are wider.
_LONG, _WIDE = 8.0, 3.1
_SIDES = ("left", "foot", "right", "top")
_OUTWARDS = {"left": (-1, 0), "foot": (0, -1), "right": (1, 0), "top": (0, 1)}


def half_mark(sheet: Sheet, path: Drawn, unit: Unit) -> float | None:
    """Half a mark in points on paper at the scale stated nearest to a path; none where no scale is stated."""
    _, foot, _, top = path.box
    stated = [
        (abs(show.origin[1] - (foot + top) / 2), float(found[1]))
        for show in sheet.shows
        if (found := _STATED.search(show.text))
    ]
    return HALF_MARK[unit] / min(stated)[1] if stated else None


def shows_layout(sheet: Sheet) -> bool:
    """Whether a page shows a layout at a scale, with rings; those that explain the signs state none."""
    return bool(rings(sheet)) and _states_scale(sheet)


def _states_scale(sheet: Sheet) -> bool:
    return any(_STATED.search(show.text) for show in sheet.shows)


def is_rectangle(path: Drawn) -> bool:
    """Whether a path is one rectangle along the edges of the page."""
    if path.curves or len(path.outlines) != 1 or len(path.outlines[0]) != 4:
        return False
    left, bottom, right, top = path.box
    corners = {(round(x, 2), round(y, 2)) for x, y in (corner.point for corner in path.outlines[0])}
    return (
        right - left > 1
        and top - bottom > 1
        and corners == {(round(x, 2), round(y, 2)) for x in (left, right) for y in (bottom, top)}
    )


def own(sheet: Sheet) -> Iterator[Drawn]:
    """The paths that a page draws itself, in none of its forms."""
    return (path for path in sheet.drawn if len(path.forms) < sheet.depth)


def _moved(sheet: Sheet, path: Drawn, corners: Sequence[Corner], by: Point, what: str) -> Tampering:
    words = f"{what} {_at(box_of(corners))} moved by {hypot(*by) * 25.4 / 72:.2f} mm"
    return Tampering(sheet.number, words, edited(sheet.number, path.forms, moved(sheet, path, corners, by)))


def _at(box: tuple[float, float, float, float]) -> str:
    """Where something lies, as a reader of the words finds it."""
    left, bottom, right, top = box
    return f"at {(left + right) / 2:.0f}, {(bottom + top) / 2:.0f} pt"


# Lines of a figure.


def cut_lines(sheet: Sheet) -> Iterator[Drawn]:
    """The long dashed strokes along an edge of the page."""
    for path in own(sheet):
        left, bottom, right, top = path.box
        is_long, is_straight = right - left + top - bottom > 12, min(right - left, top - bottom) < 0.05
        if path.is_dashed and path.is_stroked and not path.curves and is_long and is_straight:
            yield path


def cut_lines_moved(sheets: Sequence[Sheet], unit: Unit) -> Iterator[Tampering]:
    """Each dashed line, beside its place."""
    for sheet in sheets:
        for path in cut_lines(sheet):
            left, bottom, right, top = path.box
            off = half_mark(sheet, path, unit)
            if off is not None:
                by = (off, 0.0) if right - left < top - bottom else (0.0, off)
                yield _moved(sheet, path, path.corners, by, "dashed line")


def arrowheads(sheet: Sheet) -> Iterator[tuple[Drawn, tuple[Corner, ...]]]:
    """The small filled triangles whose tips lie on a line across them: what ends a measure, no sign."""
    lines = [(path.forms, outline) for path in own(sheet) for outline in path.outlines if path.is_stroked]
    for path in own(sheet):
        for outline in path.outlines if path.is_filled and not path.curves else ():
            left, bottom, right, top = box_of(outline)
            narrow, long = sorted((right - left, top - bottom))
            if len(outline) == 3 and narrow < _WIDE and long < _LONG:
                tip, axis = _tip(outline)
                if any(forms == path.forms and _crosses(line, tip, axis) for forms, line in lines):
                    yield path, outline


def _tip(head: Sequence[Corner]) -> tuple[Point, int]:
    """The corner across from an arrowhead's base, and the axis along which it points."""
    for axis in (0, 1):
        for corner in head:
            one, other = (each.point[axis] for each in head if each is not corner)
            if abs(one - other) < 0.01 < abs(corner.point[axis] - one):
                return corner.point, axis
    return head[0].point, 0


def _crosses(line: Sequence[Corner], tip: Point, axis: int) -> bool:
    """Whether a stretch of a line across an axis goes through a point, or ends there."""
    for one, other in pairwise(corner.point for corner in line):
        low, high = sorted((one[1 - axis], other[1 - axis]))
        is_across = abs(one[axis] - tip[axis]) < 0.05 > abs(other[axis] - tip[axis])
        if is_across and high - low > 1 and low - 0.05 < tip[1 - axis] < high + 0.05:
            return True
    return False


def oblique_strokes(sheet: Sheet) -> Iterator[tuple[Drawn, tuple[Corner, ...]]]:
    """The short oblique strokes that end a measure where arrowheads would meet."""
    for path in own(sheet):
        for outline in path.outlines if path.is_stroked and not path.curves else ():
            left, bottom, right, top = box_of(outline)
            if len(outline) == 2 and abs(right - left - top + bottom) < 0.05 and 2 < right - left < 6:
                yield path, outline


def flags_moved(sheets: Sequence[Sheet], unit: Unit) -> Iterator[Tampering]:
    """Each arrowhead or oblique stroke of a layout's page, along its arrow."""
    for sheet in sheets:
        if shows_layout(sheet):
            yield from _ends_moved(sheet, (*arrowheads(sheet), *oblique_strokes(sheet)), unit)


def dimensions_moved(sheets: Sequence[Sheet], unit: Unit) -> Iterator[Tampering]:
    """Each arrowhead of any other page, along its arrow."""
    for sheet in sheets:
        if not shows_layout(sheet):
            yield from _ends_moved(sheet, tuple(arrowheads(sheet)), unit)


def _ends_moved(
    sheet: Sheet, ends: Sequence[tuple[Drawn, tuple[Corner, ...]]], unit: Unit
) -> Iterator[Tampering]:
    for path, end in ends:
        off = half_mark(sheet, path, unit)
        if off is not None:
            # An oblique stroke is moved both ways at once: it may stand along either edge.
            by = (off, off) if len(end) == 2 else (off, 0.0) if _tip(end)[1] == 0 else (0.0, off)
            yield _moved(sheet, path, end, by, f"end of an arrow ({_beside(sheet, path)})")


def _beside(sheet: Sheet, path: Drawn) -> str:
    """The text of a figure that stands nearest to a path."""
    left, bottom, _, _ = path.box
    near = [
        (hypot(show.origin[0] - left, show.origin[1] - bottom), show.text.strip())
        for show in sheet.shows
        if show.forms == path.forms and show.text.strip()
    ]
    return f"near '{min(near)[1]}'" if near else "alone"


def outlines_moved(sheets: Sequence[Sheet], unit: Unit) -> Iterator[Tampering]:
    """An edge of each outline, another one of each."""
    for sheet in sheets:
        outlines = [
            path
            for path in own(sheet)
            if path.is_stroked and path.width > _OUTLINE and not path.is_dashed and is_rectangle(path)
        ]
        for number, path in enumerate(outlines):
            yield from _edge_moved(sheet, path, _SIDES[number % 4], unit, "outline")


def _edge_moved(sheet: Sheet, path: Drawn, side: str, unit: Unit, what: str) -> Iterator[Tampering]:
    left, bottom, right, top = path.box
    place = {"left": left, "foot": bottom, "right": right, "top": top}[side]
    axis = 0 if side in ("left", "right") else 1
    corners = [corner for corner in path.outlines[0] if abs(corner.point[axis] - place) < 0.01]
    off = half_mark(sheet, path, unit)
    if off is not None:
        x, y = _OUTWARDS[side]
        yield _moved(sheet, path, corners, (off * x, off * y), f"{side} edge of {what}")


# Scales.


def _marks(sheet: Sheet) -> Iterator[tuple[Drawn, tuple[Corner, ...]]]:
    """The marks of rulers: the short fine strokes, several in one path."""
    for path in own(sheet):
        strokes = [outline for outline in path.outlines if len(outline) == 2]
        if path.is_stroked and path.width < _FINE and not path.curves and len(strokes) >= _LEAST_MARKS:
            for stroke in strokes:
                left, bottom, right, top = box_of(stroke)
                if min(right - left, top - bottom) < 0.05 < max(right - left, top - bottom) < 12:
                    yield path, stroke


def marks_moved(sheets: Sequence[Sheet], unit: Unit) -> Iterator[Tampering]:
    """Each mark of a ruler, along it."""
    for sheet in sheets:
        for path, stroke in _marks(sheet):
            left, bottom, right, top = box_of(stroke)
            off = half_mark(sheet, path, unit)
            if off is not None:
                by = (off, 0.0) if right - left < top - bottom else (0.0, off)
                yield _moved(sheet, path, stroke, by, "mark of a ruler")


def marks_lengthened(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each mark of a ruler, drawn half as long again."""
    for sheet in sheets:
        for path, stroke in _marks(sheet):
            (x0, y0), (x1, y1) = (corner.point for corner in stroke)
            by = ((x1 - x0) / 2, (y1 - y0) / 2)
            edits = moved(sheet, path, stroke[1:], by)
            words = f"mark of a ruler {_at(box_of(stroke))} lengthened by half"
            yield Tampering(sheet.number, words, edited(sheet.number, path.forms, edits))


def figures_stretched(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each figure with a ruler, drawn wider by a fiftieth than its numbers and its scale say."""
    for sheet in sheets:
        if _states_scale(sheet) and not _states_true_size(sheet):
            yield from _stretched(sheet)


def bars_stretched(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each ruler by which a reader checks the size of the print, a fiftieth longer than it says."""
    for sheet in filter(_states_true_size, sheets):
        yield from _stretched(sheet)


def _states_true_size(sheet: Sheet) -> bool:
    return any(show.text == "Scale 1:1" for show in sheet.shows)


def _stretched(sheet: Sheet) -> Iterator[Tampering]:
    seen: set[tuple[Forms, int]] = set()
    for path, _ in _marks(sheet):
        stream = sheet.streams[path.forms]
        at = _matrix_before(stream, path.start)
        if (path.forms, at) not in seen:
            seen.add((path.forms, at))
            edits: Edits = {at: [stream[at], instruction("cm", _STRETCHED, 0, 0, 1, 0, 0)]}
            words = f"figure with a ruler {_at(path.box)} {_STRETCHED} times as wide"
            yield Tampering(sheet.number, words, edited(sheet.number, path.forms, edits))


def _matrix_before(stream: Sequence[Instruction], start: int) -> int:
    """The last `cm` before an instruction that still holds there."""
    closed = 0
    for at in reversed(range(start)):
        operator = str(stream[at].operator)
        closed = max(0, closed + (operator == "Q") - (operator == "q"))
        if operator == "cm" and not closed:
            return at
    raise ValueError("nothing leads from a figure to its page")


# Things on a finished page.


def _placings(sheet: Sheet) -> Iterator[Drawn]:
    """The rectangles of a finished page to which a paper is cut there, and those that are one flat colour.

    The drawing of one paints other drawings, those of papers.
    """
    if not shows_layout(sheet):
        return
    for path in sheet.drawn:
        is_thing = path.is_clip or (path.is_filled and not path.is_stroked)
        is_there = len(path.forms) == sheet.depth and _paints_forms(sheet, path)
        if is_there and is_thing and is_rectangle(path):
            yield path


def _paints_forms(sheet: Sheet, path: Drawn) -> bool:
    return any(str(each.operator) == "Do" for each in sheet.streams[path.forms])


def placings_moved(sheets: Sequence[Sheet], unit: Unit) -> Iterator[Tampering]:
    """An edge of each thing on a finished page, another one of each, and every fifth thing whole."""
    for sheet in sheets:
        for number, path in enumerate(_placings(sheet)):
            if number % 5 < len(_SIDES):
                yield from _edge_moved(sheet, path, _SIDES[number % 5], unit, "a placed thing")
            elif off := half_mark(sheet, path, unit):
                yield _moved(sheet, path, path.corners, (off, 0.0), "a placed thing")


# What is left out, and what is too thin.


def flags_dropped(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each arrowhead or oblique stroke of a layout's page."""
    for sheet in sheets:
        if shows_layout(sheet):
            yield from _ends_dropped(sheet, (*arrowheads(sheet), *oblique_strokes(sheet)))


def dimensions_dropped(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each arrowhead of any other page."""
    for sheet in sheets:
        if not shows_layout(sheet):
            yield from _ends_dropped(sheet, tuple(arrowheads(sheet)))


def _ends_dropped(sheet: Sheet, ends: Sequence[tuple[Drawn, tuple[Corner, ...]]]) -> Iterator[Tampering]:
    for path, end in ends:
        words = f"end of an arrow ({_beside(sheet, path)}) {_at(box_of(end))}"
        yield _left_out(sheet, path, end, words)


def cut_lines_dropped(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each dashed line."""
    for sheet in sheets:
        for path in cut_lines(sheet):
            edits: Edits = {at: [] for at in range(path.start, path.end + 1)}
            words = f"dashed line {_at(path.box)}"
            yield Tampering(sheet.number, words, edited(sheet.number, path.forms, edits))


def _left_out(sheet: Sheet, path: Drawn, outline: Sequence[Corner], words: str) -> Tampering:
    """The page without one outline of a path: its points all in one place."""
    first = sheet.streams[path.forms][outline[0].at].operands
    edits: Edits = {corner.at: [instruction("l", *first)] for corner in outline[1:]}
    return Tampering(sheet.number, words, edited(sheet.number, path.forms, edits))


def lines_thinned(sheets: Sequence[Sheet], width: float = 0.2) -> Iterator[Tampering]:
    """Each stroked path, in a line of so many points."""
    for sheet in sheets:
        for path in own(sheet):
            if path.is_stroked:
                stream, unit = sheet.streams[path.forms], grown(path.matrix)
                edits: Edits = {
                    path.start: [instruction("q"), instruction("w", width / unit), stream[path.start]],
                    path.end: [stream[path.end], instruction("Q")],
                }
                words = f"line {_at(path.box)} {width} pt wide"
                yield Tampering(sheet.number, words, edited(sheet.number, path.forms, edits))
