"""The paper of office printers, on which templates and lost pages are printed, and what they leave white."""

from __future__ import annotations

from enum import Enum

from booklet.kit.kit import PageFormat
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit

_MM = Unit.MILLIMETRE.points
# What office printers leave white at each edge, 1/4 in or 6.35 mm (common practice, no source), in points.
WHITE_EDGE = Fraction(18)


class OfficePaper(Enum):
    """A paper that office printers take: Letter (ASME Y14.1, A) or A4 (ISO 216)."""

    LETTER = "letter"
    A4 = "a4"

    @property
    def upright(self) -> Size:
        """Its size in points, upright."""
        return _UPRIGHT[self]

    @property
    def title(self) -> str:
        """What it is called."""
        return _TITLES[self]


_TITLES = {OfficePaper.LETTER: "Letter", OfficePaper.A4: "A4"}
_UPRIGHT = {
    OfficePaper.LETTER: Size(Fraction(612), Fraction(792)),
    OfficePaper.A4: Size(210 * _MM, 297 * _MM),
}


def usual_paper(page: PageFormat) -> OfficePaper:
    """What office printers hold in the lands of a page format."""
    return OfficePaper.A4 if page.is_metric else OfficePaper.LETTER
