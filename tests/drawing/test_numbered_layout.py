"""The numbered finished page: a ring on or led to what each step lays, a flag for each value on its ruler."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from math import ceil, dist
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely import Point as ShapelyPoint
from shapely import Polygon as ShapelyPolygon
from shapely import box as shapely_box
from shapely.geometry.base import BaseGeometry

from booklet.drawing.layouts.finished_pages import finished_page
from booklet.drawing.layouts.look import Look
from booklet.drawing.layouts.numbered_layout import (
    draw_numbered_layout,
    numbered_layout_size,
    numbers_question,
)
from booklet.drawing.layouts.ring_places import RingPlace, place_rings
from booklet.drawing.layouts.ring_question import ring_question
from booklet.drawing.layouts.rings import StepRing, rings_of
from booklet.drawing.layouts.rulers import FLAG_TAG, RulerFlag
from booklet.drawing.marks.ring import RING_TAG, ring_reach
from booklet.drawing.papers.piece_print import artwork_of
from booklet.drawing.shapes.affine import Box, Point, scaling
from booklet.drawing.shapes.figure import Circle, Figure, Group, Polyline, Text, bounds
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import mm
from booklet.kit.fields import Edge
from booklet.kit.load import load_kit
from booklet.measure.length import Unit, to_points
from booklet.measure.words import print_length
from booklet.placing.resolved import resolve_kit
from tests.drawing.looks import SIXTH, look_of, resolved_kit
from tests.drawing.overlaps import crosses, segments
from tests.drawing.rasters import MEAN_LIMIT, difference, figure_pdf, figure_svg
from tests.drawing.readings import text_boxes
from tests.drawing.styles import LARGE, STYLE
from tests.drawing.walking import dimensions, groups, walk
from tests.kits import Data, make_kit, ready, sheet
from tests.placing.layouts import measured_from_page
from tests.spec_data import WHOLE_DEMOS

SPECS = Path(__file__).parents[2] / "kit_specs"
BASE = sheet(id="base", paper="plain")
INCH = 12.0  # at a sixth
PIECES = [
    ready(name, count=60, size=size)
    for name, size in (("card", "4 x 3"), ("mat", "5 x 4"), ("bar", "8 x 1/4"), ("dot", "1/2 x 1/2"))
]
TICKETS = {
    "id": "tickets",
    "paper": "plain",
    "elements": [
        {"name": "board", "left": 0, "top": 0, "size": "6 x 1 1/2", "words": "The Slow Train Uphill"}
    ],
    "cuts": [{"at": [1.5], "turn": "clockwise"}, {"at": [6], "turn": "anticlockwise"}],
}
BRADS = {"id": "brads", "kind": "brads", "size": "3/16 x 3/16", "count": 40, "colour": "#d9a441"}


def look_at(*steps: Data, scale: Scale = SIXTH, size: str = "12 x 12", **more: Any) -> Look:
    """The look of a page with these steps, on which ready-cut things may lie."""
    layouts = [{"id": "page", "pocket": 1, "base": "base", "steps": list(steps)}]
    said: Data = {"ready": PIECES, "supplies": [BRADS], "sheet": size} | more
    return look_of(resolved_kit(make_kit(*said.pop("sheets", [BASE]), layouts=layouts, **said)), scale=scale)


def own_rings(look: Look) -> tuple[StepRing, ...]:
    """A ring for each step of the spec by itself."""
    return rings_of(look.layout, [step.number for step in look.layout.steps])


def numbered(look: Look, flags: Sequence[RulerFlag] = (), rings: Sequence[StepRing] | None = None) -> Figure:
    finished = finished_page(look.resolved, look.layout.index, look.papers)
    shown = own_rings(look) if rings is None else rings
    places = place_rings(numbers_question(look, shown, flags, STYLE))
    return draw_numbered_layout(look, finished, places, flags, STYLE, "page")


def placed(look: Look, rings: Sequence[StepRing] | None = None) -> dict[int, RingPlace]:
    places = place_rings(ring_question(look, own_rings(look) if rings is None else rings, STYLE))
    return {one.step: one for one in places}


def seen_of(ids: Iterable[int], look: Look) -> BaseGeometry:
    """The parts of these things that nothing covers, on the page."""
    seen: BaseGeometry = ShapelyPolygon()
    for id in ids:
        item = look.layout.item(id)
        outline: BaseGeometry = ShapelyPolygon(look.lying[id])
        for one in look.layout.items:
            if one.layer > item.layer and one.covers:
                outline = outline.difference(ShapelyPolygon(look.lying[one.id]))
        seen = seen.union(outline)
    return seen.intersection(shapely_box(*look.page))


def assert_on_their_things(places: Sequence[RingPlace], rings: Sequence[StepRing], look: Look) -> None:
    """Each ring lies on what its step lays, as far as that is seen, or its leader ends there."""
    assert {place.step for place in places} == {ring.step for ring in rings}
    for place in places:
        seen = seen_of(next(ring.items for ring in rings if ring.step == place.step), look)
        if not seen.buffer(-0.75).is_empty:  # nobody sees what is narrower
            end, reach = (place.at, ring_reach(STYLE)) if place.leader is None else (place.leader, 1.5)
            assert seen.distance(ShapelyPoint(end)) <= reach, place


def assert_rings_apart(places: Sequence[RingPlace], style_reach: float) -> None:
    for one, other in combinations(places, 2):
        assert dist(one.at, other.at) >= 2 * style_reach, (one, other)
    for one in places:
        if one.leader is None:
            continue
        line = LineString([one.leader, one.at])
        for other in places:
            if other is not one:
                assert line.distance(ShapelyPoint(other.at)) >= style_reach, (one, other)
                assert other.leader is None or not line.crosses(LineString([other.leader, other.at]))


# Rings.

SPOTS = st.tuples(
    st.sampled_from(["card", "card", "mat", "bar", "dot", "photo", "write"]),
    st.integers(-8, 80),
    st.integers(-8, 88),
    st.sampled_from([None, "clockwise"]),
    st.sampled_from([0, 0, 6]),
)


def step_at(kind: str, left: int, top: int, turn: str | None, tilt: int) -> Data:
    where: Data = {"left": left / 8, "top": top / 8, "turn": turn, "tilt": tilt, "overhang": True}
    return {kind: "2 x 3", **where} if kind in ("photo", "write") else {"place": kind, **where}


# No two things begin within the same inch: where a dozen lie on one spot, their rings are crowded off it.
APART = st.lists(SPOTS, min_size=1, max_size=14, unique_by=lambda spot: (spot[1] // 8, spot[2] // 8))


@given(APART)
@settings(max_examples=40, deadline=None)
def test_rings_stand_on_their_things_or_are_led_to_them_and_keep_apart(
    spots: list[tuple[str, int, int, str | None, int]],
) -> None:
    look = look_at(*(step_at(*spot) for spot in spots))
    rings = own_rings(look)
    places = place_rings(ring_question(look, rings, STYLE))
    assert_rings_apart(places, ring_reach(STYLE))
    assert_on_their_things(places, rings, look)


@pytest.mark.parametrize("count", [30, 60])
def test_where_the_page_is_full_rings_stand_below_it_in_rows(count: int) -> None:
    steps = [step_at("dot", (n * 7) % 40, (n * 11) % 40, None, 0) for n in range(count)]
    look = look_at(*steps, size="6 x 6")
    places = place_rings(ring_question(look, own_rings(look), STYLE))
    assert len(places) == count
    assert_rings_apart(places, ring_reach(STYLE))
    below = [place for place in places if place.at[1] > look.page.bottom]
    assert below
    assert all(place.leader is None for place in below)
    figure = numbered(look)
    # What is drawn below counts to the figure's size.
    assert figure.height >= max(place.at[1] for place in below) + ring_reach(STYLE)


def test_a_ring_stands_in_the_middle_of_a_plain_thing() -> None:
    look = look_at({"place": "card", "left": 2, "top": 3})
    assert placed(look)[1].at == pytest.approx((4 * INCH, 4.5 * INCH), abs=1.0)


def test_a_ring_stands_on_the_line_of_a_narrow_band() -> None:
    look = look_at({"place": "card", "left": 2, "top": 1}, {"place": "bar", "left": 2, "top": 8})
    band = placed(look)[2]
    assert band.leader is None
    assert band.at[1] == pytest.approx(8.125 * INCH, abs=1.0)


def test_a_ring_hides_neither_a_brad_nor_its_hole() -> None:
    look = look_at({"place": "card", "left": 2, "top": 3}, {"add": "brads", "on": "card", "top": 1})
    brad = placed(look)[2]
    (item,) = look.layout.of_step(2)
    assert brad.leader is not None
    middle = float(item.rect.centre.x) * INCH, float(item.rect.centre.y) * INCH
    assert dist(brad.at, middle) > ring_reach(STYLE)
    assert dist(brad.leader, middle) < 2.0


def test_a_ring_keeps_off_words_where_its_thing_or_its_edge_has_room() -> None:
    look = look_at({"place": "board", "left": 3, "top": 5}, sheets=[BASE, TICKETS], ready=[])
    (item,) = look.layout.items
    (words,) = artwork_of(item, look.layout, look.resolved, look.papers, look.scale)
    ring = placed(look)[1]
    assert ShapelyPolygon(words).distance(ShapelyPoint(ring.at)) >= ring_reach(STYLE) - 0.8


@pytest.mark.parametrize("size", ["4 x 6", "6 x 4", "3 x 4"])
def test_a_ring_keeps_off_the_middle_of_a_photograph(size: str) -> None:
    look = look_at({"photo": size, "left": 3, "top": 3})
    ring = placed(look)[1]
    (item,) = look.layout.items
    middle = float(item.rect.centre.x) * INCH, float(item.rect.centre.y) * INCH
    least = float(min(item.rect.width, item.rect.height)) * INCH / 4
    assert dist(ring.at, middle) > least
    assert ring.leader is None


@pytest.mark.parametrize(("piece", "count"), [("square", 3), ("dot", 10)])
def test_one_of_a_row_of_alike_things_bears_the_number(piece: str, count: int) -> None:
    pieces = [ready("square", count=3, size="3 x 3"), ready("dot", count=10, size="1/2 x 1/2")]
    row = {"row": [piece], "count": count, "left": 1, "right": 1, "top": 2}
    look = look_at(row, ready=pieces)
    (ring,) = place_rings(ring_question(look, own_rings(look), STYLE))
    assert ring.step == 1


def test_the_ring_of_a_hidden_mat_stands_at_its_edge() -> None:
    look = look_at(
        {"place": "card", "left": 2, "top": 2},
        {"place": "mat", "left": 1.5, "top": 1.5},
    )
    hidden = placed(look)[1]
    edge = ShapelyPolygon(look.lying[look.layout.of_step(1)[0].id]).exterior
    assert edge.distance(ShapelyPoint(hidden.leader or hidden.at)) <= 2.5


def test_a_ring_is_led_to_what_is_seen_only_between_other_things() -> None:
    look = look_at(
        {"place": "card", "left": 3.5, "top": 4},
        {"place": "mat", "left": 0.25, "top": 3.5},
        {"place": "mat", "left": 5.75, "top": 3.5},
    )
    between = placed(look)[1]
    assert between.leader is not None
    assert between.leader[0] == pytest.approx(5.5 * INCH, abs=0.25 * INCH)


def test_a_step_that_lays_nothing_is_shown_where_it_works() -> None:
    look = look_at(
        {"place": "card", "left": 2, "top": 2, "called": "first"},
        {"place": "card", "left": 7, "top": 7, "called": "second"},
        {"raise": "second"},
        {"do": "Smooth it.", "on": "first"},
    )
    rings = {ring.step: ring.items for ring in own_rings(look)}
    assert rings == {1: rings[4], 2: rings[3], 3: rings[3], 4: rings[4]}
    assert rings[3] != rings[4]


def test_steps_printed_together_share_one_ring() -> None:
    look = look_at({"place": "mat", "left": 2, "top": 2}, {"photo": "4 x 3", "on": "mat"})
    (ring,) = rings_of(look.layout, [1, 1])
    assert ring.items == tuple(item.id for item in look.layout.items)


# Rulers and flags.


def flag(along: Edge, start: Edge, value: Fraction | int, *steps: int, unit: Unit = Unit.INCH) -> RulerFlag:
    return RulerFlag(along, start, Fraction(value), print_length(Fraction(value), unit), steps)


ENDS = {
    Edge.TOP: (Edge.LEFT, Edge.RIGHT),
    Edge.BOTTOM: (Edge.LEFT, Edge.RIGHT),
    Edge.LEFT: (Edge.TOP, Edge.BOTTOM),
    Edge.RIGHT: (Edge.TOP, Edge.BOTTOM),
}
FLAGS = st.builds(
    lambda along, end, eighths, steps: flag(along, ENDS[along][end], Fraction(eighths, 8), *sorted(steps)),
    st.sampled_from(list(Edge)),
    st.integers(0, 1),
    st.integers(0, 96),
    st.sets(st.integers(1, 14), min_size=1, max_size=3),
)


def page_in(figure: Figure, look: Look) -> Box:
    """Where the page lies in the figure: by the map of the group that holds everything."""
    (moved,) = figure.shapes
    assert isinstance(moved, Group)
    return look.page.under(moved.transform)


def flag_groups(figure: Figure) -> list[Group]:
    (moved,) = figure.shapes
    assert isinstance(moved, Group)
    return [
        Group((group,), moved.transform)
        for group in moved.children
        if isinstance(group, Group) and group.tag == FLAG_TAG
    ]


@given(st.lists(FLAGS, min_size=1, max_size=16))
@settings(max_examples=60, deadline=None)
def test_every_flag_is_led_to_its_exact_place_and_none_lies_over_another(flags: list[RulerFlag]) -> None:
    look = look_at({"place": "card", "left": 2, "top": 2})
    figure = numbered(look, flags)
    page = page_in(figure, look)
    records = dimensions(figure.shapes)
    values = {one.text: one.value for one in flags}
    assert sorted(record.label for record in records) == sorted(one.text for one in flags)
    for record, group in zip(records, flag_groups(figure), strict=True):
        assert record.length == pytest.approx(INCH * float(values[record.label]), abs=1e-6)
        assert on_border(record.start, page)
        assert on_border(record.end, page)
        leader = next(leaf for leaf, _ in walk([group]) if isinstance(leaf, Polyline))
        start = next(map_ for leaf, map_ in walk([group]) if leaf is leader).apply(leader.points[0])
        # 0.3 mm is what a finished page is proofed to.
        assert dist(start, record.end) <= mm(0.3)
    assert_labels_apart(figure, page)


def on_border(point: Point, page: Box) -> bool:
    return (
        min(
            abs(point[0] - page.left),
            abs(point[0] - page.right),
            abs(point[1] - page.top),
            abs(point[1] - page.bottom),
        )
        < 1e-6
    )


def labels_of(group: Group) -> list[Box]:
    """The boxes of a flag's rings and of its value."""
    found = [box for text, box in text_boxes([group]) if text.role == "flag"]
    return found + [bounds([Group((ring,), map_)]) for ring, map_ in rings_within(group)]


def rings_within(group: Group) -> list[tuple[Circle, Any]]:
    return [
        (leaf, map_)
        for inner, map_ in groups([group])
        if inner.tag == RING_TAG
        for leaf in inner.children
        if isinstance(leaf, Circle)
    ]


def assert_labels_apart(figure: Figure, page: Box) -> None:
    """No value or ring of a flag lies over another, over the page, under a leader, or beyond the figure."""
    labels = [labels_of(group) for group in flag_groups(figure)]
    room = Box(0, 0, figure.width, figure.height).grown(0.5)
    everything = [box for own in labels for box in own]
    for one, other in combinations(everything, 2):
        assert not one.grown(-0.1).overlaps(other), (one, other)
    for box in everything:
        assert room.holds(box), box
        assert not box.grown(-0.5).overlaps(page), box
    for group in flag_groups(figure):
        for start, end in segments([leaf for leaf, _ in walk([group]) if isinstance(leaf, Polyline)]):
            first, last = group.transform.apply(start), group.transform.apply(end)
            assert not any(crosses(first, last, box.grown(-0.4)) for box in everything), (first, last)


def test_a_value_is_counted_from_the_end_that_its_flag_names() -> None:
    look = look_at({"place": "card", "left": 2, "top": 2})
    flags = [
        flag(Edge.TOP, Edge.LEFT, 1, 1),
        flag(Edge.BOTTOM, Edge.RIGHT, 2, 1),
        flag(Edge.LEFT, Edge.TOP, 3, 1),
        flag(Edge.LEFT, Edge.BOTTOM, 4, 1),
    ]
    figure = numbered(look, flags)
    page = page_in(figure, look)
    ends = {one.label: one.end for one in dimensions(figure.shapes)}
    assert ends["1"] == pytest.approx((page.left + 1 * INCH, page.top))
    assert ends["2"] == pytest.approx((page.right - 2 * INCH, page.bottom))
    assert ends["3"] == pytest.approx((page.left, page.top + 3 * INCH))
    assert ends["4"] == pytest.approx((page.left, page.bottom - 4 * INCH))


def test_a_flag_names_every_step_that_needs_its_value() -> None:
    look = look_at({"place": "card", "left": 2, "top": 2})
    (group,) = flag_groups(numbered(look, [flag(Edge.LEFT, Edge.TOP, 2, 5, 9, 12)]))
    said = [leaf.text for leaf, _ in walk([group]) if isinstance(leaf, Text)]
    assert said == ["5", "9", "2", "12"]


@given(st.lists(FLAGS, max_size=12), st.sampled_from([Fraction(4), Fraction(9, 2), Fraction(6)]))
@settings(max_examples=30, deadline=None)
def test_the_size_is_known_without_drawing(flags: list[RulerFlag], reduction: Fraction) -> None:
    look = look_at({"place": "card", "left": 2, "top": 2}, scale=Scale(reduction))
    figure = numbered(look, flags)
    size = numbered_layout_size(look.layout.size, Unit.INCH, flags, look.scale, STYLE)
    assert size == (figure.width, figure.height)
    # A ring's text is taken as high as its tallest letters.
    assert Box(0, 0, *size).grown(0.5).holds(bounds(figure.shapes))


@pytest.mark.parametrize(("unit", "value"), [(Unit.CENTIMETRE, Fraction(7)), (Unit.MILLIMETRE, Fraction(70))])
def test_a_metric_ruler_counts_centimetres(unit: Unit, value: Fraction) -> None:
    pieces = [ready("card", size="100 x 80 mm")]
    where = {Unit.CENTIMETRE: 7, Unit.MILLIMETRE: 70}[unit]
    look = look_at(
        {"place": "card", "left": where, "top": where}, unit=unit, size="300 x 300 mm", ready=pieces
    )
    figure = numbered(look, [flag(Edge.TOP, Edge.LEFT, value, 1, unit=unit)])
    (record,) = dimensions(figure.shapes)
    assert record.length == pytest.approx(to_points(Fraction(70), Unit.MILLIMETRE, look.scale.reduction))


# The demo kits.


def demo_flags(look: Look, numbers: Sequence[int]) -> list[RulerFlag]:
    """A flag for everything that is measured from the page's edges, on the ruler that it is counted on."""
    found: dict[tuple[Edge, Edge, Fraction], set[int]] = {}
    along = {Edge.LEFT: Edge.TOP, Edge.RIGHT: Edge.BOTTOM, Edge.TOP: Edge.LEFT, Edge.BOTTOM: Edge.RIGHT}
    for number, start, value in measured_from_page(look.layout):
        found.setdefault((along[start], start, value), set()).add(numbers[number - 1])
    unit = look.resolved.kit.unit
    return [
        RulerFlag(along, start, value, print_length(value, unit), tuple(sorted(steps)))
        for (along, start, value), steps in found.items()
    ]


@pytest.mark.parametrize("name", WHOLE_DEMOS)
def test_every_layout_of_a_demo_is_numbered_and_measured(name: str) -> None:
    done = resolve_kit(load_kit(SPECS / f"{name}.yaml"))
    scale = Scale(Fraction(9, 2))
    papers = look_of(done, 0).papers
    for index in range(len(done.layouts)):
        look = look_of(done, index, scale, papers)
        numbers = [step.number for step in look.layout.steps]
        flags = demo_flags(look, numbers)
        figure = numbered(look, flags)
        assert_labels_apart(figure, page_in(figure, look))
        rings = own_rings(look)
        places = place_rings(ring_question(look, rings, STYLE))
        assert_rings_apart(places, ring_reach(STYLE))
        assert_on_their_things(places, rings, look)
        assert figure.width <= 328  # the text of a half-letter page


def test_texts_are_of_a_size_that_is_read_at_arm_s_length() -> None:
    look = look_at({"place": "card", "left": 2, "top": 2})
    figure = numbered(look, [flag(Edge.TOP, Edge.LEFT, Fraction(9, 8), 1, 12)])
    sizes = {leaf.role: leaf.size for leaf, _ in walk(figure.shapes) if isinstance(leaf, Text)}
    assert sizes["flag"] == STYLE.dimension_size
    assert all(leaf.size >= 9 for leaf, _ in walk(figure.shapes) if isinstance(leaf, Text))


def test_in_large_print_rings_and_values_are_larger() -> None:
    look = look_at({"place": "card", "left": 2, "top": 2})
    flags = [flag(Edge.LEFT, Edge.TOP, 1, 1)]
    small, large = (
        numbered_layout_size(look.layout.size, Unit.INCH, flags, look.scale, style)
        for style in (STYLE, LARGE)
    )
    assert ring_reach(LARGE) > ring_reach(STYLE)
    assert large[0] > small[0]


def test_both_writers_draw_it_alike() -> None:
    look = look_at(
        {"place": "mat", "left": 1, "top": 2},
        {"photo": "4 x 3", "on": "mat"},
        {"place": "bar", "left": 2, "top": 9},
    )
    figure = numbered(look, [flag(Edge.TOP, Edge.LEFT, 1, 1, 2), flag(Edge.RIGHT, Edge.BOTTOM, 3, 3)])
    # At its own size it is nearly all edge, which the two rasterisers soften differently: one of them moves
    # fine upright lines, such as a ruler's marks, to whole pixels (0.014 % of this picture, measured).
    side = 4.0 * ceil(max(figure.width, figure.height))
    large = replace(figure, width=side, height=side, shapes=(Group(figure.shapes, scaling(4)),))
    mean, strong = difference(figure_pdf(large), figure_svg(large))
    assert mean < MEAN_LIMIT
    assert strong < 0.0005


def test_the_same_layout_is_numbered_alike_every_time() -> None:
    def drawn() -> bytes:
        look = look_at({"place": "mat", "left": 1, "top": 2}, {"place": "dot", "left": 7, "top": 9})
        return figure_pdf(numbered(look, [flag(Edge.TOP, Edge.LEFT, 1, 1)]))

    assert drawn() == drawn()
