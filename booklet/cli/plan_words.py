"""What cuts cost, in words and figures."""

from __future__ import annotations

from booklet.cutting.model import CutSheet, sheet_work
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction, round_to
from booklet.measure.length import Size, Unit
from booklet.measure.words import plain_size


@dataclass(frozen=True)
class FoundCuts:
    """Planned cuts carried out; what they give is all that is wanted, unless they are the `most` found.

    `proved`: no cuts are fewer.
    """

    sheet: CutSheet
    proved: bool
    most: bool = False


def found_words(found: FoundCuts, unit: Unit) -> str:
    """What planned cuts cost, and where nothing better is ruled out, that they are the best found."""
    words = cost_words(found.sheet, unit)
    if found.most:
        return f"{words}; the best found, it does not give all pieces"
    return words if found.proved else f"{words}; the best found, not proved the fewest cuts"


def cost_words(cut: CutSheet, unit: Unit) -> str:
    """`11 cuts, 11 settings, 1 turn; scrap 1.7 %, the largest piece 3 1/4 x 1/4`."""
    done = sheet_work(cut)
    work = ", ".join((count(done.cuts, "cut"), count(done.settings, "setting"), count(done.turns, "turn")))
    return f"{work}; {scrap_words(cut, unit)}"


def scrap_words(cut: CutSheet, unit: Unit) -> str:
    """How much of the paper is scrap, and its largest piece."""
    largest = largest_scrap(cut)
    if largest is None:
        return "no scrap"
    return f"scrap {percent(sheet_work(cut).scrap_share)}, the largest piece {plain_size(largest, unit)}"


def largest_scrap(cut: CutSheet) -> Size | None:
    """The size of the largest piece of scrap, as it lies on the front."""
    sizes = [piece.part.size for piece in cut.scrap]
    return max(sizes, key=lambda size: (size.area, size.width), default=None)


def percent(share: Fraction) -> str:
    """A share of the whole with one decimal: `1.7 %`."""
    tenths = round_to(share * 100, Fraction(1, 10))
    return f"{float(tenths):.1f} %"


def count(number: int, what: str) -> str:
    """`1 cut`, `2 cuts`, `no cuts`."""
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"
