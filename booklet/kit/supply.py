"""Supplies: what is used up by length or by count."""

from __future__ import annotations

from enum import Enum

from pydantic.dataclasses import dataclass

from booklet.kit.fields import (
    STRICT,
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


class SupplyKind(Enum):
    """What a supply is, which decides how it is drawn and in what it is counted."""

    RIBBON = "ribbon"
    TAPE = "tape"
    ADHESIVE = "adhesive"
    STENCIL = "stencil"
    INK = "ink"
    FOAM = "foam"
    DOTS = "dots"
    BRADS = "brads"


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Supply:
    """One supply in the box: by `length` (ribbon, tape) or by `count` (dots, brads, a stencil).

    `spare` states again what the layouts leave of it, to be checked.
    """

    id: Name
    kind: SupplyKind
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
    def by_length(self) -> bool:
        """Whether it is used up by length, else by count."""
        return self.kind in (SupplyKind.RIBBON, SupplyKind.TAPE) or self.length is not None
