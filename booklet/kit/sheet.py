"""Sheets and their cuts, cut-apart sheets and their printed elements, ready-cut pieces."""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import Annotated

from pydantic import BeforeValidator, Field
from pydantic.dataclasses import dataclass

from booklet.kit.fields import (
    STRICT,
    Colour,
    Face,
    Length,
    Name,
    PositiveLength,
    SizeField,
    Turn,
    Words,
    as_tuple,
)

SCRAP = "scrap"

# No sheet is cut oftener than this; more is a slip or an attack, and comparing all pairs would take long.
_MOST_CUTS = 60
_MOST_ELEMENTS = 200

Names = Annotated[tuple[Name, ...], BeforeValidator(as_tuple), Field(max_length=_MOST_CUTS + 1)]
Readings = Annotated[
    tuple[PositiveLength, ...], BeforeValidator(as_tuple), Field(min_length=1, max_length=_MOST_CUTS)
]


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Lay:
    """How a sheet first lies in the trimmer: which face is up and which edge is at the scale's zero.

    `left` is an edge of the front (top, right, bottom, left) or the paper's own words for one.
    """

    face: Face = Face.FRONT
    left: Name = "left"


@dataclass(config=STRICT, frozen=True, kw_only=True)
class CutStep:
    """Take the sheet or pieces of it, turn them or not, and cut at these readings in this order.

    `leaves` names what then lies between neighbouring readings, from the scale's zero outwards.
    """

    at: Readings
    leaves: Names = ()
    take: Names = ()
    turn: Turn | None = None
    tip: Words | None = None


class Picture(Enum):
    """A small picture that the booklet draws on a printed element."""

    SUN = "sun"
    WAVE = "wave"
    LEAF = "leaf"
    STAR = "star"
    HEART = "heart"
    BOAT = "boat"
    SHELL = "shell"
    ANCHOR = "anchor"
    ARROW = "arrow"
    FEATHER = "feather"
    FLOWER = "flower"
    CAMERA = "camera"


class Frame(Enum):
    """The printed line round an element."""

    NONE = "none"
    LINE = "line"
    DOUBLE = "double"
    DASHED = "dashed"
    TICKET = "ticket"


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Element:
    """One printed element of a cut-apart sheet: where it lies on the front, and its artwork."""

    name: Name
    left: Length
    top: Length
    size: SizeField
    words: Words | None = None
    picture: Picture | None = None
    frame: Frame = Frame.NONE
    ground: Colour = "#ffffff"
    ink: Colour = "#33414d"


@dataclass(config=STRICT, frozen=True, kw_only=True)
class Sheet:
    """One sheet of the kit (or several alike, cut together) and its cuts in order.

    With `elements` it is a cut-apart sheet: its cuts run on printed register marks between them, and a
    piece that holds one element takes that element's name.
    """

    id: Name
    paper: Name
    title: Words | None = None
    size: SizeField | None = None
    count: Annotated[int, Field(ge=1, le=12)] = 1
    lay: Lay = Lay()
    cuts: Annotated[tuple[CutStep, ...], Field(max_length=_MOST_CUTS)] = ()
    elements: Annotated[tuple[Element, ...], Field(max_length=_MOST_ELEMENTS)] = ()
    spare: Names = ()
    sizes: dict[Name, SizeField] = field(default_factory=dict)
    pockets: dict[Name, int] = field(default_factory=dict)
    tip: Words | None = None

    @property
    def is_cut_apart(self) -> bool:
        """Whether this is a printed sheet of small elements."""
        return bool(self.elements)


class Outline(Enum):
    """The outline of a ready-cut piece."""

    RECTANGLE = "rectangle"
    CIRCLE = "circle"
    TAG = "tag"


@dataclass(config=STRICT, frozen=True, kw_only=True)
class ReadyCut:
    """Pieces that come ready-cut in the box: mats, tags, die-cut shapes."""

    name: Name
    size: SizeField
    paper: Name
    count: Annotated[int, Field(ge=1, le=999)] = 1
    spare: Annotated[int, Field(ge=0, le=999)] = 0
    outline: Outline = Outline.RECTANGLE
    tip: Words | None = None
