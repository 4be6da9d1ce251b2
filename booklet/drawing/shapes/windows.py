"""What of a drawing shows through windows: the shapes, and the outlines of paths, that reach into one.

A sheet of paper is one symbol with all its print; a layout often uses a strip of it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import chain, pairwise

from booklet.drawing.shapes.affine import Box, bounds_of_points
from booklet.drawing.shapes.figure import (
    Group,
    Motifs,
    Path,
    Row,
    Segment,
    Shape,
    Symbol,
    Use,
    bounds,
    path_box,
)
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass, replace

# A rasteriser softens edges: what only touches a window may tint the pixels along it.
_SOFT = 0.5


@dataclass(frozen=True)
class Shown:
    """What is shown of a symbol: in which windows, in its own coordinates, and how large at the most."""

    windows: tuple[Box, ...]
    scale: float


def shown_symbols(shapes: Iterable[Shape]) -> Mapping[str, Shown]:
    """What shapes show of each symbol, by its key; each part once."""
    windows: dict[str, dict[Box, None]] = {}
    scales: dict[str, float] = {}
    waiting = [(shape, 1.0) for shape in shapes]
    while waiting:
        shape, around = waiting.pop()
        if isinstance(shape, Group):
            scale = around * shape.transform.greatest_scale
            waiting += [(child, scale) for child in shape.children]
        elif isinstance(shape, Use):
            symbol, scale = shape.symbol, around * shape.transform.greatest_scale
            windows.setdefault(symbol.key, {})[_window(shape)] = None
            if scale > scales.get(symbol.key, 0.0):
                scales[symbol.key] = scale
                waiting += [(within, scale) for within in symbol.shapes]
    return {key: Shown(_widest(found), scales.get(key, 0.0)) for key, found in windows.items()}


def _window(use: Use) -> Box:
    box = use.symbol.box
    if use.clip is None:
        return box
    return box.common(bounds_of_points(use.clip)) or Box(0.0, 0.0, 0.0, 0.0)


def _widest(windows: Iterable[Box]) -> tuple[Box, ...]:
    """The windows that lie in no other one, in a fixed order."""
    ordered = sorted(windows, key=lambda box: (-box.width * box.height, box))
    kept: list[Box] = []
    for window in ordered:
        if not any(other.holds(window) for other in kept):
            kept.append(window)
    return tuple(kept)


def seen_through(symbol: Symbol, windows: Sequence[Box]) -> Collection[Shape]:
    """The shapes of a symbol that reach into a window; all of them where one is as large as the symbol."""
    if any(window.holds(symbol.box) for window in windows):
        return symbol.shapes
    return tuple(_seen(symbol.shapes, [window.grown(_SOFT) for window in windows]))


def shown_window(use: Use, margin: float) -> Box:
    """The window through which a symbol is seen where it is used, and a margin about it."""
    return _window(use).grown(margin)


def shown_through(symbol: Symbol, window: Box) -> Symbol:
    """A symbol as large as it is, with what of it shows in a window alone."""
    return symbol if window.holds(symbol.box) else _through(symbol, window)


@cached_on
def _through(symbol: Symbol, window: Box) -> Symbol:
    key = f"{symbol.key} {' '.join(map(repr, window))}"
    return Symbol(key, seen_through(symbol, (window,)), symbol.width, symbol.height)


def _seen(shapes: Iterable[Shape], windows: Sequence[Box]) -> Iterator[Shape]:
    """The shapes, in whose coordinates the windows are given."""
    for shape in shapes:
        if isinstance(shape, Group):
            back = shape.transform.inverse
            children = tuple(_seen(shape.children, [window.under(back) for window in windows]))
            if children:
                yield replace(shape, children=children)
        elif isinstance(shape, Path):
            segments = _seen_segments(shape, windows)
            if segments:
                yield replace(shape, segments=segments)
        elif isinstance(shape, Motifs):
            rows = seen_rows(shape, windows)
            if rows:
                yield replace(shape, rows=rows)
        elif isinstance(shape, Use) or _reaches(bounds([shape]), windows):
            yield shape


def seen_rows(motifs: Motifs, windows: Sequence[Box]) -> tuple[Row, ...]:
    """The motifs that reach into a window."""
    margin = motifs.stroke.width if motifs.stroke is not None else 0.0
    if not motifs.rows:
        return ()
    within = [near for window in windows if (near := window.grown(margin)).overlaps(motifs.box)]
    if any(near.holds(motifs.box) for near in within):
        return motifs.rows
    return tuple(
        row if len(xs) == len(row.xs) else Row(row.motif, xs, row.y, row.across, row.down)
        for row in motifs.rows
        if (xs := _seen_places(row, within))
    )


def _seen_places(row: Row, windows: Sequence[Box]) -> tuple[float, ...]:
    """Where along a row a motif reaches into a window."""
    left, top, right, bottom = row.reach
    stretches = sorted(
        (bisect_right(row.xs, window.left - right), bisect_left(row.xs, window.right - left))
        for window in windows
        if row.y + top < window.bottom and window.top < row.y + bottom
    )
    seen: list[float] = []
    done = 0
    for start, end in stretches:
        seen += row.xs[max(start, done) : end]
        done = max(done, end)
    return tuple(seen)


def _seen_segments(path: Path, windows: Sequence[Box]) -> tuple[Segment, ...]:
    """The outlines of a path that reach into a window: each begins with a move."""
    margin = path.stroke.width if path.stroke is not None else 0.0
    within = [window.grown(margin) for window in windows]
    return tuple(chain.from_iterable(outline for outline, box in _outlines(path) if _reaches(box, within)))


@cached_on
def _outlines(path: Path) -> tuple[tuple[Sequence[Segment], Box], ...]:
    """The outlines of a path, each with the box about it."""
    starts = [at for at, segment in enumerate(path.segments) if segment[0] == "M"]
    outlines = (path.segments[start:end] for start, end in pairwise((*starts, len(path.segments))))
    return tuple((outline, path_box(outline)) for outline in outlines)


def _reaches(box: Box, windows: Sequence[Box]) -> bool:
    return any(map(box.overlaps, windows))
