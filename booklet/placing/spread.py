"""Pieces that run across two facing pages: cut at the gutter, one part for each."""

from __future__ import annotations

from booklet.kit.finding import error
from booklet.kit.layout import Layout
from booklet.kit.steps import OtherHalf, Step
from booklet.kit.words import quoted
from booklet.measure.dataclass import replace
from booklet.measure.geometry import ExactRect
from booklet.placing.details import CutAtGutter
from booklet.placing.model import Placed
from booklet.placing.state import PlacingState, StepHandler, add_detail, finish_in_hand, mark_missing, put


def cut_at_gutter(state: PlacingState, item: Placed) -> Placed:
    """The part of an item that stays on this page; the rest is carried over to the facing one."""
    gutter = state.page.right
    rect = item.rect
    if state.spread is None:
        cure = "say facing: at the left page of the spread, and place it there"
        state.report("spread-of-one", "no page faces this one", cure, "spread")
        return item
    if item.tilt or not rect.x < gutter < rect.right:
        found = "a tilted piece is not cut at the gutter" if item.tilt else "this does not cross the gutter"
        cure = "leave the tilt out" if item.tilt else "place it on its own page, without spread:"
        state.report("spread-not-crossed", found, cure, "spread")
        return item
    here = ExactRect(rect.x, rect.y, gutter - rect.x, rect.height)
    there = ExactRect(state.page.x, rect.y, rect.right - gutter, rect.height)
    here_and_there = replace(item, whole=rect.size)
    done = finish_in_hand(state, here_and_there)
    holes = tuple(hole.moved(-here.width) for hole in done.holes)
    carried = replace(here_and_there, rect=there, finish=replace(done, holes=holes), from_facing=True)
    state.carried.append(carried)
    add_detail(state, CutAtGutter(len(state.items), here.size, there.size))
    return replace(here_and_there, rect=here)


def lay_other_half(state: PlacingState, step: OtherHalf) -> None:
    """Lay what the facing page cut off, where the gutter and its height have already put it."""
    arrived = next((one for one in state.arriving if step.other_half in one.names), None)
    if arrived is None and _was_refused(state, step.other_half):
        mark_missing(state, step.other_half, step.called)
        return
    if arrived is None:
        there = ", ".join(one.name for one in state.arriving)
        cure = f"one of: {there}" if there else "say spread: yes on the left page"
        found = f"nothing called {quoted(step.other_half)} comes across the gutter"
        state.report("half-unknown", found, cure, "other_half")
        return
    state.arriving = tuple(one for one in state.arriving if one is not arrived)
    item = replace(arrived, step_number=state.number, path=state.path, use=None, called=step.called)
    put(state, replace(item, optional=item.optional or step.optional))


def _was_refused(state: PlacingState, name: str) -> bool:
    """Whether the facing page has a step that was to send this over the gutter, which is reported there."""
    left = _left_page(state)
    steps = left.steps if left else ()
    sent = [
        step
        for step in steps
        if getattr(step, "spread", False) and name in (step.called, getattr(step, "place", None))
    ]
    earlier = state.layout.steps[: state.number - 1]
    laid = [step for step in earlier if isinstance(step, OtherHalf) and step.other_half == name]
    return len(sent) > len(laid)


def _left_page(state: PlacingState) -> Layout | None:
    """The layout that faces this one from the left."""
    return next((one for one in state.kit.layouts if one.facing == state.layout.id), None)


def check_arrivals(state: PlacingState) -> None:
    """Every half that comes across the gutter must be laid by some step."""
    left, where = _left_page(state), ("layouts", state.index, "steps")
    for one in state.arriving:
        cut = f", which {quoted(left.id)} cuts off" if left else ""
        found = f"no step lays the other half of {quoted(one.name)}{cut}"
        cure = f"say other_half: {one.name} where it is its turn"
        state.findings.append(error("half-left-over", where, found, cure))


HANDLERS: dict[type[Step], StepHandler] = {OtherHalf: lay_other_half}
