"""What placing yields: every item of a layout where it lies, the steps, and what is seen and used."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import field
from functools import cached_property
from typing import Protocol, TypeVar

from booklet.cutting.finish import NOTHING_DONE, Finish
from booklet.kit.fields import Face
from booklet.kit.finding import Finding, SpecPath
from booklet.kit.sheet import OutlineShape
from booklet.kit.steps import Step
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactPoint, ExactRect
from booklet.measure.identity_enum import IdentityEnum
from booklet.measure.length import Size
from booklet.placing.details import BandForm, Detail

D = TypeVar("D", bound=Detail)


class PieceSource(Protocol):
    """Anything that knows the sizes of pieces by name."""

    def size_of(self, name: str) -> Size | None:
        """The size of a piece as it lies upright on the front of its sheet; None for an unknown one."""
        ...

    def finish_of(self, name: str) -> Finish:
        """What was done to a piece before it was filed, as it is seen upright; nothing to an unknown one."""
        ...


class ItemKind(IdentityEnum):
    """What an item of a layout is."""

    BASE = "base"
    PIECE = "piece"
    PHOTO = "photo"
    WRITING = "writing"
    STENCIL = "stencil"
    RIBBON = "ribbon"
    TAPE = "tape"
    ADDED = "added"


_SEEN_THROUGH = (ItemKind.WRITING, ItemKind.STENCIL)


@dataclass(frozen=True)
class Placed:
    """One item where it lies.

    `id` is its number in the order of placing (the base is 0); `rect` where it lies untilted, after its
    quarter turns; `turn` counts quarter turns clockwise, `tilt` degrees clockwise about its `pivot`: the
    middle of the tilted thing that it lies on and is tilted with, or None for its own.  `turn_in_block` are
    those of its quarter turns that it was given with a block, after it was laid.  `layer` is its place
    in the stack (the base is 0).  `piece` is the name of a piece or part, `use` its index in
    `booklet.kit.used.uses`; `supply` the id of a supply, `form` that of a ribbon or tape.
    Several of `count` are scattered over the one rectangle.  Of a piece that is cut at the gutter, `whole` is
    its size before, and `from_facing` says that this is the part that the facing page cut off.
    """

    id: int
    step_number: int
    name: str
    called: str | None
    kind: ItemKind
    rect: ExactRect
    path: SpecPath
    piece: str | None = None
    use: int | None = None
    supply: str | None = None
    form: BandForm | None = None
    turn: int = 0
    turn_in_block: int = 0
    tilt: Fraction = Fraction(0)
    pivot: ExactPoint | None = None
    face: Face = Face.FRONT
    layer: int = 0
    outline: OutlineShape = OutlineShape.RECTANGLE
    finish: Finish = NOTHING_DONE
    count: int = 1
    whole: Size | None = None
    from_facing: bool = False
    overhang: bool = False
    optional: bool = False

    @property
    def covers(self) -> bool:
        """Whether what lies beneath cannot be seen."""
        return self.kind not in _SEEN_THROUGH and self.count == 1

    @property
    def names(self) -> tuple[str, ...]:
        """What a later step may call it by, the closest name first; each once."""
        return tuple(dict.fromkeys(name for name in (self.called, self.piece, self.name) if name))

    @property
    def upright_size(self) -> Size:
        """Its size before it was turned, and before it was cut at the gutter."""
        whole = self.whole or self.rect.size
        return whole.turned if self.turn % 2 else whole


@dataclass(frozen=True)
class PlacedStep:
    """One step, numbered from 1; the items that it lays down carry its number.

    `step` is as the spec has it, but for what it left to placing: a strip that runs across has its turn.
    """

    number: int
    path: SpecPath
    step: Step
    details: tuple[Detail, ...]

    def detail(self, kind: type[D]) -> D | None:
        """Its detail of this kind, the first of several."""
        return next((one for one in self.details if isinstance(one, kind)), None)


@dataclass(frozen=True)
class SupplyUse:
    """A supply used by a layout: a length in the kit's unit or a count."""

    supply: str
    layout: str
    amount: Fraction
    optional: bool


@dataclass(frozen=True)
class Visible:
    """What is seen of an item, by its id: its share of the whole."""

    id: int
    share: Fraction


@dataclass(frozen=True)
class PlacedLayout:
    """One layout with every item in its stacking order, from the base (not among the items) upwards.

    `check` finds what is wrong with it, which takes as long as to place it.
    """

    id: str
    index: int
    size: Size
    base: Placed
    items: tuple[Placed, ...]
    steps: tuple[PlacedStep, ...]
    supplies: tuple[SupplyUse, ...]
    check: Callable[[PlacedLayout], tuple[Finding, ...]] = field(compare=False, repr=False)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What is wrong with it, looked for when somebody asks first."""
        return self.check(self)

    def of_step(self, number: int) -> tuple[Placed, ...]:
        """What a step lays down, in the order in which it does."""
        mine = [item for item in self.items if item.step_number == number]
        return tuple(sorted(mine, key=lambda item: item.id))

    def details(self, kind: type[D]) -> Iterator[D]:
        """The details of this kind, step by step."""
        return (one for step in self.steps for one in step.details if isinstance(one, kind))

    def item(self, id: int) -> Placed:
        """The item of this id."""
        return next(item for item in (self.base, *self.items) if item.id == id)
