"""What a step does, as data: the numbers that its words and its figure need, apart from the items' places.

Lengths are in the kit's unit.  Ids are those of the items of the layout.
"""

from __future__ import annotations

from enum import Enum
from typing import ClassVar

from booklet.cutting.orientation import Orientation
from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.kit.steps import Corner
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size
from booklet.placing.axis import Constraint


class Tool(Enum):
    """A tool that a hand needs for a step, besides what the kit supplies."""

    SCISSORS = "scissors"
    CORNER_ROUNDER = "corner rounder"
    CORNER_PUNCH = "corner punch"
    HOLE_PUNCH = "hole punch"
    PIN = "pin"
    INK_PAD = "ink pad"
    PENCIL = "pencil"
    NEEDLE = "needle"


class Detail:
    """What a step does, as a record of its own kind."""

    usual_tools: ClassVar[tuple[Tool, ...]] = ()

    @property
    def tools(self) -> tuple[Tool, ...]:
        """The tools that it takes."""
        return self.usual_tools

    @property
    def ids(self) -> tuple[int, ...]:
        """The items that it is about; none where it is about what is not laid yet."""
        return ()


@dataclass(frozen=True)
class Target:
    """What a step works on: by name, and the items, where it lies on the page already."""

    name: str
    ids: tuple[int, ...]


@dataclass(frozen=True)
class TargetDetail(Detail):
    """What is done to a thing."""

    target: Target

    @property
    def ids(self) -> tuple[int, ...]:
        """What is worked on, where it lies already."""
        return self.target.ids


@dataclass(frozen=True)
class ItemDetail(Detail):
    """What is done with the one thing that a step lays down."""

    item: int

    @property
    def ids(self) -> tuple[int, ...]:
        """The one item."""
        return (self.item,)


@dataclass(frozen=True)
class ItemsDetail(Detail):
    """What is done with the things that a step lays down or moves."""

    items: tuple[int, ...]

    @property
    def ids(self) -> tuple[int, ...]:
        """The items."""
        return self.items


@dataclass(frozen=True)
class Held(ItemsDetail):
    """What holds the things of a step where they lie, as they lay when the step was done.

    `items` are the things in order, none of a hole; `rect` is the rectangle round them, points for what is
    measured to its middle; `frame` what distances are measured from (none of what is still in the hand), with
    its rectangle then; `across` and `down` are what fixes the axes, of a row that of the whole row; `over`
    are the things that they go beneath, one by one as the spec names them.
    """

    rect: ExactRect
    frame: tuple[int, ...]
    frame_rect: ExactRect
    across: tuple[Constraint, ...]
    down: tuple[Constraint, ...]
    over: tuple[tuple[int, ...], ...] = ()

    @property
    def constraints(self) -> tuple[Constraint, ...]:
        """What fixes both axes."""
        return (*self.across, *self.down)

    def axis(self, direction: Direction) -> tuple[Constraint, ...]:
        """What fixes it in a direction."""
        return self.across if direction is Direction.ACROSS else self.down

    def without(self, direction: Direction) -> Held:
        """The same but for what fixes it in a direction."""
        is_across = direction is Direction.ACROSS
        return replace(self, across=()) if is_across else replace(self, down=())


@dataclass(frozen=True)
class EvenGap(Detail):
    """The gap between neighbours of a row or column; computed where the spec does not state it.

    With a plain ruler, an odd number of equal things that are spread evenly is begun in the middle: `middle`
    is how far the middle one's centre lies from the low edge of what the row is measured from.
    """

    direction: Direction
    gap: Fraction
    computed: bool
    middle: Fraction | None


@dataclass(frozen=True)
class NestBorder(Detail):
    """What is seen of the lower of two nested things, at its sides and above and below."""

    inner: int
    outer: int
    across: Fraction
    down: Fraction

    @property
    def ids(self) -> tuple[int, ...]:
        """Both things."""
        return (self.inner, self.outer)

    @property
    def even(self) -> bool:
        """Whether it is the same all round."""
        return self.across == self.down


@dataclass(frozen=True)
class SnippedPart:
    """A part that scissors leave: its name, its size, and where it lay on the upright whole."""

    name: str
    size: Size
    area: ExactRect


@dataclass(frozen=True)
class Snipped(Detail):
    """A piece cut in parts; `use` is the whole piece's index among the layout's uses."""

    use: int
    parts: tuple[SnippedPart, ...]
    measured_from: Edge
    at: tuple[Fraction, ...]
    usual_tools = (Tool.SCISSORS,)


@dataclass(frozen=True)
class TrimmedRound(Detail):
    """A piece trimmed round a printed outline, to a size where one is stated."""

    piece: str
    size: Size | None
    outline: str | None
    usual_tools = (Tool.SCISSORS,)


@dataclass(frozen=True)
class Rounded(TargetDetail):
    """Corners rounded to a radius; the corners are those of the piece as it lies on the page."""

    corners: tuple[Corner, ...]
    radius: Fraction
    usual_tools = (Tool.CORNER_ROUNDER,)


@dataclass(frozen=True)
class Punched(TargetDetail):
    """Corners punched, or a hole: the square round it, on the page or on a piece that is not laid yet.

    `held` says what the hole is measured from.
    """

    corners: tuple[Corner, ...]
    shape: str | None
    hole: ExactRect | None
    held: Held | None = None

    @property
    def tools(self) -> tuple[Tool, ...]:
        """A punch for corners or for holes."""
        return (Tool.CORNER_PUNCH if self.hole is None else Tool.HOLE_PUNCH,)


@dataclass(frozen=True)
class Inked(TargetDetail):
    """Edges inked, as the piece lies on the page; `supply` is the ink's id."""

    edges: tuple[Edge, ...]
    supply: str | None


@dataclass(frozen=True)
class Repeat:
    """How often a repeat of this length fits in a length, and what remains."""

    times: int
    remainder: Fraction
    length: Fraction


@dataclass(frozen=True)
class Stencilled(ItemDetail):
    """An area to stencil, the edge of it that a guideline marks, and how the stencil's repeat fits it.

    The guideline is `ruled` so far from the page's edge of the same name; None where that edge serves.
    """

    guideline: Edge | None
    ruled: Fraction | None
    across: Repeat | None
    down: Repeat | None

    @property
    def tools(self) -> tuple[Tool, ...]:
        """A pencil for the guideline."""
        return (Tool.PENCIL,) if self.ruled is not None else ()

    def turned(self, quarters: int) -> Stencilled:
        """The same area once it is turned by quarter turns clockwise with what it is stencilled on."""
        edge = self.guideline and Orientation(quarters=quarters).seen_at(self.guideline)
        across, down = (self.down, self.across) if quarters % 2 else (self.across, self.down)
        return replace(self, guideline=edge, across=across, down=down)


class BandForm(Enum):
    """What shape a length of ribbon or tape takes."""

    RUN = "run"
    WRAP = "wrap"
    LOOP = "loop"
    BOW = "bow"
    KNOT = "knot"
    ALONG = "along"
    STRIP = "strip"


# What is fixed to the face of a thing, and does not reach round it or over it.
FIXED_ON = frozenset((BandForm.LOOP, BandForm.BOW, BandForm.KNOT))


@dataclass(frozen=True)
class CutLength(ItemDetail):
    """A length to cut of ribbon or tape: what is seen of it or goes round, and the allowance beyond that."""

    form: BandForm
    net: Fraction
    allowance: Fraction
    usual_tools = (Tool.SCISSORS,)

    @property
    def total(self) -> Fraction:
        """What is cut off the roll."""
        return self.net + self.allowance


@dataclass(frozen=True)
class Tied(ItemDetail):
    """A bow or a knot that a ribbon is tied in; `tails` is how long each of a knot's is said to be.

    `at` is how far it lies from the left or top edge of what its ribbon goes round; None of one by itself.
    """

    form: BandForm
    tails: Fraction | None
    at: Fraction | None


@dataclass(frozen=True)
class Raised(TargetDetail):
    """Something raised on so many whole bits of foam, and halves of one; `foam` is the supply's id."""

    foam: str | None
    count: int
    halves: int = 0


@dataclass(frozen=True)
class Added(ItemsDetail):
    """Embellishments added: where they stand each, or scattered over one item's rectangle."""

    count: int
    scattered: bool


@dataclass(frozen=True)
class Moved(ItemsDetail):
    """Items laid or moved together as one block."""


@dataclass(frozen=True)
class HandWork(Detail):
    """Anything else that is done, in the designer's words, to one thing or to several at once."""

    targets: tuple[Target, ...]

    @property
    def lies(self) -> bool:
        """Whether all of it lies on the page already."""
        return all(target.ids for target in self.targets)

    @property
    def ids(self) -> tuple[int, ...]:
        """What is worked on, as far as it lies already."""
        return tuple(id for target in self.targets for id in target.ids)


@dataclass(frozen=True)
class CutAtGutter(ItemDetail):
    """A piece that runs on to the facing page: the part that stays here, and the one that goes there."""

    here: Size
    there: Size
    usual_tools = (Tool.SCISSORS,)
