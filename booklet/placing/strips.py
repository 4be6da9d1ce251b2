"""Strips that run from edge to edge of the page, or of what they lie on."""

from __future__ import annotations

from booklet.kit.fields import Turn
from booklet.kit.position import Direction
from booklet.kit.steps import Place
from booklet.kit.words import quoted
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.measure.words import exact_length
from booklet.placing.geometry import span_of
from booklet.placing.position import constraints, look_up
from booklet.placing.put import turned_size
from booklet.placing.state import PlacingState, settle

_START = Fraction(0)


def run_strip(state: PlacingState, step: Place, size: Size, run: Direction) -> Place | None:
    """The step of a strip with the turn that lets it run so, from the left or top edge of its frame.

    None, and a finding, where something else says where it lies in that direction, or what it refers to is
    not there.  A strip that is no more than reaches from edge to edge is reported, and laid all the same.
    """
    frames = look_up(state, step)
    if frames is None:
        return None
    said = constraints(step, frames, run)
    if said:
        found = f"run and {said[0].key} both say how it lies {run.value} the page"
        state.report("position-twice", found, "keep one of them", "run")
        return None
    room = span_of(frames.frame.rect, run).length
    turned = replace(step, turn=_turn(step, size, run, room))
    from_edge = replace(turned, left=_START) if run is Direction.ACROSS else replace(turned, top=_START)
    laid = settle(state, from_edge)
    _check_reach(state, laid, _along(turned_size(size, laid), run), room)
    return laid


def _along(size: Size, run: Direction) -> Fraction:
    return size.width if run is Direction.ACROSS else size.height


def _turn(step: Place, size: Size, run: Direction, room: Fraction) -> Turn | None:
    """The turn that is said, else none where it reaches as it is, or as its shorter side would not reach."""
    along, other = _along(size, run), _along(size.turned, run)
    if step.turn is not None or along == room or (other != room and along >= other):
        return step.turn
    return Turn.CLOCKWISE


def _check_reach(state: PlacingState, step: Place, length: Fraction, room: Fraction) -> None:
    if length == room or (step.overhang and length > room):
        return
    unit = state.kit.unit
    amount = exact_length(abs(length - room), unit)
    off = f"{amount} is missing" if length < room else f"{amount} goes beyond"
    found = (
        f"{quoted(step.place)} is {exact_length(length, unit)} long and runs over {exact_length(room, unit)}"
    )
    cure = "cut it to that length, or say where it lies instead of run:"
    state.report("strip-not-to-edges", f"{found}: {off}", cure, "run")
