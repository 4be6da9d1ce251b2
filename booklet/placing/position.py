"""From the keys of a position to an exact rectangle."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.fields import Edge
from booklet.kit.position import Centring, Direction, NeighbourSide, Position
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_of
from booklet.placing.axis import AxisFault, AxisPart, Constraint, ConstraintKind, solve
from booklet.placing.details import Held
from booklet.placing.geometry import span_of
from booklet.placing.state import BASE_ID, PlacingState, Reference, find

_LOW_EDGE = {Direction.ACROSS: Edge.LEFT, Direction.DOWN: Edge.TOP}
_HIGH_EDGE = {Direction.ACROSS: Edge.RIGHT, Direction.DOWN: Edge.BOTTOM}
_CENTRINGS = {
    Direction.ACROSS: {Centring.BOTH, Centring.ACROSS},
    Direction.DOWN: {Centring.BOTH, Centring.DOWN},
}
_REFERENCE_KEYS = ("on", "under", "beside", "above", "below", "flush_with", "centred_on")
# Every key that says where something lies, besides `flush`.
POSITION_KEYS = (*_REFERENCE_KEYS, "gap", "left", "right", "top", "bottom", "centred")
# A key that means nothing without one of the others.
_NEEDS = {
    "gap": ("beside", "above", "below"),
    "side": ("beside",),
    "flush_with": ("flush",),
    "centred_on": ("centred",),
}


@dataclass(frozen=True)
class Frames:
    """What a position refers to: its frame (the page, or what it lies on or under), others by key."""

    frame: Reference
    others: dict[str, Reference]

    def neighbour(self, direction: Direction) -> Reference | None:
        """What it lies beside (whose axis down is then shared), or above or below (whose axis across is)."""
        keys = ("above", "below") if direction is Direction.ACROSS else ("beside",)
        return next((self.others[key] for key in keys if key in self.others), None)


@dataclass(frozen=True)
class SolvedPosition:
    """A rectangle, what it is measured from, and the constraints that fixed its two axes."""

    rect: ExactRect
    frame: Reference
    across: tuple[Constraint, ...]
    down: tuple[Constraint, ...]

    @property
    def constraints(self) -> tuple[Constraint, ...]:
        """What fixes both axes."""
        return (*self.across, *self.down)

    def axis(self, direction: Direction) -> tuple[Constraint, ...]:
        """What fixes it in a direction."""
        return self.across if direction is Direction.ACROSS else self.down

    def held(self, items: tuple[int, ...], over: tuple[tuple[int, ...], ...] = ()) -> Held:
        """The same as what holds these items, which lie beneath others."""
        return Held(items, self.rect, self.frame.ids, self.frame.rect, self.across, self.down, over)


def look_up(state: PlacingState, position: Position) -> Frames | None:
    """Everything that a position refers to; None where something of it is not there."""
    named = {key: getattr(position, key) for key in _REFERENCE_KEYS}
    found = {key: find(state, name, key) for key, name in named.items() if name is not None}
    _check_idle_words(state, position)
    if any(reference is None for reference in found.values()):
        return None
    known = {key: reference for key, reference in found.items() if reference is not None}
    if "on" in known and "under" in known:
        cure = "keep the one that it is measured from; tucked: says what else it goes beneath"
        state.report("position-twice", "both on and under are said", cure, "under")
        return None
    frame = known.get("on") or known.get("under") or Reference((BASE_ID,), _page(state, position))
    return Frames(frame, known)


def _page(state: PlacingState, position: Position) -> ExactRect:
    """What distances are measured from where nothing else is said."""
    return state.spread if position.spread and state.spread else state.page


def _check_idle_words(state: PlacingState, position: Position) -> None:
    for key, needs in _NEEDS.items():
        if getattr(position, key) is None or any(getattr(position, need) for need in needs):
            continue
        cure = f"say {' or '.join(f'{need}:' for need in needs)} with it, or leave it out"
        state.report("word-alone", f"{key} says nothing without {' or '.join(needs)}", cure, key)


def constraints(position: Position, frames: Frames, direction: Direction) -> tuple[Constraint, ...]:
    """The constraints on one axis, in the order in which their keys are looked for."""
    said = [
        *_distances(position, frames.frame, direction),
        *_neighbours(position, frames, direction),
        *_flush(position, frames, direction),
        *_centred(position, frames, direction),
    ]
    return tuple(said)


def _distances(position: Position, frame: Reference, direction: Direction) -> Iterator[Constraint]:
    span = span_of(frame.rect, direction)
    low, high = _LOW_EDGE[direction].value, _HIGH_EDGE[direction].value
    from_low: Fraction | None = getattr(position, low)
    from_high: Fraction | None = getattr(position, high)
    if from_low is not None:
        yield Constraint(AxisPart.LOW, span.low + from_low, span.low, ConstraintKind.DISTANCE, low, frame.ids)
    if from_high is not None:
        yield Constraint(
            AxisPart.HIGH, span.high - from_high, span.high, ConstraintKind.DISTANCE, high, frame.ids
        )


def _neighbours(position: Position, frames: Frames, direction: Direction) -> Iterator[Constraint]:
    """`beside` fixes the axis across, `above` and `below` the axis down."""
    gap = position.gap or Fraction(0)
    keys = ("beside",) if direction is Direction.ACROSS else ("above", "below")
    for key in keys:
        if key not in frames.others:
            continue
        reference = frames.others[key]
        span = span_of(reference.rect, direction)
        before = key == "above" or (key == "beside" and position.side is NeighbourSide.LEFT)
        if before:
            yield Constraint(AxisPart.HIGH, span.low - gap, span.low, ConstraintKind.GAP, key, reference.ids)
        else:
            yield Constraint(AxisPart.LOW, span.high + gap, span.high, ConstraintKind.GAP, key, reference.ids)


def _flush(position: Position, frames: Frames, direction: Direction) -> Iterator[Constraint]:
    reference = frames.others.get("flush_with") or frames.neighbour(direction) or frames.frame
    span = span_of(reference.rect, direction)
    if _LOW_EDGE[direction] in position.flush:
        yield Constraint(AxisPart.LOW, span.low, span.low, ConstraintKind.FLUSH, "flush", reference.ids)
    if _HIGH_EDGE[direction] in position.flush:
        yield Constraint(AxisPart.HIGH, span.high, span.high, ConstraintKind.FLUSH, "flush", reference.ids)


def _centred(position: Position, frames: Frames, direction: Direction) -> Iterator[Constraint]:
    if position.centred not in _CENTRINGS[direction]:
        return
    reference = frames.others.get("centred_on") or frames.neighbour(direction) or frames.frame
    span = span_of(reference.rect, direction)
    yield Constraint(AxisPart.MIDDLE, span.middle, span.low, ConstraintKind.CENTRED, "centred", reference.ids)


def centred_by_default(position: Position, frames: Frames, direction: Direction) -> tuple[Constraint, ...]:
    """On or under something, an axis of which nothing is said is centred there."""
    if position.on is None and position.under is None:
        return ()
    span = span_of(frames.frame.rect, direction)
    key = "on" if position.on is not None else "under"
    return (
        Constraint(AxisPart.MIDDLE, span.middle, span.low, ConstraintKind.CENTRED, key, frames.frame.ids),
    )


def solve_position(
    state: PlacingState,
    position: Position,
    width: Fraction | None,
    height: Fraction | None,
    fill: Direction | None = None,
    frames: Frames | None = None,
) -> SolvedPosition | None:
    """Where something of this width and height lies; None, and findings, where the keys do not settle it.

    A width or height of None follows from two edges that are said; along `fill` it is the whole frame where
    nothing is said.  `frames` are looked up where they are not given.
    """
    frames = frames or look_up(state, position)
    if frames is None:
        return None
    across = _constraints_or_default(position, frames, Direction.ACROSS, width, fill)
    down = _constraints_or_default(position, frames, Direction.DOWN, height, fill)
    columns, rows = solve(width, across), solve(height, down)
    for direction, outcome, said in ((Direction.ACROSS, columns, across), (Direction.DOWN, rows, down)):
        if isinstance(outcome, AxisFault):
            report_axis(state, outcome, direction, said)
    if isinstance(columns, AxisFault) or isinstance(rows, AxisFault):
        return None
    return SolvedPosition(rect_of(columns, rows), frames.frame, across, down)


def _constraints_or_default(
    position: Position,
    frames: Frames,
    direction: Direction,
    length: Fraction | None,
    fill: Direction | None,
) -> tuple[Constraint, ...]:
    said = constraints(position, frames, direction)
    if said:
        return said
    if length is not None:
        return centred_by_default(position, frames, direction)
    return edge_to_edge(frames.frame, direction) if direction is fill else ()


def edge_to_edge(frame: Reference, direction: Direction) -> tuple[Constraint, ...]:
    """The two constraints from edge to edge of a frame."""
    span = span_of(frame.rect, direction)
    return (
        Constraint(AxisPart.LOW, span.low, span.low, ConstraintKind.FLUSH, "flush", frame.ids),
        Constraint(AxisPart.HIGH, span.high, span.high, ConstraintKind.FLUSH, "flush", frame.ids),
    )


def report_axis(
    state: PlacingState, fault: AxisFault, direction: Direction, said: Sequence[Constraint]
) -> None:
    """Report an axis that the keys leave open, fix twice, or reverse."""
    low, high = _LOW_EDGE[direction].value, _HIGH_EDGE[direction].value
    if fault is AxisFault.OVERCONSTRAINED:
        keys = " and ".join(dict.fromkeys(constraint.key for constraint in said))
        found = f"{keys} fix the position {direction.value} the page twice"
        state.report("position-twice", found, "keep one of them", said[-1].key)
    elif fault is AxisFault.REVERSED:
        found = f"the {low} and {high} edges that are said leave nothing between them"
        state.report("position-reversed", found, "make one of the distances smaller", said[-1].key)
    else:
        found = f"nothing says how far from the {low} or {high}"
        if said:
            found = f"only one edge {direction.value} the page is said; the other is open"
        cure = f"say {low}:, {high}:, flush:, centred:, or lay it on or next to something"
        state.report("position-open", found, cure)
