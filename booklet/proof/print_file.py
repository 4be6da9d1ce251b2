"""The print file read back: on each side of a press sheet lie the pages that its binding brings there."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from itertools import islice, takewhile
from math import inf, pi, tau

from booklet.binding.sides import Box as PressBox
from booklet.binding.sides import ImposedSide, PlacedPage
from booklet.measure.dataclass import dataclass
from booklet.proof.printed import Box, Form, Outline, Page, Path, Point, box_about

# Half a printer's dot at 600 dots to the inch, in points: what no hand sees.
_SAME_PLACE = 0.06
_UPSIDE_DOWN = 0.1
# What lies so near a fold or a cut is a mark for it, and of no page.
_AT_LINE = 0.5
# What is painted so near the edge of a page's place is its frame.
_AT_EDGE = 1.0
_FRAME_POINTS = 5


@dataclass(frozen=True)
class WrongPlace:
    """A place on a press side, from 1, on which another page lies than the binding needs; None for no page.

    `is_upside_down` says that its side lies the other way up than the binding needs.
    """

    side: int
    place: str
    wanted: int
    found: int | None
    is_upside_down: bool = False


def wrong_places(
    pages: Sequence[Page], sides: Sequence[Page], bound: Sequence[ImposedSide]
) -> Iterator[WrongPlace]:
    """The places of a print file that do not bear the pages of the reading file as they are to be `bound`.

    Fronts lie as they are bound, and backs all the same way: so, or turned by half, for a printer that turns
    sheets about the other edge.
    """
    read = list(zip(sides, bound, strict=False))
    backs = [_is_turned(side, wanted) for side, wanted in read if not wanted.is_front and wanted.pages]
    turned_backs = backs.count(True) * 2 > len(backs)
    for number, wanted in enumerate(bound, 1):
        side = sides[number - 1] if number <= len(sides) else None
        is_turned = side is not None and bool(wanted.pages) and _is_turned(side, wanted)
        is_wrong_way = is_turned is not (turned_backs and not wanted.is_front and bool(wanted.pages))
        places = _places(side, wanted, is_turned=is_turned) if side else [None] * len(wanted.pages)
        for place, page, name in zip(places, wanted.pages, _names(wanted), strict=True):
            found = _page_on(pages, place) if place else None
            if found != page.page or (side is not None and is_wrong_way):
                yield WrongPlace(number, name, page.page, found, side is not None and is_wrong_way)
        if side is not None and not wanted.pages and _has_ink(side):
            yield WrongPlace(number, "blank side", 0, None)
    for number, side in enumerate(sides[len(bound) :], len(bound) + 1):
        (first, *_), name = _places(side, bound[0], is_turned=False), _names(bound[0])[0]
        yield WrongPlace(number, name, 0, _page_on(pages, first))


def _names(side: ImposedSide) -> list[str]:
    """What the places of a side are called, in the order of its pages."""
    copies = len(side.pages) // (2 if side.folds else 1)
    names = ["left half", "right half"] if side.folds else ["page"]
    if copies == 1:
        return names
    return [f"copy {copy}, {name}" for copy in range(1, copies + 1) for name in names]


def _has_ink(side: Page) -> bool:
    return bool(side.ink or side.paths or side.forms)


def _is_turned(side: Page, wanted: ImposedSide) -> bool:
    """Whether most of what is written on a side stands on its head, as it is bound.

    Letters count their angle clockwise.
    """
    letters, upside_down = side.ink, (pi - wanted.pages[0].turn * pi / 2) % tau
    return sum(abs(letter.angle - upside_down) < _UPSIDE_DOWN for letter in letters) * 2 > len(letters)


# How something is painted, None for a form, and its outlines.
_Mark = tuple[object, tuple[Outline, ...]]


@dataclass(frozen=True)
class _Place:
    """What stands on a place of a side, from the top left of its page: letters, and in order what is drawn.

    `frame` is a little less than what of the page shows there.
    """

    letters: list[tuple[str, Point]]
    drawn: list[_Mark]
    frame: Box


def _places(side: Page, wanted: ImposedSide, *, is_turned: bool) -> list[_Place]:
    """The places of a side, one that is turned by half turned back: each letter and each drawing on the
    nearest, but for the marks along folds and cuts.
    """

    def upright(point: Point) -> Point:
        x, y = point
        return (side.width - x, side.height - y) if is_turned else point

    clips = [_from_top(page.clip, side) for page in wanted.pages]
    letters: list[list[tuple[str, Point]]] = [[] for _ in clips]
    for letter in side.ink:
        centre = upright(letter.box.centre)
        letters[_nearest(clips, centre)].append((letter.text, centre))
    drawn: list[list[Path | Form]] = [[] for _ in clips]
    lines = _lines(wanted, side)
    for each in _drawn(side):
        box = box_about((upright((each.box.left, each.box.top)), upright((each.box.right, each.box.bottom))))
        if not any(line.holds(box) for line in lines):
            drawn[_nearest(clips, box.centre)].append(each)
    return [
        _place(page, side, upright, of_page, drawn_there)
        for page, of_page, drawn_there in zip(wanted.pages, letters, drawn, strict=True)
    ]


def _place(
    page: PlacedPage,
    side: Page,
    upright: Callable[[Point], Point],
    letters: list[tuple[str, Point]],
    drawn: Sequence[Path | Form],
) -> _Place:
    trim = _from_top(page.trim, side)

    def to_page(point: Point) -> Point:
        return _on_page(point, trim, page.turn)

    clip = _from_top(page.clip, side)
    frame = box_about((to_page((clip.left, clip.top)), to_page((clip.right, clip.bottom)))).grown(-_AT_EDGE)
    marks = [
        _mark(each, tuple(tuple(to_page(upright(point)) for point in outline) for outline in each.outlines))
        for each in drawn
    ]
    return _Place([(text, to_page(centre)) for text, centre in letters], marks, frame)


def _from_top(box: PressBox, side: Page) -> Box:
    """A box of a press side, from its top left."""
    left, bottom, right, top = map(float, (box.left, box.bottom, box.right, box.top))
    return Box(left, side.height - top, right, side.height - bottom)


def _on_page(point: Point, trim: Box, turn: int) -> Point:
    """Where a point of a side lies from the top left of a page that stands there turned."""
    x, y = point
    if turn == 0:
        return x - trim.left, y - trim.top
    if turn == 1:
        return trim.bottom - y, x - trim.left
    if turn == 2:
        return trim.right - x, trim.bottom - y
    return y - trim.top, trim.right - x


def _nearest(clips: Sequence[Box], point: Point) -> int:
    """Which of the places a point lies on, or nearest to."""
    x, y = point
    return min(
        range(len(clips)),
        key=lambda place: max(
            clips[place].left - x, x - clips[place].right, clips[place].top - y, y - clips[place].bottom, 0.0
        ),
    )


def _lines(wanted: ImposedSide, side: Page) -> list[Box]:
    """The folds and cuts of a side, as wide as their marks may lie beside them, and as long as the side."""
    found = []
    for line in (*wanted.folds, *wanted.cuts):
        x, y = float(line.x0), side.height - float(line.y0)
        along = (x, 0.0, x, side.height) if line.is_upright else (0.0, y, side.width, y)
        found.append(Box(*along).grown(_AT_LINE))
    return found


def _drawn(page: Page) -> list[Path | Form]:
    """What is drawn on a page, in the order of painting."""
    found: list[Path | Form] = [*page.paths, *page.forms]
    return sorted(found, key=lambda each: each.order)


def _mark(each: Path | Form, outlines: tuple[Outline, ...]) -> _Mark:
    """How something is painted, and its outlines where they are placed."""
    look = (each.fill, each.stroke, round(each.width, 2), each.is_dashed) if isinstance(each, Path) else None
    return look, outlines


def _within(mark: _Mark, frame: Box) -> _Mark:
    """A mark without the outlines that are the frame of its place."""
    look, outlines = mark
    return look, tuple(outline for outline in outlines if not _is_about(outline, frame))


def _is_about(outline: Outline, frame: Box) -> bool:
    """Whether an outline is the frame of a page: four corners and the first again, at most."""
    return len(outline) <= _FRAME_POINTS and box_about(outline).holds(frame)


def _page_on(pages: Sequence[Page], place: _Place) -> int | None:
    """The number of the page whose letters and drawings all stand on a place, each where it is to."""
    return next(
        (page.number for page in pages if _has_letters(page, place) and _has_drawn(page, place)), None
    )


def _has_letters(page: Page, place: _Place) -> bool:
    if len(page.ink) != len(place.letters):
        return False
    points: defaultdict[str, list[Point]] = defaultdict(list)
    for text, point in place.letters:
        points[text].append(point)
    for same in points.values():
        same.sort()
    return all(_is_one_at(letter.box.centre, points[letter.text]) for letter in page.ink)


def _is_one_at(point: Point, others: Sequence[Point]) -> bool:
    """Whether one of some sorted points is at a place; those left and right of it are not asked."""
    first = bisect_left(others, (point[0] - _SAME_PLACE, -inf))
    level = takewhile(lambda other: other[0] < point[0] + _SAME_PLACE, islice(others, first, None))
    return any(_is_at(point, other) for other in level)


def _has_drawn(page: Page, place: _Place) -> bool:
    drawn = [_within(_mark(each, each.outlines), place.frame) for each in _drawn(page)]
    there = [_within(mark, place.frame) for mark in place.drawn]
    return len(drawn) == len(there) and all(map(_is_same, drawn, there))


def _is_same(one: _Mark, other: _Mark) -> bool:
    (look, outlines), (other_look, others) = one, other
    return look == other_look and len(outlines) == len(others) and all(map(_is_outline, outlines, others))


def _is_outline(one: Outline, other: Outline) -> bool:
    """Whether two outlines are the same; a box that was turned begins at another corner."""
    if len(one) != len(other):
        return False
    starts = {0, *(len(other) * quarter // 4 for quarter in (1, 2, 3))}
    return any(all(map(_is_at, one, (*other[start:], *other[:start]))) for start in starts)


def _is_at(point: Point, other: Point) -> bool:
    return abs(point[0] - other[0]) < _SAME_PLACE and abs(point[1] - other[1]) < _SAME_PLACE
