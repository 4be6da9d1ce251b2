"""Ribbon and tape: bands across the page, round a piece or along it, and what hangs from them."""

from __future__ import annotations

from dataclasses import replace

from booklet.kit.position import Direction
from booklet.kit.steps import PositionedStep, Ribbon, Step, Tape
from booklet.kit.supply import SupplyKind
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.measure.words import exact_length
from booklet.placing.details import BandForm, CutLength
from booklet.placing.geometry import span_of
from booklet.placing.lay import item_at
from booklet.placing.limits import allowances_for
from booklet.placing.model import ItemKind
from booklet.placing.position import SolvedPosition, solve_position
from booklet.placing.put import put_down, turned_size
from booklet.placing.state import PlacingState, StepHandler, add_detail, find, mark_missing
from booklet.placing.supply_use import supply_of, use_supply, width_of

# A bow as it is drawn, by the length of ribbon that it takes (seen on a table, no source).
_BOW_WIDTH, _BOW_HEIGHT = Fraction(1, 3), Fraction(1, 6)


def lay_ribbon(state: PlacingState, step: Ribbon) -> None:
    """Lay a ribbon in one of its forms, and note its length."""
    supply = supply_of(state, step.ribbon, "ribbon", kinds={SupplyKind.RIBBON})
    width = width_of(state, supply) if supply else None
    form = _ribbon_form(state, step)
    if width is None or form is None:
        return
    usual, ends = allowances_for(state.kit.unit), step.ends or Fraction(0)
    if step.bow is not None:
        solved = _of_size(state, step, Size(step.bow * _BOW_WIDTH, step.bow * _BOW_HEIGHT))
        _lay_band(state, step, solved, form, step.bow, ends)
    elif step.loop is not None:
        solved = _of_size(state, step, Size(width, step.loop))
        _lay_band(state, step, solved, form, 2 * step.loop, ends)
    else:
        direction = step.run or Direction.ACROSS
        step = replace(step, on=step.wrap) if step.wrap is not None else step
        solved = _band(state, step, direction, width)
        net = span_of(solved.rect, direction).length if solved else Fraction(0)
        if form is BandForm.WRAP:
            # A flat piece is wrapped round its front and its back.
            overlap = usual.overlap if step.overlap is None else step.overlap
            _lay_band(state, step, solved, form, 2 * net, overlap)
        else:
            ends = usual.ends if step.ends is None else step.ends
            _lay_band(state, step, solved, form, net, 2 * ends)


def _ribbon_form(state: PlacingState, step: Ribbon) -> BandForm | None:
    said = [
        form
        for form, value in ((BandForm.WRAP, step.wrap), (BandForm.LOOP, step.loop), (BandForm.BOW, step.bow))
        if value is not None
    ]
    if not said and step.run is not None:
        return BandForm.RUN
    if len(said) == 1 and not (step.run is not None and said[0] is not BandForm.WRAP):
        return said[0]
    found = "a ribbon of more than one form" if said else "a ribbon of no form"
    state.report("ribbon-form", found, "say one of run:, wrap:, loop: and bow:")
    return None


def lay_tape(state: PlacingState, step: Tape) -> None:
    """Lay decorative tape in one of its forms, and note its length."""
    supply = supply_of(state, step.tape, "tape", kinds={SupplyKind.TAPE})
    width = width_of(state, supply) if supply else None
    said = [value for value in (step.along, step.length) if value is not None]
    if len(said) > 1 or (not said and step.run is None) or (step.length is not None and step.run is not None):
        found = "tape of more than one form" if said else "tape of no form"
        state.report("tape-form", found, "say one of along:, run: and length:")
        return
    if width is None:
        return
    ends = 2 * (step.ends or Fraction(0))
    if step.length is not None:
        lies = Size(width, step.length) if step.run is Direction.DOWN else Size(step.length, width)
        _lay_band(state, step, _of_size(state, step, lies), BandForm.STRIP, step.length, ends)
        return
    direction = step.run or Direction.ACROSS
    if step.along is not None:
        strip = find(state, step.along, "along")
        if strip is None:
            return
        if step.run is None and strip.rect.height > strip.rect.width:
            direction = Direction.DOWN
        room = strip.rect.height if direction is Direction.ACROSS else strip.rect.width
        if width > room:
            _too_wide(state, width, room)
        step = replace(step, on=step.along)
    solved = _band(state, step, direction, width)
    net = span_of(solved.rect, direction).length if solved else Fraction(0)
    form = BandForm.RUN if step.along is None else BandForm.ALONG
    _lay_band(state, step, solved, form, net, ends)


def _too_wide(state: PlacingState, width: Fraction, room: Fraction) -> None:
    unit = state.kit.unit
    found = f"tape {exact_length(width, unit)} wide on a strip {exact_length(room, unit)} wide"
    cure = "take a wider strip or a narrower tape"
    state.report("tape-wider-than-strip", found, cure, "along")


def _band(
    state: PlacingState, step: PositionedStep, direction: Direction, width: Fraction
) -> SolvedPosition | None:
    """A band of this width that runs in one direction, over the whole frame unless it says otherwise."""
    if direction is Direction.ACROSS:
        return solve_position(state, step, None, width, fill=direction)
    return solve_position(state, step, width, None, fill=direction)


def _of_size(state: PlacingState, step: PositionedStep, size: Size) -> SolvedPosition | None:
    """What is of a size before it is turned, at its own position."""
    lies = turned_size(size, step)
    return solve_position(state, step, lies.width, lies.height)


def _lay_band(
    state: PlacingState,
    step: Ribbon | Tape,
    solved: SolvedPosition | None,
    form: BandForm,
    net: Fraction,
    allowance: Fraction,
) -> None:
    """Lay it where it has a place, and use so much of the supply."""
    if isinstance(step, Ribbon):
        supply, kind = step.ribbon, ItemKind.RIBBON
    else:
        supply, kind = step.tape, ItemKind.TAPE
    if solved is None:
        mark_missing(state, step.called, supply)
        return
    item = item_at(state, step, kind, step.called or supply, solved.rect)
    # Round or along what is meant to hang over, a band hangs over with it.
    overhang = step.overhang or any(state.items[id].overhang for id in solved.frame.ids)
    placed = put_down(state, step, replace(item, supply=supply, form=form, overhang=overhang), solved)
    length = CutLength(placed.id, form, net, allowance)
    add_detail(state, length)
    use_supply(state, step, supply, length.total)


HANDLERS: dict[type[Step], StepHandler] = {Ribbon: lay_ribbon, Tape: lay_tape}
