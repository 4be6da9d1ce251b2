"""The cover: its title, and every finished layout however many there are."""

from __future__ import annotations

from typing import Any

import pytest

from booklet.content.blocks import Arrangement, Cards, Picture, Section
from booklet.content.figures import FinishedPages
from booklet.content.front.cover import front_cover_section
from booklet.content.spans import Number
from booklet.content.words.language import ENGLISH
from tests.content.specs import demo
from tests.content.walking import all_of, own_words, said
from tests.drawing.looks import resolved_kit
from tests.kits import Data, make_kit, ready, sheet


def cover_of(alone: int, facing: int = 0, **more: Any) -> Section:
    """The cover of a kit of so many layouts that lie alone, after so many spreads of two."""
    layouts: list[Data] = []
    for n in range(facing):
        layouts += [layout(f"left {n}", facing=f"right {n}"), layout(f"right {n}")]
    layouts += [layout(f"alone {n}") for n in range(alone)]
    base = ready("base", count=len(layouts), size="12 x 12")
    kit = make_kit(sheet(id="extra", spare="extra"), layouts=layouts, ready=[base], **more)
    return front_cover_section(resolved_kit(kit), ENGLISH)


def layout(id: str, **more: object) -> Data:
    return {"id": id, "pocket": 1, "base": "base", "steps": [], **more}


@pytest.mark.parametrize(("alone", "facing"), [(1, 0), (2, 0), (5, 0), (0, 1), (2, 5), (99, 0), (1, 49)])
def test_every_layout_is_on_the_cover_once(alone: int, facing: int) -> None:
    shown = [index for pages in all_of(FinishedPages, cover_of(alone, facing)) for index in pages.layouts]
    assert shown == list(range(alone + 2 * facing))


def test_the_first_spread_stands_alone_and_all_others_are_tickets() -> None:
    first, tickets = cover_of(1, 3).blocks
    assert isinstance(first, Picture)
    assert first.figure == FinishedPages((0, 1))
    assert isinstance(tickets, Cards)
    assert [card.picture.figure for card in tickets.cards] == [
        FinishedPages((2, 3)),
        FinishedPages((4, 5)),
        FinishedPages((6,)),
    ]


def test_a_few_tickets_bear_their_titles_and_many_do_not() -> None:
    (few,) = all_of(Cards, cover_of(7))
    assert [said(line) for card in few.cards[:2] for line in card.lines] == ["Alone 1", "Alone 2"]
    (many,) = all_of(Cards, cover_of(8))
    assert all(card.lines == () for card in many.cards)


@pytest.mark.parametrize(("layouts", "words"), [(1, "1 layout, 1 piece"), (2, "2 layouts, 2 pieces")])
def test_layouts_and_pieces_are_counted(layouts: int, words: str) -> None:
    section = cover_of(layouts)
    assert said(section.lead) == f"{words}: cutting and assembly"
    assert [number.value for number in section.lead if isinstance(number, Number)] == [layouts, layouts]


def test_the_cover_says_whose_kit_it_is_and_of_which_month() -> None:
    section = front_cover_section(demo("hill-line"), ENGLISH)
    assert section.arrangement is Arrangement.FRONT_COVER
    assert said(section.title) == "The Slow Train Uphill"
    assert [own.source for own in own_words(section.kicker)] == [("publisher",), ("month",)]
    assert own_words(cover_of(1).kicker) == own_words(cover_of(2).kicker)
    assert [own.text for own in own_words(cover_of(1).kicker)] == ["Harbour Paper"]
