"""How things lie, as the words are told: what they rest on and lie beneath, from which edges, how tilted.

Everything here follows from what holds a thing in its place (`booklet.placing.details.Held`), so that no
sentence can say anything else than where things are drawn.
"""

from __future__ import annotations

from enum import Enum

from booklet.content.assembly.ways import PrintEdge
from booklet.content.spans import Degrees, Length, Number, Own, StepRef
from booklet.kit.fields import Edge, Turn
from booklet.kit.position import Direction
from booklet.kit.steps import Corner
from booklet.measure.dataclass import dataclass

# What is referred to.


class Page(Enum):
    """The page itself, or the one that faces it."""

    THIS = "this"
    FACING = "facing"


class Noun(Enum):
    """What a thing is, where a sentence must call it something: NAMED has a name of the designer's."""

    NAMED = "named"
    PHOTO = "photo"
    WRITING = "writing"
    ROW = "row"
    COLUMN = "column"
    BLOCK = "block"
    SEVERAL = "several"


@dataclass(frozen=True)
class OneOf:
    """Which one of several in line: its place from the left or from the top, counted from 0."""

    place: int
    count: int
    direction: Direction


@dataclass(frozen=True)
class Thing:
    """What lies on the page already, by the rings of its steps; one of this very step has none.

    `is_it` says that it is what the sentence before was about, `is_each` that it is each of several;
    `is_outer` that it is what its printed step laid first, by itself: its ring alone then tells it.
    """

    noun: Noun
    name: Own | None
    steps: tuple[StepRef, ...]
    one_of: OneOf | None = None
    is_it: bool = False
    is_each: bool = False
    is_outer: bool = False


Owner = Page | Thing

# What fixes a thing along one axis or both.


@dataclass(frozen=True)
class AtEdge:
    """An edge of it lies at the same edge of its owner."""

    edge: Edge
    owner: Owner


@dataclass(frozen=True)
class InCorner:
    """It lies in a corner of its owner."""

    corner: Corner
    owner: Owner


@dataclass(frozen=True)
class FromEdge:
    """Its edge lies so far in from the same edge of its owner."""

    edge: Edge
    owner: Owner
    distance: Length


@dataclass(frozen=True)
class BeyondEdge:
    """It reaches so far beyond an edge of its owner."""

    edge: Edge
    owner: Owner
    distance: Length


@dataclass(frozen=True)
class NextTo:
    """It lies on this side of a thing; no gap is edge to edge."""

    side: Edge
    thing: Thing
    gap: Length | None


@dataclass(frozen=True)
class Overlapping:
    """It lies on this side of a thing and overlaps it; `is_under` says that it goes beneath."""

    side: Edge
    thing: Thing
    by: Length
    is_under: bool


@dataclass(frozen=True)
class InLine:
    """Edges of it are in line with the same edges of a thing."""

    edges: tuple[Edge, ...]
    thing: Thing


@dataclass(frozen=True)
class Centred:
    """Its middle lies on that of its owner; `margin` is what is left at either end, none where set by eye."""

    direction: Direction
    owner: Owner
    margin: Length | None


@dataclass(frozen=True)
class OnFold:
    """Its middle lies where two pages meet."""


Hold = AtEdge | InCorner | FromEdge | BeyondEdge | NextTo | Overlapping | InLine | Centred | OnFold


@dataclass(frozen=True)
class Nested:
    """One of several things centred on each other: its name (none of a photo), and how much of it is seen.

    `border` is what is seen of it all round, none of the uppermost.
    """

    name: Own | None
    is_sideways: bool
    border: Length | None


# How it is held in the hand, and what is then seen.


@dataclass(frozen=True)
class Handling:
    """What the hand does before it lays a thing: turns it over, gives it a turn.

    A quarter turn of what looks the same either way round is only `is_sideways`.
    """

    turn: Turn | None = None
    is_sideways: bool = False
    is_over: bool = False


@dataclass(frozen=True)
class Border:
    """What is seen of the lower of two things at the sides, and above and below; none where flush."""

    across: Length | None
    down: Length | None

    @property
    def is_even(self) -> bool:
        """Whether it is the same all round."""
        one, other = self.across, self.down
        return one == other or (one is not None and other is not None and one.value == other.value)


@dataclass(frozen=True)
class Centre:
    """Its middle lies on the middle of its owner, both ways; of a page with what is left at its edges."""

    owner: Owner
    margins: Border | None = None


class Pivot(Enum):
    """What a tilted thing is turned about: its own middle, or that of what it lies on and is tilted with."""

    OWN_MIDDLE = "own middle"
    WITH_HOST = "with host"


@dataclass(frozen=True)
class Tilt:
    """A tilt, and what it is about."""

    degrees: Degrees
    is_clockwise: bool
    pivot: Pivot


@dataclass(frozen=True)
class Foam:
    """Bits of foam, or of a supply, on which a thing is raised: whole ones, halves, or both."""

    count: Number | None
    halves: Number | None
    name: Own | None


@dataclass(frozen=True)
class Whole:
    """It takes up all of its owner across, down, or both ways."""

    directions: tuple[Direction, ...]
    owner: Owner


@dataclass(frozen=True)
class Lying:
    """How one thing lies, or several that are laid as one.

    `on` is what it rests on, if that is not the page; `under` what it goes beneath.  `centre` stands instead
    of `holds`.  `seen` is what is then seen of what lies beneath, `trim` where it is cut off at the page,
    `print_edge` an edge of its print by which the hand knows its way, `foam` what it is raised on.
    """

    holds: tuple[Hold, ...] = ()
    handling: Handling = Handling()
    whole: Whole | None = None
    on: Thing | None = None
    under: tuple[Thing, ...] = ()
    centre: Centre | None = None
    tilt: Tilt | None = None
    seen: Border | None = None
    trim: tuple[Edge, ...] = ()
    print_edge: PrintEdge | None = None
    foam: Foam | None = None


@dataclass(frozen=True)
class MiddleOne:
    """Where the middle one's centre lies, from the left or top edge of what the row is measured from."""

    direction: Direction
    owner: Owner
    distance: Length


@dataclass(frozen=True)
class Series:
    """Several things in line: how many, whether of one kind, and how they are spread along the line.

    `ends` fix the line as a whole lengthwise; `gap` is that between neighbours, none where they lie edge to
    edge, `lap` how far each lies on the one before.  `is_from_middles` says that gaps go from middle to
    middle.
    """

    direction: Direction
    count: Number
    is_alike: bool
    ends: tuple[Hold, ...]
    gap: Length | None = None
    lap: Length | None = None
    even_ends: bool = False
    is_from_middles: bool = False
    middle: MiddleOne | None = None
