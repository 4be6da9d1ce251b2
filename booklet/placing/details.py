"""What a step does, as data: the numbers that its sentence and its figure need besides the items' places.

Lengths are in the kit's unit.  Ids are those of the items of the layout.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.kit.steps import Corner
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size


@dataclass(frozen=True)
class EvenGap:
    """The gap between neighbours of a row or column; computed where the spec does not state it."""

    direction: Direction
    gap: Fraction
    count: int
    computed: bool


@dataclass(frozen=True)
class NestBorder:
    """What is seen of the lower of two nested things, at its sides and above and below."""

    inner: int
    outer: int
    across: Fraction
    down: Fraction

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
class Snipped:
    """A piece cut in parts; `use` is the whole piece's index among the layout's uses."""

    piece: str
    use: int
    parts: tuple[SnippedPart, ...]
    measured_from: Edge
    at: tuple[Fraction, ...]


@dataclass(frozen=True)
class TrimmedRound:
    """A piece trimmed round a printed outline, to a size where one is stated."""

    piece: str
    size: Size | None
    outline: str | None


@dataclass(frozen=True)
class Target:
    """What a step works on: by name, and the items, where it lies on the page already."""

    name: str
    ids: tuple[int, ...]


@dataclass(frozen=True)
class Rounded:
    """Corners rounded to a radius; the corners are those of the piece as it lies on the page."""

    target: Target
    corners: tuple[Corner, ...]
    radius: Fraction


@dataclass(frozen=True)
class Punched:
    """Corners punched, or a hole: the square round it, on the page or on a piece that is not laid yet."""

    target: Target
    corners: tuple[Corner, ...]
    shape: str | None
    hole: ExactRect | None


@dataclass(frozen=True)
class Inked:
    """Edges inked, as the piece lies on the page; `supply` is the ink's id."""

    target: Target
    edges: tuple[Edge, ...]
    supply: str | None


@dataclass(frozen=True)
class Repeat:
    """How often a repeat of this length fits in a length, and what remains."""

    times: int
    remainder: Fraction
    length: Fraction


@dataclass(frozen=True)
class Stencilled:
    """An area to stencil, the edge of it that a guideline marks, and how the stencil's repeat fits it."""

    item: int
    guideline: Edge | None
    across: Repeat | None
    down: Repeat | None


class BandForm(Enum):
    """What shape a length of ribbon or tape takes."""

    RUN = "run"
    WRAP = "wrap"
    LOOP = "loop"
    BOW = "bow"
    ALONG = "along"
    STRIP = "strip"


@dataclass(frozen=True)
class CutLength:
    """A length to cut of ribbon or tape: what is seen of it or goes round, and the allowance beyond that."""

    item: int
    supply: str
    form: BandForm
    net: Fraction
    allowance: Fraction

    @property
    def total(self) -> Fraction:
        """What is cut off the roll."""
        return self.net + self.allowance


@dataclass(frozen=True)
class Raised:
    """Something raised on foam; `foam` is the supply's id."""

    target: Target
    foam: str | None
    count: int


@dataclass(frozen=True)
class Added:
    """Embellishments added: where they stand each, or scattered over one item's rectangle."""

    items: tuple[int, ...]
    supply: str
    count: int
    scattered: bool


@dataclass(frozen=True)
class Moved:
    """Items laid or moved together as one block."""

    items: tuple[int, ...]


@dataclass(frozen=True)
class CutAtGutter:
    """A piece that runs on to the facing page: the part that stays here, and the one that goes there."""

    item: int
    here: Size
    there: Size


Detail = (
    EvenGap
    | NestBorder
    | Snipped
    | TrimmedRound
    | Rounded
    | Punched
    | Inked
    | Stencilled
    | CutLength
    | Raised
    | Added
    | Moved
    | CutAtGutter
)


def ids_of(detail: Detail) -> tuple[int, ...]:
    """The items that a detail is about."""
    match detail:
        case NestBorder():
            return (detail.inner, detail.outer)
        case Rounded() | Punched() | Inked() | Raised():
            return detail.target.ids
        case Stencilled() | CutLength() | CutAtGutter():
            return (detail.item,)
        case Added() | Moved():
            return detail.items
        case EvenGap() | Snipped() | TrimmedRound():
            return ()
