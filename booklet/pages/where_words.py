"""Where something lies, in words: from a position in the spec to the phrases of a sentence.

Which words of the spec fix which axis is the placing's own judgement (`booklet.placing.position.ties`), so
that a sentence cannot say anything else than where things are drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from booklet.kit.fields import Edge
from booklet.kit.position import Direction, Position
from booklet.measure.exact import Fraction
from booklet.pages.laid import Laid, find, length, refer
from booklet.placing.axis import AxisPart, Constraint, ConstraintKind
from booklet.placing.geometry import hull, span_of
from booklet.placing.model import QUARTERS, ItemKind, Placed
from booklet.placing.position import Frames, centred_by_default, constraints
from booklet.placing.state import BASE_ID, Reference

_REFERENCES = ("on", "under", "beside", "above", "below", "flush_with", "centred_on")
_EDGES = {
    (Direction.ACROSS, AxisPart.LOW): Edge.LEFT,
    (Direction.ACROSS, AxisPart.HIGH): Edge.RIGHT,
    (Direction.DOWN, AxisPart.LOW): Edge.TOP,
    (Direction.DOWN, AxisPart.HIGH): Edge.BOTTOM,
}
_INWARDS = {Edge.TOP: "below", Edge.BOTTOM: "above"}
_BOTH_WAYS = {Direction.ACROSS: "left to right", Direction.DOWN: "top to bottom"}
_AT_ENDS = {Direction.ACROSS: "at each side", Direction.DOWN: "above and below"}
# What is small, or soft, is centred without a ruler.
PLACED_BY_EYE = {ItemKind.ADDED, ItemKind.RIBBON, ItemKind.TAPE}


@dataclass(frozen=True)
class Where:
    """Where something lies, in the order of a sentence: how far it spans, what it lies on, and the rest.

    `centred_on` is what it is simply centred on, which needs no further words; of the page, `margins` are
    then what is left at the sides and above and below.
    """

    span: str = ""
    on: str = ""
    phrases: tuple[str, ...] = ()
    centred_on: str = ""
    margins: tuple[Fraction, Fraction] | None = None

    @property
    def all(self) -> tuple[str, ...]:
        """Every phrase, where no verb says a part of it."""
        if self.centred_on:
            return (f"centred on {self.centred_on}",)
        return tuple(phrase for phrase in (self.span, self.on, *self.phrases) if phrase)


@dataclass(frozen=True)
class Hold:
    """One tie of one axis, as a hand measures it: from which edge, and how far inwards."""

    direction: Direction
    constraint: Constraint

    @property
    def edge(self) -> Edge:
        """The edge that is held; the low one of a centred thing."""
        part = self.constraint.part
        return _EDGES[self.direction, AxisPart.LOW if part is AxisPart.MIDDLE else part]

    @property
    def amount(self) -> Fraction:
        """How far it lies inwards, or away, from where it is measured."""
        constraint = self.constraint
        return (
            constraint.start - constraint.at
            if constraint.part is AxisPart.HIGH
            else constraint.at - constraint.start
        )

    @property
    def on_page(self) -> bool:
        """Whether it is measured from the page."""
        return BASE_ID in self.constraint.against


def where(laid: Laid, position: Position, thing: Placed, fill: Direction | None = None) -> Where:
    """The words for where one thing lies; none where the spec does not settle it.

    Along `fill` it runs from edge to edge where nothing is said.
    """
    frames = frames_of(laid, position)
    if frames is None:
        return Where()
    holds = {direction: holds_of(position, frames, direction, fill) for direction in Direction}
    centre = _one_centre(list(holds.values()))
    if centre is not None and not (position.spread and BASE_ID in centre):
        return Where(centred_on=refer(laid, centre), margins=_margins(laid, position, centre, thing))
    spanned = [one for one in Direction if _spans(thing, position, frames, holds[one], one)]
    said = [hold for one in Direction if one not in spanned for hold in holds[one]]
    on = position.on is not None and BASE_ID not in frames.frame.ids and not spanned
    return Where(
        _span_words(laid, frames, spanned),
        f"on {refer(laid, frames.frame.ids)}" if on else "",
        tuple(_phrases(laid, position, thing, said)),
    )


def frames_of(laid: Laid, position: Position) -> Frames | None:
    """What a position refers to; None where something of it does not lie on the page."""
    named = {key: getattr(position, key) for key in _REFERENCES}
    found = {key: find(laid, name) for key, name in named.items() if name is not None}
    known = {key: reference for key, reference in found.items() if reference is not None}
    if len(known) < len(found):
        return None
    page = Reference((BASE_ID,), laid.layout.base.rect)
    return Frames(known.get("on") or known.get("under") or page, known)


def holds_of(
    position: Position, frames: Frames, direction: Direction, fill: Direction | None = None
) -> tuple[Hold, ...]:
    """What holds one axis; nothing where it runs from edge to edge unsaid."""
    found = constraints(position, frames, direction)
    if not found and direction is not fill:
        found = centred_by_default(position, frames, direction)
    return tuple(Hold(direction, constraint) for constraint in found)


def _one_centre(axes: Sequence[Sequence[Hold]]) -> tuple[int, ...] | None:
    """The one thing that both axes are centred on."""
    alone = [
        axis[0].constraint
        for axis in axes
        if len(axis) == 1 and axis[0].constraint.kind is ConstraintKind.CENTRED
    ]
    return alone[0].against if len(alone) == 2 and alone[0].against == alone[1].against else None


def _margins(
    laid: Laid, position: Position, centre: Sequence[int], thing: Placed
) -> tuple[Fraction, Fraction] | None:
    """What a ruler shows at the edges of the page; what is smaller is centred by eye."""
    if BASE_ID not in centre or thing.kind in PLACED_BY_EYE or _turned_later(position, thing):
        return None
    page = laid.layout.base.rect
    across, down = thing.rect.x - page.x, thing.rect.y - page.y
    return (across, down) if across > 0 and down > 0 else None


def _phrases(laid: Laid, position: Position, thing: Placed, said: Sequence[Hold]) -> Iterator[str]:
    yield from gap_words(laid, said, overlapped(laid, position))
    yield from distance_words(laid, said, position.spread)
    yield from flush_words(laid, said)
    yield from (
        _centred(laid, position, hold, thing)
        for hold in said
        if hold.constraint.kind is ConstraintKind.CENTRED
    )


# From edge to edge.


def _spans(
    thing: Placed, position: Position, frames: Frames, said: Sequence[Hold], direction: Direction
) -> bool:
    """Whether it takes up all of the page, or of what it lies on, in this direction."""
    if thing.tilt or position.under or position.spread or _turned_later(position, thing):
        return False
    if any(hold.constraint.against != frames.frame.ids for hold in said):
        return False
    return span_of(thing.rect, direction) == span_of(frames.frame.rect, direction)


def _turned_later(position: Position, thing: Placed) -> bool:
    """Whether a group has turned it since, so that its sides are no longer those of its own step."""
    return (thing.turn - QUARTERS[position.turn]) % 2 == 1 and thing.kind is not ItemKind.BASE


def _span_words(laid: Laid, frames: Frames, spanned: Sequence[Direction]) -> str:
    it = refer(laid, frames.frame.ids)
    whole = "the whole page" if BASE_ID in frames.frame.ids else f"the whole of {it}"
    if len(spanned) == 2:
        return f"over {whole}"
    if spanned == [Direction.DOWN]:
        return f"from top to bottom of {it}"
    return f"across {whole}" if spanned else ""


# Next to something.


def overlapped(laid: Laid, position: Position) -> tuple[tuple[int, ...], ...]:
    """What it lies next to, and with a part of itself beneath."""
    if position.gap is None or position.gap >= 0:
        return ()
    under = [find(laid, name) for name in position.tucked]
    beside = [find(laid, name) for name in (position.beside, position.above, position.below) if name]
    return tuple(one.ids for one in under if one is not None and one in beside)


def gap_words(laid: Laid, said: Sequence[Hold], under: Sequence[tuple[int, ...]] = ()) -> Iterator[str]:
    """`above 5, 1/4 between`; what overlaps lies on top, unless the other is among those it goes `under`."""
    for place, hold in enumerate(hold for hold in said if hold.constraint.kind is ConstraintKind.GAP):
        side, it = _side(hold), refer(laid, hold.constraint.against)
        joint = "and " if place else ""
        if hold.amount > 0:
            yield f"{joint}{side} {it}, {length(laid, hold.amount)} between"
        elif hold.amount < 0:
            far = length(laid, -hold.amount)
            lap = (
                f"{far} of it tucked under"
                if hold.constraint.against in under
                else f"overlapping it by {far}"
            )
            yield f"{joint}{side} {it}, {lap}"
        else:
            yield f"{joint}edge to edge {side} {it}"


def _side(hold: Hold) -> str:
    if hold.direction is Direction.DOWN:
        return hold.constraint.key
    return "to the left of" if hold.constraint.part is AxisPart.HIGH else "to the right of"


# From an edge.


def distance_words(laid: Laid, said: Sequence[Hold], spread: bool = False, its: str = "its") -> Iterator[str]:
    """Distances from edges of the page (`the page's`), or of what it lies on (`its`).

    `its` is what has the edge that a single distance down the page places: one thing's, or several's.
    """
    distances = [hold for hold in said if hold.constraint.kind is ConstraintKind.DISTANCE or _in_line(hold)]
    zero = [hold for hold in distances if not hold.amount]
    rest = [hold for hold in distances if hold.amount]
    if len(zero) == 2:
        yield f"in {_owner(zero[0], spread)} {zero[1].edge.value} {zero[0].edge.value} corner"
        return
    for hold in zero:
        along = "in line with" if hold.on_page else "flush with"
        yield f"{along} {_owner(hold, spread)} {hold.edge.value} edge"
    if len(distances) == 1 and _is_plain_drop(distances[0]):
        yield _drop(laid, distances[0], its)
        return
    if (
        len(rest) == 2
        and rest[0].amount == rest[1].amount > 0
        and _owner(rest[0], spread) == _owner(rest[1], spread)
    ):
        edges = " and ".join(hold.edge.value for hold in rest)
        yield f"{length(laid, rest[0].amount)} from {_owner(rest[0], spread)} {edges} edges"
        return
    for place, hold in enumerate(rest):
        yield _from_edge(laid, hold, spread, follows=bool(zero or place))


def _in_line(hold: Hold) -> bool:
    """An edge in line with the page's own lies at no distance from it."""
    return hold.constraint.kind is ConstraintKind.FLUSH and hold.on_page


def _is_plain_drop(hold: Hold) -> bool:
    return hold.on_page and hold.direction is Direction.DOWN and hold.amount > 0


def _drop(laid: Laid, hold: Hold, its: str) -> str:
    """`its top edge 4 5/8 below the page's top`."""
    edge = hold.edge.value
    held = f"{its} {edge} edges" if its == "their" else f"{its} {edge} edge"
    return f"{held} {length(laid, hold.amount)} {_INWARDS[hold.edge]} the page's {edge}"


def _from_edge(laid: Laid, hold: Hold, spread: bool, follows: bool) -> str:
    """`1 from the page's left edge`; where another distance went before, `2 7/8 from its top`."""
    owner = _owner(hold, spread)
    short = follows and owner != "the facing page's"
    where = f"its {hold.edge.value}" if short else f"{owner} {hold.edge.value} edge"
    far = length(laid, abs(hold.amount))
    return f"{far} from {where}" if hold.amount > 0 else f"reaching {far} beyond {where}"


def _owner(hold: Hold, spread: bool) -> str:
    if spread and hold.edge is Edge.RIGHT:
        return "the facing page's"
    return "the page's" if hold.on_page else "its"


# In line, and in the middle.


def flush_words(laid: Laid, said: Sequence[Hold]) -> Iterator[str]:
    """`flush with 5 at the left`; two edges of one thing are said together."""
    flush = [hold for hold in said if hold.constraint.kind is ConstraintKind.FLUSH and not hold.on_page]
    for against in dict.fromkeys(hold.constraint.against for hold in flush):
        edges = " and ".join(hold.edge.value for hold in flush if hold.constraint.against == against)
        yield f"flush with {refer(laid, against)} at the {edges}"


def _centred(laid: Laid, position: Position, hold: Hold, thing: Placed) -> str:
    """`centred left to right (1/2 at each side)`; what a hand sets by eye goes without the measure."""
    return f"{centred_on(laid, position, hold)}{_at_ends(laid, position, hold, thing)}"


def centred_on(laid: Laid, position: Position, hold: Hold) -> str:
    """`centred on 5 left to right`; what it lies on has been named already."""
    across = hold.direction is Direction.ACROSS
    if position.spread and across and hold.on_page:
        return "centred on the fold"
    lies_on = find(laid, position.on) if position.on is not None else None
    named = lies_on is not None and lies_on.ids == hold.constraint.against
    on = "" if named else f" on {refer(laid, hold.constraint.against)}"
    return f"centred{on} {_BOTH_WAYS[hold.direction]}"


def _at_ends(laid: Laid, position: Position, hold: Hold, thing: Placed) -> str:
    if thing.kind in PLACED_BY_EYE or position.spread or _turned_later(position, thing):
        return ""
    outer = hull([laid.layout.item(id).rect for id in hold.constraint.against])
    seen = span_of(thing.rect, hold.direction).low - span_of(outer, hold.direction).low
    return f" ({length(laid, seen)} {_AT_ENDS[hold.direction]})" if seen > 0 else ""
