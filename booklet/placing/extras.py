"""Stencilled areas, brads and other embellishments."""

from __future__ import annotations

from booklet.cutting.orientation import beyond
from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.kit.steps import Add, Corner, Stencil, Step
from booklet.kit.supply import Supply, SupplyKind
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size
from booklet.measure.words import exact_length, exact_size
from booklet.placing.axis import ConstraintKind
from booklet.placing.details import Added, Repeat, Stencilled
from booklet.placing.lay import item_at
from booklet.placing.limits import allowances_for
from booklet.placing.model import ItemKind, Placed
from booklet.placing.position import SolvedPosition, solve_position
from booklet.placing.put import put_down, put_in_line, turned_size
from booklet.placing.series import line_up
from booklet.placing.state import PlacingState, StepHandler, add_detail, find, mark_missing
from booklet.placing.supply_use import supply_of, use_supply

_ADDED = {SupplyKind.BRADS, SupplyKind.DOTS, SupplyKind.FOAM, SupplyKind.ADHESIVE, SupplyKind.OWN}
# What a hand dabs in line at most, and on one page (common practice, no source).
_MOST_REPEATS = 99
_MOST_ON_PAGE = 20_000
_LEFT_CORNERS = {Corner.TOP_LEFT, Corner.BOTTOM_LEFT}
_TOP_CORNERS = {Corner.TOP_LEFT, Corner.TOP_RIGHT}
# Small things are measured to where they pierce the paper or lie on it: to their middle.
_POINT = Size(Fraction(0), Fraction(0))


def fit_repeat(length: Fraction, repeat: Fraction) -> Repeat:
    """How often a repeat fits in a length, and the remainder."""
    times, remainder = divmod(length, repeat)
    return Repeat(times, remainder, repeat)


def stencil(state: PlacingState, step: Stencil) -> None:
    """Mark an area to stencil, with the guideline that the stencil is laid along."""
    supply = supply_of(state, step.stencil, "stencil", kinds={SupplyKind.STENCIL})
    if step.supply is not None:
        supply_of(state, step.supply, "supply", kinds={SupplyKind.INK})
    width, height = (step.size.width, step.size.height) if step.size else (None, None)
    solved = solve_position(state, step, width, height)
    repeats = _repeats(state, supply, solved.rect.size) if solved and supply else None
    if solved is None or repeats is None:
        mark_missing(state, step.called, step.stencil)
        return
    item = item_at(state, step, ItemKind.STENCIL, step.called or step.stencil, solved.rect)
    placed = put_down(state, step, replace(item, supply=step.stencil), solved)
    guideline = step.guideline or _usual_guideline(solved)
    ruled = abs(beyond(placed.rect, state.page)[guideline]) if guideline is not None else None
    add_detail(state, Stencilled(placed.id, guideline, ruled or None, *repeats))


def _repeats(state: PlacingState, supply: Supply, area: Size) -> tuple[Repeat | None, Repeat | None] | None:
    """How a stencil's repeat fits an area, across and down; None, and a finding, of more than a hand dabs."""
    repeat = supply.repeat
    if repeat is None:
        return None, None
    across, down = fit_repeat(area.width, repeat.width), fit_repeat(area.height, repeat.height)
    unit, most = state.kit.unit, max(across.times, down.times)
    if most > _MOST_REPEATS:
        found = f"{most} repeats of {exact_size(repeat, unit)} in line, on {exact_size(area, unit)}"
        cure = f"stencil a smaller area, or state a larger repeat: {_MOST_REPEATS} in line are the most"
        state.report("stencil-too-fine", found, cure, "stencil")
        return None
    state.stencilled += across.times * down.times
    if state.stencilled > _MOST_ON_PAGE:
        found = f"{state.stencilled:,} repeats of stencils on one page"
        cure = f"stencil less of it, or state larger repeats: {_MOST_ON_PAGE:,} are the most"
        state.report("stencil-too-much", found, cure, "stencil")
        return None
    return across, down


def _usual_guideline(solved: SolvedPosition) -> Edge | None:
    """The edge of the area whose distance is said, down the page before across it."""
    said = [
        constraint
        for constraint in (*solved.down, *solved.across)
        if constraint.kind is ConstraintKind.DISTANCE and constraint.at != constraint.start
    ]
    return Edge(said[0].key) if said else None


def add(state: PlacingState, step: Add) -> None:
    """Add one embellishment or several: in a run, in corners, or scattered."""
    supply = supply_of(state, step.add, "add", kinds=_ADDED)
    if supply is None:
        mark_missing(state, step.called, step.add)
        return
    usual = allowances_for(state.kit.unit).added
    size = turned_size(supply.size or Size(usual, usual), step)
    placed = _add_each(state, step, size)
    if not placed:
        mark_missing(state, step.called, step.add)
        return
    scattered = placed[0].count > 1
    count = step.count if scattered else len(placed)
    add_detail(state, Added(tuple(item.id for item in placed), count, scattered))
    use_supply(state, step, step.add, Fraction(count))


def _add_each(state: PlacingState, step: Add, size: Size) -> tuple[Placed, ...]:
    if step.corners:
        return _in_corners(state, step, size)
    if step.run is not None:
        return _in_a_run(state, step, size, step.run)
    if step.count > 1:
        return _scattered(state, step)
    solved = solve_position(state, step, _POINT.width, _POINT.height)
    if solved is None:
        return ()
    return (put_down(state, step, _added(state, step, _around(solved.rect, size)), solved),)


def _around(point: ExactRect, size: Size) -> ExactRect:
    """What something takes up whose middle lies on a point."""
    return ExactRect(point.x - size.width / 2, point.y - size.height / 2, size.width, size.height)


def _in_a_run(state: PlacingState, step: Add, size: Size, run: Direction) -> tuple[Placed, ...]:
    """Several in line, as far apart from middle to middle as is said, or as the two ends leave."""
    width = size.width if run is Direction.ACROSS else size.height
    if step.count > 1 and step.apart is not None and step.apart < width:
        found = _too_close(state, step.apart, width)
        state.report("overlap-too-large", found, "say a larger distance", "apart")
        return ()
    lined = line_up(state, step, [_POINT] * step.count, run)
    if lined is None:
        return ()
    if step.count > 1 and lined.gap < width:
        found = _too_close(state, lined.gap, width)
        state.report("series-too-long", found, "take fewer, or give them more room")
        return ()
    items = [_added(state, step, _around(point, size)) for point in lined.rects]
    return put_in_line(state, step, items, lined, run)


def _too_close(state: PlacingState, apart: Fraction, width: Fraction) -> str:
    """What is wrong with things in line of which each would lie on the one before."""
    unit = state.kit.unit
    return f"{exact_length(apart, unit)} from middle to middle of what is {exact_length(width, unit)} wide"


def _added(state: PlacingState, step: Add, rect: ExactRect) -> Placed:
    return replace(item_at(state, step, ItemKind.ADDED, step.called or step.add, rect), supply=step.add)


def _in_corners(state: PlacingState, step: Add, size: Size) -> tuple[Placed, ...]:
    """One in each corner that is named, its middle as far in from both edges as the inset says."""
    if step.inset is None:
        found = "nothing says how far in from the edges of its corners"
        state.report("position-open", found, "say inset:")
        return ()
    if step.count not in {1, len(step.corners)}:
        found = f"{step.count} in {len(step.corners)} corners"
        state.report("corners-count", found, "leave the count out", "count")
    placed: list[Placed] = []
    for corner in step.corners:
        position = _in_corner(step, corner, step.inset)
        solved = solve_position(state, position, _POINT.width, _POINT.height)
        if solved is None:
            return ()
        # The inset is the same in every corner: it is measured in the first.
        constraints = solved if not placed else SolvedPosition(solved.rect, solved.frame, (), ())
        item = _added(state, step, _around(solved.rect, size))
        placed.append(put_down(state, step, item, constraints))
    return tuple(placed)


def _in_corner(step: Add, corner: Corner, inset: Fraction) -> Add:
    left, top = corner in _LEFT_CORNERS, corner in _TOP_CORNERS
    return replace(
        step,
        left=inset if left else None,
        right=None if left else inset,
        top=inset if top else None,
        bottom=None if top else inset,
    )


def _scattered(state: PlacingState, step: Add) -> tuple[Placed, ...]:
    """Several without places of their own, over the whole of what they lie on."""
    if step.on is None:
        found = f"nothing says where the {step.count} lie"
        cure = "say on: for scattered ones, run: for a row of them, or corners:"
        state.report("position-open", found, cure)
        return ()
    region = find(state, step.on, "on")
    if region is None:
        return ()
    size = region.rect.size
    solved = solve_position(state, step, size.width, size.height)
    if solved is None:
        return ()
    item = replace(_added(state, step, solved.rect), count=step.count)
    return (put_down(state, step, item, SolvedPosition(solved.rect, solved.frame, (), ())),)


HANDLERS: dict[type[Step], StepHandler] = {Stencil: stencil, Add: add}
