"""Changes to what a page draws: lines, arrowheads, outlines, marks, things moved, left out or thinned.

All moves are half a mark of the kit's trimmer, at the scale that is stated nearest to what is moved.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from math import hypot

from booklet.measure.length import Unit
from tests.tampering.record import Tampering
from tests.tampering.streams import (
    Corner,
    Drawn,
    Edits,
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
    """The small filled triangles that point along an edge of the page."""
    for path in own(sheet):
        for outline in path.outlines if path.is_filled and not path.curves else ():
            if len(outline) == 3:
                left, bottom, right, top = box_of(outline)
                if 1 < min(right - left, top - bottom) < max(right - left, top - bottom) < 8:
                    yield path, outline


def arrows_moved(sheets: Sequence[Sheet], unit: Unit) -> Iterator[Tampering]:
    """Each arrowhead, along its arrow: of a flag on a page with rings, else of a dimension."""
    for sheet in sheets:
        for path, head in arrowheads(sheet):
            left, bottom, right, top = box_of(head)
            off = half_mark(sheet, path, unit)
            if off is not None:
                by = (off, 0.0) if right - left > top - bottom else (0.0, off)
                yield _moved(sheet, path, head, by, f"arrowhead ({_beside(sheet, path)})")


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
        for path in dict.fromkeys(path for path, _ in _marks(sheet)):
            stream = sheet.streams[path.forms]
            at = max(at for at in range(path.start) if str(stream[at].operator) == "cm")
            edits = {at: [stream[at], instruction("cm", _STRETCHED, 0, 0, 1, 0, 0)]}
            words = f"figure with a ruler {_at(path.box)} {_STRETCHED} times as wide"
            yield Tampering(sheet.number, words, edited(sheet.number, path.forms, edits))


# Things on a finished page.


def _placings(sheet: Sheet) -> Iterator[Drawn]:
    """The rectangles of a finished page to which a paper is cut there, and those that are one flat colour.

    A page with rings shows one; its drawing paints other drawings, those of papers.
    """
    if not rings(sheet):
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


def arrows_dropped(sheets: Sequence[Sheet]) -> Iterator[Tampering]:
    """Each arrowhead."""
    for sheet in sheets:
        for path, head in arrowheads(sheet):
            words = f"arrowhead ({_beside(sheet, path)}) {_at(box_of(head))}"
            yield _left_out(sheet, path, head, words)


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
