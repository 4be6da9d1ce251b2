"""Lengths as they are drawn, measured on the page and held against what each figure is to show.

What is drawn is found from ink alone: outlines under a scale, arrowheads outside a finished page, the scale
that each figure states.  The kit tells what each is to be.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.figures import PrintCheck
from booklet.drawing.marks.print_check import check_length, check_words
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.placing.resolved import ResolvedKit
from booklet.proof.as_drawn import measured_as_drawn
from booklet.proof.at_table import measured_at_table
from booklet.proof.at_trimmer import ends_off, measured_at_trimmer
from booklet.proof.figures import NARROW
from booklet.proof.measured import Drawn, Measured, Shown, marks_off, millimetres, points
from booklet.proof.printed import POINTS_PER_MM, Page, Stroke
from booklet.proof.scales import DrawnScale, scales_on

# The bar's scale and its dimension line stand so near each other, in points.
_BELOW = 30.0
_SAME = 0.5


def measured(resolved: ResolvedKit, figures: Sequence[Shown], pages: Sequence[Page]) -> tuple[Measured, ...]:
    """All that is measured on the pages; `figures` are those that they are to show."""
    return tuple(one for page in pages for one in _on_page(resolved, figures, page))


def _on_page(resolved: ResolvedKit, figures: Sequence[Shown], page: Page) -> Iterator[Measured]:
    here = [one for one in figures if one.page == page.number]
    yield from measured_at_trimmer(resolved, here, page)
    yield from measured_at_table(resolved, here, page)
    for one in here:
        if isinstance(one.request, PrintCheck):
            yield _bar(one, resolved.kit.unit, page)
    yield from measured_as_drawn(here, page)


def _bar(shown: Shown, unit: Unit, page: Page) -> Measured:
    """The bar by which a print is checked: as long as it says, in its marks and in its dimension line."""
    claim = Drawn(f"{shown.anchor} / print check", shown.page, check_words(unit), ("unit",))
    length = points(check_length(unit), unit)
    bars = [scale for scale in scales_on(page) if abs(scale.right - scale.left - length) < length / 10]
    offs = [_bar_off(bar, length, unit, page) for bar in bars]
    off = min((off for off in offs if off is not None), default=None)
    return Measured(claim, off, bars[0].box if bars else None)


def _bar_off(bar: DrawnScale, length: float, unit: Unit, page: Page) -> float | None:
    """How far in millimetres a bar is from its length, at most; None without its dimension line."""
    lines = [stroke for stroke in page.strokes if _is_line_of(stroke, bar)]
    marks = marks_off(bar.marks, bar.left, points(_numbered(unit), unit))
    line_off = millimetres(max(abs(line.length - length), ends_off(page, line)) for line in lines)
    if marks is None or line_off is None:
        return None
    return max(marks, abs(bar.right - bar.left - length) / POINTS_PER_MM, line_off)


def _numbered(unit: Unit) -> Fraction:
    """How far apart the longest marks stand: those of whole numbers, in millimetres of whole centimetres."""
    return Fraction(10 if unit is Unit.MILLIMETRE else 1)


def _is_line_of(stroke: Stroke, bar: DrawnScale) -> bool:
    left = min(stroke.start[0], stroke.end[0])
    is_narrow = stroke.is_level and not stroke.is_dashed and stroke.width < NARROW + 0.05
    return is_narrow and abs(left - bar.left) < _SAME and 0 < stroke.start[1] - bar.base < _BELOW
