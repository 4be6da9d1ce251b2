"""The figures that content asks for: what each shows, as data.  How large it is drawn, its reader decides.

Indexes are those of the resolved kit; step numbers those of the spec, from 1.
"""

from __future__ import annotations

from enum import Enum

from booklet.content.spans import Extent, Length
from booklet.kit.fields import Edge, Turn
from booklet.measure.dataclass import dataclass

# At the trimmer.


@dataclass(frozen=True)
class TrimmerFigure:
    """A small picture of the trimmer with a sheet in it, as it first lies."""

    sheet: int


@dataclass(frozen=True)
class CutFigure:
    """One stage at the trimmer: the piece as it lies, the scale, the cuts by number, strips, sizes."""

    sheet: int
    stage: int


@dataclass(frozen=True)
class StageLayers:
    """The same for a screen: in layers that come and go as the cuts are made."""

    sheet: int
    stage: int


@dataclass(frozen=True)
class LensFigure:
    """Stretches of the trimmer's scale at true size, with the marks of these cuts of a stage."""

    sheet: int
    stage: int
    cuts: tuple[int, ...]


@dataclass(frozen=True)
class PieceMap:
    """A whole sheet with the outlines and letters of all that is cut from it."""

    sheet: int


class Sign(Enum):
    """A sign of the cutting figures, drawn alone where it is explained."""

    READING = "reading"
    LENS = "lens"
    PIECE = "piece"
    SET_ASIDE = "set aside"
    SCRAP = "scrap"
    STACK = "stack"
    WIDTH = "width"
    BRACKET = "bracket"
    REGISTER_MARK = "register mark"
    FLAG = "flag"


@dataclass(frozen=True)
class SignFigure:
    """One sign of the figures; `value` is what stands on it where it shows a length.

    Words beside a sign that name a length name the same.
    """

    sign: Sign
    value: Length


@dataclass(frozen=True)
class TurnFigure:
    """An arrow that shows how a piece is turned in the hand."""

    turn: Turn


# At the table.


@dataclass(frozen=True)
class Flag:
    """A value on a ruler along the page: the printed steps that need it, and from which edge it counts.

    `along` is the edge whose ruler it stands on; it counts from `start`, one of that ruler's two ends.
    """

    along: Edge
    start: Edge
    value: Length
    steps: tuple[int, ...]


@dataclass(frozen=True)
class NumberedLayout:
    """The finished page with a ring for each printed step, and a ruler with flags along its edges.

    `numbers` gives the printed number of each step of the spec, in order.
    """

    layout: int
    numbers: tuple[int, ...]
    flags: tuple[Flag, ...]


@dataclass(frozen=True)
class StepFigure:
    """The page as it stands once this printed step is done: what the finished page hides."""

    layout: int
    numbers: tuple[int, ...]
    step: int


@dataclass(frozen=True)
class FinishedPages:
    """Finished pages side by side as a spread lies open, without numbers."""

    layouts: tuple[int, ...]


@dataclass(frozen=True)
class LayoutLayers:
    """The page for a screen: in layers that come as the printed steps are done.  `numbers` as above."""

    layout: int
    numbers: tuple[int, ...]


# In the box.


@dataclass(frozen=True)
class PileFigure:
    """Sheets of the pile from the top down, by index, each as it lies, with a leader to the right side."""

    sheets: tuple[int, ...]


@dataclass(frozen=True)
class ReadySwatch:
    """A ready-cut piece, small."""

    ready: int


@dataclass(frozen=True)
class SupplySwatch:
    """A supply, small."""

    supply: int


@dataclass(frozen=True)
class PhotoFigure:
    """A photograph in outline, as it lies."""

    size: Extent


@dataclass(frozen=True)
class PocketFigure:
    """A pocket of the sorter with its name."""

    name: str


@dataclass(frozen=True)
class PrintFrame:
    """A frame at true size, into which a print of this size is glued."""

    size: Extent


@dataclass(frozen=True)
class PaperStrips:
    """All papers of the kit as strips, for the back cover."""


@dataclass(frozen=True)
class PaperBand:
    """A strip of the front of a sheet's paper, for the edge of its pages."""

    sheet: int


@dataclass(frozen=True)
class KitFlow:
    """The whole kit: every piece a strand from its sheet, or the box, through its pocket to its layout."""


@dataclass(frozen=True)
class PrintCheck:
    """A bar of known length to check the printed size by."""


FigureRequest = (
    TrimmerFigure
    | CutFigure
    | StageLayers
    | LensFigure
    | PieceMap
    | SignFigure
    | TurnFigure
    | NumberedLayout
    | StepFigure
    | FinishedPages
    | LayoutLayers
    | PileFigure
    | ReadySwatch
    | SupplySwatch
    | PhotoFigure
    | PocketFigure
    | PrintFrame
    | PaperStrips
    | PaperBand
    | KitFlow
    | PrintCheck
)
