"""The marks of a print file for home, as operators of a PDF: grey ticks where to fold, black where to cut.

Where there is but black, the ticks where to fold are dotted.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.binding.numbers import number
from booklet.binding.sides import ImposedSide, Line, box_of
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit

# Laser printers leave a strip along each edge blank, 1/6 in; what stands 3 mm beyond it is seen (common
# practice, no source).  As thin as a line may be, 0.18 mm (ISO 128-2, from memory).
_BLANK_EDGE = Fraction(1, 6) * Unit.INCH.points
_SEEN = 3 * Unit.MILLIMETRE.points
_TICK = _BLANK_EDGE + _SEEN
_TICK_WIDTH = Fraction(18, 100) * Unit.MILLIMETRE.points
_FOLD_GREY = Fraction(6, 10)
# Dots as long as the line is wide, in points.
_BLACK, _DOTTED = "0 G", "[0.5 1.2] 0 d"
# Cut marks stand clear of what they cut.
_CLEAR = Unit.MILLIMETRE.points


def home_marks(side: ImposedSide) -> Iterator[str]:
    """Ticks at the cuts of a front, and at the folds of the side that lies outermost.

    They are drawn under the pages.  A cut so near the edge that no printer reaches it has no marks.
    """
    return _marks(side, f"{number(_FOLD_GREY)} G")


def black_marks(side: ImposedSide) -> Iterator[str]:
    """The same marks in black alone."""
    return _marks(side, f"{_BLACK} {_DOTTED}")


def is_cut_marked(front: ImposedSide) -> bool:
    """Whether a front has marks where to cut: none are where the paper is cut already."""
    return any(True for cut in front.cuts for _ in _cut_ticks(cut, front))


def _marks(side: ImposedSide, folding: str) -> Iterator[str]:
    if side.is_outside:
        yield from _drawn(folding, [tick for fold in side.folds for tick in _fold_ticks(fold, side)])
    if side.is_front:
        yield from _drawn(_BLACK, [tick for cut in side.cuts for tick in _cut_ticks(cut, side)])


def _drawn(pen: str, ticks: list[Line]) -> Iterator[str]:
    if not ticks:
        return
    yield f"q {pen} {number(_TICK_WIDTH)} w"
    for tick in ticks:
        yield f"{number(tick.x0)} {number(tick.y0)} m {number(tick.x1)} {number(tick.y1)} l S"
    yield "Q"


def _fold_ticks(fold: Line, side: ImposedSide) -> Iterator[Line]:
    """A tick at each end of a fold, within the trim, so that it is still there once the copies are apart."""
    sheet = box_of(side.size)
    if fold.is_upright:
        for start, end in _ends(fold.y0, fold.y1, sheet.top):
            yield Line(fold.x0, start, fold.x0, end)
    else:
        for start, end in _ends(fold.x0, fold.x1, sheet.right):
            yield Line(start, fold.y0, end, fold.y0)


def _ends(low: Fraction, high: Fraction, length: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    """The ticks at both ends of a fold that runs so far across a sheet of this length."""
    yield _tick(low)
    start, end = _tick(length - high)
    yield length - start, length - end


def _tick(margin: Fraction) -> tuple[Fraction, Fraction]:
    """From the trim so far inwards that it is seen, or from the edge of the sheet where that is near."""
    return (margin, margin + _SEEN) if margin >= _BLANK_EDGE else (Fraction(0), max(_TICK, margin + _SEEN))


def _cut_ticks(cut: Line, side: ImposedSide) -> Iterator[Line]:
    """A tick at each end of a cut: beside what is kept, or from the edge of the sheet where room is short."""
    sheet, kept = box_of(side.size), side.trim
    if cut.is_upright:
        if _is_in_reach(cut.x0, sheet.right):
            for start, end in _cut_ends(kept.bottom, sheet.top - kept.top, sheet.top):
                yield Line(cut.x0, start, cut.x0, end)
    elif _is_in_reach(cut.y0, sheet.top):
        for start, end in _cut_ends(kept.left, sheet.right - kept.right, sheet.right):
            yield Line(start, cut.y0, end, cut.y0)


def _is_in_reach(place: Fraction, length: Fraction) -> bool:
    return _BLANK_EDGE < place < length - _BLANK_EDGE


def _cut_ends(low: Fraction, high: Fraction, length: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    yield _cut_tick(low)
    start, end = _cut_tick(high)
    yield length - start, length - end


def _cut_tick(margin: Fraction) -> tuple[Fraction, Fraction]:
    end = margin - _CLEAR
    return (end - _SEEN, end) if end >= _TICK else (Fraction(0), _TICK)
