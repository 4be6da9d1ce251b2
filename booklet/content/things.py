"""The things of a kit that a booklet tells of, each with the pages on which that is."""

from __future__ import annotations

from enum import Enum

from booklet.content.spans import Own
from booklet.measure.dataclass import dataclass


class ThingKind(Enum):
    """What a thing of a kit is."""

    PIECE = "piece"
    SHEET = "sheet"
    LAYOUT = "layout"
    POCKET = "pocket"
    SUPPLY = "supply"


@dataclass(frozen=True)
class KitThing:
    """A thing by its name and its labels, and the pages on which it is cut, sorted and used.

    The label of a sheet or a layout is its number; pieces of one name and one sheet are one thing.
    """

    kind: ThingKind
    name: Own
    labels: tuple[str, ...] = ()
    cut: tuple[int, ...] = ()
    sorted: tuple[int, ...] = ()
    used: tuple[int, ...] = ()

    @property
    def pages(self) -> tuple[int, ...]:
        """All its pages, in order."""
        return tuple(sorted({*self.cut, *self.sorted, *self.used}))
