"""Stitches: a line of thread that joins two things along an edge of the first."""

from __future__ import annotations

from booklet.kit.fields import Edge
from booklet.kit.steps import Step, Stitch
from booklet.kit.supply import SupplyKind
from booklet.kit.words import quoted
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Unit
from booklet.measure.words import exact_length
from booklet.placing.details import ItemDetail, Tool
from booklet.placing.limits import allowances_for
from booklet.placing.model import ItemKind, Placed
from booklet.placing.polygons import without
from booklet.placing.state import (
    BASE_ID,
    PlacingState,
    Reference,
    StepHandler,
    add_detail,
    find,
    mark_missing,
    put,
    tilted_with,
)
from booklet.placing.supply_use import supply_of, use_supply
from booklet.placing.visible import is_upright, item_ring

STITCHES = "stitches"

# How wide a line of stitches with its holes looks (seen on a table, no source).
_THREAD = {Unit.INCH: Fraction(1, 16), Unit.MILLIMETRE: Fraction(3, 2), Unit.CENTIMETRE: Fraction(3, 20)}


@dataclass(frozen=True)
class Stitched(ItemDetail):
    """A line of stitches through two things: the ids of both, and along which edge of the first it runs.

    It lies `inset` in from that edge; the first of `count` stitches begins `start` from the left or top end
    of the edge.  Each is of a `length`, with a `spacing` between.
    """

    first: tuple[int, ...]
    second: tuple[int, ...]
    edge: Edge
    inset: Fraction
    start: Fraction
    count: int
    length: Fraction
    spacing: Fraction
    usual_tools = (Tool.NEEDLE,)


def stitches_along(line: Fraction, length: Fraction, spacing: Fraction) -> int:
    """How many stitches of a length fit in a line, with so much between two of them."""
    return int((line + spacing) // (length + spacing))


def stitch(state: PlacingState, step: Stitch) -> None:
    """Join two things with a line of stitches."""
    names = step.stitch
    found = [find(state, name, "stitch", place) for place, name in enumerate(names)]
    if step.thread is not None:
        supply_of(state, step.thread, "thread", kinds={SupplyKind.RIBBON})
    first, second = found
    if first is None or second is None:
        mark_missing(state, step.called, STITCHES)
        return
    if len(first.ids) > 1 or BASE_ID in first.ids or set(first.ids) & set(second.ids):
        said = f"stitches run along {quoted(names[0])}"
        cure = "name one piece first, and then another, or the page"
        state.report("stitch-what", said, cure, "stitch", 0)
        return
    _sew(state, step, state.items[first.ids[0]], second)


def _sew(state: PlacingState, step: Stitch, host: Placed, second: Reference) -> None:
    if {state.loose.get(host.id)} != {state.loose.get(id) for id in second.ids}:
        found = "one of the two lies loose, whose place on the page is not settled"
        cure = "stitch them before both are laid loose, or after their group is laid"
        state.report("loose-mixed", found, cure)
        return
    is_across = not step.along.is_upright
    edge = host.rect.width if is_across else host.rect.height
    ends = step.inset if step.ends is None else step.ends
    count = stitches_along(edge - 2 * ends, step.length, step.spacing)
    if count < 1:
        unit = state.kit.unit
        found = f"a stitch of {exact_length(step.length, unit)} on an edge of {exact_length(edge, unit)}"
        state.report("stitch-too-long", found, "make it shorter", "length")
        return
    line = count * step.length + (count - 1) * step.spacing
    start = (edge - line) / 2
    item = _line_item(state, step, host, _line_rect(state, step, host.rect, start, line), count)
    for name, place, ids in zip(step.stitch, (0, 1), ((host.id,), second.ids), strict=True):
        if not any(_holds(state.items[id], item) for id in ids):
            found = f"the stitches lie partly beside {quoted(name)}"
            cure = "move the line, or let the two things overlap further"
            state.report("stitch-beside", found, cure, "stitch", place)
            return
    placed = put(state, item)
    state.mounted[placed.id] = (host.id,)
    if host.id in state.loose:
        state.loose[placed.id] = state.loose[host.id]
    detail = Stitched(
        placed.id, (host.id,), second.ids, step.along, step.inset, start, count, step.length, step.spacing,
    )  # fmt: skip
    add_detail(state, detail)
    if step.thread is not None:
        tails = 2 * allowances_for(state.kit.unit).ends
        use_supply(state, step, step.thread, line + tails)


def _line_rect(
    state: PlacingState, step: Stitch, host: ExactRect, start: Fraction, line: Fraction
) -> ExactRect:
    """The line from the first stitch to the last, as wide as it looks."""
    wide = _THREAD[state.kit.unit]
    at = step.inset - wide / 2
    match step.along:
        case Edge.TOP:
            return ExactRect(host.x + start, host.y + at, line, wide)
        case Edge.BOTTOM:
            return ExactRect(host.x + start, host.bottom - at - wide, line, wide)
        case Edge.LEFT:
            return ExactRect(host.x + at, host.y + start, wide, line)
        case Edge.RIGHT:
            return ExactRect(host.right - at - wide, host.y + start, wide, line)


def _line_item(state: PlacingState, step: Stitch, host: Placed, rect: ExactRect, count: int) -> Placed:
    """The line as an item: it is tilted with what it runs along."""
    item = Placed(
        0, state.number, step.called or STITCHES, step.called, ItemKind.ADDED, rect, state.path,
        supply=step.thread, count=count, optional=step.optional, overhang=host.overhang,
    )  # fmt: skip
    return tilted_with(item, host)


def _holds(host: Placed, line: Placed) -> bool:
    """Whether a line lies on a thing with its whole length and width."""
    if is_upright(host) and is_upright(line):
        return host.rect.contains(line.rect)
    return not without([item_ring(line)], item_ring(host))


HANDLERS: dict[type[Step], StepHandler] = {Stitch: stitch}
