"""The placing figure: a number for every step, and every measure as long as it says."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from itertools import combinations
from math import hypot
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.drawing.layouts.layout_figure import placing_figure, placing_map
from booklet.drawing.layouts.look import Look
from booklet.drawing.shapes.affine import Affine, Box, Point
from booklet.drawing.shapes.figure import Figure, Group, Line, Polygon, Text, dimensions, groups, walk
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.load import load_kit
from booklet.measure.length import Unit, parse_length, to_points
from booklet.pages.printed_steps import printed_numbers, printed_steps
from booklet.pages.sentences import step_words
from booklet.placing.model import MeasureKind
from booklet.placing.resolved import resolve_kit
from tests.drawing.looks import SIXTH, look_of, resolved_kit
from tests.drawing.readings import text_boxes
from tests.kits import Data, make_kit, ready, sheet
from tests.pages.telling import typed

SPECS = Path(__file__).parents[2] / "kit_specs"
STYLE = DrawingStyle()
EIGHTH = Scale(Fraction(8))
BASE = sheet(id="base", paper="plain")
INCHES = {Unit.INCH: Fraction(1), Unit.MILLIMETRE: Fraction(127, 5), Unit.CENTIMETRE: Fraction(127, 50)}
# Half of what a ruler shows: what a label with an approximately-equal sign may be off.
SLACK = {Unit.INCH: Fraction(1, 32), Unit.MILLIMETRE: Fraction(1, 4), Unit.CENTIMETRE: Fraction(1, 40)}
SIZES = {
    "card": (Fraction(4), Fraction(3)),
    "bar": (Fraction(8), Fraction(1, 4)),
    "dot": (Fraction(1, 2), Fraction(1, 2)),
}


def look_at(*steps: Data, unit: Unit = Unit.INCH, scale: Scale = SIXTH, **more: Any) -> Look:
    """The look of a page with these steps, on which ready-cut cards, narrow bars and small dots may lie."""
    inch = INCHES[unit]
    pieces = [
        ready(name, count=60, size=f"{float(wide * inch)} x {float(high * inch)}")
        for name, (wide, high) in SIZES.items()
    ]
    layouts = [{"id": "page", "pocket": 1, "base": "base", "steps": list(steps)}]
    sized = "12 x 12" if unit is Unit.INCH else "12 x 12 in"
    kit = make_kit(BASE, layouts=layouts, ready=pieces, unit=unit, sheet=sized, **more)
    return look_of(resolved_kit(kit), scale=scale)


def own_numbers(look: Look) -> Mapping[int, int]:
    return {step.number: step.number for step in look.layout.steps}


def discs(figure: Figure) -> list[tuple[str, Point, float]]:
    """The numbers, middles and radii of the discs, without their rings of white."""
    found = []
    for group, map_ in groups(figure.shapes):
        if group.tag == "placing marker":
            (numeral,) = [leaf for leaf in group.children if isinstance(leaf, Text)]
            found.append((numeral.text, map_.apply(middle(group)), STYLE.disc_radius))
    return found


def middle(group: Group) -> Point:
    ring = group.children[0]
    return ring.x, ring.y  # type: ignore[union-attr]


def page_box(figure: Figure, look: Look) -> Box:
    """Where the page lies in the figure: the outline of the page is drawn at its full width."""
    for leaf, map_ in walk(figure.shapes):
        if isinstance(leaf, Polygon) and leaf.stroke == STYLE.outline and leaf.fill is None:
            return look.page.under(map_)
    raise AssertionError("no page is drawn")


def assert_numbered(figure: Figure, look: Look, numbers: Mapping[int, int], crowded: bool = False) -> None:
    """Each printed step that lays something has a disc; discs keep apart, and to the page."""
    found = discs(figure)
    assert {number for number, _, _ in found} == {
        str(numbers[item.step_number]) for item in look.layout.items
    }
    for (_, (x, y), radius), (_, (u, v), other) in combinations(found, 2):
        assert hypot(x - u, y - v) >= radius + other
    page = page_box(figure, look)
    room = Box(0, 0, figure.width, figure.height) if crowded else page
    for _, (x, y), radius in found:
        assert room.grown(0.1).holds(Box(x - radius, y - radius, x + radius, y + radius))


SPOTS = st.tuples(
    st.sampled_from(["card", "card", "bar", "dot", "photo", "write"]),
    st.integers(-8, 80),
    st.integers(-8, 88),
    st.sampled_from([None, "clockwise"]),
    st.sampled_from([0, 0, 6]),
)


def step_at(
    kind: str, left: int, top: int, turn: str | None, tilt: int, inch: Fraction = INCHES[Unit.INCH]
) -> Data:
    where: Data = {
        "left": inch * left / 8,
        "top": inch * top / 8,
        "turn": turn,
        "tilt": tilt,
        "overhang": True,
    }
    if kind in ("photo", "write"):
        return {kind: "2 x 3", **where}
    return {"place": kind, **where}


@given(st.lists(SPOTS, min_size=1, max_size=14))
@settings(max_examples=60)
def test_numbers_keep_apart_and_to_the_page(spots: list[tuple[str, int, int, str | None, int]]) -> None:
    look = look_at(*(step_at(*spot) for spot in spots))
    for make in (placing_map, placing_figure):
        assert_numbered(make(look, own_numbers(look), STYLE, "figure"), look, own_numbers(look))


@pytest.mark.parametrize("count", [20, 30, 45])
@pytest.mark.parametrize("scale", [SIXTH, EIGHTH])
@pytest.mark.parametrize("kind", ["dot", "bar", "card"])
def test_many_numbers_keep_apart_beyond_the_page_if_need_be(count: int, scale: Scale, kind: str) -> None:
    steps = [step_at(kind, (n * 7) % 60, (n * 11) % 80, None, 0) for n in range(count)]
    look = look_at(*steps, scale=scale)
    for make in (placing_map, placing_figure):
        assert_numbered(make(look, own_numbers(look), STYLE, "figure"), look, own_numbers(look), crowded=True)


def test_each_of_a_row_has_its_number() -> None:
    row = {"row": ["card"], "count": 3, "apart": 0, "left": 0, "top": 2}
    figure = placing_map(
        look := look_at(row, {"place": "dot", "left": 1, "top": 8}), own_numbers(look), STYLE, "f"
    )
    assert sorted(number for number, _, _ in discs(figure)) == ["1", "1", "1", "2"]


def test_the_number_of_each_of_a_row_stands_on_the_photograph_that_lies_on_it() -> None:
    row = {"row": ["card"], "count": 2, "called": "cards", "left": 1, "right": 1, "top": 2}
    photos = [{"photo": "3 1/2 x 2 1/2", "on": f"cards {place}"} for place in (1, 2)]
    look = look_at(row, *photos)
    figure = placing_map(look, {1: 1, 2: 1, 3: 1}, STYLE, "figure")
    page = page_box(figure, look)
    # The middles of cards of 4 x 3 that begin 1 from both edges, 2 below the top: 3 and 9 across, 3 1/2 down.
    found = sorted(relative(spot, page) for _, spot, _ in discs(figure))
    assert found == [pytest.approx((3, 3.5)), pytest.approx((9, 3.5))]


def test_a_number_lies_on_its_own_thing_or_its_leader_ends_there() -> None:
    look = look_at(
        {"place": "card", "left": 1, "top": 1},
        {"place": "bar", "left": 2, "bottom": 0},
        {"place": "dot", "right": 0, "top": 0},
    )
    figure = placing_map(look, own_numbers(look), STYLE, "figure")
    ends = leader_ends(figure)
    page = page_box(figure, look)
    for number, spot, _ in discs(figure):
        (item,) = look.layout.of_step(int(number))
        left, top = page.left + float(item.rect.x) * 12, page.top + float(item.rect.y) * 12
        box = Box(left, top, left + float(item.rect.width) * 12, top + float(item.rect.height) * 12)
        at = next((end for end, start in ends if start == pytest.approx(spot)), spot)
        assert box.left <= at[0] <= box.right, number
        assert box.top <= at[1] <= box.bottom, number


def leader_ends(figure: Figure) -> list[tuple[Point, Point]]:
    """The ends of the leaders, at the thing and at the disc."""
    found = []
    for leaf, map_ in walk(figure.shapes):
        if isinstance(leaf, Line) and leaf.stroke == STYLE.narrow:
            found.append((map_.apply(leaf.start), map_.apply(leaf.end)))
    return found


# Measures.


def expected_labels(look: Look) -> set[tuple[str, Fraction]]:
    """What is measured from the page's edges: the axis, and how long."""
    return {
        ("across" if one.start.y == one.end.y else "down", one.length)
        for one in look.layout.measures
        if one.against == (0,) and one.kind is not MeasureKind.BORDER
    }


def assert_measures_true(figure: Figure, look: Look) -> None:
    """Every label, read back, is as long as its line at the figure's scale; outside, from the page's edge."""
    unit = look.resolved.kit.unit
    page = page_box(figure, look)
    found = set()
    for one in dimensions(figure.shapes):
        length = parse_length(typed(one.label).removeprefix("≈ "), unit)
        slack = SLACK[unit] if one.label.startswith("≈") else Fraction(0)
        drawn = to_points(length, unit, look.scale.reduction)
        assert one.length == pytest.approx(drawn, abs=1e-6 + to_points(slack, unit, look.scale.reduction))
        upright = one.start[0] == pytest.approx(one.end[0])
        if page.holds(Box(*one.start, *one.end)):
            continue  # between pieces
        edge = one.start[1] if upright else one.start[0]
        edges = (page.top, page.bottom) if upright else (page.left, page.right)
        assert min(abs(edge - end) for end in edges) == pytest.approx(0, abs=1e-6)
        found.add(("down" if upright else "across", length))
    if not any(one.label.startswith("≈") for one in dimensions(figure.shapes)):
        assert found == expected_labels(look)


@given(st.lists(SPOTS, min_size=1, max_size=8), st.sampled_from(list(Unit)))
@settings(max_examples=40)
def test_every_measure_is_as_long_as_it_says(
    spots: list[tuple[str, int, int, str | None, int]], unit: Unit
) -> None:
    look = look_at(*(step_at(*spot, inch=INCHES[unit]) for spot in spots), unit=unit)
    figure = placing_figure(look, own_numbers(look), STYLE, "figure")
    assert_measures_true(figure, look)
    assert_texts_apart(figure)


def assert_texts_apart(figure: Figure) -> None:
    """No value lies over another value, or over a disc."""
    texts = [
        Box(text.box.left, text.y - 0.7 * text.size, text.box.right, text.y).under(map_)
        for text, map_ in texts_of(figure)
    ]
    for _, (x, y), radius in discs(figure):
        disc = Box(x - radius, y - radius, x + radius, y + radius)
        assert not any(disc.overlaps(text) for text in texts)
    for one, other in combinations(texts, 2):
        assert not one.grown(-0.05).overlaps(other), (one, other)


def texts_of(figure: Figure) -> Iterable[tuple[Text, Affine]]:
    return [
        (leaf, map_)
        for leaf, map_ in walk(figure.shapes)
        if isinstance(leaf, Text) and leaf.role == "dimension"
    ]


@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_every_layout_of_a_demo_is_numbered_and_measured(name: str) -> None:
    done = resolve_kit(load_kit(SPECS / f"{name}.yaml"))
    for index, layout in enumerate(done.layouts):
        look = look_of(done, index)
        numbers = printed_numbers(printed_steps(step_words(done, layout)))
        figure = placing_figure(look, numbers, STYLE, "figure")
        assert_numbered(figure, look, numbers)
        assert_measures_true(figure, look)
        assert_texts_apart(figure)


def test_equal_distances_from_one_edge_are_shown_once() -> None:
    look = look_at({"place": "card", "left": 1, "top": 1}, {"place": "card", "left": 1, "top": 6})
    figure = placing_figure(look, own_numbers(look), STYLE, "figure")
    assert sorted(one.label for one in dimensions(figure.shapes)) == ["1", "1", "6"]


def test_distances_from_opposite_edges_each_have_their_own_line() -> None:
    look = look_at({"place": "card", "left": 1, "top": 2}, {"place": "card", "right": 3, "bottom": 4})
    figure = placing_figure(look, own_numbers(look), STYLE, "figure")
    page = page_box(figure, look)
    sides = {}
    for one in dimensions(figure.shapes):
        x, y = one.start
        outside = {
            "top": page.top - y,
            "bottom": y - page.bottom,
            "left": page.left - x,
            "right": x - page.right,
        }
        sides[one.label] = max(outside, key=lambda side: outside[side])
    assert sides == {"1": "top", "2": "right", "3": "bottom", "4": "left"}


def test_a_guide_leads_from_the_page_s_edge_to_the_edge_that_is_measured() -> None:
    look = look_at({"place": "card", "left": 2, "top": 3}, {"place": "card", "right": 1, "bottom": 1 / 2})
    figure = placing_figure(look, own_numbers(look), STYLE, "figure")
    page = page_box(figure, look)
    guides = {
        (
            *(round(value, 3) for value in relative(map_.apply(leaf.start), page)),
            *(round(value, 3) for value in relative(map_.apply(leaf.end), page)),
        )
        for leaf, map_ in walk(figure.shapes)
        if isinstance(leaf, Line) and leaf.stroke.dash
    }
    assert guides == {
        (2, 0, 2, 3),  # from the top down to the card's top, at its left edge
        (12, 3, 6, 3),  # from the right to the card's right edge, at its top
        (11, 12, 11, 11.5),
        (0, 11.5, 7, 11.5),
    }


def relative(point: Point, page: Box) -> tuple[float, float]:
    """A point in inches from the page's top left."""
    return (point[0] - page.left) / 12, (point[1] - page.top) / 12


def test_a_map_has_no_measures() -> None:
    look = look_at({"place": "card", "left": 1, "top": 2})
    figure = placing_map(look, own_numbers(look), STYLE, "map")
    assert dimensions(figure.shapes) == ()
    assert figure.width == pytest.approx(144 + STYLE.outline_width)


def test_a_figure_says_its_scale_and_what_it_shows() -> None:
    look = look_at({"place": "card", "left": 1, "top": 2})
    figure = placing_figure(look, own_numbers(look), STYLE, "placing")
    assert figure.scale == "Scale 1:6"
    assert "where each piece goes" in figure.alt
    assert all(box.left >= 0 and box.right <= figure.width for _, box in text_boxes(figure.shapes))
