"""What is done to things and with supplies, as the words are told."""

from __future__ import annotations

from booklet.content.assembly.lying import Owner, Thing
from booklet.content.spans import Length, Number
from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.measure.dataclass import dataclass


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
class Tie:
    """The bow or knot that a wrap is tied in: how long a knot's tails are, how far along its run it lies.

    It lies in the middle where no distance is said.
    """

    is_bow: bool
    tails: Length | None
    at: Length | None
    run: Direction


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
