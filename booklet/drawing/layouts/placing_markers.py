"""The numbers of the placing figure: a disc for every printed step, on its thing or on a leader to it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from math import cos, hypot, pi, sin

from booklet.drawing.layouts.look import Look
from booklet.drawing.marks.marker import marker_radius, placing_marker
from booklet.drawing.shapes.affine import Box, Point
from booklet.drawing.shapes.figure import Circle, Fill, Line, Shape
from booklet.drawing.shapes.style import DrawingStyle
from booklet.placing.model import ItemKind, Placed

_DOT = 1.6
# A band this long and wide takes a marker on itself; anything smaller gets a leader.
_BAND = (34.0, 5.0)
_NEAR_FIRST = (12.0, 18.0, 26.0, 36.0, 48.0, 62.0, 80.0)
_DIRECTIONS = 16
# How far apart the seats lie that are tried when there is none nearby.
_STEP = 4.0
_APART = 0.6


@dataclass
class _Seats:
    """Where discs may stand and where they stand: their middles, and the ends of leaders to keep clear."""

    room: Box
    radius: float
    below: float
    discs: list[Point] = field(default_factory=list)
    dots: list[Point] = field(default_factory=list)

    def is_free(self, spot: Point) -> bool:
        """Whether a disc may stand here."""
        apart = 2 * self.radius + _APART
        return all(hypot(spot[0] - x, spot[1] - y) >= apart for x, y in self.discs)

    def hides_nothing(self, spot: Point, target: Point) -> bool:
        """Whether a disc here leaves the ends of other leaders to be seen, and others its own leader."""
        others = (dot for dot in self.dots if dot != target)
        return all(hypot(spot[0] - x, spot[1] - y) >= self.radius + _DOT for x, y in others) and all(
            _distance(disc, spot, target) >= self.radius for disc in self.discs
        )

    def within(self, spot: Point) -> Point:
        """The nearest middle of a disc that lies wholly on the page."""
        x, y = spot
        room = self.room
        return min(max(x, room.left), room.right), min(max(y, room.top), room.bottom)


def _distance(point: Point, start: Point, end: Point) -> float:
    """How far a point is from a leader."""
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    square = dx * dx + dy * dy
    share = ((point[0] - x) * dx + (point[1] - y) * dy) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - x - share * dx, point[1] - y - share * dy)


def placing_markers(look: Look, numbers: Mapping[int, int], style: DrawingStyle, below: float) -> list[Shape]:
    """The discs and their leaders; where the page has no more room, discs stand in rows `below` it all."""
    radius = marker_radius(style)
    seats = _Seats(look.page.grown(-radius), radius, below)
    discs: list[Shape] = []
    waiting: list[tuple[str, Box]] = []
    for item in _marked(look, numbers):
        number, clear = str(numbers[item.step_number]), _clear_box(item, look)
        spot = _seat_on(clear, seats) if _takes_marker(clear, radius) else None
        if spot is None:
            waiting.append((number, clear))
            continue
        seats.discs.append(spot)
        discs.append(placing_marker(*spot, number, style))
    targets = [_target(clear, place, seats) for place, (_, clear) in enumerate(waiting)]
    seats.dots += targets
    leaders: list[Shape] = []
    for (number, _), target in zip(waiting, targets, strict=True):
        spot = _seat_near(target, seats)
        seats.discs.append(spot)
        leaders += [Line(target, spot, style.narrow), Circle(*target, _DOT, Fill(style.palette.ink))]
        discs.append(placing_marker(*spot, number, style))
    return [*leaders, *discs]


def _marked(look: Look, numbers: Mapping[int, int]) -> Iterator[Placed]:
    """The items that bear a number: each of a row, or what lies on it; else what shows most of a step."""
    groups: dict[int, list[Placed]] = {}
    for item in look.layout.items:
        groups.setdefault(numbers[item.step_number], []).append(item)
    for items in groups.values():
        first = [item for item in items if item.step_number == items[0].step_number]
        if len(first) > 1 and first[0].kind is not ItemKind.ADDED:
            for one in first:
                lying = (item for item in items if one.rect.contains(item.rect))
                yield max(lying, key=lambda item: _shown(item, look))
        else:
            yield max(items, key=lambda item: _shown(item, look))


def _shown(item: Placed, look: Look) -> tuple[float, int]:
    clear = _clear_box(item, look)
    return round(min(clear.width, clear.height), 3), item.id


def _clear_box(item: Placed, look: Look) -> Box:
    """The largest upright rectangle of an item that nothing covers, within the page, in points."""
    unit = look.resolved.kit.unit
    seen = next((visible for visible in look.layout.visible if visible.id == item.id), None)
    rect = seen.clear if seen is not None and seen.clear is not None else item.rect
    left, top = look.scale.points(rect.x, unit), look.scale.points(rect.y, unit)
    width, height = look.scale.size(rect.size, unit)
    box = Box(left, top, left + width, top + height)
    return box.common(look.page) or box


def _takes_marker(clear: Box, radius: float) -> bool:
    long, short = max(clear.width, clear.height), min(clear.width, clear.height)
    return short >= 1.5 * radius or (long >= _BAND[0] and short >= _BAND[1])


def _seat_on(clear: Box, seats: _Seats) -> Point | None:
    """The middle of the clear part, or the free place on it that is nearest to the middle."""
    x, y = clear.centre
    if seats.within((x, y)) == (x, y) and seats.is_free((x, y)):
        return x, y
    reach_x = max(0.0, clear.width / 2 - seats.radius)
    reach_y = max(0.0, clear.height / 2 - seats.radius)
    places = {
        seats.within((x + reach_x * across / 4, y + reach_y * down / 4))
        for across in range(-4, 5)
        for down in range(-4, 5)
    }
    # At the edge of the page a disc may be moved off a narrow part: that part gets a leader.
    inside = (p for p in places if clear.left <= p[0] <= clear.right and clear.top <= p[1] <= clear.bottom)
    nearest = sorted(inside, key=lambda place: (abs(place[0] - x) + abs(place[1] - y), place))
    return next(filter(seats.is_free, nearest), None)


def _target(clear: Box, number: int, seats: _Seats) -> Point:
    """Where a leader ends on a clear part too small for a disc: where no disc hides it.

    Neighbours' leaders end at different places along it.
    """
    shares = (0.5, 0.3, 0.7, 0.4, 0.6, 0.15, 0.85)
    first = number % 5
    places = [_along(clear, share) for share in (*shares[first:], *shares[:first])]
    hidden = seats.radius + _DOT
    open_ = (
        place for place in places if all(hypot(place[0] - x, place[1] - y) >= hidden for x, y in seats.discs)
    )
    return next(open_, places[0])


def _along(clear: Box, share: float) -> Point:
    x, y = clear.centre
    if clear.width > clear.height:
        return clear.left + share * clear.width, y
    return x, clear.top + share * clear.height


def _seat_near(target: Point, seats: _Seats) -> Point:
    """The nearest free place on the page from which the leader is seen, or any that is free, or one below."""
    seen = (
        spot for spot in _about(target, seats) if seats.is_free(spot) and seats.hides_nothing(spot, target)
    )
    return (
        next(seen, None)
        or next(filter(seats.is_free, _about(target, seats)), None)
        or next(filter(seats.is_free, _all_over(target, seats)), None)
        or _seat_below(seats)
    )


def _about(target: Point, seats: _Seats) -> Iterator[Point]:
    """Places on the page about a target, from near to far."""
    for distance in _NEAR_FIRST:
        for number in range(_DIRECTIONS):
            angle = 2 * pi * number / _DIRECTIONS - pi / 4
            spot = (target[0] + distance * cos(angle), target[1] + distance * sin(angle))
            if spot == seats.within(spot):
                yield spot


def _all_over(target: Point, seats: _Seats) -> Iterable[Point]:
    """A grid of places over the whole page, the nearest to the target first."""
    room = seats.room
    across = [room.left + step * _STEP for step in range(int(max(room.width, 0.0) / _STEP) + 1)]
    down = [room.top + step * _STEP for step in range(int(max(room.height, 0.0) / _STEP) + 1)]
    spots = ((x, y) for x in across for y in down)
    return sorted(spots, key=lambda spot: (hypot(spot[0] - target[0], spot[1] - target[1]), spot))


def _seat_below(seats: _Seats) -> Point:
    """The next place in rows beneath the figure."""
    apart = 2 * seats.radius + 2.0
    in_row = max(1, int(seats.room.width / apart) + 1)
    count = sum(1 for _, y in seats.discs if y > seats.below)
    row, place = divmod(count, in_row)
    return seats.room.left + place * apart, seats.below + seats.radius + 2.0 + row * apart
