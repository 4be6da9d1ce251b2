"""Outlines of placed pieces: their areas by shapely against the formulas of plane geometry."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import acos, pi, sin, sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point as Spot
from shapely.geometry import Polygon as Area
from shapely.geometry import box as area_of_box

from booklet.cutting.finish import Finish, Rounding
from booklet.drawing.layouts.look import Look
from booklet.kit.steps import Corner
from booklet.placing.model import Placed
from tests.drawing.looks import look_of, resolved_kit
from tests.kits import Data, make_kit, ready, sheet

INCH = 12.0  # points, at 1:6
CORNERS = ["top left", "top right", "bottom right", "bottom left"]
TURNS = {None: 0, "clockwise": 1, "half": 2, "anticlockwise": 3}
CORNER_OF_BOX = {"top left": (0, 0), "top right": (1, 0), "bottom right": (1, 1), "bottom left": (0, 1)}


def looks(shape: Data, *steps: Data, other: tuple[Data, ...] = ()) -> list[Look]:
    """The looks of a page with these steps and, if there are any for it, of the one that faces it."""
    base = sheet(id="base", paper="plain", count=2 if other else 1)
    first: Data = {"id": "a", "pocket": 1, "base": "base", "steps": list(steps)}
    pages = [first]
    if other:
        first["facing"] = "b"
        pages.append({"id": "b", "pocket": 1, "base": "base", "steps": list(other)})
    done = resolved_kit(make_kit(base, layouts=pages, ready=[shape]))
    return [look_of(done, index) for index in range(len(pages))]


def outlined(shape: Data, *steps: Data) -> tuple[Placed, Area]:
    """The one item of a page and the area within its outline."""
    (look,) = looks(shape, *steps)
    (item,) = look.layout.items
    return item, Area(look.outline(item))


def card(size: str, outline: str = "rectangle") -> Data:
    return {**ready("card", size=size), "outline": outline}


PLACE: Data = {"place": "card", "left": 1, "top": 1}


def placed(**more: Any) -> Data:
    return {**PLACE, **more}


def test_a_plain_piece_is_its_rectangle_from_the_top_left_clockwise() -> None:
    (look,) = looks(card("4 x 3"), PLACE)
    assert look.outline(look.layout.items[0]) == ((0, 0), (48, 0), (48, 36), (0, 36))


@given(
    corners=st.lists(st.sampled_from(CORNERS), min_size=1, unique=True),
    eighths=st.integers(1, 12),
    turn=st.sampled_from(list(TURNS)),
)
def test_rounded_corners_lose_what_lies_between_square_and_quarter_circle(
    corners: list[str], eighths: int, turn: str | None
) -> None:
    radius = eighths / 8 * INCH
    round_them = {"round": "card", "corners": corners, "radius": eighths / 8}
    item, area = outlined(card("4 x 3"), placed(turn=turn), round_them)
    lost = len(corners) * (1 - pi / 4) * radius**2
    assert area.is_valid
    # Six straight pieces to a quarter circle leave a little more off: at most 1.2 % of the quarter.
    quarter = len(corners) * pi / 4 * radius**2
    assert 4 * 3 * INCH**2 - lost - 0.012 * quarter <= area.area <= 4 * 3 * INCH**2 - lost
    wide, high = float(item.rect.width) * INCH, float(item.rect.height) * INCH
    for corner in CORNERS:
        right, down = CORNER_OF_BOX[corner]
        at = Spot(right * wide, down * high)
        # The middle of a quarter circle lies (sqrt 2 - 1) radii from the corner that it rounds off.
        expected = (sqrt(2) - 1) * radius if corner in corners else 0.0
        assert area.exterior.distance(at) == pytest.approx(expected, abs=0.012 * radius)


@given(corners=st.lists(st.sampled_from(CORNERS), min_size=1, unique=True))
def test_punched_corners_lose_a_quarter_circle_each(corners: list[str]) -> None:
    _, area = outlined(card("4 x 3"), PLACE, {"punch": "card", "corners": corners})
    radius = 0.12 * 3 * INCH
    lost = len(corners) * pi / 4 * radius**2
    assert area.is_valid
    assert 12 * INCH**2 - lost <= area.area <= 12 * INCH**2 - lost * (1 - 0.012)
    for corner, (right, down) in CORNER_OF_BOX.items():
        at = Spot(right * 4 * INCH, down * 3 * INCH)
        assert (area.exterior.distance(at) > 0.9 * radius) == (corner in corners)


@pytest.mark.parametrize("turn", list(TURNS))
def test_a_tag_has_its_cut_corners_where_its_top_is_after_the_turn(turn: str | None) -> None:
    item, area = outlined(card("2 x 4", "tag"), placed(turn=turn))
    cut = 0.24 * 2 * INCH
    assert area.area == pytest.approx(8 * INCH**2 - cut**2)
    wide, high = float(item.rect.width) * INCH, float(item.rect.height) * INCH
    top_after = {
        None: {"top left", "top right"},
        "clockwise": {"top right", "bottom right"},
        "half": {"bottom right", "bottom left"},
        "anticlockwise": {"bottom left", "top left"},
    }
    gone = {
        corner
        for corner, (right, down) in CORNER_OF_BOX.items()
        if area.exterior.distance(Spot(right * wide, down * high)) > 1e-6
    }
    assert gone == top_after[turn]


@pytest.mark.parametrize("size", ["3 x 3", "4 x 2"])
def test_a_circle_fills_its_box(size: str) -> None:
    item, area = outlined(card(size, "circle"), PLACE)
    wide, high = float(item.rect.width) * INCH, float(item.rect.height) * INCH
    # 48 corners on the circle: the regular polygon's area is n/2 sin(2 pi / n) of the radius squared.
    assert area.area == pytest.approx(wide * high / 4 * 24 * sin(2 * pi / 48))
    assert area.bounds == pytest.approx((0, 0, wide, high))


# At the gutter.


def halved(shape: Data, left: float, **more: Any) -> tuple[Area, Area]:
    """The areas of both halves, moved so that the gutter is at 0."""
    step = {"place": "card", "left": left, "top": 1, "spread": True, **more}
    here, there = looks(shape, step, other=({"other_half": "card"},))
    (one,), (two,) = here.layout.items, there.layout.items
    width = float(one.rect.width) * INCH
    first = Area([(x - width, y) for x, y in here.outline(one)])
    return first, Area(there.outline(two))


@pytest.mark.parametrize("beyond", [0.25, 0.5, 1.0, 1.5, 2.25, 2.75])
def test_a_circle_is_cut_straight_at_the_gutter(beyond: float) -> None:
    first, second = halved(card("3 x 3", "circle"), 9 + beyond)
    radius = 1.5 * INCH
    # The area of a circle's segment beyond a chord, d from the middle: r2 acos(d/r) - d sqrt(r2 - d2).
    d = 1.5 * INCH - beyond * INCH
    segment = radius**2 * acos(d / radius) - d * sqrt(radius**2 - d**2)
    assert second.area == pytest.approx(segment, rel=0.015)  # of 48 straight pieces
    assert first.area == pytest.approx(pi * radius**2 - segment, rel=0.015)  # of 48 straight pieces
    assert_meet(first, second)


def assert_meet(first: Area, second: Area) -> None:
    """Both halves are as high at the gutter, and nothing of either lies across it."""
    assert first.is_valid
    assert second.is_valid
    assert first.bounds[2] == pytest.approx(0)
    assert second.bounds[0] == pytest.approx(0)
    gutter = Area([(-0.001, -1), (0.001, -1), (0.001, 999), (-0.001, 999)])
    here, there = first.intersection(gutter).bounds, second.intersection(gutter).bounds
    assert (here[1], here[3]) == pytest.approx((there[1], there[3]), abs=0.01)


@pytest.mark.parametrize("turn", list(TURNS))
@pytest.mark.parametrize("beyond", [0.25, 0.5, 1.0, 1.75])
def test_a_tag_is_cut_straight_at_the_gutter(turn: str | None, beyond: float) -> None:
    shape = card("2 x 4", "tag")
    across = 4 if TURNS[turn] % 2 else 2
    first, second = halved(shape, 12 - across + beyond, turn=turn)
    _, whole = outlined(shape, placed(turn=turn))
    at = (across - beyond) * INCH
    assert first.area == pytest.approx(whole.intersection(area_of_box(0, 0, at, 99)).area)
    assert second.area == pytest.approx(whole.intersection(area_of_box(at, 0, 99, 99)).area)
    assert_meet(first, second)


@pytest.mark.parametrize("beyond", [0.25, 1.0, 3.75])
def test_rounded_and_punched_corners_are_cut_straight_at_the_gutter(beyond: float) -> None:
    shape = card("4 x 3")
    step = {"place": "card", "left": 8 + beyond, "top": 1, "spread": True}
    done = Finish((Rounding((Corner.TOP_LEFT, Corner.BOTTOM_RIGHT), Fraction(1, 2)),), (Corner.TOP_RIGHT,))
    halves = looks(shape, step, other=({"other_half": "card"},))
    first, second = (Area(look.outline(replace(look.layout.items[0], finish=done))) for look in halves)
    (look,) = looks(shape, PLACE)
    whole = Area(look.outline(replace(look.layout.items[0], finish=done)))
    at = (4 - beyond) * INCH
    assert first.area == pytest.approx(whole.intersection(area_of_box(0, 0, at, 99)).area)
    assert second.area == pytest.approx(whole.intersection(area_of_box(at, 0, 99, 99)).area)


@pytest.mark.parametrize("place", [{}, {"turn": "clockwise"}])
def test_a_plain_half_has_four_corners(place: Data) -> None:
    step = {"place": "card", "left": 9, "top": 1, "spread": True, **place}
    for look in looks(card("4 x 4"), step, other=({"other_half": "card"},)):
        (item,) = look.layout.items
        assert sorted(look.outline(item)) == sorted(look.box(item).corners)
