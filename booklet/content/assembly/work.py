"""What is done to things and with supplies, as the words are told."""

from __future__ import annotations

from dataclasses import dataclass

from booklet.content.assembly.lying import Owner, Thing
from booklet.content.spans import Extent, Length, Number, Own
from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.placing.details import BandForm


@dataclass(frozen=True)
class HalfHere:
    """A piece that is cut where the pages meet: how wide the part is that lies here, and what goes over.

    `facing` is the page that the other part is kept for; `is_alike` says that either half may lie here.
    """

    width: Length
    is_half: bool
    is_alike: bool
    there: Extent
    facing: Own


@dataclass(frozen=True)
class CutShares:
    """A length to cut of ribbon or tape: in all, what is seen or goes round, what is folded or overlaps.

    The allowance of a run is that of each end.
    """

    form: BandForm
    total: Length
    net: Length
    allowance: Length | None


@dataclass(frozen=True)
class Repeats:
    """How often a stencil's pattern fits in one direction, and what remains."""

    times: Number
    over: Length | None


@dataclass(frozen=True)
class Times:
    """How often a stencil is laid, the next beside the last in this direction."""

    count: Number
    direction: Direction


@dataclass(frozen=True)
class Seam:
    """A line of stitches that joins a thing to another or to the page, along an edge of the first.

    It lies `inset` in from that edge and starts so far from its left or top end.
    """

    first: Thing
    second: Owner
    edge: Edge
    inset: Length
    start: Length
    count: Number
    length: Length
    spacing: Length
