"""The print file read back: each half of each press side is the page that folding brings there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi

from booklet.proof.printed import Letter, Page, Point

# Half a printer's dot at 600 dots to the inch, in points: what no hand sees.
_SAME_PLACE = 0.06
_UPSIDE_DOWN = 0.1


@dataclass(frozen=True)
class WrongHalf:
    """A half of a press side, from 1, on which another page lies than folding needs; None for no page."""

    side: int
    half: str
    wanted: int
    found: int | None


def wrong_halves(pages: Sequence[Page], sides: Sequence[Page]) -> Iterator[WrongHalf]:
    """The halves of a print file that are not the pages of the reading file in the order for folding.

    The front of the sheet s, from 0, of n pages bears n - 2s and 1 + 2s, its back 2 + 2s and n - 1 - 2s (the
    order of any saddle-stitched booklet; common practice, no source).
    """
    page = max(pages, key=lambda page: page.width)  # one that cannot be read has no size
    for number, (left, right) in enumerate(_order(len(pages)), 1):
        side = sides[number - 1] if number <= len(sides) else None
        for half, wanted in (("left", left), ("right", right)):
            found = _page_on(pages, _half(side, half, page)) if side else None
            if found != wanted:
                yield WrongHalf(number, half, wanted, found)
    for number in range(len(pages) // 2 + 1, len(sides) + 1):
        yield WrongHalf(number, "left", 0, _page_on(pages, _half(sides[number - 1], "left", page)))


def _order(count: int) -> Iterator[tuple[int, int]]:
    for sheet in range(count // 4):
        yield count - 2 * sheet, 1 + 2 * sheet
        yield 2 + 2 * sheet, count - 1 - 2 * sheet


Placed = list[tuple[str, Point]]


def _half(side: Page, half: str, page: Page) -> Placed:
    """The letters of a half, each from the top left of its page, a side that is upside down turned back.

    The two pages of a side meet in its middle, whatever room is left about them.
    """
    letters = list(side.ink)
    is_turned = sum(abs(letter.angle - pi) < _UPSIDE_DOWN for letter in letters) * 2 > len(letters)
    middle, above = side.width / 2, (side.height - page.height) / 2
    placed = [(letter.text, _turned(letter, side) if is_turned else letter.box.centre) for letter in letters]
    if half == "left":
        return [(text, (x - middle + page.width, y - above)) for text, (x, y) in placed if x < middle]
    return [(text, (x - middle, y - above)) for text, (x, y) in placed if x >= middle]


def _turned(letter: Letter, side: Page) -> Point:
    x, y = letter.box.centre
    return side.width - x, side.height - y


def _page_on(pages: Sequence[Page], half: Placed) -> int | None:
    """The number of the page whose letters all stand on a half, each in its place."""
    return next((page.number for page in pages if _is_same(page, half)), None)


def _is_same(page: Page, half: Placed) -> bool:
    if len(page.ink) != len(half):
        return False
    places: defaultdict[str, list[Point]] = defaultdict(list)
    for text, place in half:
        places[text].append(place)
    return all(
        any(abs(x - u) < _SAME_PLACE and abs(y - v) < _SAME_PLACE for u, v in places[letter.text])
        for letter in page.ink
        for x, y in (letter.box.centre,)
    )
