"""Each figure on its page as it was drawn: every line, area and text of it, and all in one place.

A figure is drawn as plain data before any writer sees it.  Here its parts are looked for among what was read
from the page, wherever the figure stands there.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from booklet.content.figures import FinishedPages, NumberedLayout
from booklet.drawing.shapes.affine import IDENTITY, Affine, Point
from booklet.drawing.shapes.figure import (
    Circle,
    Group,
    Line,
    Path,
    Polygon,
    Polyline,
    Rect,
    Segment,
    Shape,
    Text,
    Use,
)
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass, replace
from booklet.proof.measured import TOLERANCE, Drawn, Measured, Shown
from booklet.proof.page_objects import SIMPLE
from booklet.proof.printed import POINTS_PER_MM, Box, Outline, Page, Word, along_curve, box_about

# Parts of one size are looked up by it, to a tenth of a point, and places to a point.
_SIZE, _PLACE = 10.0, 1.0
# So many parts, of the sizes that are fewest on the page, tell where a figure may stand.
_TELLING = 12
_NEAR = TOLERANCE * POINTS_PER_MM
# A text's ink begins so near where it is set, in points, or by this share of its size.
_BEARING, _BEARING_SHARE = 1.6, 0.08
# Where each letter is set by itself, the ink of two in a word is nearer than this share of their size.
_LETTER_GAP = 0.3
# Two figures that are farther apart, in points, stand in two places.
_APART = 1.0


@dataclass(frozen=True)
class _Parts:
    """The parts of a figure, in points from its top left corner: boxes about lines and areas, texts."""

    boxes: tuple[Box, ...]
    texts: tuple[tuple[str, Point], ...]


def measured_as_drawn(figures: Iterable[Shown], page: Page) -> Iterator[Measured]:
    """Which figures of a page stand on it with all their parts; those alike as they follow each other."""
    before: dict[tuple[Box, ...], Box] = {}
    for shown in figures:
        parts = _parts(shown)
        if not parts.boxes and not parts.texts:
            continue
        box = _box_of(shown, parts, page)
        is_early = box is not None and parts.boxes in before and _is_before(box, before[parts.boxes])
        if box is not None and parts.boxes:
            before[parts.boxes] = box
        claim = Drawn(f"{shown.anchor} / {shown.figure.name} as drawn", shown.page, "a figure")
        yield Measured(claim, None if box is None or is_early else 0.0, box)


def _box_of(shown: Shown, parts: _Parts, page: Page) -> Box | None:
    """Where a figure stands on a page; None where not all of it is there."""
    places = dict.fromkeys((*_places(parts.boxes, page), *_places_of_texts(parts.texts, page)))
    for x, y in places:
        if _stands(parts, (x, y), page):
            return Box(x, y, x + shown.figure.width, y + shown.figure.height)
    return None


def _is_before(box: Box, other: Box) -> bool:
    """Whether one box is read before another, whether rows are read or columns."""
    right, down = box.left - other.left, box.top - other.top
    return min(right, down) < -_APART and max(right, down) < _APART


# What a figure is made of.


def _parts(shown: Shown) -> _Parts:
    shapes = shown.figure.shapes
    has_pages = isinstance(shown.request, NumberedLayout | FinishedPages)
    boxes = _boxes_with_pages(shapes) if has_pages else _boxes(shapes)
    return _Parts(tuple(boxes), tuple(_texts(shapes)))


def _boxes_with_pages(shapes: Iterable[Shape], to_figure: Affine = IDENTITY) -> Iterator[Box]:
    """Boxes about the parts of a figure, and of the finished pages that are used in it."""
    for shape in shapes:
        match shape:
            case Group():
                yield from _boxes_with_pages(shape.children, shape.transform.then(to_figure))
            case Use():
                inside = shape.transform.then(to_figure)
                boxes = _boxes(_simple(shape.symbol.shapes), inside)
                yield from _within(boxes, shape.symbol.box.corners, inside)
            case Path():
                yield from _boxes((_without_curves(shape),), to_figure)
            case _:
                yield from _boxes((shape,), to_figure)


def _boxes(shapes: Iterable[Shape], to_figure: Affine = IDENTITY) -> Iterator[Box]:
    """Boxes about the straight strokes and the areas of shapes that are wholly seen; prints are left out."""
    for shape in shapes:
        if isinstance(shape, Group):
            inside = shape.transform.then(to_figure)
            boxes = _boxes(shape.children, inside)
            yield from boxes if shape.clip is None else _within(boxes, shape.clip, inside)
        elif isinstance(shape, Circle):
            (x, y), radius = to_figure.apply((shape.x, shape.y)), shape.radius * to_figure.least_scale
            yield Box(x - radius, y - radius, x + radius, y + radius)
        else:
            yield from (_box(outline, to_figure) for outline in _outlines(shape))


def _simple(shapes: Iterable[Shape]) -> Iterator[Shape]:
    """Shapes without the paths that a reader of a used drawing leaves out, and without curves."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield replace(shape, children=tuple(_simple(shape.children)))
        elif isinstance(shape, Path):
            if len(shape.segments) <= SIMPLE:
                yield _without_curves(shape)
        elif not isinstance(shape, Polyline | Polygon) or len(shape.points) < SIMPLE:
            yield shape


def _without_curves(path: Path) -> Path:
    """A path without its outlines that have curves: on a finished page a pen's, and partly hidden."""
    straight = (part for part in _parts_of(path) if all(segment[0] != "C" for segment in part))
    return replace(path, segments=tuple(segment for part in straight for segment in part))


def _within(boxes: Iterable[Box], clip: Outline, to_figure: Affine) -> Iterator[Box]:
    """The boxes that lie wholly in a clip."""
    window = _box(clip, to_figure)
    return (box for box in boxes if window.holds(box, _NEAR))


def _outlines(shape: Shape) -> Iterator[Outline]:
    """Each stroke of a shape by its ends, each area by its corners."""
    match shape:
        case Line(start=start, end=end):
            yield start, end
        case Polyline(points=points) | Polygon(points=points):
            yield points
        case Rect(radius=0.0):
            yield shape.box.corners
        case Path():
            yield from _of_path(shape)
        case _:
            return


def _of_path(path: Path) -> Iterator[Outline]:
    """The outlines of a path: straight ones, and those with few curves; others are a pen's, and left out."""
    for part in _parts_of(path):
        if len(part) <= SIMPLE or all(segment[0] != "C" for segment in part):
            yield tuple(_along(part))


def _parts_of(path: Path) -> Iterator[tuple[Segment, ...]]:
    """The segments of each outline of a path."""
    starts = [at for at, segment in enumerate(path.segments) if segment[0] == "M"]
    return (path.segments[start:end] for start, end in pairwise((*starts, len(path.segments))))


def _along(part: Iterable[Segment]) -> Iterator[Point]:
    """Points along an outline."""
    at = 0.0, 0.0
    for segment in part:
        match segment:
            case (_, x, y):
                yield (at := (x, y))
            case (_, x1, y1, x2, y2, x, y):
                yield from along_curve(at, (x1, y1), (x2, y2), at := (x, y))


def _box(outline: Outline, to_figure: Affine) -> Box:
    return box_about(tuple(map(to_figure.apply, outline)))


def _texts(shapes: Iterable[Shape], to_figure: Affine = IDENTITY) -> Iterator[tuple[str, Point]]:
    """The first word of each text, and where it begins; those that are turned are left out."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield from _texts(shape.children, shape.transform.then(to_figure))
        elif isinstance(shape, Text) and shape.text.split():
            word = shape.text.split()[0]
            if not shape.rotation:
                yield word, to_figure.apply((shape.left, shape.y))


# Where a figure stands.


@cached_on
def _drawn(page: Page) -> dict[tuple[int, int], dict[tuple[int, int], list[Point]]]:
    """The corners of all boxes of a page, by their size, and of one size by their place."""
    found: dict[tuple[int, int], dict[tuple[int, int], list[Point]]] = {}
    boxes = [box_about((stroke.start, stroke.end)) for stroke in page.strokes]
    boxes += [box for _, box in page.bounded_outlines]
    for box in boxes:
        of_size = found.setdefault(_cell(box.width, box.height, _SIZE), defaultdict(list))
        of_size[_cell(box.left, box.top, _PLACE)].append((box.left, box.top))
    return found


def _cell(x: float, y: float, fine: float) -> tuple[int, int]:
    return round(x * fine), round(y * fine)


def _around(cell: tuple[int, int]) -> Iterator[tuple[int, int]]:
    x, y = cell
    return ((x + dx, y + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1))


def _places(boxes: Sequence[Box], page: Page) -> Iterator[Point]:
    """Where a figure with these boxes may stand: by the boxes of the sizes that the page has fewest of."""
    drawn = _drawn(page)

    def alike(box: Box) -> list[Point]:
        cells = (drawn.get(cell, {}) for cell in _around(_cell(box.width, box.height, _SIZE)))
        return [point for of_size in cells for points in of_size.values() for point in points]

    sizes = {_cell(box.width, box.height, _SIZE): box for box in boxes}
    rare = sorted(sizes.values(), key=lambda box: len(alike(box)))[:_TELLING]
    votes: Counter[tuple[int, int]] = Counter()
    exact: dict[tuple[int, int], Point] = {}
    for box in rare:
        for x, y in alike(box):
            place = x - box.left, y - box.top
            cell = _cell(*place, 2.0)
            votes[cell] += 1
            exact.setdefault(cell, place)
    yield from (exact[cell] for cell, _ in votes.most_common(_TELLING))


def _places_of_texts(texts: Sequence[tuple[str, Point]], page: Page) -> Iterator[Point]:
    """Where a figure of texts alone may stand."""
    for said, (x, y) in texts[:1]:
        for word in page.words:
            if word.text == said and not word.angle:
                yield word.box.left - x, word.baseline - y


def _stands(parts: _Parts, place: Point, page: Page) -> bool:
    """Whether all parts of a figure are where they are to be, if it stands at a place."""
    x, y = place
    return all(_is_written(said, x + at[0], y + at[1], page) for said, at in parts.texts) and all(
        _is_drawn(box, x, y, page) for box in parts.boxes
    )


def _is_drawn(box: Box, x: float, y: float, page: Page) -> bool:
    left, top, drawn = box.left + x, box.top + y, _drawn(page)
    cells = list(_around(_cell(left, top, _PLACE)))
    for size in _around(_cell(box.width, box.height, _SIZE)):
        if size in drawn:
            of_size = drawn[size]
            for cell in cells:
                for u, v in of_size.get(cell, ()):
                    if abs(u - left) < _NEAR and abs(v - top) < _NEAR:
                        return True
    return False


def _is_written(said: str, x: float, y: float, page: Page) -> bool:
    return any(
        abs(word.box.left - x) < max(_BEARING, _BEARING_SHARE * word.size)
        and abs(word.baseline - y) < _BEARING
        and _says(said, word, page)
        for word in _words_of(page).get(said[0], ())
    )


def _says(said: str, word: Word, page: Page) -> bool:
    """Whether a word, or it and those close behind it, begin with a text."""
    if word.text.startswith(said):
        return True
    rest = said.removeprefix(word.text)
    return rest != said and any(
        0 < after.box.left - word.box.right < _LETTER_GAP * word.size
        and abs(after.baseline - word.baseline) < _NEAR
        and _says(rest, after, page)
        for after in _words_of(page).get(rest[0], ())
    )


@cached_on
def _words_of(page: Page) -> dict[str, list[Word]]:
    """The upright words of a page by their first letter."""
    found: defaultdict[str, list[Word]] = defaultdict(list)
    for word in page.words:
        if not word.angle:
            found[word.text[0]].append(word)
    return found
