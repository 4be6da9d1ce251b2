"""What a template covers at true size: exact, so that the pages that carry it meet exactly."""

from __future__ import annotations

from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size


@dataclass(frozen=True)
class TemplateArea:
    """The rectangle that a template covers, and where in it the top left corner of its piece or page lies.

    All in points, of which an inch has 72.
    """

    size: Size
    left: Fraction = Fraction(0)
    top: Fraction = Fraction(0)
