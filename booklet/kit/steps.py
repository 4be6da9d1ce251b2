"""The steps of an assembly: one kind for each verb that a designer may use."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Annotated, Any, TypeVar, cast

from booklet.kit.fields import (
    Edge,
    LengthField,
    Name,
    PositiveLength,
    SizeField,
    StockLength,
    WordsField,
    as_tuple,
)
from booklet.kit.position import Direction, Edges, PieceNames, Position
from booklet.kit.rules import After, Around, Before, Limits, OneOf, Spelt
from booklet.measure.dataclass import dataclass
from booklet.measure.identity_enum import IdentityEnum
from booklet.measure.length import Size

if TYPE_CHECKING:
    from pydantic_core.core_schema import ValidationInfo

FITS = "fits"


class Corner(IdentityEnum):
    """A corner of a piece that is seen upright."""

    TOP_LEFT = "top left"
    TOP_RIGHT = "top right"
    BOTTOM_RIGHT = "bottom right"
    BOTTOM_LEFT = "bottom left"


def _all_corners(value: Any) -> Any:
    """`corners: all` is the plain way to name the four."""
    return tuple(Corner) if value == "all" else as_tuple(value)


def _fits(value: Any, read_size: Callable[[Any], Any]) -> Any:
    """`photo: fits` is the largest print that what it lies on can hold."""
    if value is None:
        raise ValueError("a size such as 4 x 6, or fits")
    return None if value == FITS else read_size(value)


def _entry(value: Any) -> Any:
    """A thing in a row or a stack is mostly just a piece's name."""
    return {"place": value} if isinstance(value, str) else value


def _entries(value: Any) -> Any:
    return (value,) if isinstance(value, str | dict) else value


# The kinds of step by their verbs, in the order in which they are declared below.
VERBS: dict[str, type[Step]] = {}
Kind = TypeVar("Kind", bound=type)


def verb(name: str) -> Callable[[Kind], Kind]:
    """Register a kind of step under its verb, the key that a step of a spec has."""

    def register(kind: Kind) -> Kind:
        VERBS[name] = cast("type[Step]", kind)
        return kind

    return register


def verb_of(step: Step) -> str:
    """The verb of a step, as it stands in the spec."""
    return next(name for name, kind in VERBS.items() if type(step) is kind)


def any_step(kinds: Mapping[str, type[Step]]) -> OneOf:
    """Of these kinds of step, the one that has its verb among the keys."""

    def verb_among(value: Any) -> str | None:
        if isinstance(value, Step):
            return verb_of(value)
        found = [key for key in value if key in kinds] if isinstance(value, dict) else []
        return found[0] if len(found) == 1 else None

    return OneOf(kinds, verb_among)


Corners = Annotated[tuple[Corner, ...], Before(_all_corners), Limits(most=len(Corner))]
SnipPlaces = Annotated[tuple[PositiveLength, ...], Before(as_tuple), Limits(1, 40)]
SnippedNames = Annotated[tuple[Name, ...], Limits(2, 41)]
PhotoSize = Annotated[SizeField | None, Around(_fits)]
MOST_IN_LINE = 99
Count = Annotated[int, Limits(1, MOST_IN_LINE)]


@dataclass(frozen=True, kw_only=True)
class Step:
    """What every step of an assembly may state in addition to its verb.

    `uses` are supplies that the step uses up unseen: dots under a piece, a length of tape behind it.
    """

    called: Name | None = None
    say: WordsField | None = None
    tip: WordsField | None = None
    optional: bool = False
    uses: Annotated[dict[Name, StockLength], Limits(most=40)] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class PositionedStep(Step, Position):
    """A step that puts something somewhere."""


@verb("place")
@dataclass(frozen=True, kw_only=True)
class Place(PositionedStep):
    """Lay a piece on the page; a strip that is to `run` from edge to edge is turned as it needs.

    `up` is the edge of its print that is to lie at its top, to be checked.
    """

    place: Name
    run: Direction | None = None
    up: Name | None = None


@verb("photo")
@dataclass(frozen=True, kw_only=True)
class Photo(PositionedStep):
    """Leave or mount a photograph of this size, width first; `fits` takes its size from what it lies on."""

    photo: PhotoSize


@verb("write")
@dataclass(frozen=True, kw_only=True)
class Write(PositionedStep):
    """Leave a space of this size for handwriting."""

    write: SizeField


@dataclass(frozen=True, kw_only=True)
class SeriesEntry:
    """One thing in a row or column: a piece, a photograph or a writing space."""

    place: Name | None = None
    photo: SizeField | None = None
    write: SizeField | None = None
    called: Name | None = None

    @property
    def size(self) -> Size | None:
        """The size that is said here; None for a piece, whose size is known elsewhere."""
        return self.photo or self.write


def _one_thing(entry: SeriesEntry) -> SeriesEntry:
    said = [value for value in (entry.place, entry.photo, entry.write) if value is not None]
    if len(said) != 1:
        raise ValueError("one of place, photo and write")
    return entry


def _row_entry(value: Any, read: Callable[[Any], Any]) -> Any:
    return _one_thing(read(_entry(value)))


def _in_line(entries: tuple[SeriesEntry, ...], info: ValidationInfo) -> tuple[SeriesEntry, ...]:
    """No hand lays more in one line; `count` repeats what is named."""
    if len(entries) * info.data.get("count", 1) > MOST_IN_LINE:
        raise ValueError(f"at most {MOST_IN_LINE} things in line, repeated ones counted")
    return entries


Entries = Annotated[
    tuple[Annotated[SeriesEntry, Around(_row_entry)], ...],
    Before(_entries),
    Limits(1, 40),
    After(_in_line),
]


@dataclass(frozen=True, kw_only=True)
class _Series(PositionedStep):
    """Several things in one direction, evenly: a stated length `apart`, or spread between two edges.

    `apart` is the gap between neighbours; left out, it follows from the two edges that are said.  `count`
    repeats the things named; `even_ends` makes the gaps at both ends equal to those between.  `up` is the
    edge of their print that is to lie at the top of each, to be checked.
    """

    count: Count = 1
    apart: LengthField | None = None
    even_ends: bool = False
    up: Name | None = None


@verb("row")
@dataclass(frozen=True, kw_only=True)
class Row(_Series):
    """Things side by side, from left to right."""

    row: Entries


@verb("column")
@dataclass(frozen=True, kw_only=True)
class Column(_Series):
    """Things one below the other, from top to bottom."""

    column: Entries


Stacked = Annotated[
    Place | Photo | Write, any_step({"place": Place, "photo": Photo, "write": Write}), Before(_entry)
]


@verb("stack")
@dataclass(frozen=True, kw_only=True)
class Stack(PositionedStep):
    """Mats and what lies on them, from the lowest up, each on the one before it.

    The loader writes it out as the steps that it stands for.  Where it lies is where the lowest does; its
    tilt is that of all, its turn that of all pieces.
    """

    stack: Annotated[tuple[Stacked, ...], Limits(2, 12)]


@verb("group")
@dataclass(frozen=True, kw_only=True)
class PlaceGroup(PositionedStep):
    """Lay or move several things that already lie together, and what is mounted on them, as one block."""

    group: Annotated[PieceNames, Limits(1, 40)]


@verb("other_half")
@dataclass(frozen=True, kw_only=True)
class OtherHalf(Step):
    """Lay down the part of a piece of the facing layout that was cut off at the gutter."""

    other_half: Name


@verb("snip")
@dataclass(frozen=True, kw_only=True)
class Snip(Step):
    """Cut a piece in parts with scissors, `at` these distances from its left (or another) edge."""

    snip: Name
    at: SnipPlaces
    leaves: SnippedNames
    measured_from: Edge = Edge.LEFT


@verb("trim_round")
@dataclass(frozen=True, kw_only=True)
class TrimRound(Step):
    """Trim round a printed outline; `size` is what is left, if it gets smaller."""

    trim_round: Name
    size: SizeField | None = None
    outline: WordsField | None = None


@verb("round")
@dataclass(frozen=True, kw_only=True)
class Round(Step):
    """Round corners of a piece to this radius."""

    round: Name
    radius: PositiveLength
    corners: Corners = tuple(Corner)


@verb("punch")
@dataclass(frozen=True, kw_only=True)
class Punch(PositionedStep):
    """Punch corners of a piece, or a `hole` of this diameter at a position on it."""

    punch: Name
    hole: PositiveLength | None = None
    corners: Corners = ()
    shape: WordsField | None = None


@verb("ink")
@dataclass(frozen=True, kw_only=True)
class Ink(Step):
    """Ink edges of a piece."""

    ink: Name
    edges: Edges = tuple(Edge)
    supply: Name | None = None


@verb("stencil")
@dataclass(frozen=True, kw_only=True)
class Stencil(PositionedStep):
    """Stencil an area of this size; the `guideline` is the edge of it that a pencil line marks."""

    stencil: Name
    size: SizeField | None = None
    guideline: Edge | None = None
    supply: Name | None = None


@verb("ribbon")
@dataclass(frozen=True, kw_only=True)
class Ribbon(PositionedStep):
    """Ribbon: a `run` with its ends taped behind, a `wrap` round a piece, a `loop`, a `bow` or a `knot`.

    A wrap's `run` is its direction.  `ends` is what is taped behind at either end, `overlap` what a wrap
    needs to close; `loop` is how far the loop stands, `bow` or `knot` the length of ribbon that it takes, of
    which each of the knot's `tails` is so long.  A wrap with a bow or a knot is tied in front, `tied_at` this
    distance from the left or top edge of what it goes round, in the middle where that is not said.
    """

    ribbon: Name
    run: Direction | None = None
    wrap: Name | None = None
    loop: PositiveLength | None = None
    bow: PositiveLength | None = None
    knot: PositiveLength | None = None
    tails: PositiveLength | None = None
    tied_at: PositiveLength | None = None
    ends: LengthField | None = None
    overlap: PositiveLength | None = None


@verb("tape")
@dataclass(frozen=True, kw_only=True)
class Tape(PositionedStep):
    """Decorative tape: `along` the length of a piece, a `run` from edge to edge, or a strip of a `length`."""

    tape: Name
    along: Name | None = None
    run: Direction | None = None
    length: PositiveLength | None = None
    ends: LengthField | None = None


@verb("raise")
@dataclass(frozen=True, kw_only=True)
class Raise(Step):
    """Raise a piece on foam or dots: `count` whole ones of the supply `foam`, and `halves` of one.

    One whole one where nothing is said; none where only halves are.
    """

    raised: Annotated[Name, Spelt("raise")]
    foam: Name | None = None
    count: Count | None = None
    halves: Annotated[int, Limits(0, 99)] = 0

    @property
    def wholes(self) -> int:
        """How many whole ones it takes."""
        return self.count or (0 if self.halves else 1)


@verb("add")
@dataclass(frozen=True, kw_only=True)
class Add(PositionedStep):
    """Add brads or other embellishments, one or `count` of them.

    Several stand in a `run`, evenly as in a row, one in each of `corners` at an `inset` from both edges, or
    scattered over what they lie `on`.
    """

    add: Name
    count: Count = 1
    run: Direction | None = None
    apart: LengthField | None = None
    even_ends: bool = False
    corners: Corners = ()
    inset: LengthField | None = None


@verb("stitch")
@dataclass(frozen=True, kw_only=True)
class Stitch(Step):
    """Join two things with a line of stitches `along` an edge of the first, so far in from it.

    The line stops `ends` before both ends of that edge, as far as the inset where nothing is said.  Each
    stitch is of a `length`, with a `spacing` between two; `thread` is the supply that is used up.
    """

    stitch: Annotated[PieceNames, Limits(2, 2)]
    along: Edge
    inset: PositiveLength
    length: PositiveLength
    spacing: PositiveLength
    ends: LengthField | None = None
    thread: Name | None = None


@verb("do")
@dataclass(frozen=True, kw_only=True)
class Do(Step):
    """Anything else, in the designer's words; `on` says which piece it is about, or which ones."""

    do: WordsField
    on: Annotated[PieceNames, Limits(most=40)] = ()
