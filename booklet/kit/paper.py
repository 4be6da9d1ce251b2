"""Papers: what each face of a sheet looks like, and what a member calls its edges."""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import Annotated

from booklet.kit.fields import (
    Edge,
    Face,
    HexColour,
    Name,
    PositiveLength,
    RepeatLength,
    Title,
    as_tuple,
)
from booklet.kit.rules import Before, Limits
from booklet.measure.dataclass import dataclass

# Two along each edge, one beside the other.
_MOST_BORDERS = 8


class Pattern(Enum):
    """A print that the booklet draws itself."""

    SOLID = "solid"
    STRIPES = "stripes"
    DOTS = "dots"
    CHECKS = "checks"
    GRID = "grid"
    WAVES = "waves"
    LEAVES = "leaves"
    STARS = "stars"
    SCALLOPS = "scallops"
    CONFETTI = "confetti"


class BorderStyle(Enum):
    """How a printed border along one edge is drawn."""

    BAND = "band"
    SCALLOP = "scallop"
    WAVE = "wave"
    STITCH = "stitch"
    DOTS = "dots"


@dataclass(frozen=True, kw_only=True)
class Border:
    """A printed border along one edge of a face."""

    edge: Edge
    width: PositiveLength
    colour: HexColour
    style: BorderStyle = BorderStyle.BAND


Colours = Annotated[tuple[HexColour, ...], Before(as_tuple), Limits(1, 4)]


@dataclass(frozen=True, kw_only=True)
class Print:
    """One face: a pattern in one to four colours (the ground first), or an image beside the spec."""

    pattern: Pattern = Pattern.SOLID
    colours: Colours = ("#ffffff",)
    repeat: RepeatLength | None = None
    borders: Annotated[tuple[Border, ...], Limits(most=_MOST_BORDERS)] = ()
    image: Name | None = None
    upright: bool | None = None

    @property
    def has_direction(self) -> bool:
        """Whether a turned piece of this face looks different from an unturned one.

        Follows from the print unless the spec says so: a plain face, even dots, checks, a grid and
        confetti do not show a quarter turn; everything else does.
        """
        if self.upright is not None:
            return self.upright
        turnable = {Pattern.SOLID, Pattern.DOTS, Pattern.CHECKS, Pattern.GRID, Pattern.CONFETTI}
        return bool(self.image) or bool(self.borders) or self.pattern not in turnable


@dataclass(frozen=True, kw_only=True)
class Paper:
    """A paper as supplied: two faces and the words a member knows its front's edges by."""

    title: Title | None = None
    front: Print
    back: Print = Print()
    edges: Annotated[dict[Edge, Name], Limits(most=len(Edge))] = field(default_factory=dict)

    def face(self, face: Face) -> Print:
        """What is printed on a face."""
        return self.front if face is Face.FRONT else self.back

    @property
    def has_direction(self) -> bool:
        """Whether a face of the paper shows it when a piece is turned."""
        return self.front.has_direction or self.back.has_direction
