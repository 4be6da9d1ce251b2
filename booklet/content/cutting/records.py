"""What the words of the cutting pages are told: how a sheet lies, what is taken, what comes off."""

from __future__ import annotations

from enum import Enum

from booklet.content.spans import Extent, Number, Own, PieceRef
from booklet.kit.fields import Edge, Turn
from booklet.kit.paper import Pattern
from booklet.measure.dataclass import dataclass

# How a sheet lies.


class FaceUp(Enum):
    """How a member tells which face of a sheet is up; PATTERN names the pattern that is then seen."""

    EITHER = "either"
    PRINT_UP = "print up"
    PRINT_DOWN = "print down"
    FRONT = "front"
    BACK = "back"
    PICTURE = "picture"
    BORDER = "border"
    PLAIN = "plain"
    PATTERN = "pattern"


@dataclass(frozen=True)
class PrintWay:
    """Which way a print lies: where its top is, seen from above.

    `pattern` is given where the pattern itself shows the way; `is_beneath` says that the print is face down.
    """

    top: Edge
    pattern: Pattern | None = None
    is_beneath: bool = False


class AlongScale(Enum):
    """Which side of a plain sheet lies along the scale, where that is all that matters."""

    ANY = "any"
    LONG = "long"
    SHORT = "short"


@dataclass(frozen=True)
class NamedEdge:
    """An edge by the member's own word for it, and where it lies, seen from above."""

    name: Own
    place: Edge


@dataclass(frozen=True)
class SheetLay:
    """How a sheet first lies in the trimmer: `count` sheets on each other, which face up, which edge where.

    That is told by the edges that the designer named, or by the way of the print, or it is that of a plain
    sheet.  `pattern` is that of the face that is up; `stop` is the side of the trimmer's stop.
    """

    count: int
    face: FaceUp
    pattern: Pattern
    edge: tuple[NamedEdge, ...] | PrintWay | AlongScale
    stop: Edge


# What is taken for a stage.


class TakenFrom(Enum):
    """Where what is taken for a stage comes from: it lies in the trimmer still, or it was set aside."""

    WHOLE = "whole"
    IN_TRIMMER = "in trimmer"
    SET_ASIDE = "set aside"


@dataclass(frozen=True)
class Take:
    """What is taken for a stage; `is_stacked` says that its pieces are first laid on each other."""

    pieces: tuple[PieceRef, ...]
    taken_from: TakenFrom
    is_stacked: bool
    turn: Turn | None


# What comes off.


@dataclass(frozen=True)
class SheetYield:
    """What a sheet gives: how many sheets of which size, how many pieces of which names."""

    sheets: Number
    size: Extent
    names: tuple[tuple[Number, Own], ...]
    pieces: Number
    spare: Number | None
    has_scrap: bool
    is_cut_apart: bool
