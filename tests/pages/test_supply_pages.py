"""Photographs and supplies at a glance."""

from __future__ import annotations

import pytest

from booklet.pages.supplies import has_glance, photo_words, supply_blocks
from booklet.placing.photos import photo_totals
from tests.pages.front import SMALL, assert_well_set, book_of, demo, pages_of, words_of

PHOTOS = """
      - {photo: 4 x 6, left: 1, top: 1}
      - {photo: 2 x 2, left: 6, top: 1}
      - {photo: 2 x 2, left: 9, top: 1}
      - {photo: 11 x 11, left: 0, top: 0}
"""
RIBBON = "\nsupplies: [{id: rope, kind: ribbon, length: 30, width: 3/8}]\n"
RUN = "      - {ribbon: rope, run: across, top: 2, ends: 1/2}\n"


@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_the_pages_at_a_glance_are_well_set(name: str) -> None:
    book = demo(name)
    assert_well_set(book, pages_of(supply_blocks(book)))


def test_photographs_are_counted_for_each_layout_and_in_all() -> None:
    book = demo("hill-line")
    said = words_of(book, supply_blocks(book)[0].pages)[0]
    totals = photo_totals(book.resolved.layouts, book.unit)
    count = sum(total.count for total in totals)
    assert f"This kit takes {count} photographs." in said
    assert "In all " + " ".join(str(total.count) for total in totals) in said


def test_prints_to_order_say_what_is_to_be_trimmed_and_what_is_to_be_enlarged() -> None:
    book = book_of(SMALL.rstrip() + PHOTOS)
    (said,) = words_of(book, pages_of(supply_blocks(book)))
    assert "2 × 3 in 2 all to trim to 2 × 2" in said
    assert "4 × 6 in 1" in said
    assert "11 × 11 in, an enlargement 1" in said


def test_one_photograph_is_said_as_one() -> None:
    book = book_of(SMALL.rstrip() + PHOTOS.splitlines()[1].join("\n\n"))
    totals = photo_totals(book.resolved.layouts, book.unit)
    assert photo_words(totals) == "This kit takes one photograph."


def test_a_small_kit_has_both_on_one_page() -> None:
    book = book_of(SMALL.rstrip() + PHOTOS + RUN + RIBBON)
    (page,) = pages_of(supply_blocks(book))
    assert page.bookmark == "Photographs and supplies"
    (said,) = words_of(book, [page])
    # 12 in across the page, and half an inch to tape behind at either end.
    assert "Used in all 13 in In the box 30 in Left over 17 in" in said


def test_a_large_kit_has_a_page_for_each() -> None:
    blocks = supply_blocks(demo("hill-line"))
    assert [block.pages[0].bookmark for block in blocks] == ["Photographs", "Supplies"]
    assert [block.pages[0].anchor for block in blocks] == ["glance", None]


def test_without_photographs_and_supplies_there_is_no_page() -> None:
    book = book_of(SMALL)
    assert not has_glance(book)
    assert supply_blocks(book) == ()


def test_supplies_alone_have_their_page() -> None:
    book = book_of(SMALL.rstrip() + "\n" + RUN + RIBBON)
    ((page,),) = (block.pages for block in supply_blocks(book))
    assert (page.bookmark, page.anchor) == ("Supplies", "glance")


STENCIL = (
    "\nsupplies: [{id: net, kind: stencil, count: 1}, {id: sepia, kind: ink},"
    " {id: rope, kind: ribbon, length: 30, width: 3/8}]\n"
)
AREA = "      - {stencil: net, size: 6 x 2, left: 3, bottom: 1, supply: sepia}\n"


def test_a_stencil_and_an_ink_last_and_are_not_used_up() -> None:
    book = book_of(SMALL.rstrip() + "\n" + AREA + RUN + STENCIL)
    (said,) = words_of(book, pages_of(supply_blocks(book)))
    assert "Ebb yes yes 13 in Used in all lasts lasts 13 in In the box 1 30 in Left over 1 17 in" in said
