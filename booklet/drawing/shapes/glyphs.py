"""The outlines of glyphs, read from a TrueType file: its tables `loca` and `glyf`, and no more.

The layout of the tables is that of the OpenType specification (ISO/IEC 14496-22), from memory; the tests hold
every glyph of our faces against fontTools, which is much larger than the program.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from booklet.drawing.shapes.truetype import glyph_begins, read_tables, units_per_em

# A point of a contour, and whether the curve runs through it.
_Spot = tuple[float, float, bool]
# The flags of a point.
_ON_CURVE, _X_SHORT, _Y_SHORT, _REPEATED, _X_SAME, _Y_SAME = (1 << bit for bit in range(6))
# The flags of a glyph that is a part of another.
_WORDS, _SCALED, _MORE, _SCALED_APART, _TURNED = (1 << bit for bit in (0, 3, 5, 6, 7))
_PART_OF_ONE = 1 << 14  # the unit of a scale
_TO_CUBIC = 2 / 3
# What a glyph says of itself begins behind how many contours it has, and its frame.
_AFTER_FRAME = 10


@dataclass(frozen=True)
class GlyphFile:
    """A TrueType file opened for its outlines: its glyphs, where each of them begins, and the em."""

    glyphs: bytes
    begins: Sequence[int]
    em: int


@dataclass(frozen=True)
class Contour:
    """Where a contour begins, and its stretches, each by its points: a line has one, a curve two."""

    start: tuple[float, float]
    stretches: Sequence[tuple[tuple[float, float], ...]]


def open_glyphs(path: Path) -> GlyphFile:
    """Open one of our faces; a file that is none fails as it may."""
    tables = read_tables(path.read_bytes())
    return GlyphFile(tables[b"glyf"], glyph_begins(tables), units_per_em(tables))


def contours(file: GlyphFile, number: int) -> list[Contour]:
    """The contours of a glyph, in the units of the file, y up."""
    return [_contour(spots) for spots in _spots(file, number)]


def cubic(
    start: tuple[float, float], bend: tuple[float, float], end: tuple[float, float]
) -> tuple[float, float, float, float, float, float]:
    """A quadratic curve as a cubic one: both its control points, and its end."""
    (x0, y0), (x1, y1), (x2, y2) = start, bend, end
    return (
        x0 + _TO_CUBIC * (x1 - x0),
        y0 + _TO_CUBIC * (y1 - y0),
        x2 + _TO_CUBIC * (x1 - x2),
        y2 + _TO_CUBIC * (y1 - y2),
        x2,
        y2,
    )


def _contour(spots: Sequence[_Spot]) -> Contour:
    """A contour from the first point that it runs through, round to it; a line that closes it is left out."""
    first = next(at for at, spot in enumerate(spots) if spot[2])
    *round_it, start = (*spots[first + 1 :], *spots[: first + 1])
    stretches: list[tuple[tuple[float, float], ...]] = []
    bends: list[tuple[float, float]] = []
    for x, y, on_curve in (*round_it, start):
        if bends:  # between two that it does not run through it runs through the middle
            end = (x, y) if on_curve else (0.5 * (bends[-1][0] + x), 0.5 * (bends[-1][1] + y))
            stretches.append((bends[-1], end))
        elif on_curve:
            stretches.append(((x, y),))
        bends = [] if on_curve else [(x, y)]
    if len(stretches[-1]) == 1:
        stretches.pop()
    return Contour(start[:2], stretches)


def _spots(file: GlyphFile, number: int) -> list[list[_Spot]]:
    """The points of each contour of a glyph; none where it is empty, as a space is."""
    begin, end = file.begins[number], file.begins[number + 1]
    if begin == end:
        return []
    (count,) = struct.unpack_from(">h", file.glyphs, begin)
    if count < 0:
        return [contour for part in _parts(file, begin + _AFTER_FRAME) for contour in part]
    return list(_simple(file.glyphs, begin + _AFTER_FRAME, count))


def _simple(data: bytes, at: int, count: int) -> Iterator[list[_Spot]]:
    ends = struct.unpack_from(f">{count}H", data, at)
    at += 2 * count
    at += 2 + struct.unpack_from(">H", data, at)[0]  # the instructions
    flags: list[int] = []
    while len(flags) <= ends[-1]:
        flag, at = data[at], at + 1
        flags.append(flag)
        if flag & _REPEATED:
            flags += [flag] * data[at]
            at += 1
    xs, at = _places(data, at, flags, _X_SHORT, _X_SAME)
    ys, _ = _places(data, at, flags, _Y_SHORT, _Y_SAME)
    begin = 0
    for end in ends:
        of = range(begin, end + 1)
        yield [(xs[each], ys[each], bool(flags[each] & _ON_CURVE)) for each in of]
        begin = end + 1


def _places(data: bytes, at: int, flags: Sequence[int], short: int, same: int) -> tuple[list[int], int]:
    """The places of points along an axis, each written as its distance from the one before; and the end."""
    place, places = 0, []
    for flag in flags:
        if flag & short:
            place += data[at] if flag & same else -data[at]
            at += 1
        elif not flag & same:
            place += struct.unpack_from(">h", data, at)[0]
            at += 2
        places.append(place)
    return places, at


def part_numbers(glyph: bytes) -> list[int]:
    """The numbers of the glyphs that another is put together of; none of one with outlines of its own."""
    if not glyph or struct.unpack_from(">h", glyph)[0] >= 0:
        return []
    return [part.number for part in _placed_parts(glyph, _AFTER_FRAME)]


class _Part(NamedTuple):
    """A glyph that is a part of another: its number, how its axes come to lie, and how far it is moved."""

    number: int
    axes: tuple[float, float, float, float]
    move: tuple[int, int]


def _placed_parts(data: bytes, at: int) -> Iterator[_Part]:
    flag = _MORE
    while flag & _MORE:
        flag, number = struct.unpack_from(">HH", data, at)
        move = ">hh" if flag & _WORDS else ">bb"
        dx, dy = struct.unpack_from(move, data, at + 4)
        axes, at = _scales(data, at + 4 + struct.calcsize(move), flag)
        yield _Part(number, axes, (dx, dy))


def _parts(file: GlyphFile, at: int) -> Iterator[list[list[_Spot]]]:
    """The contours of each glyph that another is put together of, scaled and moved to its place."""
    for number, (xx, xy, yx, yy), (dx, dy) in _placed_parts(file.glyphs, at):
        yield [
            [(xx * x + yx * y + dx, xy * x + yy * y + dy, on_curve) for x, y, on_curve in contour]
            for contour in _spots(file, number)
        ]


def _scales(data: bytes, at: int, flag: int) -> tuple[tuple[float, float, float, float], int]:
    """How the axes of a part run: where 1 across and 1 up come to lie; and the end of what says it."""
    count = 4 if flag & _TURNED else 2 if flag & _SCALED_APART else 1 if flag & _SCALED else 0
    scales = [each / _PART_OF_ONE for each in struct.unpack_from(f">{count}h", data, at)]
    if count < 4:
        across, up = (scales or [1.0])[0], (scales or [1.0])[-1]
        return (across, 0.0, 0.0, up), at + 2 * count
    xx, xy, yx, yy = scales
    return (xx, xy, yx, yy), at + 2 * count
