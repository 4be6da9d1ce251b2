"""Finished pages and the figures of steps, measured: placings, flags and rings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import pairwise
from math import cos, hypot, radians, sin

from booklet.content.figures import Flag, NumberedLayout, StepFigure
from booklet.content.spans import length_text
from booklet.drawing.layouts.finished_supplies import bows_of
from booklet.drawing.papers.piece_outline import outline_points
from booklet.drawing.shapes.affine import Box as DrawnBox
from booklet.drawing.shapes.scale import TRUE_SIZE
from booklet.kit.fields import Edge
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.measure.geometry import ExactPoint
from booklet.measure.length import Unit
from booklet.measure.words import APPROXIMATELY, print_size
from booklet.placing.model import ItemKind, Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit
from booklet.proof.at_trimmer import ratios_in
from booklet.proof.figures import Dimension, arrow_tip, arrowheads, joined
from booklet.proof.measured import (
    Drawn,
    Measured,
    Shown,
    extras,
    marks_off,
    millimetres,
    pitch_of,
    points,
    sides_off,
)
from booklet.proof.numerals import leeway, numerals
from booklet.proof.printed import POINTS_PER_MM, Box, Outline, Page, Path, Point, Stroke, box_about

# Arrowheads and strokes of rulers stand so far outside a finished page at most, in points.
_RULER = 24.0
# A page of a step's figure has sides in the proportions of the page, to so much of a side.
_ALIKE = 0.004
# A ring stands about a number, and beside the next ring or the value of its flag, no farther off than this.
_BESIDE, _LEVEL = 9.0, 4.0
# A leader begins so near its edge, and ends so near what stands on it.
_AT_EDGE, _AT_LEADER = 0.5, 3.0
# A ring is so wide at most.
_RING = 30.0
# The finest line, 0.18 mm (ISO 128-2, from memory), and a little more.
_FINE = 0.2 * POINTS_PER_MM
# Marks of a ruler begin so near the edge of the page.
_TICK_GAP = 2.0
# An outline of so many corners is held by them, too, unless its box is farther off than this, in points.
_RECTANGLE, _FAR = 4, 2.0
# A ring lies on its thing, or so near it, in points.
_NEAR = 1.0
# What is laid as paper, and shows where it lies by its outline.
_OUTLINED = {ItemKind.PIECE, ItemKind.PHOTO, ItemKind.TAPE, ItemKind.RIBBON}


@dataclass(frozen=True)
class _Layout:
    """A layout and a figure of it on a page: where it lies there, how many times smaller it is drawn."""

    shown: Shown
    layout: PlacedLayout
    unit: Unit
    frame: Box
    ratio: float
    name: str

    def at(self, x: float, y: float) -> Point:
        """A place of the layout, in its unit, on the page."""
        factor = points(1, self.unit, self.ratio)
        return self.frame.left + x * factor, self.frame.top + y * factor

    def drawn(self, what: str, said: str, item: Placed | None, off: float | None, box: Box) -> Measured:
        """Something of it that is measured."""
        source = item.path if item else ("layouts", self.layout.index)
        return Measured(Drawn(f"{self.shown.anchor} / {what}", self.shown.page, said, source), off, box)


def measured_at_table(resolved: ResolvedKit, figures: Sequence[Shown], page: Page) -> Iterator[Measured]:
    """All that is measured in the layouts' figures of a page; `figures` are those that it shows."""
    steps: list[tuple[Shown, StepFigure]] = []
    taken: Box | None = None
    for one in figures:
        match one.request:
            case NumberedLayout() as asked:
                taken = finished_page(page)
                yield from _of_layout(resolved, one, asked, page, taken)
            case StepFigure() as asked:
                steps.append((one, asked))
    if steps:
        yield from _of_steps(resolved, steps, page, taken)


# The finished page.


def _of_layout(
    resolved: ResolvedKit, shown: Shown, asked: NumberedLayout, page: Page, frame: Box | None
) -> Iterator[Measured]:
    layout, unit = resolved.layouts[asked.layout], resolved.kit.unit
    said, ratios = print_size(layout.size, unit), list(ratios_in(page.words_said))
    if frame is None or not ratios:
        claim = Drawn(f"{shown.anchor} / finished page", shown.page, said, ("layouts", asked.layout))
        yield Measured(claim, None)
        return
    ratio = min(ratios, key=lambda each: abs(frame.width - points(layout.size.width, unit, each)))
    one = _Layout(shown, layout, unit, frame, ratio, "finished page")
    sides = (
        abs(frame.width - points(layout.size.width, unit, ratio)),
        abs(frame.height - points(layout.size.height, unit, ratio)),
    )
    yield one.drawn("finished page", said, None, max(sides) / POINTS_PER_MM, frame)
    yield from _placings(one, layout.items, page)
    yield from _flags(one, asked.flags, page)
    yield from _rings(one, asked.numbers, page)


def finished_page(page: Page) -> Box | None:
    """The outline of the finished page: the largest empty one within which all was painted before it."""
    filled = [path for path in page.paths if path.fill is not None]
    painted = [(item.order, item.box) for items in (page.forms, filled) for item in items]
    outlines = [
        path.box
        for path in _empty_rectangles(page)
        if _is_filled(path.box, [box for order, box in painted if order < path.order])
    ]
    return max(outlines, key=lambda box: box.width * box.height, default=None)


def _empty_rectangles(page: Page) -> Iterator[Path]:
    for path in page.paths:
        if path.stroke is not None and path.fill is None and not path.curves and path.lines in (3, 4):
            yield path


def _is_filled(outline: Box, painted: Sequence[Box]) -> bool:
    """Whether what is painted within an outline reaches to all of its sides."""
    within = [box for box in painted if outline.holds(box, 1.0)]
    return bool(within) and reduce(Box.joined, within).holds(outline, 1.0)


# Where things lie.


def _placings(one: _Layout, items: Sequence[Placed], page: Page) -> Iterator[Measured]:
    """Each thing that has an outline, drawn where it lies and as large as it is."""
    bows = bows_of(one.layout)
    for item in items:
        if item.kind not in _OUTLINED or item.count != 1 or item.id in bows:
            continue
        corners = tuple(one.at(x, y) for x, y in corners_of(item, one.unit))
        about = box_about(corners)
        off = millimetres(_outline_off(corners, about, *drawn) for drawn in page.bounded_outlines)
        what = f"{one.name} / {item.name} of step {item.step_number}"
        yield one.drawn(what, print_size(item.rect.size, one.unit), item, off, about)


def corners_of(item: Placed, unit: Unit) -> list[tuple[float, float]]:
    """The corners of a thing as it lies, tilted, on its layout, in the kit's unit."""
    rect = item.rect
    left, top, width, height = (float(each) for each in (rect.x, rect.y, rect.width, rect.height))
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    if len(shaped := outline_points(item, _true_box(item, unit), TRUE_SIZE, unit)) != len(corners):
        factor = points(1, unit)
        corners = [(x / factor, y / factor) for x, y in shaped]
    pivot = item.pivot or rect.centre
    return [_turned(left + x, top + y, pivot, float(item.tilt)) for x, y in corners]


def _true_box(item: Placed, unit: Unit) -> DrawnBox:
    return DrawnBox(0.0, 0.0, *TRUE_SIZE.size(item.rect.size, unit))


def _turned(x: float, y: float, about: ExactPoint, degrees: float) -> tuple[float, float]:
    """A point turned clockwise, y down."""
    dx, dy = x - float(about.x), y - float(about.y)
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return float(about.x) + dx * c - dy * s, float(about.y) + dx * s + dy * c


def _outline_off(corners: Outline, about: Box, outline: Outline, box: Box) -> float:
    """How far an outline in a box is from one with these corners, at most, in points."""
    off = sides_off(about, box)
    if len(corners) != _RECTANGLE or off > _FAR:
        return off
    return max(off, *(min(hypot(x - u, y - v) for u, v in outline) for x, y in corners))


# Flags.


@dataclass(frozen=True)
class _PrintedFlag:
    """A value outside the finished page, with the numbers of the rings before it."""

    value: Dimension
    rings: tuple[int, ...]


def _flags(one: _Layout, flags: Sequence[Flag], page: Page) -> Iterator[Measured]:
    """Along each edge, in order: the values, the rings that stand with each, and where its arrow ends."""
    for along in Edge:
        asked = sorted((flag for flag in flags if flag.along is along), key=lambda flag: _place(one, flag))
        printed = sorted(
            _printed_flags(one, along, page), key=lambda flag: _along(flag.value.box.centre, along)
        )
        tips = sorted(arrow_tips(page, one.frame, along))
        found = _matched(asked, printed)
        for flag, its in zip(asked, found, strict=True):
            yield _flag(one, flag, its if its and _is_in_order(its, found, along) else None, tips)
        for left in [each for each in printed if each not in found][found.count(None) :]:
            claim = Drawn(f"{one.shown.anchor} / flag too many", one.shown.page, left.value.said)
            yield Measured(claim, None, left.value.box)
        heads = [_along(arrow_tip(head), along) for head in _heads(page, one.frame, along)]
        for at, off in enumerate(extras(heads, [_place(one, flag) for flag in asked]), 1):
            what = f"flag {along.value}, arrow {at}"
            yield one.drawn(what, "an arrow that is a flag's", None, millimetres([off]), one.frame)
        yield one.drawn(f"ruler {along.value}", "a ruler", None, _ruler_off(one, along, page), one.frame)


def _ruler_off(one: _Layout, along: Edge, page: Page) -> float | None:
    """How far in millimetres the marks along an edge are from a ruler's, at most."""
    start, end = _ends_of(one.frame, along)
    marks = sorted(
        {(_along(stroke.start, along), stroke.length) for stroke in _ticks(one.frame, along, page)}
    )
    places = [place for place, _ in marks]
    if len(places) < 2:
        return None
    # It is counted from either end, and stops at the other where there is no room for another mark.
    pitch = pitch_of(marks)
    before, after = places[0] - start, end - places[-1]
    if min(abs(before), abs(after)) > _NEAR or max(before, after) > pitch + _NEAR:
        return None
    zero = start if abs(before) <= abs(after) else end
    return marks_off(marks, zero, points(1, one.unit, one.ratio))


def _ticks(frame: Box, along: Edge, page: Page) -> Iterator[Stroke]:
    """The strokes of a fine line that stand on an edge of the finished page from outside."""
    edge, (low, high) = _edge_at(frame, along), _ends_of(frame, along)
    for stroke in page.strokes:
        is_across = stroke.is_level if along.is_upright else stroke.is_upright
        if not is_across or stroke.width > _FINE or not 2.0 < stroke.length < 6.0:
            continue
        ends = [point[0] if along.is_upright else point[1] for point in (stroke.start, stroke.end)]
        inner = max(ends) if along in (Edge.LEFT, Edge.TOP) else min(ends)
        if abs(inner - edge) < _TICK_GAP and low - _NEAR < _along(stroke.start, along) < high + _NEAR:
            yield stroke


def _flag(one: _Layout, flag: Flag, found: _PrintedFlag | None, tips: Sequence[float]) -> Measured:
    key = f"{one.shown.anchor} / flag {flag.along.value} from {flag.start.value} {flag.value.value}"
    claim = Drawn(key, one.shown.page, length_text(flag.value), flag.value.source)
    if found is None:
        return Measured(claim, None, one.frame)
    off = millimetres(abs(tip - _place(one, flag)) for tip in tips)
    return Measured(claim, off, found.value.box)


def _matched(asked: Sequence[Flag], printed: Sequence[_PrintedFlag]) -> list[_PrintedFlag | None]:
    """For each flag the printed one that says its value behind its rings; None where there is none."""
    left, found = list(printed), list[_PrintedFlag | None]()
    for flag in asked:
        rings = tuple(sorted(flag.steps))
        its = next((each for each in left if each.rings == rings and _says(each, flag)), None)
        found.append(its)
        if its is not None:
            left.remove(its)
    return found


def _is_in_order(its: _PrintedFlag, found: Sequence[_PrintedFlag | None], along: Edge) -> bool:
    """Whether a flag stands among the others of its row in the order of their places; rows may interlock."""
    x, y = its.value.box.centre
    at = found.index(its)
    for number, other in enumerate(found):
        if other is None or not (along.is_upright or abs(other.value.box.centre[1] - y) < _LEVEL):
            continue
        ahead = _along(other.value.box.centre, along) - _along((x, y), along)
        if (number < at and ahead > _LEVEL) or (number > at and ahead < -_LEVEL):
            return False
    return True


def _says(found: _PrintedFlag, flag: Flag) -> bool:
    said, value = list(numerals(found.value.said)), flag.value
    return len(said) == 1 and abs(said[0] - value.value) <= leeway(length_text(value), value.unit)


def _place(one: _Layout, flag: Flag) -> float:
    """Where the value of a flag lies along its edge, in points on the page."""
    length = points(flag.value.value, one.unit, one.ratio)
    way = 1 if flag.start in (Edge.LEFT, Edge.TOP) else -1
    return _edge_at(one.frame, flag.start) + way * length


def _edge_at(frame: Box, edge: Edge) -> float:
    """Where an edge of a finished page lies: across, or down."""
    return {
        Edge.LEFT: frame.left,
        Edge.RIGHT: frame.right,
        Edge.TOP: frame.top,
        Edge.BOTTOM: frame.bottom,
    }[edge]


def _ends_of(frame: Box, edge: Edge) -> tuple[float, float]:
    """Where an edge of a finished page begins and ends, along it."""
    return (frame.top, frame.bottom) if edge.is_upright else (frame.left, frame.right)


def _along(point: Point, edge: Edge) -> float:
    return point[1] if edge.is_upright else point[0]


def _printed_flags(one: _Layout, along: Edge, page: Page) -> Iterator[_PrintedFlag]:
    """The values behind rings that stand on a leader from an edge of the finished page."""
    ends = list(_leaders_from(one.frame, along, page))
    for flag, box in _ringed_values(page):
        if any(box.holds_point(end, _AT_LEADER) for end in ends):
            yield flag


@cached_on
def _ringed_values(page: Page) -> tuple[tuple[_PrintedFlag, Box], ...]:
    """The values of a page that stand behind rings, with the numbers of those rings and the box about all.

    Rings that have no room before their value go on in rows below.
    """
    rows = _ring_rows(page)
    values = [_value_after(row, page) for row in rows]
    below = [row for row, value in zip(rows, values, strict=True) if value is None]
    found = []
    for row, value in zip(rows, values, strict=True):
        if value is not None:
            rings = [ring for each in (row, *_going_on(row, value, below)) for ring in each]
            box = reduce(Box.joined, (ring.box for ring in rings), value.box)
            found.append((_PrintedFlag(value, tuple(sorted(int(ring.said) for ring in rings))), box))
    return tuple(found)


def _leaders_from(frame: Box, along: Edge, page: Page) -> Iterator[Point]:
    """Where fine lines end outside a finished page that begin at one of its edges."""
    edge, (low, high) = _edge_at(frame, along), _ends_of(frame, along)
    for path in page.paths:
        if path.stroke is None or path.fill is not None or path.width > _FINE:
            continue
        for outline in path.outlines:
            for start, end in (outline[:1] + outline[-1:], outline[-1:] + outline[:1]):
                off, out = ((x if along.is_upright else y) - edge for x, y in (start, end))
                is_outwards = out < -_AT_LEADER if along in (Edge.LEFT, Edge.TOP) else out > _AT_LEADER
                if abs(off) < _AT_EDGE and is_outwards and low - _NEAR < _along(start, along) < high + _NEAR:
                    yield end


@cached_on
def _ringed(page: Page) -> tuple[Dimension, ...]:
    """The numbers in circles, each with the box of its circle."""
    circles = [circle.box for circle in page.circles if circle.box.width < _RING]
    digits = [letter for letter in page.ink if letter.text.isdecimal() and letter.text.isascii()]
    found = {}
    for box in circles:
        held = sorted((each for each in digits if box.holds(each.box, 1.0)), key=lambda each: each.box.left)
        if held:
            found[box] = Dimension("".join(each.text for each in held), box)
    return tuple(found.values())


def _ring_rows(page: Page) -> list[list[Dimension]]:
    """The rings of a page that stand side by side, from left to right."""
    rows: list[list[Dimension]] = []
    for ring in sorted(_ringed(page), key=lambda ring: ring.box.left):
        last = [row for row in rows if _is_next(row[-1].box, ring.box)]
        if last:
            last[-1].append(ring)
        else:
            rows.append([ring])
    return rows


def _is_next(before: Box, box: Box) -> bool:
    """Whether something stands right behind a ring, on its level."""
    return abs(before.centre[1] - box.centre[1]) < _LEVEL and -1.0 < box.left - before.right < _BESIDE


def _value_after(row: list[Dimension], page: Page) -> Dimension | None:
    """The number that stands right behind a row of rings; none where another word does."""
    last = row[-1].box
    words = (word for word in page.words if not word.angle and _is_next(last, word.box))
    nearest = min(words, key=lambda word: word.box.left, default=None)
    values = _values(page) if nearest else ()
    return next((value for value in values if nearest and value.box.holds(nearest.box, 1.0)), None)


@cached_on
def _values(page: Page) -> tuple[Dimension, ...]:
    """The upright numbers of a page that stand in no ring."""
    rings = [ring.box for ring in _ringed(page)]
    words = (word for word in page.words if not word.angle and _is_of_value(word.text))
    return tuple(joined(word for word in words if not any(box.holds(word.box, 1.0) for box in rings)))


def _is_of_value(text: str) -> bool:
    return text == APPROXIMATELY or next(numerals(text), None) is not None


def _going_on(
    row: list[Dimension], value: Dimension, others: Sequence[list[Dimension]]
) -> Iterator[list[Dimension]]:
    """The rows of rings without a value that go on right below a row."""
    foot, left = row[0].box.bottom, row[0].box.left
    for other in sorted(others, key=lambda other: other[0].box.top):
        box = other[0].box
        if -1.0 < box.top - foot < _LEVEL and left - 1.0 < box.left < value.box.right:
            yield other
            foot = box.bottom


def arrow_tips(page: Page, outline: Box, along: Edge) -> list[float]:
    """Where arrows outside an edge of a page end, or oblique strokes cross their line: across, or down."""
    tips = [_along(arrow_tip(head), along) for head in _heads(page, outline, along)]
    return tips + oblique_strokes(page, outline, along)


def _heads(page: Page, outline: Box, along: Edge) -> Iterator[Outline]:
    return (head for head in arrowheads(page) if _lies_outside(box_about(head), outline, along))


def oblique_strokes(page: Page, outline: Box, along: Edge) -> list[float]:
    """Where the middles of short oblique strokes lie outside an edge, instead of arrows that would meet."""
    return [_along(box.centre, along) for box in _oblique(page) if _lies_outside(box, outline, along)]


@cached_on
def _oblique(page: Page) -> tuple[Box, ...]:
    """The boxes about the short strokes of a page at half a right angle."""
    found = []
    for stroke in page.strokes:
        (x0, y0), (x1, y1) = stroke.start, stroke.end
        width = abs(x1 - x0)
        if 2.0 < width < 6.0 and abs(width - abs(y1 - y0)) < 0.05:
            found.append(Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)))
    return tuple(found)


def _lies_outside(box: Box, outline: Box, along: Edge) -> bool:
    """Whether something lies close outside an edge."""
    off = {
        Edge.LEFT: outline.left - box.right,
        Edge.RIGHT: box.left - outline.right,
        Edge.TOP: outline.top - box.bottom,
        Edge.BOTTOM: box.top - outline.bottom,
    }[along]
    return 0 < off < _RULER


# Rings.


def _rings(one: _Layout, numbers: Sequence[int], page: Page) -> Iterator[Measured]:
    """The ring of each step on what it lays, or on a leader that ends there."""
    circles: dict[int, list[Box]] = {}
    for ring in _ringed(page):
        if one.frame.grown(_NEAR).overlaps(ring.box, 2.0):
            circles.setdefault(int(ring.said), []).append(ring.box)
    for printed in sorted(set(numbers)):
        laid = [item for item in one.layout.items if numbers[item.step_number - 1] == printed]
        if not laid:
            continue
        things = [tuple(one.at(x, y) for x, y in corners_of(item, one.unit)) for item in laid]
        reached = [point for box in circles.get(printed, ()) for point in (box.centre, *_leads_to(box, page))]
        off = millimetres(_off_thing(point, thing) for point in reached for thing in things)
        yield one.drawn(f"ring {printed}", str(printed), laid[0], _if_near(off), box_about(things[0]))


def _if_near(off: float | None) -> float | None:
    """Nothing for a ring on its thing: where on it, is free."""
    return 0.0 if off is not None and off < 2.0 else off


def _leads_to(ring: Box, page: Page) -> Iterator[Point]:
    """Where strokes that begin at a ring end."""
    x, y = ring.centre
    low, high = ring.width / 2 - 3.0, ring.width / 2 + 1.0
    for start, end in _long_ways(page):
        if abs(start[0] - x) < high and low < hypot(start[0] - x, start[1] - y) < high:
            yield end


@cached_on
def _long_ways(page: Page) -> tuple[tuple[Point, Point], ...]:
    """The ends of strokes that are no mere dots, each both ways round."""
    long = [stroke for stroke in page.strokes if stroke.length > 2.0]
    return tuple(ways for each in long for ways in ((each.start, each.end), (each.end, each.start)))


def _off_thing(point: Point, thing: Outline) -> float:
    """How far in points a place is from a thing; 0 on it."""
    x, y = point
    inside, nearest = False, float("inf")
    for (x0, y0), (x1, y1) in pairwise((*thing, thing[0])):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
        length = max(hypot(x1 - x0, y1 - y0), 1e-9)
        t = min(max(((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / length**2, 0.0), 1.0)
        nearest = min(nearest, hypot(x0 + t * (x1 - x0) - x, y0 + t * (y1 - y0) - y))
    return 0.0 if inside else nearest


# The figures of steps.


def _of_steps(
    resolved: ResolvedKit, steps: Sequence[tuple[Shown, StepFigure]], page: Page, taken: Box | None
) -> Iterator[Measured]:
    """The pages of the steps' figures with what lies on each by then, each where it fits best."""
    size = resolved.layouts[steps[0][1].layout].size
    shape = float(size.width / size.height)
    frames = [
        path.box
        for path in _empty_rectangles(page)
        if abs(path.box.width / max(path.box.height, 1e-9) / shape - 1) < _ALIKE and path.box.width > 8.0
        if taken is None or not taken.grown(_NEAR).holds(path.box)
    ]
    # A later step's page shows more, so it fits fewer frames.
    for shown, asked in sorted(steps, key=lambda one: -one[1].step):
        tries = [list(_of_step(resolved, shown, asked, page, frame)) for frame in frames]
        if not tries:
            name = f"figure of step {asked.step}"
            yield Measured(Drawn(f"{shown.anchor} / {name}", shown.page, name), None)
            continue
        best = min(range(len(tries)), key=lambda at: _misfit(tries[at]))
        del frames[best]
        yield from tries[best]


def _of_step(
    resolved: ResolvedKit, shown: Shown, asked: StepFigure, page: Page, frame: Box
) -> Iterator[Measured]:
    """What lies on the page by a step, as it would be measured if its figure stood in this frame."""
    layout, unit = resolved.layouts[asked.layout], resolved.kit.unit
    ratio = points(layout.size.width, unit) / frame.width
    one = _Layout(shown, layout, unit, frame, ratio, f"figure of step {asked.step}")
    there = [item for item in layout.items if asked.numbers[item.step_number - 1] <= asked.step]
    yield from _placings(one, there, page)


def _misfit(found: Sequence[Measured]) -> float:
    return sum(one.off if one.off is not None else 100.0 for one in found)
