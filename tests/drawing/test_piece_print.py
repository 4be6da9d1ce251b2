"""Every placed piece shows its own part of the print, the right way up.

The outside check is a card of numbered cells that is turned over, turned, cut and snipped as a hand does it:
numpy arrays whose entries know which cell of the sheet's front they were.  Each cell has a colour of its own
on either face; the drawing is rasterised and the colour at the middle of every cell is compared.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from itertools import pairwise
from math import cos, radians, sin
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from PIL import Image

from booklet.drawing.layouts.look import Look
from booklet.drawing.papers.piece_print import print_of
from booklet.placing.model import ItemKind, Placed
from tests.drawing.looks import Pixels, colours, look_of, resolved_kit
from tests.kits import Data, cut, element, make_kit, ready, sheet

# A cell is half an inch wide: 24 of them on a side of the sheet, 6 pt at the scale of the figures.
CELLS = 24
CELL_POINTS = 6.0
DOTS = 4.0
FRONT, BACK = 0, 1
WHITE = (255, 255, 255)

Card = NDArray[np.int64]  # rows x columns x (column of the front, row of the front)
Grid = NDArray[np.uint8]  # rows x columns x (red, green, blue)

TURNS = {None: 0, "clockwise": 1, "half": 2, "anticlockwise": 3}


def whole_card() -> Card:
    """The sheet with its front up, every cell knowing its place on the front."""
    rows, columns = np.mgrid[0:CELLS, 0:CELLS]
    return np.stack([columns, rows], axis=2)


READY_CARD = whole_card()[:8, :12]  # a printed card of 6 x 4 inches


def turned_over(card: Card) -> Card:
    """Turned over like the page of a book."""
    return card[:, ::-1]


def clockwise(card: Card, quarters: int) -> Card:
    return np.rot90(card, -quarters)


def upright(card: Card) -> Card:
    """The same piece as it lies on the sheet's front."""
    columns, rows = card[..., 0], card[..., 1]
    left, top = columns.min(), rows.min()
    return whole_card()[top : rows.max() + 1, left : columns.max() + 1]


def seen(card: Card, face: str, turn: str | None) -> Card:
    """An upright piece with a face up and turned, as it is placed."""
    return clockwise(turned_over(card) if face == "back" else card, TURNS[turn])


def shades(card: Card, face: str) -> Grid:
    """The colours of the cells that are seen."""
    image = face_image(BACK if face == "back" else FRONT)
    columns = CELLS - 1 - card[..., 0] if face == "back" else card[..., 0]
    return image[card[..., 1], columns]


@cache
def face_image(face: int) -> Grid:
    """One pixel for each cell, as that face is seen upright."""
    rows, columns = np.mgrid[0:CELLS, 0:CELLS]
    third = np.full_like(rows, 40 if face == FRONT else 200)
    return np.stack([10 * columns, 10 * rows, third], axis=2).astype(np.uint8)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the cells of either face as images."""
    folder = tmp_path_factory.mktemp("cells")
    for face, name in ((FRONT, "front.png"), (BACK, "back.png")):
        pixels = face_image(face).repeat(20, axis=0).repeat(20, axis=1)
        Image.fromarray(pixels).save(folder / name)
    for side, name in (("front", "card.png"), ("back", "card back.png")):
        Image.fromarray(
            shades(seen(READY_CARD, side, None), side).repeat(20, axis=0).repeat(20, axis=1)
        ).save(folder / name)
    return folder


CELL_PAPER = {
    "cells": {"front": {"image": "front.png"}, "back": {"image": "back.png"}},
    "card": {"front": {"image": "card.png"}, "back": {"image": "card back.png"}},
}
PLAIN = {"plain": {"front": {"colours": ["#f4efe6"]}}}
BASE = sheet(id="base", paper="plain")


def page(*steps: Data, id: str = "page", **more: Any) -> Data:
    return {"id": id, "pocket": 1, "base": "base", "steps": list(steps), **more}


def looks(folder: Path, *sheets: Data, layouts: Sequence[Data], **more: Any) -> tuple[Look, ...]:
    kit = make_kit(*sheets, layouts=layouts, papers={**CELL_PAPER, **PLAIN}, **more)
    done = resolved_kit(kit, folder)
    first = look_of(done)
    return tuple(look_of(done, index, papers=first.papers) for index in range(len(done.layouts)))


def item_of(look: Look, called: str) -> Placed:
    (item,) = [item for item in look.layout.items if called in (item.called, item.name)]
    return item


def drawn(look: Look, item: Placed) -> Pixels:
    """The print of one item alone on the white page of the layout."""
    shown = print_of(item, look.layout, look.resolved, look.papers, look.scale)
    assert shown is not None
    return colours([shown], look.page.width, look.page.height, DOTS)


def assert_shows(look: Look, item: Placed, cells: Grid) -> None:
    """Every cell of the item shows its colour, and the white page begins right beside it."""
    rows, columns = cells.shape[:2]
    assert (item.rect.width * 2, item.rect.height * 2) == (columns, rows)
    pixels = drawn(look, item)
    for row in range(-1, rows + 1):
        for column in range(-1, columns + 1):
            outside = row in (-1, rows) or column in (-1, columns)
            expected = WHITE if outside else tuple(cells[row, column])
            assert_colour(pixels, spot(item, column, row), expected, (item.called, column, row))


def spot(item: Placed, column: int, row: int) -> tuple[float, float]:
    """The middle of a cell of the item on the page, in points; outside, nearer to the item's edge."""
    wide, high = float(item.rect.width) * 2, float(item.rect.height) * 2
    across = min(max(column + 0.5, -0.3), wide + 0.3) - wide / 2
    down = min(max(row + 0.5, -0.3), high + 0.3) - high / 2
    tilt = radians(float(item.tilt))
    x = float(item.rect.centre.x) * 2 + across * cos(tilt) - down * sin(tilt)
    y = float(item.rect.centre.y) * 2 + across * sin(tilt) + down * cos(tilt)
    return x * CELL_POINTS, y * CELL_POINTS


def assert_colour(pixels: Pixels, at: tuple[float, float], expected: tuple[int, ...], told: object) -> None:
    column, row = int(at[0] * DOTS), int(at[1] * DOTS)
    if not (0 <= row < pixels.shape[0] and 0 <= column < pixels.shape[1]):
        return
    found = pixels[row, column].astype(int)
    assert np.abs(found - np.asarray(expected, dtype=int)).max() <= 4, (told, at, found, expected)


# Cutting as a hand does it.

EDGE_AT_LEFT = {"left": 0, "bottom": 1, "right": 2, "top": 3}  # turns clockwise that bring it to the left


def laid_in(face: str, left: str) -> Card:
    """The sheet as it first lies in the trimmer: this face up, this edge of the front at the zero."""
    if face == "front":
        return clockwise(whole_card(), EDGE_AT_LEFT[left])
    # Turned over like a page, the front's left edge lies at the right.
    over = {"right": "left", "left": "right"}.get(left, left)
    return clockwise(turned_over(whole_card()), EDGE_AT_LEFT[over])


def strips(card: Card, readings: Sequence[int]) -> list[Card]:
    """What lies between neighbouring readings, in cells, from the zero at the left outwards."""
    stops = [0, *sorted(readings), card.shape[1]]
    return [card[:, low:high] for low, high in pairwise(stops)]


FACES = st.sampled_from(["front", "back"])
QUARTERS = st.sampled_from(list(TURNS))


@st.composite
def placings(draw: st.DrawFn) -> dict[str, Any]:
    tilt = draw(st.sampled_from([0, 0, 5, -30, 90]))
    return {
        "left": draw(st.integers(2, 6)),
        "top": draw(st.integers(2, 6)),
        "turn": draw(QUARTERS),
        "face": draw(FACES),
        "tilt": tilt,
    }


@given(
    face=FACES,
    left=st.sampled_from(list(EDGE_AT_LEFT)),
    readings=st.lists(st.integers(2, 22), min_size=2, max_size=2, unique=True).map(sorted),
    turn=QUARTERS,
    reading=st.integers(2, 22),
    places=st.lists(placings(), min_size=4, max_size=4),
)
@settings(max_examples=25)
def test_a_piece_shows_its_part_of_the_print_however_it_was_cut_and_laid(
    folder: Path,
    face: str,
    left: str,
    readings: list[int],
    turn: str | None,
    reading: int,
    places: list[dict[str, Any]],
) -> None:
    lying = laid_in(face, left)
    first, second, third = strips(lying, readings)
    in_hand = clockwise(second, TURNS[turn])
    at = 1 + reading % (in_hand.shape[1] - 1) if in_hand.shape[1] > 1 else None
    cards: dict[str, Card] = {"first": first, "third": third}
    taken: list[Data] = []
    if at is None:
        cards["second"] = second
    else:
        cards["inner"], cards["outer"] = strips(in_hand, [at])
        taken = [cut(at / 2, ["inner", "outer"], take="second", turn=turn)]
    cuts = [cut([value / 2 for value in reversed(readings)], ["first", "second", "third"]), *taken]
    cells = sheet(*cuts, id="cells", paper="cells", lay={"face": face, "left": left})
    steps = [{"place": name, **place} for name, place in zip(cards, places, strict=False)]
    (look,) = looks(folder, BASE, cells, layouts=[page(*steps)])
    for step in steps:
        expected = seen(upright(cards[step["place"]]), step["face"], step["turn"])
        assert_shows(look, item_of(look, step["place"]), shades(expected, step["face"]))


def test_the_base_shows_its_sheet_turned_and_face_down(folder: Path) -> None:
    cells = sheet(id="cells", paper="cells")
    base = {"piece": "cells", "face": "back", "turn": "clockwise"}
    (look,) = looks(folder, cells, layouts=[{"id": "page", "pocket": 1, "base": base}])
    expected = shades(seen(whole_card(), "back", "clockwise"), "back")
    assert_shows(look, look.layout.base, expected)


# Scissors.


def snipped(card: Card, edge: str, at: Sequence[int]) -> list[Card]:
    """The parts of an upright piece, from the edge that is measured from."""
    along = {"left": card, "right": card[:, ::-1], "top": card.swapaxes(0, 1)}
    along["bottom"] = card[::-1].swapaxes(0, 1)
    return [upright(part) for part in strips(along[edge], at)]


def snip(piece: str, at: Any, leaves: Sequence[str], edge: str = "left") -> Data:
    return {"snip": piece, "at": at, "leaves": list(leaves), "measured_from": edge}


@pytest.mark.parametrize("edge", ["left", "right", "top", "bottom"])
@pytest.mark.parametrize("face", ["front", "back"])
def test_parts_that_scissors_leave_show_where_they_lay_on_the_piece(
    folder: Path, edge: str, face: str
) -> None:
    cells = sheet(cut(5, ["panel", "scrap"]), id="cells", paper="cells")
    steps: list[Data] = [snip("panel", [1, 3], ["first", "second", "third"], edge)]
    for name, turn in (("first", None), ("second", "clockwise"), ("third", "half")):
        steps.append({"place": name, "left": 0, "top": 0, "face": face, "turn": turn})
    (look,) = looks(folder, BASE, cells, layouts=[page(*steps)])
    panel = whole_card()[:, :10]
    parts = snipped(panel, edge, [2, 6])
    for step, part in zip(steps[1:], parts, strict=True):
        expected = shades(seen(part, face, step["turn"]), face)
        assert_shows(look, item_of(look, step["place"]), expected)


def test_two_parts_of_one_name_each_show_their_own_print(folder: Path) -> None:
    cells = sheet(cut(6, ["panel", "scrap"]), id="cells", paper="cells")
    steps: list[Data] = [snip("panel", [2, 4], ["flag", "flag", "flag"])]
    steps += [
        {"place": "flag", "called": called, "left": 4 * n, "top": 0}
        for n, called in enumerate(["one", "two", "three"])
    ]
    (look,) = looks(folder, BASE, cells, layouts=[page(*steps)])
    for n, called in enumerate(["one", "two", "three"]):
        assert_shows(look, item_of(look, called), shades(whole_card()[:, 4 * n : 4 * n + 4], "front"))


def test_beside_a_snip_that_cannot_be_made_the_parts_of_another_show_their_own(folder: Path) -> None:
    """A draft is drawn all the same: 9 lies beyond the first strip, so its flag is not there to be laid."""
    cells = sheet(cut([3, 6], ["strip", "strip", "scrap"]), id="cells", paper="cells")
    snips = [snip("strip", [at], ["flag", "scrap"]) for at in (9, 1)]
    places = [{"place": "flag", "called": called, "left": 0, "top": 0} for called in ("one", "two")]
    (look,) = looks(folder, BASE, cells, layouts=[page(*snips, *places)])
    (item,) = look.layout.items
    assert item.called == "two"
    assert_shows(look, item, shades(whole_card()[:, 6:8], "front"))


def test_parts_of_two_pieces_of_one_name_come_from_their_own_piece(folder: Path) -> None:
    cells = sheet(cut([3, 6], ["strip", "strip", "scrap"]), id="cells", paper="cells")
    steps: list[Data] = []
    for called in ("one", "two"):
        steps += [
            snip("strip", [1], ["scrap", "flag"]),
            {"place": "flag", "called": called, "left": 0, "top": 0},
        ]
    (look,) = looks(folder, BASE, cells, layouts=[page(*steps)])
    assert_shows(look, item_of(look, "one"), shades(whole_card()[:, 2:6], "front"))
    assert_shows(look, item_of(look, "two"), shades(whole_card()[:, 8:12], "front"))


def test_a_part_that_is_snipped_again_shows_its_part_of_the_part(folder: Path) -> None:
    cells = sheet(cut(6, ["panel", "scrap"]), id="cells", paper="cells")
    steps: list[Data] = [
        snip("panel", [2], ["scrap", "rest"]),
        snip("rest", [3], ["scrap", "foot"], "top"),
        {"place": "foot", "left": 0, "top": 0},
    ]
    (look,) = looks(folder, BASE, cells, layouts=[page(*steps)])
    assert_shows(look, item_of(look, "foot"), shades(whole_card()[6:, 4:12], "front"))


def test_a_piece_trimmed_smaller_keeps_its_middle(folder: Path) -> None:
    cells = sheet(cut(6, ["panel", "scrap"]), id="cells", paper="cells")
    steps: list[Data] = [
        {"trim_round": "panel", "size": "4 x 6"},
        {"place": "panel", "left": 0, "top": 0, "turn": "clockwise"},
    ]
    (look,) = looks(folder, BASE, cells, layouts=[page(*steps)])
    expected = seen(whole_card()[6:18, 2:10], "front", "clockwise")
    assert_shows(look, item_of(look, "panel"), shades(expected, "front"))


def test_a_trimmed_piece_may_be_snipped(folder: Path) -> None:
    cells = sheet(cut(6, ["panel", "scrap"]), id="cells", paper="cells")
    steps: list[Data] = [
        {"trim_round": "panel", "size": "4 x 6"},
        snip("panel", [1], ["scrap", "rest"]),
        {"place": "rest", "left": 0, "top": 0},
    ]
    (look,) = looks(folder, BASE, cells, layouts=[page(*steps)])
    assert_shows(look, item_of(look, "rest"), shades(whole_card()[6:18, 4:10], "front"))


# The gutter.

PLACES = [(turn, face) for turn in TURNS for face in ("front", "back")]


def halves(folder: Path, *sheets: Data, before: Sequence[Data] = (), **place: Any) -> tuple[Look, Look]:
    """A spread whose pages share one piece, laid so that its left edge is at `left` of the left page."""
    left = page(*before, {"spread": True, **place}, id="a", facing="b")
    right = page({"other_half": place["place"]}, id="b")
    first, second = looks(folder, sheet(id="base", paper="plain", count=2), *sheets, layouts=[left, right])
    return first, second


@pytest.mark.parametrize(("turn", "face"), PLACES)
def test_a_piece_cut_at_the_gutter_goes_on_where_it_left_off(
    folder: Path, turn: str | None, face: str
) -> None:
    cells = sheet(cut(6, ["panel", "scrap"]), id="cells", paper="cells")
    place: Data = {"place": "panel", "left": 9, "top": 0, "turn": turn, "face": face}
    look, facing = halves(folder, cells, **place)
    whole = shades(seen(whole_card()[:, :12], face, turn), face)
    assert_shows(look, item_of(look, "panel"), whole[:, :6])
    assert_shows(facing, item_of(facing, "panel"), whole[:, 6:])


@pytest.mark.parametrize(("turn", "face"), PLACES)
def test_a_part_that_scissors_left_may_be_cut_at_the_gutter(
    folder: Path, turn: str | None, face: str
) -> None:
    cells = sheet(cut(8, ["panel", "scrap"]), id="cells", paper="cells")
    before = [snip("panel", [2], ["scrap", "rest"])]
    place: Data = {"place": "rest", "left": 10, "top": 0, "turn": turn, "face": face}
    look, facing = halves(folder, cells, before=before, **place)
    whole = shades(seen(whole_card()[:, 4:16], face, turn), face)
    assert_shows(look, item_of(look, "rest"), whole[:, :4])
    assert_shows(facing, item_of(facing, "rest"), whole[:, 4:])


def test_a_trimmed_piece_may_be_cut_at_the_gutter(folder: Path) -> None:
    cells = sheet(cut(8, ["panel", "scrap"]), id="cells", paper="cells")
    before = [{"trim_round": "panel", "size": "6 x 8"}]
    look, facing = halves(folder, cells, before=before, place="panel", left=10, top=0)
    whole = shades(whole_card()[4:20, 2:14], "front")
    assert_shows(look, item_of(look, "panel"), whole[:, :4])
    assert_shows(facing, item_of(facing, "panel"), whole[:, 4:])


def test_two_pieces_of_one_name_cut_at_the_gutter_keep_apart(folder: Path) -> None:
    cells = sheet(cut([4, 8], ["band", "band", "scrap"]), id="cells", paper="cells")
    placed: Mapping[str, Any] = {"place": "band", "left": 10, "top": 0, "spread": True}
    left = page({**placed, "called": "one"}, {**placed, "called": "two"}, id="a", facing="b")
    right = page({"other_half": "two", "called": "second"}, {"other_half": "one", "called": "first"}, id="b")
    base = sheet(id="base", paper="plain", count=2)
    look, facing = looks(folder, base, cells, layouts=[left, right])
    for called, other, start in (("one", "first", 0), ("two", "second", 8)):
        whole = shades(whole_card()[:, start : start + 8], "front")
        assert_shows(look, item_of(look, called), whole[:, :4])
        assert_shows(facing, item_of(facing, other), whole[:, 4:])


# What comes ready-cut, and what is cut apart.


@pytest.mark.parametrize(("turn", "face"), PLACES)
def test_a_ready_cut_piece_shows_the_whole_print_of_its_face(
    folder: Path, turn: str | None, face: str
) -> None:
    step = {"place": "card", "left": 1, "top": 1, "turn": turn, "face": face}
    card = {**ready("card", size="6 x 4"), "paper": "card"}
    (look,) = looks(folder, BASE, layouts=[page(step)], ready=[card])
    assert_shows(look, item_of(look, "card"), shades(seen(READY_CARD, face, turn), face))


@pytest.mark.parametrize(("turn", "face"), PLACES)
def test_a_cut_apart_shows_its_own_artwork_and_the_paper_round_it(
    folder: Path, turn: str | None, face: str
) -> None:
    grounds = {"north": (170, 0, 0), "south": (0, 170, 0)}
    elements = [
        {**element(name, 1 / 2, 1 / 2 + 4 * n, "4 x 3"), "ground": "#{:02x}{:02x}{:02x}".format(*ground)}
        for n, (name, ground) in enumerate(grounds.items())
    ]
    cuts = [cut(5, ["strip", "scrap"]), cut([8, 4], take="strip", turn="anticlockwise")]
    apart = sheet(*cuts, id="apart", paper="cells", elements=elements)
    steps = [{"place": name, "left": 0, "top": 0, "turn": turn, "face": face} for name in grounds]
    (look,) = looks(folder, BASE, apart, layouts=[page(*steps)])
    for n, (name, ground) in enumerate(grounds.items()):
        card = whole_card()[8 * n : 8 * n + 8, :10]
        artwork = np.zeros(card.shape[:2], dtype=bool)
        artwork[1:7, 1:9] = True
        expected = shades(seen(card, face, turn), face).copy()
        if face == "front":
            expected[clockwise(artwork, TURNS[turn])] = ground
        assert_shows(look, item_of(look, name), expected)


def test_a_piece_that_nothing_makes_has_no_print(folder: Path) -> None:
    (look,) = looks(folder, BASE, layouts=[page({"photo": "4 x 6", "left": 1, "top": 1})])
    (item,) = look.layout.items
    assert item.kind is ItemKind.PHOTO
    assert print_of(item, look.layout, look.resolved, look.papers, look.scale) is None


# A piece of paper that shows no turn, stated the other way round than it is cut.


@pytest.mark.parametrize("face", ["front", "back"])
@pytest.mark.parametrize("turn", list(TURNS))
def test_a_piece_stated_the_other_way_round_is_its_part_turned_clockwise(
    folder: Path, face: str, turn: str | None
) -> None:
    plain_cells = {side: {**said, "upright": False} for side, said in CELL_PAPER["cells"].items()}
    cells = sheet(
        cut([9, 6], ["scrap", "panel", "scrap"]), id="cells", paper="cells", sizes={"panel": "12 x 3"}
    )
    step = {"place": "panel", "left": 0, "top": 0, "face": face, "turn": turn}
    kit = make_kit(BASE, cells, layouts=[page(step)], papers={"cells": plain_cells, **PLAIN})
    look = look_of(resolved_kit(kit, folder))
    expected = seen(clockwise(whole_card()[:, 12:18], 1), face, turn)
    assert_shows(look, item_of(look, "panel"), shades(expected, face))
