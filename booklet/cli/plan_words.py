"""What cuts cost, in words and figures."""

from __future__ import annotations

from booklet.cutting.counts import effort
from booklet.cutting.model import CutSheet
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.rounding import round_to
from booklet.measure.words import plain_size


def cost_words(cut: CutSheet, unit: Unit) -> str:
    """`11 cuts, 11 settings, 1 turn; scrap 1.7 %, in one piece 3 1/4 x 1/4`."""
    done = effort(cut)
    work = ", ".join((count(done.cuts, "cut"), count(done.settings, "setting"), count(done.turns, "turn")))
    return f"{work}; {scrap_words(cut, unit)}"


def scrap_words(cut: CutSheet, unit: Unit) -> str:
    """How much of the paper is scrap, and its largest piece."""
    if not cut.scrap:
        return "no scrap"
    largest = max((piece.size for piece in cut.scrap), key=lambda size: (size.area, size.width))
    return f"scrap {percent(effort(cut).scrap_share)}, the largest piece {plain_size(largest, unit)}"


def percent(share: Fraction) -> str:
    """A share of the whole with one decimal: `1.7 %`."""
    tenths = round_to(share * 100, Fraction(1, 10))
    return f"{float(tenths):.1f} %"


def count(number: int, what: str) -> str:
    """`1 cut`, `2 cuts`, `no cuts`."""
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"
