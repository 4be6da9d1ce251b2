"""The print file read back: each half of each press side is the page that folding brings there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi

from booklet.proof.printed import Box, Form, Outline, Page, Path, Point, box_about

# Half a printer's dot at 600 dots to the inch, in points: what no hand sees.
_SAME_PLACE = 0.06
_UPSIDE_DOWN = 0.1
# What lies so near the middle of a side is a mark for folding, and of neither page.
_AT_FOLD = 0.5
_FRAME_POINTS = 5


@dataclass(frozen=True)
class WrongHalf:
    """A half of a press side, from 1, on which another page lies than folding needs; None for no page.

    `is_upside_down` says that its side lies the other way up than folding needs.
    """

    side: int
    half: str
    wanted: int
    found: int | None
    is_upside_down: bool = False


def wrong_halves(pages: Sequence[Page], sides: Sequence[Page]) -> Iterator[WrongHalf]:
    """The halves of a print file that are not the pages of the reading file in the order for folding.

    The front of the sheet s, from 0, of n pages bears n - 2s and 1 + 2s, its back 2 + 2s and n - 1 - 2s (the
    order of any saddle-stitched booklet; common practice, no source).  Fronts lie upright, and backs all the
    same way: upright, or upside down for a printer that turns sheets about their long edge.
    """
    page = max(pages, key=lambda page: page.width)  # one that cannot be read has no size
    backs = [_is_turned(side) for side in sides[1::2]]
    turned_backs = backs.count(True) * 2 > len(backs)
    for number, (left, right) in enumerate(_order(len(pages)), 1):
        side = sides[number - 1] if number <= len(sides) else None
        is_turned = side is not None and _is_turned(side) is not (turned_backs and number % 2 == 0)
        for half, wanted in (("left", left), ("right", right)):
            found = _page_on(pages, _half(side, half, page)) if side else None
            if found != wanted or is_turned:
                yield WrongHalf(number, half, wanted, found, is_turned)
    for number in range(len(pages) // 2 + 1, len(sides) + 1):
        yield WrongHalf(number, "left", 0, _page_on(pages, _half(sides[number - 1], "left", page)))


def _order(count: int) -> Iterator[tuple[int, int]]:
    for sheet in range(count // 4):
        yield count - 2 * sheet, 1 + 2 * sheet
        yield 2 + 2 * sheet, count - 1 - 2 * sheet


def _is_turned(side: Page) -> bool:
    """Whether most of what is written on a side stands on its head."""
    letters = side.ink
    return sum(abs(letter.angle - pi) < _UPSIDE_DOWN for letter in letters) * 2 > len(letters)


# How something is painted, None for a form, and its outlines.
_Mark = tuple[object, tuple[Outline, ...]]


@dataclass(frozen=True)
class _Half:
    """What stands on half a side, from the top left of its page: letters, and in order what is drawn."""

    letters: list[tuple[str, Point]]
    drawn: list[_Mark]


def _half(side: Page, half: str, page: Page) -> _Half:
    """A half of a side, one that is upside down turned back.

    The two pages of a side meet in its middle, whatever room is left about them.
    """
    is_turned = _is_turned(side)
    middle, above = side.width / 2, (side.height - page.height) / 2
    left = middle - page.width if half == "left" else middle

    def upright(point: Point) -> Point:
        x, y = point
        return (side.width - x, side.height - y) if is_turned else point

    def to_page(point: Point) -> Point:
        x, y = upright(point)
        return x - left, y - above

    def is_here(box: Box) -> bool:
        return (upright(box.centre)[0] < middle) is (half == "left")

    letters = [(letter.text, to_page(letter.box.centre)) for letter in side.ink if is_here(letter.box)]
    at_fold = Box(middle - _AT_FOLD, 0.0, middle + _AT_FOLD, side.height)
    drawn = [each for each in _drawn(side) if is_here(each.box) and not at_fold.holds(each.box)]
    frame = _frame(page)
    placed = ((each, tuple(tuple(map(to_page, outline)) for outline in each.outlines)) for each in drawn)
    return _Half(letters, [_mark(each, outlines, frame) for each, outlines in placed])


def _drawn(page: Page) -> list[Path | Form]:
    """What is drawn on a page, in the order of painting."""
    found: list[Path | Form] = [*page.paths, *page.forms]
    return sorted(found, key=lambda each: each.order)


def _frame(page: Page) -> Box:
    """A little less than the whole of a page."""
    return Box(1.0, 1.0, page.width - 1.0, page.height - 1.0)


def _mark(each: Path | Form, outlines: Sequence[Outline], frame: Box) -> _Mark:
    """How something is painted, and its outlines where they are placed, but for the frame of its page."""
    look = (each.fill, each.stroke, round(each.width, 2), each.is_dashed) if isinstance(each, Path) else None
    return look, tuple(outline for outline in outlines if not _is_about(outline, frame))


def _is_about(outline: Outline, frame: Box) -> bool:
    """Whether an outline is the frame of a page: four corners and the first again, at most."""
    return len(outline) <= _FRAME_POINTS and box_about(outline).holds(frame)


def _page_on(pages: Sequence[Page], half: _Half) -> int | None:
    """The number of the page whose letters and drawings all stand on a half, each in its place."""
    return next((page.number for page in pages if _has_letters(page, half) and _has_drawn(page, half)), None)


def _has_letters(page: Page, half: _Half) -> bool:
    if len(page.ink) != len(half.letters):
        return False
    places: defaultdict[str, list[Point]] = defaultdict(list)
    for text, place in half.letters:
        places[text].append(place)
    return all(any(_is_at(letter.box.centre, place) for place in places[letter.text]) for letter in page.ink)


def _has_drawn(page: Page, half: _Half) -> bool:
    frame = _frame(page)
    drawn = [_mark(each, each.outlines, frame) for each in _drawn(page)]
    return len(drawn) == len(half.drawn) and all(map(_is_same, drawn, half.drawn))


def _is_same(one: _Mark, other: _Mark) -> bool:
    (look, outlines), (other_look, others) = one, other
    return look == other_look and len(outlines) == len(others) and all(map(_is_outline, outlines, others))


def _is_outline(one: Outline, other: Outline) -> bool:
    """Whether two outlines are the same; a box that was turned by half begins at its opposite corner."""
    if len(one) != len(other):
        return False
    return any(all(map(_is_at, one, (*other[start:], *other[:start]))) for start in (0, len(other) // 2))


def _is_at(point: Point, place: Point) -> bool:
    return abs(point[0] - place[0]) < _SAME_PLACE and abs(point[1] - place[1]) < _SAME_PLACE
