"""Drawing scales: round reductions, stated as ISO 5455 states them."""

from __future__ import annotations

from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, to_points


@dataclass(frozen=True)
class Scale:
    """A reduction 1:`reduction`."""

    reduction: Fraction

    @property
    def ratio(self) -> str:
        """As printed after the language's word for a scale: `1:4` (ISO 5455)."""
        return f"1:{float(self.reduction):g}"

    def points(self, length: Fraction, unit: Unit) -> float:
        """How long a length in `unit` is drawn, in points."""
        return to_points(length, unit, self.reduction)

    def size(self, size: Size, unit: Unit) -> tuple[float, float]:
        """How wide and high a size in `unit` is drawn, in points."""
        return self.points(size.width, unit), self.points(size.height, unit)


TRUE_SIZE = Scale(Fraction(1))
# ISO 5455 names 1:2, 1:5 and 1:10 (from memory); the steps between them are round scales that a booklet may
# declare, because a 12 in sheet at 1:2 is wider than half a letter page.
# The last makes an inch of the longest side that a spec may hold.
_HALVES = (2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 20, 24, 30, 40, 50, 60, 80, 100, 150, 200)
ROUND_SCALES = tuple(Scale(Fraction(halves, 2)) for halves in _HALVES)
