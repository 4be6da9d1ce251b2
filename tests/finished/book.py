"""A booklet as it is read: its words in one stream, and the parts that its large titles open."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby

from booklet.proof.printed import DENOMINATORS, NUMERATORS, Box, Letter, Page

# Margins of a page in points, from its fold, its outer edge, its top, its foot, by its size: half letter is
# 5 1/2 x 8 1/2 in, A5 148 x 210 mm (ISO 216).
HALF_LETTER, A5 = (396, 612), (420, 595)
MARGINS = {HALF_LETTER: (36.0, 31.0, 29.0, 34.0), A5: (36.0, 32.0, 27.0, 32.0)}

# Titles are set in the serif face, and no smaller than this.
_LEAST_TITLE = 13.2
_TITLE_FACE = "Serif"

# What a typist and a typesetter write in two ways.
_SAME = str.maketrans(
    {
        "‘": "'",
        "’": "'",
        "“": '"',
        "”": '"',
        "×": "x",
        "⁄": "/",
        **{figure: str(value) for value, figure in enumerate(NUMERATORS)},
        **{figure: str(value) for value, figure in enumerate(DENOMINATORS)},
    }
)
# pypdfium2 reads a hyphen at a line's end as the control character 2.
_NOT_READ = re.compile("[\\s\u00a0\u00ad\u2010\u2011\ufffe\x02-]+")


def squeezed(text: str) -> str:
    """Words as they are compared: without spaces and hyphens, with typed quotes and plain figures."""
    return _NOT_READ.sub("", text.translate(_SAME)).casefold()


@dataclass(frozen=True)
class Place:
    """A letter of the stream, and the page on which it stands."""

    page: Page
    letter: Letter


@dataclass(frozen=True)
class Found:
    """Words found in the stream: from where to where, and what stands there."""

    start: int
    end: int
    places: tuple[Place, ...]

    @property
    def letters(self) -> tuple[Letter, ...]:
        return tuple(place.letter for place in self.places)

    @property
    def page(self) -> Page:
        return self.places[0].page

    @property
    def top(self) -> float:
        """How far down its first page it begins."""
        return min(place.letter.box.top for place in self.places if place.page is self.page)

    @property
    def bottom(self) -> float:
        """How far down its last page it ends."""
        last = self.places[-1].page
        return max(place.letter.box.bottom for place in self.places if place.page is last)

    def is_above(self, other: Found) -> bool:
        """Whether it is read before something else: on an earlier page, or above it on the same."""
        if self.places[-1].page is not other.page:
            return self.places[-1].page.number < other.page.number
        return self.bottom <= other.top + 1.0


@dataclass(frozen=True)
class Part:
    """A part of the booklet: its number, its title as compared, and from where to where it is read."""

    number: str
    title: str
    start: int
    end: int
    pages: tuple[Page, ...]

    @property
    def first(self) -> Page:
        return self.pages[0]


@dataclass(frozen=True, eq=False)
class Book:
    """All pages of a booklet."""

    pages: tuple[Page, ...]

    @cached_property
    def places(self) -> tuple[Place, ...]:
        """The letters of all type areas as they are read, page by page."""
        return tuple(
            Place(page, letter)
            for page in self.pages
            for letter in page.ink
            if type_area(page).holds_point(letter.box.centre) and squeezed(letter.text)
        )

    @cached_property
    def _stream(self) -> tuple[str, tuple[int, ...]]:
        read = [squeezed(place.letter.text) for place in self.places]
        return "".join(read), tuple(at for at, letters in enumerate(read) for _ in letters)

    @property
    def text(self) -> str:
        """Everything that is read, as compared."""
        return self._stream[0]

    def every(self, words: str, start: int = 0, end: int | None = None) -> Iterator[Found]:
        """Every place where words stand, however they are spaced, between two places of the stream."""
        wanted = squeezed(words)
        text, places = self._stream
        assert wanted
        at = text.find(wanted, start, end)
        while at >= 0:
            which = range(places[at], places[at + len(wanted) - 1] + 1)
            yield Found(at, at + len(wanted), tuple(self.places[place] for place in which))
            at = text.find(wanted, at + 1, end)

    def find(self, words: str, start: int = 0, end: int | None = None) -> Found | None:
        """The first place where words stand; None where they do not."""
        return next(self.every(words, start, end), None)

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """The parts in order; the first begins at the first title."""
        titles = list(self._titles())
        ends = [self._before_kicker(start) for _, _, start in titles[1:]] + [len(self.text)]
        return tuple(
            Part(number, title, start, end, self._pages(start, end))
            for (number, title, start), end in zip(titles, ends, strict=True)
        )

    def part(self, number: str, title: str) -> Part:
        """The first part of this number and title.  Raises AssertionError where there is none."""
        wanted = squeezed(title)
        found = [part for part in self.parts if part.number == number and part.title == wanted]
        assert found, f"no part {number} {title} among {[(part.number, part.title) for part in self.parts]}"
        return found[0]

    def _pages(self, start: int, end: int) -> tuple[Page, ...]:
        _, places = self._stream
        numbers = {self.places[place].page.number for place in places[start:end]}
        return tuple(page for page in self.pages if page.number in numbers)

    def _titles(self) -> Iterator[tuple[str, str, int]]:
        """Number, title and beginning of each run of large letters; the number stands left of its title."""
        _, places = self._stream
        runs: list[tuple[str, int, Place]] = []
        for key, run in groupby(range(len(places)), lambda at: _set_as(self.places[places[at]])):
            held = list(run)
            if key is not None:
                runs.append((self.text[held[0] : held[-1] + 1], held[0], self.places[places[held[0]]]))
        numbers = [(said, place) for said, _, place in runs if said.isdecimal()]
        for said, start, place in runs:
            if not said.isdecimal():
                beside = (number for number, other in numbers if _is_beside(other, place))
                yield next(beside, ""), said, start

    def _before_kicker(self, start: int) -> int:
        """Where a title's page begins, if no more than a line stands above the title."""
        _, places = self._stream
        title = self.places[places[start]]
        first = next(at for at, place in enumerate(self.places) if place.page is title.page)
        above = self.places[first : places[start]]
        lines = {round(place.letter.baseline, 1) for place in above}
        if len(lines) > 1 or any(place.letter.box.top > title.letter.box.top for place in above):
            return start
        return places.index(first)


def _set_as(place: Place) -> tuple[int, float] | None:
    letter = place.letter
    is_title = _TITLE_FACE in letter.font and letter.size >= _LEAST_TITLE
    return (place.page.number, round(letter.size, 1)) if is_title else None


def _is_beside(number: Place, title: Place) -> bool:
    one, other = number.letter.box, title.letter.box
    return number.page is title.page and one.right < other.left and abs(one.top - other.top) < 10.0


def type_area(page: Page) -> Box:
    """Where a page has its text: what the margins leave."""
    inner, outer, top, foot = MARGINS[round(page.width), round(page.height)]
    left, right = (outer, inner) if page.is_left else (inner, outer)
    return Box(left, top, page.width - right, page.height - foot)
