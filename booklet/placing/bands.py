"""Ribbon and tape: bands across the page, round a piece or along it, and what hangs from them."""

from __future__ import annotations

from booklet.kit.position import Direction
from booklet.kit.steps import PositionedStep, Ribbon, Step, Tape
from booklet.kit.supply import SupplyKind
from booklet.kit.words import quoted
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size
from booklet.measure.words import exact_length
from booklet.placing.details import BandForm, CutLength, Tied
from booklet.placing.geometry import span_of
from booklet.placing.lay import item_at
from booklet.placing.limits import allowances_for
from booklet.placing.model import ItemKind, Placed
from booklet.placing.position import SolvedPosition, solve_position
from booklet.placing.put import put_down, turned_size
from booklet.placing.state import PlacingState, StepHandler, add_detail, find, mark_missing
from booklet.placing.supply_use import supply_of, use_supply, width_of

# A bow as it is drawn, by the length of ribbon that it takes (seen on a table, no source).
_BOW_WIDTH, _BOW_HEIGHT = Fraction(1, 3), Fraction(1, 6)
# What each tail of a knot takes of it, where that is not said, and how far a tail that lies to the side
# drops (seen on a table, no source).
_TAIL, _TAIL_DROP = Fraction(1, 3), Fraction(1, 2)


def lay_ribbon(state: PlacingState, step: Ribbon) -> None:
    """Lay a ribbon in one of its forms, and note its length."""
    supply = supply_of(state, step.ribbon, "ribbon", kinds={SupplyKind.RIBBON})
    width = width_of(state, supply) if supply else None
    form = _ribbon_form(state, step)
    if width is None or form is None or not _is_tied_right(state, step, form):
        return
    ends = step.ends or Fraction(0)
    if form is BandForm.WRAP:
        _lay_wrap(state, step, width)
    elif form is BandForm.LOOP and step.loop is not None:
        _lay_band(state, step, _of_size(state, step, Size(width, step.loop)), form, 2 * step.loop, ends)
    elif form is BandForm.RUN:
        solved = _band(state, step, step.run or Direction.ACROSS, width)
        ends = allowances_for(state.kit.unit).ends if step.ends is None else step.ends
        _lay_band(state, step, solved, form, _net(solved, step.run or Direction.ACROSS), 2 * ends)
    elif tie := _tie_of(step):
        placed = _lay_band(state, step, _of_size(state, step, tie.size), form, tie.length, ends)
        if placed is not None:
            add_detail(state, Tied(placed.id, tie.form, tie.tails, None))


def _net(solved: SolvedPosition | None, run: Direction) -> Fraction:
    """How long a band is as it is seen."""
    return span_of(solved.rect, run).length if solved else Fraction(0)


def _lay_wrap(state: PlacingState, step: Ribbon, width: Fraction) -> None:
    """A flat piece is wrapped round its front and its back; a tie takes the place of an overlap."""
    if step.on is not None and state.names.get(step.on) != state.names.get(step.wrap or ""):
        found = f"round {quoted(step.wrap or '')}, and measured on {quoted(step.on)}"
        state.report("wrap-differs", found, "say the same of both, or leave on: out", "on")
    step, run, tie = replace(step, on=step.wrap), step.run or Direction.ACROSS, _tie_of(step)
    solved = _band(state, step, run, width)
    overlap = allowances_for(state.kit.unit).overlap if step.overlap is None else step.overlap
    more = tie.length if tie else overlap
    placed = _lay_band(state, step, solved, BandForm.WRAP, 2 * _net(solved, run), more)
    if tie is not None and placed is not None and solved is not None:
        _tie_in_front(state, step, tie, placed, solved)


def _tie_in_front(state: PlacingState, step: Ribbon, tie: _Tie, band: Placed, solved: SolvedPosition) -> None:
    """The bow or knot that a wrap is tied in, on the middle of its band or where it says."""
    run = step.run or Direction.ACROSS
    span, middle = span_of(band.rect, run), band.rect.centre
    at = span.length / 2 if step.tied_at is None else step.tied_at
    if at >= span.length:
        unit = state.kit.unit
        found = f"tied {exact_length(at, unit)} along what is {exact_length(span.length, unit)} long"
        state.report("tie-off-ribbon", found, "give a distance within it", "tied_at")
        return
    x, y = (span.low + at, middle.y) if run is Direction.ACROSS else (middle.x, span.low + at)
    rect = ExactRect(x - tie.size.width / 2, y - tie.size.height / 2, tie.size.width, tie.size.height)
    item = replace(band, rect=rect, called=None, tilt=Fraction(0), pivot=None, form=tie.form)
    placed = put_down(state, step, item, SolvedPosition(rect, solved.frame, (), ()))
    add_detail(state, Tied(placed.id, tie.form, tie.tails, step.tied_at))


@dataclass(frozen=True)
class _Tie:
    """A bow or a knot: the ribbon that it takes, how large it is drawn, how long its tails are said to be."""

    form: BandForm
    length: Fraction
    size: Size
    tails: Fraction | None = None


def _tie_of(step: Ribbon) -> _Tie | None:
    """What a ribbon is tied in; None where it is not tied."""
    if step.knot is not None:
        tails = step.knot * _TAIL if step.tails is None else step.tails
        return _Tie(BandForm.KNOT, step.knot, Size(2 * tails, tails * _TAIL_DROP), step.tails)
    if step.bow is not None:
        return _Tie(BandForm.BOW, step.bow, Size(step.bow * _BOW_WIDTH, step.bow * _BOW_HEIGHT))
    return None


def _ribbon_form(state: PlacingState, step: Ribbon) -> BandForm | None:
    """The form of a ribbon; a wrap that is tied is a wrap."""
    ties = [
        form for form, value in ((BandForm.BOW, step.bow), (BandForm.KNOT, step.knot)) if value is not None
    ]
    others = [
        form for form, value in ((BandForm.WRAP, step.wrap), (BandForm.LOOP, step.loop)) if value is not None
    ]
    said = others or ties
    if not said and step.run is not None:
        return BandForm.RUN
    is_one = len(said) == 1 and len(ties) < 2 and not (ties and others == [BandForm.LOOP])
    if is_one and not (step.run is not None and said[0] is not BandForm.WRAP):
        return said[0]
    found = "a ribbon of more than one form" if said else "a ribbon of no form"
    state.report("ribbon-form", found, "say one of run:, wrap:, loop:, bow: and knot:")
    return None


def _is_tied_right(state: PlacingState, step: Ribbon, form: BandForm) -> bool:
    """Whether nothing is said of a tie that there is not, or of one that leaves nothing to tie."""
    is_tied_wrap = form is BandForm.WRAP and _tie_of(step) is not None
    if step.tails is not None and step.knot is None:
        state.report(
            "word-alone", "tails says nothing without knot", "say knot: with it, or leave it out", "tails"
        )
    if step.tied_at is not None and not is_tied_wrap:
        cure = "say wrap: with bow: or knot:, or leave it out"
        state.report("word-alone", "tied_at says nothing of this ribbon", cure, "tied_at")
    if step.overlap is not None and is_tied_wrap:
        cure = "leave it out, or the bow or knot"
        state.report("overlap-of-tied", "an overlap of a ribbon that is tied", cure, "overlap")
    if step.knot is None or step.tails is None or 2 * step.tails < step.knot:
        return True
    tails, knot = (exact_length(one, state.kit.unit) for one in (step.tails, step.knot))
    found = f"two tails of {tails} leave nothing of {knot} to tie"
    state.report("knot-short", found, "take more ribbon, or shorter tails", "tails")
    return False


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
    form = BandForm.RUN if step.along is None else BandForm.ALONG
    _lay_band(state, step, solved, form, _net(solved, direction), ends)


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
) -> Placed | None:
    """Lay it where it has a place, and use so much of the supply."""
    if isinstance(step, Ribbon):
        supply, kind = step.ribbon, ItemKind.RIBBON
    else:
        supply, kind = step.tape, ItemKind.TAPE
    if solved is None:
        mark_missing(state, step.called, supply)
        return None
    item = item_at(state, step, kind, step.called or supply, solved.rect)
    # Round or along what is meant to hang over, a band hangs over with it.
    overhang = step.overhang or any(state.items[id].overhang for id in solved.frame.ids)
    placed = put_down(state, step, replace(item, supply=supply, form=form, overhang=overhang), solved)
    length = CutLength(placed.id, form, net, allowance)
    add_detail(state, length)
    use_supply(state, step, supply, length.total)
    return placed


HANDLERS: dict[type[Step], StepHandler] = {Ribbon: lay_ribbon, Tape: lay_tape}
