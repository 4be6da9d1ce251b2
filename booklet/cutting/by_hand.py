"""What scissors and punches can do to an upright piece: alike at the cutting table and on a layout."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from booklet.kit.fields import Edge
from booklet.kit.sheet import SCRAP
from booklet.kit.steps import Corner
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit
from booklet.measure.words import exact_length, exact_size

# What is wrong with a step: what was found, and the cure.
Fault = tuple[str, str]

_FAR_EDGES = {Edge.RIGHT, Edge.BOTTOM}


def _stops(size: Size, edge: Edge, at: Sequence[Fraction]) -> list[Fraction]:
    """Where the parts of a snipped piece begin and end, from an edge to the one over against it."""
    return [Fraction(0), *at, size.width if edge.is_upright else size.height]


def snipped_parts(size: Size, edge: Edge, at: Sequence[Fraction]) -> list[ExactRect]:
    """The parts that snips at distances from an edge leave, in their order from it."""
    length, zero = size.width if edge.is_upright else size.height, Fraction(0)
    parts: list[ExactRect] = []
    for low, high in pairwise(_stops(size, edge, at)):
        start = length - high if edge in _FAR_EDGES else low
        if edge.is_upright:
            parts.append(ExactRect(start, zero, high - low, size.height))
        else:
            parts.append(ExactRect(zero, start, size.width, high - low))
    return parts


def snip_beyond(size: Size, edge: Edge, at: Sequence[Fraction], unit: Unit) -> Fault | None:
    """Snips that are out of order or off the piece."""
    stops = _stops(size, edge, at)
    if all(one < other for one, other in pairwise(stops)):
        return None
    found = f"snips at {', '.join(exact_length(one, unit) for one in at)} of {exact_length(stops[-1], unit)}"
    cure = "give distances from one edge, each further than the one before and within the piece"
    return found, cure


def snip_leaves(at: Sequence[Fraction], leaves: Sequence[str]) -> Fault | None:
    """More or fewer names than snips leave parts."""
    if len(leaves) == len(at) + 1:
        return None
    found = f"{len(at)} snips leave {len(at) + 1} parts; {len(leaves)} are named"
    return found, f"name each part, or {SCRAP}"


def trim_too_large(size: Size, whole: Size, unit: Unit) -> Fault | None:
    """A trim to more than there is."""
    if size.width <= whole.width and size.height <= whole.height:
        return None
    found = f"{exact_size(size, unit)} out of {exact_size(whole, unit)}"
    return found, "correct one of the sizes"


def radius_too_large(radius: Fraction, size: Size, unit: Unit) -> Fault | None:
    """A rounding that leaves nothing of an edge."""
    if 2 * radius <= min(size.width, size.height):
        return None
    found = f"a radius of {exact_length(radius, unit)} on {exact_size(size, unit)}"
    return found, "round to no more than half the shorter side"


def punch_what(hole: Fraction | None, corners: Sequence[Corner]) -> Fault | None:
    """A punch for neither corners nor a hole, or for both."""
    if (hole is None) != (not corners):
        return None
    found = "neither corners nor a hole" if hole is None else "both corners and a hole"
    return found, "say corners: or hole:, and one step for each"


def hole_off_piece(rim: ExactRect, piece: ExactRect, unit: Unit) -> Fault | None:
    """A hole with no paper left on some side of it."""
    if piece.x < rim.x and rim.right < piece.right and piece.y < rim.y and rim.bottom < piece.bottom:
        return None
    sizes = f"{exact_length(rim.width, unit)} on {exact_size(piece.size, unit)}"
    found = f"a hole of {sizes} breaks an edge, or lies beside the piece"
    return found, "move it further in, or make it smaller"
