"""How a booklet is to be bound: its page, the press sheet, folded or flat, how many copies, which flip."""

from __future__ import annotations

from enum import Enum

from booklet.binding.creep import Creep
from booklet.binding.stock import STOCK_OF, PaperStock
from booklet.kit.kit import PageFormat
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size


class Flip(Enum):
    """The edge about which the sheet is turned over before its back is printed."""

    LONG_EDGE = "long"
    SHORT_EDGE = "short"


@dataclass(frozen=True)
class Folded:
    """Sheets folded once and nested: in one signature, or so many in each.

    With `creep` the pages of inner sheets move towards the fold, which may take of the `inner_margin`, the
    white along the fold in points.
    """

    sheets_in_signature: int | None = None
    creep: Creep | None = None
    inner_margin: Fraction = Fraction(0)


@dataclass(frozen=True)
class Flat:
    """Leaves that are not folded, to be punched or bound by the member."""


@dataclass(frozen=True)
class Binding:
    """How a booklet is bound.

    `copies` is how many of each sheet stand on one press sheet, None for as many as fit.  `bleed`, in points,
    is how far the pages are printed beyond their trim.  The press sheet lies on its long side where pages
    are folded, and stands upright for flat ones.
    """

    page: PaperStock
    press: PaperStock
    style: Folded | Flat = Folded()
    copies: int | None = 1
    flip: Flip = Flip.SHORT_EDGE
    bleed: Fraction = Fraction(0)

    @property
    def sheet(self) -> Size:
        """A side of the press sheet in points, as the file shows it."""
        return self.press.landscape if isinstance(self.style, Folded) else self.press.upright


def home_binding(page: PageFormat, flip: Flip = Flip.SHORT_EDGE) -> Binding:
    """The usual way at home: all sheets in one signature, on the smallest usual paper that takes two pages.

    The pages do not move towards the spine in the inner sheets: what is folded at home is seldom trimmed.
    """
    trimmed, press = STOCK_OF[page]
    return Binding(trimmed, press, flip=flip)
