"""Lengths for who has a trimmer and a ruler in the other unit, to the nearest of their marks."""

from __future__ import annotations

from booklet.content.spans import Extent, Length, Role
from booklet.kit.kit import usual_mark
from booklet.measure.exact import Fraction, round_to
from booklet.measure.length import TIMES, Unit, convert
from booklet.measure.words import APPROXIMATELY, RULER, print_length

# What is set at the trimmer, or cut by it; all else is measured with a ruler.
_AT_TRIMMER = {Role.READING, Role.SIZE, Role.WIDTH}


def other_unit(unit: Unit) -> Unit:
    """The unit of the other kind of trimmer."""
    return Unit.MILLIMETRE if unit is Unit.INCH else Unit.INCH


def other_text(span: Length | Extent) -> str:
    """A length or a size in the other unit, which it names: `108 mm`, or `≈ 108 mm` where it is rounded."""
    if isinstance(span, Length):
        mark = usual_mark(other_unit(span.unit)) if span.role in _AT_TRIMMER else _ruler(span.unit)
        values = [span.value]
    else:
        mark, values = usual_mark(other_unit(span.unit)), [span.size.width, span.size.height]
    into = other_unit(span.unit)
    exact = [convert(value, span.unit, into) for value in values]
    rounded = [_nearest(value, mark) for value in exact]
    said = f"\u00a0{TIMES}\u00a0".join(print_length(value, into) for value in rounded)
    about = "" if rounded == exact else f"{APPROXIMATELY}\u00a0"
    return f"{about}{said}\u00a0{into.value}"


def _ruler(unit: Unit) -> Fraction:
    return RULER[other_unit(unit)]


def _nearest(value: Fraction, mark: Fraction) -> Fraction:
    """The nearest mark, but never none: what is there measures something."""
    return round_to(value, mark) or (mark if value else Fraction(0))
