"""Paths in the words of PDF (ISO 32000-1, table 59), each put in words at once.

A path of reportlab takes its time, call by call, and so does each number.  Motifs recur in columns and rows:
what lies in one column has its numbers across in common, and what lies in one row those down.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from booklet.drawing.shapes.affine import Box, Point, bounds_of_points
from booklet.drawing.shapes.figure import Motif, Motifs, Path, Row, Segment
from booklet.measure.cache import cached_on

# Three decimals are a thousandth of a point.
_NUMBER = "%.3f"
_WORDS = {"M": ("m", 1), "L": ("l", 1), "C": ("c", 3), "Z": ("h", 0)}
_OPERATORS = {kind: " ".join([_NUMBER] * 2 * points + [word]) for kind, (word, points) in _WORDS.items()}


class PathWords:
    """A path in words, which a canvas draws as it draws one of reportlab's."""

    def __init__(self, words: str) -> None:
        self._words = words

    def getCode(self) -> str:  # noqa: N802 (the canvas asks for it by this name)
        """The words."""
        return self._words


def outline_words(segments: Sequence[Segment]) -> PathWords:
    """An outline of lines and curves."""
    form = " ".join([_OPERATORS[segment[0]] for segment in segments])
    return PathWords(form % tuple([number for segment in segments for number in segment[1:]]))


def shape_words(shape: Path | Motifs) -> PathWords:
    """A path, or motifs as the one path that holds all their outlines."""
    return outline_words(shape.segments) if isinstance(shape, Path) else _motif_words(shape)


@cached_on
def _motif_words(shape: Motifs) -> PathWords:
    """Motifs as one path; those of a paper are kept with it, and written to more than one file."""
    columns: dict[tuple[Motif, float, float], tuple[str, ...]] = {}
    return PathWords(" ".join([each for row in shape.rows for each in _row_words(row, columns)]))


def _row_words(row: Row, columns: dict[tuple[Motif, float, float], tuple[str, ...]]) -> Iterator[str]:
    """The motifs of a row; `columns` holds the numbers across of each column that was met."""
    if len(row.xs) == 1:
        yield _place_words(row)
        return
    xs, ys, form = _numbers(row.motif)
    line = form % tuple([f"%s {row.down * y + row.y:.3f}" for y in ys])
    for x in row.xs:
        key = (row.motif, row.across, x)
        column = columns.get(key)
        if column is None:
            column = columns[key] = tuple([_NUMBER % (row.across * each + x) for each in xs])
        yield line % column


def _place_words(row: Row) -> str:
    """A motif that stands alone in its row, as in confetti: its columns are its own."""
    (x,), y, across, down = row.xs, row.y, row.across, row.down
    points, form = _points(row.motif)
    return form % tuple([n for px, py in points for n in (across * px + x, down * py + y)])


@lru_cache(maxsize=1024)
def _points(motif: Motif) -> tuple[list[Point], str]:
    """The points of a motif, and its words around the numbers of each."""
    xs, ys, form = _numbers(motif)
    return list(zip(xs, ys, strict=True)), form.replace("%s", f"{_NUMBER} {_NUMBER}")


@lru_cache(maxsize=1024)
def _numbers(motif: Motif) -> tuple[list[float], list[float], str]:
    """The numbers of a motif across and down, and its words around each pair of them."""
    words = [(_WORDS[segment[0]], segment[1:]) for segment in motif.segments]
    form = " ".join([" ".join(["%s"] * points + [word]) for (word, points), _ in words])
    across = [number for _, numbers in words for number in numbers[::2]]
    down = [number for _, numbers in words for number in numbers[1::2]]
    return across, down, form


def segment_count(shape: Path | Motifs) -> int:
    """How many segments a shape has."""
    if isinstance(shape, Path):
        return len(shape.segments)
    return sum(len(row.xs) * len(row.motif.segments) for row in shape.rows)


def points_box(shape: Path | Motifs) -> Box:
    """The box about all points of a shape, those too that only bend its curves."""
    if isinstance(shape, Path):
        xs = [number for segment in shape.segments for number in segment[1::2]]
        ys = [number for segment in shape.segments for number in segment[2::2]]
        return Box(min(xs), min(ys), max(xs), max(ys))
    return bounds_of_points([corner for row in shape.rows for corner in _row_corners(row)])


def _row_corners(row: Row) -> tuple[Point, Point]:
    """Two opposite corners of the box about all points of a row."""
    xs, ys, _ = _numbers(row.motif)
    first, last = row.across * min(xs) + row.xs[0], row.across * max(xs) + row.xs[-1]
    return (first, row.down * min(ys) + row.y), (last, row.down * max(ys) + row.y)
