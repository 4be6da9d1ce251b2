"""Ribbon and tape: bands across the page, round a piece or along it, and what hangs from them."""

from __future__ import annotations

from dataclasses import replace

from booklet.kit.finding import SpecPath, error
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
from booklet.placing.model import ItemKind, Placed
from booklet.placing.position import SolvedPosition, solve_position
from booklet.placing.put import put_down, turned_size
from booklet.placing.state import PlacingState, StepHandler, add_detail, find, mark_missing, step_path
from booklet.placing.supply_use import supply_of, use_supply, width_of

# A bow as it is drawn, by the length of ribbon that it takes (seen on a table, no source).
_BOW_WIDTH, _BOW_HEIGHT = Fraction(1, 3), Fraction(1, 6)


def wrap_length(width: Fraction, overlap: Fraction) -> Fraction:
    """A wrap round a flat piece: its girth, twice the width that it goes round, and the overlap."""
    return 2 * width + overlap


def run_length(run: Fraction, ends: Fraction) -> Fraction:
    """A run and both its ends, taped behind."""
    return run + 2 * ends


def loop_length(loop: Fraction) -> Fraction:
    """A loop takes twice the length that it stands."""
    return 2 * loop


def lay_ribbon(state: PlacingState, step: Ribbon, number: int) -> None:
    """Lay a ribbon in one of its forms, and note its length."""
    path = step_path(state, number)
    supply = supply_of(state, step.ribbon, (*path, "ribbon"), {SupplyKind.RIBBON})
    width = width_of(state, supply) if supply else None
    form = _ribbon_form(state, step, path)
    if width is None or form is None:
        return
    if form in {BandForm.LOOP, BandForm.BOW}:
        _lay_tied(state, step, number, form, width)
        return
    if step.wrap is not None:
        step = replace(step, on=step.wrap)
    direction = step.run or Direction.ACROSS
    solved = _band(state, step, path, direction, width)
    if solved is None:
        mark_missing(state, step.called, step.ribbon)
        return
    usual = allowances_for(state.kit.unit)
    along = span_of(solved.rect, direction).length
    if form is BandForm.WRAP:
        overlap = usual.overlap if step.overlap is None else step.overlap
        net, allowance = wrap_length(along, Fraction(0)), overlap
    else:
        ends = usual.ends if step.ends is None else step.ends
        net, allowance = along, run_length(Fraction(0), ends)
    _lay_band(state, step, number, solved, ItemKind.RIBBON, step.ribbon, form, net, allowance)


def _ribbon_form(state: PlacingState, step: Ribbon, path: SpecPath) -> BandForm | None:
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
    state.findings.append(error("ribbon-form", path, found, "say one of run:, wrap:, loop: and bow:"))
    return None


def _lay_tied(state: PlacingState, step: Ribbon, number: int, form: BandForm, width: Fraction) -> None:
    """A loop or a bow, at its own position."""
    path = step_path(state, number)
    if step.bow is not None:
        across, down, net = step.bow * _BOW_WIDTH, step.bow * _BOW_HEIGHT, step.bow
    else:
        assert step.loop is not None
        across, down, net = width, step.loop, loop_length(step.loop)
    size = turned_size(Size(across, down), step)
    solved = solve_position(state, step, path, size.width, size.height)
    if solved is None:
        mark_missing(state, step.called, step.ribbon)
        return
    allowance = step.ends or Fraction(0)
    _lay_band(state, step, number, solved, ItemKind.RIBBON, step.ribbon, form, net, allowance)


def lay_tape(state: PlacingState, step: Tape, number: int) -> None:
    """Lay decorative tape in one of its forms, and note its length."""
    path = step_path(state, number)
    supply = supply_of(state, step.tape, (*path, "tape"), {SupplyKind.TAPE})
    width = width_of(state, supply) if supply else None
    said = [value for value in (step.along, step.length) if value is not None]
    if len(said) > 1 or (not said and step.run is None) or (step.length is not None and step.run is not None):
        found = "tape of more than one form" if said else "tape of no form"
        state.findings.append(error("tape-form", path, found, "say one of along:, run: and length:"))
        return
    if width is None:
        return
    if step.length is not None:
        _lay_strip(state, step, number, width, step.length)
        return
    _lay_long(state, step, number, width)


def _lay_strip(state: PlacingState, step: Tape, number: int, width: Fraction, length: Fraction) -> None:
    upright = Size(width, length) if step.run is Direction.DOWN else Size(length, width)
    size = turned_size(upright, step)
    solved = solve_position(state, step, step_path(state, number), size.width, size.height)
    if solved is None:
        mark_missing(state, step.called, step.tape)
        return
    allowance = run_length(Fraction(0), step.ends or Fraction(0))
    _lay_band(state, step, number, solved, ItemKind.TAPE, step.tape, BandForm.STRIP, length, allowance)


def _lay_long(state: PlacingState, step: Tape, number: int, width: Fraction) -> None:
    """Tape from edge to edge: of the page, or along the length of a piece."""
    path = step_path(state, number)
    direction = step.run or Direction.ACROSS
    if step.along is not None:
        strip = find(state, step.along, (*path, "along"))
        if strip is None:
            return
        if step.run is None and strip.rect.height > strip.rect.width:
            direction = Direction.DOWN
        room = strip.rect.height if direction is Direction.ACROSS else strip.rect.width
        if width > room:
            _too_wide(state, path, width, room)
        step = replace(step, on=step.along)
    solved = _band(state, step, path, direction, width)
    if solved is None:
        mark_missing(state, step.called, step.tape)
        return
    net = span_of(solved.rect, direction).length
    allowance = run_length(Fraction(0), step.ends or Fraction(0))
    form = BandForm.ALONG if step.along is not None else BandForm.RUN
    _lay_band(state, step, number, solved, ItemKind.TAPE, step.tape, form, net, allowance)


def _too_wide(state: PlacingState, path: SpecPath, width: Fraction, room: Fraction) -> None:
    unit = state.kit.unit
    found = f"tape {exact_length(width, unit)} wide on a strip {exact_length(room, unit)} wide"
    cure = "take a wider strip or a narrower tape"
    state.findings.append(error("tape-wider-than-strip", (*path, "along"), found, cure))


def _band(
    state: PlacingState, step: PositionedStep, path: SpecPath, direction: Direction, width: Fraction
) -> SolvedPosition | None:
    """A band of this width that runs in one direction, over the whole frame unless it says otherwise."""
    if direction is Direction.ACROSS:
        return solve_position(state, step, path, None, width, fill=direction)
    return solve_position(state, step, path, width, None, fill=direction)


def _lay_band(
    state: PlacingState,
    step: Ribbon | Tape,
    number: int,
    solved: SolvedPosition,
    kind: ItemKind,
    supply: str,
    form: BandForm,
    net: Fraction,
    allowance: Fraction,
) -> None:
    path = step_path(state, number)
    item = item_at(step, number, path, kind, step.called or supply, solved.rect)
    # Round or along what is meant to hang over, a band hangs over with it.
    overhang = step.overhang or any(state.items[id].overhang for id in solved.frame.ids)
    item = replace(item, supply=supply, overhang=overhang)
    placed: Placed = put_down(state, step, item, solved)
    length = CutLength(placed.id, form, net, allowance)
    add_detail(state, number, length)
    use_supply(state, step, supply, length.total)


HANDLERS: dict[type[Step], StepHandler] = {Ribbon: lay_ribbon, Tape: lay_tape}
