"""From what holds things in their places to the records of how they lie."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from booklet.content.assembly.lying import (
    AtEdge,
    BeyondEdge,
    Border,
    Centre,
    Centred,
    FromEdge,
    Handling,
    Hold,
    InCorner,
    InLine,
    Lying,
    MiddleOne,
    NextTo,
    Noun,
    OnFold,
    Overlapping,
    Owner,
    Page,
    Pivot,
    Series,
    Thing,
    Tilt,
    Whole,
)
from booklet.content.assembly.things import LayoutContext, entries_of, thing_of
from booklet.content.assembly.ways import PrintEdge, print_edge, shows_its_way
from booklet.content.spans import Degrees, Length, Number, Own, Role
from booklet.cutting.orientation import Orientation, beyond, quarters_of
from booklet.kit.fields import Edge, Face, Turn
from booklet.kit.position import Direction, Position
from booklet.kit.sheet import OutlineShape
from booklet.kit.steps import Corner
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.placing.axis import AxisPart, Constraint, ConstraintKind
from booklet.placing.details import EvenGap, Held, Moved, NestBorder
from booklet.placing.geometry import span_of
from booklet.placing.model import ItemKind, Placed, PlacedStep
from booklet.placing.resolved import uses_of
from booklet.placing.series import PERPENDICULAR
from booklet.placing.state import BASE_ID
from booklet.placing.visible import upright_bounds

_EDGES = {
    (Direction.ACROSS, AxisPart.LOW): Edge.LEFT,
    (Direction.ACROSS, AxisPart.HIGH): Edge.RIGHT,
    (Direction.DOWN, AxisPart.LOW): Edge.TOP,
    (Direction.DOWN, AxisPart.HIGH): Edge.BOTTOM,
}
_CORNERS = {
    frozenset((Edge.TOP, Edge.LEFT)): Corner.TOP_LEFT,
    frozenset((Edge.TOP, Edge.RIGHT)): Corner.TOP_RIGHT,
    frozenset((Edge.BOTTOM, Edge.RIGHT)): Corner.BOTTOM_RIGHT,
    frozenset((Edge.BOTTOM, Edge.LEFT)): Corner.BOTTOM_LEFT,
}
# What is small, or soft, is centred without a ruler.
_BY_EYE = {ItemKind.ADDED, ItemKind.RIBBON, ItemKind.TAPE}
# What a tilted corner may go beyond the page by rounding alone, in the kit's unit.
_LEAST_PAST = Fraction(1, 10**6)


@dataclass(frozen=True)
class HeldThing:
    """A thing of a step, or several that are laid as one, and what holds it.

    `it` are the items that were just told of, each by itself where `is_each`; `in_hand` is what a hole is
    punched in that is not laid yet.
    """

    context: LayoutContext
    placed: PlacedStep
    held: Held
    it: frozenset[int] = frozenset()
    is_each: bool = False
    in_hand: Own | None = None

    @property
    def position(self) -> Position:
        """What the step says of where it lies."""
        assert isinstance(self.placed.step, Position)
        return self.placed.step

    @property
    def items(self) -> tuple[Placed, ...]:
        """What it is on the page: nothing of a hole."""
        return self.context.items(self.held.items)

    @property
    def is_by_eye(self) -> bool:
        """Whether it is centred without a ruler."""
        return not self.items or self.items[0].kind in _BY_EYE

    def owner(self, ids: Sequence[int]) -> Owner:
        """What has an edge; what is still in the hand is `it`."""
        return Page.THIS if BASE_ID in ids else self.thing(ids)

    def thing(self, ids: Sequence[int]) -> Thing:
        """A thing that is referred to."""
        if not ids:
            return Thing(Noun.NAMED, self.in_hand, (), is_it=True)
        found = thing_of(self.context, ids, self.placed.number)
        if self.is_each and set(ids) <= self.it:
            return replace(found, one_of=None, is_each=True)
        return replace(found, is_it=set(ids) == self.it)

    def length(self, value: Fraction, role: Role, *keys: str) -> Length:
        """A length that a key of the step states, or that follows from the step."""
        return self.context.length(value, role, (*self.placed.path, *keys))


def lying_of(place: HeldThing) -> Lying:
    """How it lies."""
    context, held, position, items = place.context, place.held, place.position, place.items
    centre = _centre(place)
    spanned = tuple(direction for direction in Direction if _spans(place, direction))
    said = [] if centre else [direction for direction in Direction if direction not in spanned]
    is_on = position.on is not None and BASE_ID not in held.frame and not spanned and not centre
    edge = _print_edge(context, items, position)
    return Lying(
        tuple(_holds(place, said)),
        handling_of(context, items[:1], position, edge),
        Whole(spanned, place.owner(held.frame)) if spanned and not centre else None,
        place.thing(held.frame) if is_on and held.frame else None,
        tuple(_under(place)),
        centre,
        _tilt(place),
        _seen(place),
        _trimmed_edges(place),
        edge,
    )


def _centre(place: HeldThing) -> Centre | None:
    """The one thing that both axes are centred on."""
    axes = [place.held.axis(direction) for direction in Direction]
    alone = [axis[0] for axis in axes if len(axis) == 1 and axis[0].kind is ConstraintKind.CENTRED]
    if len(alone) < 2 or alone[0].against != alone[1].against:
        return None
    on_page = BASE_ID in alone[0].against
    if place.position.spread and on_page:
        return None
    return Centre(place.owner(alone[0].against), _page_margins(place) if on_page else None)


def _page_margins(place: HeldThing) -> Border | None:
    """What a ruler shows at the edges of the page; what is smaller is centred by eye."""
    rect, page = place.held.rect, place.held.frame_rect
    across, down = rect.x - page.x, rect.y - page.y
    if place.is_by_eye or across <= 0 or down <= 0:
        return None
    return Border(place.length(across, Role.DISTANCE), place.length(down, Role.DISTANCE))


def _spans(place: HeldThing, direction: Direction) -> bool:
    """Whether it takes up all of the page, or of what it lies on, in this direction."""
    held, position = place.held, place.position
    if position.tilt or position.under or position.spread or not held.items:
        return False
    if any(constraint.against != held.frame for constraint in held.axis(direction)):
        return False
    return span_of(held.rect, direction) == span_of(held.frame_rect, direction)


# What fixes it.


def _holds(place: HeldThing, directions: Iterable[Direction]) -> Iterator[Hold]:
    """In the order of a sentence: what it is next to, its distances, what it is in line with, middles."""
    said = [(direction, one) for direction in directions for one in place.held.axis(direction)]
    yield from _next_to(place, [one for one in said if one[1].kind is ConstraintKind.GAP])
    yield from _edge_holds(place, [one for one in said if _is_distance(one[1])])
    yield from _in_line(place, [one for one in said if _is_flush(one[1])])
    for direction, constraint in said:
        if constraint.kind is ConstraintKind.CENTRED:
            yield _centred(place, direction, constraint)


_Said = tuple[Direction, Constraint]


def _is_distance(constraint: Constraint) -> bool:
    """An edge in line with the page's own lies at no distance from it."""
    is_page_edge = constraint.kind is ConstraintKind.FLUSH and BASE_ID in constraint.against
    return constraint.kind is ConstraintKind.DISTANCE or is_page_edge


def _is_flush(constraint: Constraint) -> bool:
    return constraint.kind is ConstraintKind.FLUSH and BASE_ID not in constraint.against


def _edge(said: _Said) -> Edge:
    """The edge that is held."""
    direction, constraint = said
    return _EDGES[direction, constraint.part]


def _next_to(place: HeldThing, said: Sequence[_Said]) -> Iterator[Hold]:
    for one in said:
        constraint, side = one[1], _edge(one).opposite
        thing, amount = place.thing(constraint.against), constraint.inwards
        if amount < 0:
            lap = place.length(-amount, Role.DISTANCE, "gap")
            yield Overlapping(side, thing, lap, constraint.against in place.held.over)
        else:
            yield NextTo(side, thing, place.length(amount, Role.GAP, "gap") if amount else None)


def _edge_holds(place: HeldThing, said: Sequence[_Said]) -> Iterator[Hold]:
    """Distances from edges; none from two neighbouring edges is a corner."""
    zero = [one for one in said if not one[1].inwards]
    corner = _CORNERS.get(frozenset(_edge(one) for one in zero)) if len(zero) == 2 else None
    if corner is not None and zero[0][1].against == zero[1][1].against:
        yield InCorner(corner, _edge_owner(place, zero[0]))
        zero = []
    for one in zero:
        yield AtEdge(_edge(one), _edge_owner(place, one))
    for one in said:
        amount, edge = one[1].inwards, _edge(one)
        if amount > 0:
            yield FromEdge(edge, _edge_owner(place, one), place.length(amount, Role.DISTANCE, one[1].key))
        elif amount < 0:
            yield BeyondEdge(edge, _edge_owner(place, one), place.length(-amount, Role.DISTANCE, one[1].key))


def _edge_owner(place: HeldThing, said: _Said) -> Owner:
    if place.position.spread and _edge(said) is Edge.RIGHT:
        return Page.FACING
    return place.owner(said[1].against)


def _in_line(place: HeldThing, said: Sequence[_Said]) -> Iterator[Hold]:
    for against in dict.fromkeys(constraint.against for _, constraint in said):
        edges = tuple(_edge(one) for one in said if one[1].against == against)
        yield InLine(edges, place.thing(against))


def _centred(place: HeldThing, direction: Direction, constraint: Constraint) -> Hold:
    if place.position.spread and direction is Direction.ACROSS and BASE_ID in constraint.against:
        return OnFold()
    margin = span_of(place.held.rect, direction).low - constraint.start
    is_seen = margin > 0 and not place.is_by_eye and not place.position.spread
    seen = place.length(margin, Role.DISTANCE) if is_seen else None
    return Centred(direction, place.owner(constraint.against), seen)


def _under(place: HeldThing) -> Iterator[Thing]:
    """What it goes beneath, but for what is said to be overlapped from beneath."""
    said = {
        constraint.against
        for constraint in place.held.constraints
        if constraint.kind is ConstraintKind.GAP and constraint.inwards < 0
    }
    for ids in dict.fromkeys(place.held.over):
        if ids not in said:
            yield place.thing(ids)


# How it is held in the hand, tilted, seen, cut off.


def handling_of(
    context: LayoutContext, items: Sequence[Placed], position: Position, edge: PrintEdge | None = None
) -> Handling:
    """What the hand does first; where an edge of the print tells the way, only whether it lies sideways."""
    is_over, turn = position.face is Face.BACK, position.turn
    if turn is None or not items:
        return Handling(turn, is_over=is_over)
    told = edge is not None or not shows_turn(context, items[0], is_half=True)
    if turn is Turn.HALF:
        return Handling(None if told else turn, is_over=is_over)
    told = told or not shows_turn(context, items[0], is_half=False)
    return Handling(None if told else turn, is_sideways=told, is_over=is_over)


def shows_turn(context: LayoutContext, item: Placed, *, is_half: bool) -> bool:
    """Whether a turn of a piece shows: by its print, its words, or its outline."""
    if item.outline is OutlineShape.TAG:
        return True
    entries = entries_of(context, [item])
    return not entries or shows_its_way(context.resolved.kit, entries[0], item.face, is_half=is_half)


def _print_edge(context: LayoutContext, items: Sequence[Placed], position: Position) -> PrintEdge | None:
    """An edge of the print of one piece, and where that lies when the step is done."""
    entries = entries_of(context, items) if len(items) == 1 and items[0].whole is None else ()
    if not entries or _is_part(context, items[0]):
        return None
    lying = Orientation(position.face, quarters_of(position.turn))
    return print_edge(context.resolved.kit, entries[0], lying, getattr(position, "up", None))


def _is_part(context: LayoutContext, item: Placed) -> bool:
    """Whether scissors took it off a larger piece."""
    found = uses_of(context.resolved, context.layout.index)
    return item.use is not None and found[item.use].part_of is not None


def _tilt(place: HeldThing) -> Tilt | None:
    position = place.position
    if not position.tilt:
        return None
    border = _border_of(place)
    layout = place.context.layout
    is_with = any(item.pivot is not None for item in place.items) or (
        border is not None and layout.item(border.outer).tilt == layout.item(border.inner).tilt
    )
    degrees = Degrees(abs(position.tilt), (*place.placed.path, "tilt"))
    return Tilt(degrees, position.tilt > 0, Pivot.WITH_HOST if is_with else Pivot.OWN_MIDDLE)


def _border_of(place: HeldThing) -> NestBorder | None:
    mine = set(place.held.items)
    details = place.placed.details
    return next((one for one in details if isinstance(one, NestBorder) and mine & set(one.ids)), None)


def _seen(place: HeldThing) -> Border | None:
    """What is seen of the lower one all round; nothing where that is nowhere the same."""
    found = _border_of(place)
    if found is None or min(found.across, found.down) < 0:
        return None
    inner, outer = place.context.layout.item(found.inner), place.context.layout.item(found.outer)
    if inner.kind in _BY_EYE or (inner.tilt, inner.outline) != (outer.tilt, outer.outline):
        return None
    keys = ("border",) if place.position.border is not None else ()
    across, down = (
        place.length(width, Role.BORDER, *keys) if width else None for width in (found.across, found.down)
    )
    return Border(across, down)


def _trimmed_edges(place: HeldThing) -> tuple[Edge, ...]:
    """The edges of the page at which what is meant to go beyond it is cut off, once it is moved no more."""
    layout = place.context.layout
    later = layout.steps[place.placed.number :]
    moved = {id for step in later for one in step.details if isinstance(one, Moved) for id in one.items}
    over = [item for item in place.items if item.overhang and item.whole is None and item.id not in moved]
    edges = {
        edge
        for item in over
        for edge, past in beyond(upright_bounds(item), layout.base.rect).items()
        if past > _LEAST_PAST
    }
    return tuple(edge for edge in Edge if edge in edges)


# Rows and columns.


def series_of(place: HeldThing, count: Number) -> tuple[Series, Lying]:
    """How several things stand in line, and how the line lies crosswise: of a step that has an even gap."""
    context, held, position, items = place.context, place.held, place.position, place.items
    gap = place.placed.detail(EvenGap)
    assert gap is not None
    along, cross = gap.direction, PERPENDICULAR[gap.direction]
    even_ends = bool(getattr(position, "even_ends", False))
    ends = () if even_ends else tuple(_holds(place, [along]))
    is_on = position.on is not None and BASE_ID not in held.frame
    lying = Lying(
        tuple(_holds(place, [cross])),
        handling_of(context, items[:1], position),
        on=place.thing(held.frame) if is_on else None,
        under=tuple(_under(place)),
        tilt=_tilt(place),
        trim=_trimmed_edges(place),
    )
    keys = ("apart",) if not gap.computed else ()
    middle = None
    if gap.middle is not None:
        owner = place.owner(held.axis(along)[0].against)
        middle = MiddleOne(along, owner, place.length(gap.middle, Role.DISTANCE))
    series = Series(
        along,
        count,
        len({(item.kind, item.piece, item.rect.size) for item in items}) == 1,
        ends,
        place.length(gap.gap, Role.GAP, *keys) if gap.gap > 0 else None,
        place.length(-gap.gap, Role.GAP, *keys) if gap.gap < 0 else None,
        even_ends,
        items[0].kind is ItemKind.ADDED,
        middle,
    )
    return series, lying
