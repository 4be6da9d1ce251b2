"""Where something lies on a layout, in the words of a designer."""

from __future__ import annotations

import re
from enum import Enum
from typing import Annotated, Any

from booklet.kit.fields import BorderLength, Edge, Face, LengthField, Name, Turn, as_tuple, is_exact
from booklet.kit.rules import Before, Limits, ReadBy
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction, read_exact
from booklet.measure.identity_enum import IdentityEnum

SOME_DEGREES = "degrees such as 5 or -2.5"
_MOST_TILT = 90
_TYPED_DEGREES = re.compile(r"[-+]?[0-9]{1,3}(\.[0-9]{1,9}|/[1-9][0-9]{0,3})?")


class NeighbourSide(Enum):
    """On which side of another piece something lies."""

    LEFT = "left"
    RIGHT = "right"


class Direction(IdentityEnum):
    """One of the two directions of an upright page."""

    ACROSS = "across"
    DOWN = "down"


class Centring(Enum):
    """Along which direction something is centred on its reference."""

    BOTH = "both"
    ACROSS = "across"
    DOWN = "down"


def _centring(value: Any) -> Any:
    """`centred: yes` is the plain way to say both."""
    return Centring.BOTH if value is True or value in ("yes", "true") else value


def _all_edges(value: Any) -> Any:
    """`edges: all` is the plain way to name the four."""
    return tuple(Edge) if value == "all" else as_tuple(value)


def _degrees(value: Any) -> Fraction:
    """Degrees are kept as typed, exactly: 2.5 is 5/2."""
    if isinstance(value, bool) or not (isinstance(value, str | int | float) or is_exact(value)):
        raise ValueError(SOME_DEGREES)
    # Not left to the fraction alone, which spends hours on 1e999999999.
    if not _TYPED_DEGREES.fullmatch(str(value).strip()):
        raise ValueError(SOME_DEGREES)
    degrees = read_exact(str(value).strip())
    if abs(degrees) > _MOST_TILT:
        raise ValueError("degrees from -90 to 90, clockwise")
    return degrees


def _border(value: Any) -> Any:
    """One border is the same on all sides; two are the one at the sides and the one above and below."""
    return (value, value) if isinstance(value, str | int | float) or is_exact(value) else value


Edges = Annotated[tuple[Edge, ...], Before(_all_edges), Limits(most=len(Edge))]
PieceNames = Annotated[tuple[Name, ...], Before(as_tuple)]
DegreesField = Annotated[
    Fraction,
    ReadBy(_degrees, {"type": ["number", "string"], "description": "degrees clockwise, -90 to 90"}),
]
BorderWidths = Annotated[tuple[BorderLength, BorderLength], Before(_border)]


@dataclass(frozen=True, kw_only=True)
class Position:
    """Where something lies: distances from edges of the page, or of something already placed.

    Each axis is fixed once: by a distance from one edge of the frame, by `flush`, by `centred`, or by lying
    beside, above or below something at a `gap`.  The frame is the page, or what `on` or `under` names; there,
    an axis of which nothing is said is centred.  Edges in line (`flush`) and centres (`centred`) are those
    of what `flush_with` or `centred_on` names, else of what it lies beside, above or below, else the frame's.
    `tucked` names things that this goes beneath, wherever it lies.  `border` is what must be seen of the
    piece underneath all round, 0 where the two are flush.  A `loose` piece is put together on the table and
    laid down by a later `group`.  `spread` measures across both facing layouts; what crosses the gutter is
    cut there.
    """

    on: Name | None = None
    under: Name | None = None
    tucked: Annotated[PieceNames, Limits(most=40)] = ()
    beside: Name | None = None
    side: NeighbourSide | None = None
    above: Name | None = None
    below: Name | None = None
    gap: LengthField | None = None
    left: LengthField | None = None
    right: LengthField | None = None
    top: LengthField | None = None
    bottom: LengthField | None = None
    flush: Edges = ()
    flush_with: Name | None = None
    centred: Annotated[Centring | None, Before(_centring)] = None
    centred_on: Name | None = None
    border: BorderWidths | None = None
    turn: Turn | None = None
    tilt: DegreesField = Fraction(0)
    face: Face = Face.FRONT
    overhang: bool = False
    loose: bool = False
    spread: bool = False
