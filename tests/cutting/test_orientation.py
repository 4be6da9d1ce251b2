"""Which part of the print ends up in which piece, against paper made of numbered squares.

The oracle knows nothing of rectangles: a sheet is an array of numbered unit squares, turning it over is
`np.fliplr`, a turn in the hand is `np.rot90`, a cut is a slice.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from booklet.cutting.cut import cut_kit
from booklet.cutting.model import CutSheet, Fate, Piece
from booklet.cutting.orientation import Orientation, lay, strip
from booklet.kit.fields import Edge, Face, Turn
from booklet.kit.kit import Kit
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size
from tests.cutting.balance import area_balance
from tests.kits import Data, cut, make_kit, sheet

Squares = NDArray[np.int64]

CLOCKWISE_TURNS = {None: 0, "clockwise": 1, "half": 2, "anticlockwise": 3}
# Complaints about the trimmer, which say nothing of where the paper lies.
ABOUT_THE_TRIMMER = {
    "reading-off-mark",
    "reading-away-from-zero",
    "reading-beyond-scale",
    "narrow-hold",
    "cut-longer-than-blade",
}


def numbered(columns: int, rows: int) -> Squares:
    """The front of a sheet, its squares numbered in reading order."""
    return np.arange(columns * rows).reshape(rows, columns)


def edge_of(front: Squares, edge: str) -> set[int]:
    """The squares along one edge of the front."""
    line = {"left": front[:, 0], "right": front[:, -1], "top": front[0], "bottom": front[-1]}[edge]
    return set(line.tolist())


def laid(front: Squares, face: str, left: str) -> Squares:
    """The sheet as it is seen in the trimmer: turned over like a page, then turned until `left` is left."""
    seen = np.fliplr(front) if face == "back" else front
    ways = [np.rot90(seen, quarters) for quarters in range(4)]
    (found,) = [way for way in ways if set(way[:, 0].tolist()) == edge_of(front, left)]
    return found


def turned(seen: Squares, turn: str | None) -> Squares:
    """A turn in the hand; `np.rot90` counts against the clock."""
    return np.rot90(seen, -CLOCKWISE_TURNS[turn])


@dataclass(frozen=True)
class Cutting:
    """A random cutting: the kit, the squares of each piece as it lay when it was cut, one sheet's front."""

    kit: Kit
    square: Fraction
    front: Squares
    strips: list[list[Squares]]
    left: dict[str, Squares]


@st.composite
def cuttings(draw: st.DrawFn) -> Cutting:
    """A sheet laid any way round and cut in up to five steps, pieces cut on up to four deep."""
    columns, rows = draw(st.integers(2, 12)), draw(st.integers(2, 12))
    square = draw(st.sampled_from([Fraction(1), Fraction(1, 7), Fraction(2, 3), Fraction(5, 127)]))
    face, left = (
        draw(st.sampled_from(["front", "back"])),
        draw(st.sampled_from(["left", "top", "right", "bottom"])),
    )
    front = numbered(columns, rows)
    lying = {"sheet": (laid(front, face, left), 0)}
    steps: list[Data] = []
    strips: list[list[Squares]] = []
    for _ in range(draw(st.integers(1, 5))):
        able = [
            (name, turn)
            for name, (seen, depth) in lying.items()
            for turn in CLOCKWISE_TURNS
            if depth < 4 and turned(seen, turn).shape[1] > 1
        ]
        if not able:
            break
        name, turn = draw(st.sampled_from(able))
        seen, depth = lying.pop(name)
        seen = turned(seen, turn)
        readings = draw(st.lists(st.integers(1, seen.shape[1] - 1), min_size=1, max_size=4, unique=True))
        bounds = [0, *sorted(readings), seen.shape[1]]
        parts = [seen[:, start:end] for start, end in pairwise(bounds)]
        names = [f"piece {len(steps)}.{place}" for place in range(len(parts))]
        lying |= {piece: (part, depth + 1) for piece, part in zip(names, parts, strict=True)}
        strips.append(parts)
        step: dict[str, Any] = {"take": name, "turn": turn} if steps else {"turn": turn}
        steps.append(cut([reading * square for reading in readings], names, **step))
    size = Size(columns * square, rows * square)
    lay_said = {"face": face, "left": left}
    kit = make_kit(sheet(*steps, size=size, lay=lay_said))
    return Cutting(kit, square, front, strips, {name: seen for name, (seen, _) in lying.items()})


def squares_of(piece: Piece, cutting: Cutting) -> Squares:
    """The squares of the front that a piece says it is, seen the way it says it lay."""
    x, y, right, bottom = (
        int(value / cutting.square)
        for value in (piece.part.x, piece.part.y, piece.part.right, piece.part.bottom)
    )
    front = cutting.front[y:bottom, x:right]
    seen = np.fliplr(front) if piece.lying.face is Face.BACK else front
    return np.rot90(seen, -piece.lying.quarters)


def cut_up(cutting: Cutting) -> CutSheet:
    (done,) = cut_kit(cutting.kit)
    assert {finding.id for finding in done.findings} <= ABOUT_THE_TRIMMER
    return done


@given(cuttings())
def test_every_piece_holds_the_print_that_the_hand_would_have_cut(cutting: Cutting) -> None:
    pieces = {piece.name: piece for piece in cut_up(cutting).pieces}
    assert pieces.keys() == cutting.left.keys()
    for name, seen in cutting.left.items():
        np.testing.assert_array_equal(squares_of(pieces[name], cutting), seen)


@given(cuttings())
def test_every_strip_of_every_stage_shows_the_print_the_way_it_lies(cutting: Cutting) -> None:
    stages = cut_up(cutting).stages
    assert len(stages) == len(cutting.strips)
    for stage, strips in zip(stages, cutting.strips, strict=True):
        for cut_strip, seen in zip(stage.strips, strips, strict=True):
            np.testing.assert_array_equal(squares_of(cut_strip.pieces[0], cutting), seen)
            assert cut_strip.end - cut_strip.start == seen.shape[1] * cutting.square
        assert stage.seen.width == sum(seen.shape[1] for seen in strips) * cutting.square
        assert stage.seen.height == strips[0].shape[0] * cutting.square


@given(cuttings())
def test_pieces_and_scrap_tile_the_sheet_exactly(cutting: Cutting) -> None:
    done = cut_up(cutting)
    covered = np.concatenate([squares_of(piece, cutting).ravel() for piece in done.pieces])
    assert sorted(covered.tolist()) == cutting.front.ravel().tolist()
    assert sum(piece.part.area for piece in done.pieces) == done.size.area
    assert area_balance(done) == 0


@given(cuttings())
def test_only_what_is_cut_on_is_said_to_be_cut_again(cutting: Cutting) -> None:
    done = cut_up(cutting)
    for stage in done.stages:
        assert {piece.fate for piece in stage.taken} == {Fate.CUT_AGAIN}
        for made in (piece for cut_strip in stage.strips for piece in cut_strip.pieces):
            expected = Fate.KEPT if made.name in cutting.left else Fate.CUT_AGAIN
            assert made.fate is expected


@pytest.mark.parametrize("face", list(Face))
@pytest.mark.parametrize("edge", list(Edge))
@pytest.mark.parametrize("place", list(Edge))
def test_the_edge_that_is_named_lies_where_it_is_said(face: Face, edge: Edge, place: Edge) -> None:
    lying = lay(face, edge, place)
    assert lying.face is face
    assert lying.edge_at(place) is edge


def test_a_sheet_turned_over_like_a_page_keeps_its_top_away_from_the_reader() -> None:
    over = lay(Face.BACK, Edge.RIGHT, Edge.LEFT)
    assert over == Orientation(Face.BACK, 0)
    assert [over.edge_at(edge) for edge in (Edge.TOP, Edge.RIGHT, Edge.BOTTOM, Edge.LEFT)] == [
        Edge.TOP,
        Edge.LEFT,
        Edge.BOTTOM,
        Edge.RIGHT,
    ]


@pytest.mark.parametrize("face", list(Face))
def test_clockwise_brings_the_left_edge_to_the_top_and_the_bottom_edge_to_the_left(face: Face) -> None:
    before = lay(face, Edge.LEFT, Edge.LEFT)
    after = before.turned(Turn.CLOCKWISE)
    assert after.edge_at(Edge.TOP) is before.edge_at(Edge.LEFT)
    assert after.edge_at(Edge.LEFT) is before.edge_at(Edge.BOTTOM)


@pytest.mark.parametrize(("turn", "times"), [(Turn.CLOCKWISE, 4), (Turn.HALF, 2), (Turn.ANTICLOCKWISE, 4)])
def test_turns_come_round(turn: Turn, times: int) -> None:
    lying = start = lay(Face.BACK, Edge.BOTTOM, Edge.LEFT)
    for _ in range(times):
        lying = lying.turned(turn)
    assert lying == start
    assert start.turned(Turn.CLOCKWISE).turned(Turn.ANTICLOCKWISE) == start


@pytest.mark.parametrize(
    ("left", "expected"),
    [
        (Edge.LEFT, ExactRect(Fraction(1), Fraction(0), Fraction(2), Fraction(4))),
        (Edge.RIGHT, ExactRect(Fraction(3), Fraction(0), Fraction(2), Fraction(4))),
        (Edge.TOP, ExactRect(Fraction(0), Fraction(1), Fraction(6), Fraction(2))),
        (Edge.BOTTOM, ExactRect(Fraction(0), Fraction(1), Fraction(6), Fraction(2))),
    ],
)
@pytest.mark.parametrize("face", list(Face))
def test_a_strip_from_1_to_3_is_measured_from_the_edge_at_the_zero(
    face: Face, left: Edge, expected: ExactRect
) -> None:
    whole = ExactRect(Fraction(0), Fraction(0), Fraction(6), Fraction(4))
    assert strip(whole, lay(face, left, Edge.LEFT), Fraction(1), Fraction(3), Edge.LEFT) == expected


@pytest.mark.parametrize("edge", list(Edge))
@pytest.mark.parametrize("face", list(Face))
def test_a_scale_that_begins_at_the_right_measures_from_the_edge_there(face: Face, edge: Edge) -> None:
    whole = ExactRect(Fraction(0), Fraction(0), Fraction(6), Fraction(4))
    there = strip(whole, lay(face, edge, Edge.RIGHT), Fraction(1), Fraction(3), Edge.RIGHT)
    assert there == strip(whole, lay(face, edge, Edge.LEFT), Fraction(1), Fraction(3), Edge.LEFT)


def test_rectangles_that_share_an_edge_do_not_overlap() -> None:
    left = ExactRect(Fraction(0), Fraction(0), Fraction(4), Fraction(4))
    right = ExactRect(Fraction(4), Fraction(0), Fraction(4), Fraction(4))
    assert not left.overlaps(right)
    assert left.overlaps(ExactRect(Fraction(3), Fraction(3), Fraction(4), Fraction(4)))
    assert left.contains(left)
    assert not left.contains(right)
