"""The print file read back: which page lies on which half of which press side."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from booklet.binding.binding import Flip, home_binding
from booklet.binding.print_file import print_file
from booklet.kit.kit import PageFormat
from booklet.kit.load import parse_kit
from booklet.pages.booklet import make_booklet, write_booklet
from booklet.placing.resolved import resolve_kit
from booklet.proof.print_file import WrongHalf, wrong_halves
from booklet.proof.printed import Page
from booklet.proof.reader import read_pages
from tests.finished.kits import PLAIN


@cache
def reading(page: str) -> bytes:
    loaded = parse_kit(f"{PLAIN}\npage: {page}\n", "plain.yaml", Path())
    return write_booklet(make_booklet(resolve_kit(loaded)))


@cache
def pages_of(page: str) -> tuple[Page, ...]:
    return read_pages(reading(page))


@cache
def sides_of(page: str, flip: Flip) -> tuple[Page, ...]:
    return read_pages(print_file(reading(page), home_binding(PageFormat(page), flip)))


@pytest.mark.parametrize("flip", Flip)
@pytest.mark.parametrize("page", ["half letter", "a5"])
def test_every_half_of_a_print_file_is_a_page_of_the_booklet_in_its_order(page: str, flip: Flip) -> None:
    assert list(wrong_halves(pages_of(page), sides_of(page, flip))) == []


def test_eight_pages_lie_as_a_bookbinder_lays_them() -> None:
    # 8 1, 2 7, 6 3, 4 5: the sides of two nested sheets (common practice, no source).
    pages = pages_of("half letter")
    assert len(pages) == 8
    blank = [replace(side, letters=()) for side in sides_of("half letter", Flip.SHORT_EDGE)]
    wanted = [(half.side, half.half, half.wanted) for half in wrong_halves(pages, blank)]
    sides = [(8, 1), (2, 7), (6, 3), (4, 5)]
    assert wanted == [
        (number, half, page)
        for number, side in enumerate(sides, 1)
        for half, page in zip(("left", "right"), side, strict=True)
    ]


def test_sides_in_another_order_are_found_with_the_pages_that_lie_there() -> None:
    first, second, *others = sides_of("half letter", Flip.SHORT_EDGE)
    found = list(wrong_halves(pages_of("half letter"), [second, first, *others]))
    assert found == [
        WrongHalf(1, "left", 8, 2),
        WrongHalf(1, "right", 1, 7),
        WrongHalf(2, "left", 2, 8),
        WrongHalf(2, "right", 7, 1),
    ]


def test_a_side_that_is_not_there_and_one_too_many_are_found() -> None:
    sides = sides_of("half letter", Flip.SHORT_EDGE)
    lost = list(wrong_halves(pages_of("half letter"), sides[:-1]))
    assert lost == [WrongHalf(4, "left", 4, None), WrongHalf(4, "right", 5, None)]
    assert list(wrong_halves(pages_of("half letter"), [*sides, sides[0]])) == [WrongHalf(5, "left", 0, 8)]


def test_a_page_that_has_slipped_by_a_tenth_of_a_millimetre_is_no_longer_itself() -> None:
    side, *others = sides_of("half letter", Flip.SHORT_EDGE)
    off = 0.1 * 72 / 25.4
    moved = tuple(
        replace(letter, box=replace(letter.box, left=letter.box.left + off, right=letter.box.right + off))
        for letter in side.letters
    )
    found = list(wrong_halves(pages_of("half letter"), [replace(side, letters=moved), *others]))
    assert [(half.side, half.found) for half in found] == [(1, None), (1, None)]
