"""The true shape of a piece, upright on its front, whatever way it is laid."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.finish import Finish, Hole, Rounding
from booklet.kit.fields import Face
from booklet.kit.load import parse_kit
from booklet.kit.sheet import OutlineShape
from booklet.kit.steps import Corner
from booklet.measure.exact import Fraction as Exact
from booklet.measure.geometry import ExactPoint, ExactRect
from booklet.measure.length import Size
from booklet.placing.model import ItemKind, Placed
from booklet.placing.piece_shape import PieceShape, piece_shape, upright_finish
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.templates.tricky import TRICKY


@pytest.fixture(scope="module")
def resolved() -> ResolvedKit:
    return resolve_kit(parse_kit(TRICKY, "tricky.yaml", Path()))


def shape_of(resolved: ResolvedKit, name: str) -> PieceShape:
    entry = next(entry for entry in resolved.ledger.entries if entry.name == name)
    return piece_shape(resolved, entry)


def rect(*sides: str) -> ExactRect:
    return ExactRect(*(Exact(Fraction(side)) for side in sides))


def test_corners_and_holes_of_a_piece_that_is_laid_turned_over(resolved: ResolvedKit) -> None:
    # Rounded and punched in the hand, before it is laid with its back up and turned.
    shape = shape_of(resolved, "card")
    (part,) = shape.parts
    assert (part.area, shape.is_whole) == (rect("0", "0", "5", "4"), True)
    (rounding,) = part.finish.roundings
    assert set(rounding.corners) == {Corner.TOP_LEFT, Corner.BOTTOM_RIGHT}
    assert rounding.radius == Fraction(1, 2)
    (hole,) = part.finish.holes
    # Its rim is 1/2 in from the left and 3/8 in from the foot, and 1/4 in wide.
    assert hole.rim == rect("1/2", "27/8", "1/4", "1/4")


def test_an_area_that_is_stencilled_on_a_piece(resolved: ResolvedKit) -> None:
    shape = shape_of(resolved, "mat")
    (area,) = shape.areas
    assert (area.supply, area.area) == ("stars", rect("1/2", "3/4", "3", "2"))
    assert set(shape.parts[0].finish.punched) == set(Corner)


def test_parts_that_are_snipped_again_lie_where_they_were(resolved: ResolvedKit) -> None:
    shape = shape_of(resolved, "note")
    assert not shape.is_whole
    assert [(part.name, part.area) for part in shape.parts] == [
        ("short note", rect("0", "0", "2", "4")),
        ("middle note", rect("2", "0", "2", "4")),
    ]


def test_a_piece_that_runs_over_the_gutter_is_whole(resolved: ResolvedKit) -> None:
    shape = shape_of(resolved, "long card")
    assert shape.is_whole
    assert shape.size == Size(Exact(4), Exact(6))


@pytest.mark.parametrize(
    ("name", "outline"), [("moon", OutlineShape.CIRCLE), ("parcel tag", OutlineShape.TAG)]
)
def test_what_comes_ready_cut_has_its_outline(
    resolved: ResolvedKit, name: str, outline: OutlineShape
) -> None:
    assert shape_of(resolved, name).outline is outline


def test_a_piece_that_is_trimmed_keeps_the_middle() -> None:
    trimmed = TRICKY.replace(
        "      - {place: short note",
        "      - {trim_round: moon, size: 1 3/4 x 1 1/2, outline: the rim}\n      - {place: short note",
    )
    resolved = resolve_kit(parse_kit(trimmed, "tricky.yaml", Path()))
    (part,) = shape_of(resolved, "moon").parts
    assert part.area == rect("1/8", "1/4", "7/4", "3/2")


sides = st.builds(Exact, st.integers(8, 96), st.just(8))
holes = st.builds(
    lambda x, y, width: Hole(ExactPoint(x, y), width),
    sides,
    sides,
    st.builds(Exact, st.integers(1, 4), st.just(8)),
)
corners = st.lists(st.sampled_from(Corner), unique=True).map(tuple)


@given(
    width=sides,
    height=sides,
    rounded=corners,
    punched=corners,
    hole=holes,
    face=st.sampled_from(Face),
    turn=st.integers(0, 3),
)
def test_what_is_done_to_a_piece_is_found_again_however_it_lies(
    width: Exact,
    height: Exact,
    rounded: tuple[Corner, ...],
    punched: tuple[Corner, ...],
    hole: Hole,
    face: Face,
    turn: int,
) -> None:
    size = Size(width, height)
    done = Finish((Rounding(rounded, Exact(1)),), punched, holes=(hole,))
    lying = size.turned if turn % 2 else size
    item = Placed(
        1, 1, "card", None, ItemKind.PIECE, ExactRect(Exact(3), Exact(5), lying.width, lying.height), (),
        turn=turn, face=face, finish=done.as_laid(face, turn, size),
    )  # fmt: skip
    found = upright_finish(item)
    assert set(found.roundings[0].corners) == set(rounded)
    assert set(found.punched) == set(punched)
    assert found.holes == (hole,)
