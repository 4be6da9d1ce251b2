"""The printed elements of a cut-apart sheet: one by one, or in rows and columns of equal size."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from enum import Enum
from typing import Annotated, Any

from booklet.kit.fields import HexColour, LengthField, Name, SizeField, WordsField
from booklet.kit.finding import SpecPath
from booklet.kit.rules import After, Around, Before, Limits
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect

# No sheet has more: all pairs are compared.
MOST_ELEMENTS = 200
_MOST_IN_LINE = 40
_MOST_TIMES = 99


class ElementPicture(Enum):
    """A small picture that the booklet draws on a printed element."""

    SUN = "sun"
    WAVE = "wave"
    LEAF = "leaf"
    STAR = "star"
    HEART = "heart"
    BOAT = "boat"
    SHELL = "shell"
    ANCHOR = "anchor"
    ARROW = "arrow"
    FEATHER = "feather"
    FLOWER = "flower"
    CAMERA = "camera"


class ElementFrame(Enum):
    """The printed line round an element."""

    NONE = "none"
    LINE = "line"
    DOUBLE = "double"
    DASHED = "dashed"
    TICKET = "ticket"


@dataclass(frozen=True, kw_only=True)
class ElementInLine:
    """One of a row or column: its name, and what of its artwork differs from what is said for all."""

    name: Name
    words: WordsField | None = None
    picture: ElementPicture | None = None
    frame: ElementFrame | None = None
    ground: HexColour | None = None
    ink: HexColour | None = None


def _line_element(value: Any, read: Callable[[Any], Any]) -> Any:
    """An element in a row is mostly just its name."""
    return read({"name": value} if isinstance(value, str) else value)


def _line_elements(value: Any) -> Any:
    return (value,) if isinstance(value, str | dict) else value


ElementsInLine = Annotated[
    tuple[Annotated[ElementInLine, Around(_line_element)], ...],
    Before(_line_elements),
    Limits(1, _MOST_IN_LINE),
]
Times = Annotated[int, Limits(1, _MOST_TIMES)]


@dataclass(frozen=True, kw_only=True)
class ElementEntry:
    """A printed element of a cut-apart sheet, or a row or column of some of one size: place and artwork.

    `left` and `top` are those of the first.  A `row` goes from left to right, a `column` downwards, `apart`
    is the gap between two.  `count` repeats the names said, and `lines` the whole row below itself, or the
    whole column beside itself.
    """

    name: Name | None = None
    row: ElementsInLine = ()
    column: ElementsInLine = ()
    count: Times = 1
    lines: Times = 1
    apart: LengthField = Fraction(0)
    left: LengthField
    top: LengthField
    size: SizeField
    words: WordsField | None = None
    picture: ElementPicture | None = None
    frame: ElementFrame = ElementFrame.NONE
    ground: HexColour = "#ffffff"
    ink: HexColour = "#33414d"


def _one_way(entry: ElementEntry) -> ElementEntry:
    if sum(map(bool, (entry.name, entry.row, entry.column))) != 1:
        raise ValueError("one of name, row and column")
    if entry.name and (entry.count > 1 or entry.lines > 1 or entry.apart):
        raise ValueError("row or column in place of name where count, lines or apart are said")
    return entry


Element = Annotated[ElementEntry, After(_one_way)]


@dataclass(frozen=True)
class PrintedElement:
    """One printed element: where it lies on the front, its artwork, the way to its name from its sheet.

    On a sheet whose artwork is an image it shows its part of that, unless it states a drawing of its own.
    """

    name: str
    rect: ExactRect
    words: str | None
    picture: ElementPicture | None
    frame: ElementFrame
    ground: str
    ink: str
    where: SpecPath

    @property
    def is_drawn(self) -> bool:
        """Whether it states what is printed on it."""
        return bool(self.words or self.picture) or self.frame is not ElementFrame.NONE

    @property
    def entry(self) -> SpecPath:
        """The way from its sheet to the entry that it is printed by."""
        return self.where[:2]


def printed_count(entry: ElementEntry) -> int:
    """How many printed elements an entry stands for; none of them is made."""
    return max(1, len(entry.row) + len(entry.column)) * entry.count * entry.lines


def in_lines(entry: ElementEntry, number: int) -> Iterator[PrintedElement]:
    """The printed elements of an entry, line by line; `number` is its place among the sheet's."""
    where: SpecPath = ("elements", number)
    if entry.name is not None:
        yield _printed(entry, ElementInLine(name=entry.name), entry.left, entry.top, (*where, "name"))
        return
    key, said = ("row", entry.row) if entry.row else ("column", entry.column)
    across, down = entry.size.width + entry.apart, entry.size.height + entry.apart
    for line in range(entry.lines):
        for place in range(len(said) * entry.count):
            right, below = (place, line) if key == "row" else (line, place)
            left, top = entry.left + right * across, entry.top + below * down
            one = place % len(said)
            yield _printed(entry, said[one], left, top, (*where, key, one, "name"))


def _printed(
    entry: ElementEntry, own: ElementInLine, left: Fraction, top: Fraction, where: SpecPath
) -> PrintedElement:
    return PrintedElement(
        own.name,
        ExactRect(left, top, entry.size.width, entry.size.height),
        own.words or entry.words,
        own.picture or entry.picture,
        own.frame or entry.frame,
        own.ground or entry.ground,
        own.ink or entry.ink,
        where,
    )
