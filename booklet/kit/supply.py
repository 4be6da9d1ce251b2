"""Supplies: what is used up by length or by count."""

from __future__ import annotations

from enum import Enum
from typing import Annotated

from booklet.kit.fields import (
    LONGEST_NAME,
    Amount,
    HexColour,
    Name,
    PositiveLength,
    RepeatSize,
    SizeField,
    StockLength,
    StockRest,
    Title,
    WordsField,
)
from booklet.kit.rules import Spelt, Typed
from booklet.measure.dataclass import dataclass


class SupplyKind(Enum):
    """What a supply is, which decides how it is drawn and in what it is counted.

    OWN is any other, which the maker of the kit names, counts, and says the outline of.
    """

    RIBBON = "ribbon"
    TAPE = "tape"
    ADHESIVE = "adhesive"
    STENCIL = "stencil"
    INK = "ink"
    FOAM = "foam"
    DOTS = "dots"
    BRADS = "brads"
    OWN = "something of a kind of its own"


KIND_WORDS = tuple(kind.value for kind in SupplyKind if kind is not SupplyKind.OWN)
KindWord = Annotated[
    Name,
    Typed(
        {"anyOf": [{"enum": list(KIND_WORDS)}, {"type": "string", "minLength": 1, "maxLength": LONGEST_NAME}]}
    ),
]


class SupplyOutline(Enum):
    """The outline of what is put on one by one, upright; it is as large as the supply's size."""

    CIRCLE = "circle"
    HALF_CIRCLE = "half circle"
    RECTANGLE = "rectangle"
    DIAMOND = "diamond"
    DROP = "drop"
    HEART = "heart"
    STAR = "star"
    FLOWER = "flower"


class SupplyOrigin(Enum):
    """Where a supply comes from: out of the box, or from the member's home."""

    BOX = "box"
    HOME = "home"


@dataclass(frozen=True, kw_only=True)
class Supply:
    """One supply: by `length` (ribbon, tape) or by `count` (dots, brads, a stencil).

    `word` is what the spec calls its kind.  How much is needed of what comes from home follows from the
    layouts; what is stated of it is what the member is told to bring.  `spare` states again
    what the layouts leave of it, to be checked.
    """

    id: Name
    word: Annotated[KindWord, Spelt("kind")]
    origin: Annotated[SupplyOrigin, Spelt("from")] = SupplyOrigin.BOX
    outline: SupplyOutline | None = None
    title: Title | None = None
    length: StockLength | None = None
    width: PositiveLength | None = None
    size: SizeField | None = None
    repeat: RepeatSize | None = None
    count: Amount | None = None
    spare: StockRest | None = None
    colour: HexColour = "#8a5a44"
    tip: WordsField | None = None

    @property
    def kind(self) -> SupplyKind:
        """What it is, as far as its look and its use depend on it."""
        return SupplyKind(self.word) if self.word in KIND_WORDS else SupplyKind.OWN

    @property
    def is_from_home(self) -> bool:
        """Whether the member brings it along."""
        return self.origin is SupplyOrigin.HOME

    @property
    def by_length(self) -> bool:
        """Whether it is used up by length, else by count."""
        return self.kind in (SupplyKind.RIBBON, SupplyKind.TAPE) or self.length is not None
