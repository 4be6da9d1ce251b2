"""The print file read back: which page lies on which half of which press side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from booklet.binding.binding import Binding, Flat, Flip, Folded, home_binding
from booklet.binding.creep import SQUARE_FOLD, Creep
from booklet.binding.lay import impose
from booklet.binding.print_file import both_sides, print_file
from booklet.binding.stock import A3, A4, A5, read_press_sheet
from booklet.kit.kit import PageFormat
from booklet.kit.load import parse_kit
from booklet.measure.length import Unit
from booklet.placing.resolved import resolve_kit
from booklet.proof.print_file import WrongPlace, wrong_places
from booklet.proof.printed import Page
from booklet.proof.reader import read_pages
from tests.cli.runs import SMALL_SPEC
from tests.once import laid_once, written_once


@cache
def reading(page: str) -> bytes:
    loaded = parse_kit(f"{SMALL_SPEC}\npage: {page}\n", "plain.yaml", Path())
    return written_once(laid_once(resolve_kit(loaded)))


@cache
def pages_of(page: str) -> tuple[Page, ...]:
    return read_pages(reading(page))


@cache
def sides_of(page: str, flip: Flip) -> tuple[Page, ...]:
    return read_pages(print_file(reading(page), home_binding(PageFormat(page), flip)))


def wrong_on(page: str, sides: Sequence[Page], binding: Binding | None = None) -> list[WrongPlace]:
    """What is wrong on the sides of a booklet, which is bound as is usual where nothing is said."""
    bound = both_sides(impose(len(pages_of(page)), binding or home_binding(PageFormat(page))))
    return list(wrong_places(pages_of(page), sides, bound))


@pytest.mark.parametrize("flip", Flip)
@pytest.mark.parametrize("page", ["half letter", "a5"])
def test_every_half_of_a_print_file_is_a_page_of_the_booklet_in_its_order(page: str, flip: Flip) -> None:
    assert wrong_on(page, sides_of(page, flip)) == []


def test_eight_pages_lie_as_a_bookbinder_lays_them() -> None:
    # 8 1, 2 7, 6 3, 4 5: the sides of two nested sheets (common practice, no source).
    pages = pages_of("half letter")
    assert len(pages) == 8
    blank = [replace(side, letters=()) for side in sides_of("half letter", Flip.SHORT_EDGE)]
    wanted = [(half.side, half.place, half.wanted) for half in wrong_on("half letter", blank)]
    sides = [(8, 1), (2, 7), (6, 3), (4, 5)]
    assert wanted == [
        (number, half, page)
        for number, side in enumerate(sides, 1)
        for half, page in zip(("left half", "right half"), side, strict=True)
    ]


def test_sides_in_another_order_are_found_with_the_pages_that_lie_there() -> None:
    first, second, *others = sides_of("half letter", Flip.SHORT_EDGE)
    found = wrong_on("half letter", [second, first, *others])
    assert found == [
        WrongPlace(1, "left half", 8, 2),
        WrongPlace(1, "right half", 1, 7),
        WrongPlace(2, "left half", 2, 8),
        WrongPlace(2, "right half", 7, 1),
    ]


def test_a_side_that_is_not_there_and_one_too_many_are_found() -> None:
    sides = sides_of("half letter", Flip.SHORT_EDGE)
    lost = wrong_on("half letter", sides[:-1])
    assert lost == [WrongPlace(4, "left half", 4, None), WrongPlace(4, "right half", 5, None)]
    assert wrong_on("half letter", [*sides, sides[0]]) == [WrongPlace(5, "left half", 0, 8)]


def test_a_page_that_has_slipped_by_a_tenth_of_a_millimetre_is_no_longer_itself() -> None:
    side, *others = sides_of("half letter", Flip.SHORT_EDGE)
    off = 0.1 * 72 / 25.4
    moved = tuple(
        replace(letter, box=replace(letter.box, left=letter.box.left + off, right=letter.box.right + off))
        for letter in side.letters
    )
    found = wrong_on("half letter", [replace(side, letters=moved), *others])
    assert [(half.side, half.found) for half in found] == [(1, None), (1, None)]


# Other bindings.

THICK = Creep(Unit.MILLIMETRE.points, SQUARE_FOLD)
BINDINGS = {
    "signatures of one sheet": Binding(A5, A4, Folded(1)),
    "thick paper": Binding(A5, A3, Folded(None, THICK, 12 * Unit.MILLIMETRE.points)),
    "two copies, turned": Binding(A5, A3, copies=2),
    "three copies of four": Binding(A5, read_press_sheet("600x430mm"), copies=3),
    "flat": Binding(A5, A4, Flat()),
    "flat, two copies, turned": Binding(A5, A4, Flat(), copies=2),
}


@cache
def sides_bound(name: str, flip: Flip) -> tuple[Page, ...]:
    return read_pages(print_file(reading("a5"), replace(BINDINGS[name], flip=flip)))


@pytest.mark.parametrize("flip", Flip)
@pytest.mark.parametrize("name", BINDINGS)
def test_every_place_of_any_binding_bears_its_page(name: str, flip: Flip) -> None:
    assert wrong_on("a5", sides_bound(name, flip), BINDINGS[name]) == []


@pytest.mark.parametrize("name", BINDINGS)
def test_two_sides_exchanged_are_found_in_any_binding(name: str) -> None:
    first, second, *others = sides_bound(name, Flip.SHORT_EDGE)
    found = wrong_on("a5", [second, first, *others], BINDINGS[name])
    assert {wrong.side for wrong in found} == {1, 2}


@pytest.mark.parametrize(
    ("name", "other"), [("thick paper", "usual"), ("usual", "thick paper"), ("flat", "usual")]
)
def test_a_file_bound_otherwise_is_found(name: str, other: str) -> None:
    bindings = {**BINDINGS, "usual": Binding(A5, A3)}
    sides = read_pages(print_file(reading("a5"), bindings[name]))
    assert wrong_on("a5", sides, bindings[other]) != []


def test_a_copy_is_named_with_the_place_in_it() -> None:
    binding = BINDINGS["two copies, turned"]
    first, *others = sides_bound("two copies, turned", Flip.SHORT_EDGE)
    found = wrong_on("a5", [replace(first, letters=()), *others], binding)
    assert [wrong.place for wrong in found] == [
        *("copy 1, left half", "copy 1, right half", "copy 2, left half", "copy 2, right half")
    ]
