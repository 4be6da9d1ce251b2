"""The covers."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from booklet.content.blocks import Arrangement, Block, Card, Cards, CardStyle, Section
from booklet.content.figures import FinishedPages, PaperStrips, PrintCheck
from booklet.content.spans import line
from booklet.kit.errors import KitError
from booklet.pages.boxes import FigureBox
from booklet.pages.cover import TicketStrip, back_cover, front_cover
from booklet.pages.flow import Column, column_height
from booklet.pages.setup import PageSetup
from tests.pages.documents import document, picture, read, said_on, section, setup_of, text, words

SETUP = setup_of(document())
HEIGHT = SETUP.grid.text_height


def cover(*blocks: Block, title: str = "Low Tide", lead: str = "2 layouts") -> Section:
    return section(
        "cover",
        *blocks,
        title=title,
        arrangement=Arrangement.FRONT_COVER,
        kicker=line("Harbour Paper · June"),
        lead=line(lead),
    )


def tickets(count: int) -> Cards:
    cards = tuple(
        Card(picture(FinishedPages((2 * at, 2 * at + 1))), (line(f"Ebb {at}"),)) for at in range(count)
    )
    return Cards(cards, CardStyle.BELOW, 2)


HERO = picture(FinishedPages((0, 1)))


@pytest.mark.parametrize("count", [0, 1, 2, 4, 5, 9, 16, 40])
def test_the_first_spread_stands_large_and_all_others_as_tickets(count: int) -> None:
    column = front_cover(SETUP, cover(HERO, tickets(count)))
    hero = next(placed.flowable for placed in column if isinstance(placed.flowable, FigureBox))
    strips = [placed.flowable for placed in column if isinstance(placed.flowable, TicketStrip)]
    assert sum(len(strip.stacks) for strip in strips) == count
    assert all(hero.figure.width >= 1.3 * strip.picture_width for strip in strips)
    assert column_height(column) <= HEIGHT


def test_all_of_a_cover_is_printed_in_its_order() -> None:
    page = read(document(cover(HERO, tickets(4))))[0]
    assert said_on(page) == "Harbour Paper · June Low Tide Ebb 0 Ebb 1 Ebb 2 Ebb 3 2 layouts"


def test_a_cover_may_have_no_picture_at_all() -> None:
    assert column_height(front_cover(SETUP, cover())) <= HEIGHT


def test_a_long_title_is_set_smaller() -> None:
    def size(title: str) -> float:
        column = front_cover(SETUP, cover(HERO, title=title))
        return float(column[1].flowable.style.fontSize)

    assert size("Where the tide leaves a line of shells") < size("Low Tide")
    assert size("Low Tide") == SETUP.sizes.display


def test_a_title_that_leaves_no_room_for_pictures_stands_alone() -> None:
    def shows(title: str) -> bool:
        column = front_cover(SETUP, cover(HERO, title=title))
        assert column_height(column) <= HEIGHT
        return any(isinstance(placed.flowable, FigureBox) for placed in column)

    assert shows("The tide " * 12)
    assert not shows("The tide " * 165)


@pytest.mark.parametrize("lay", [front_cover, back_cover])
def test_words_that_are_more_than_a_cover_are_refused(lay: Callable[[PageSetup, Section], Column]) -> None:
    with pytest.raises(KitError, match="more than a page"):
        lay(SETUP, cover(HERO, title="The tide " * 400))


def test_the_papers_of_the_back_cover_take_the_room_above_its_words() -> None:
    back = section("back", picture(PaperStrips()), text("Printed at home."), picture(PrintCheck()))
    column = back_cover(SETUP, back)
    strips = next(placed for placed in column if isinstance(placed.flowable, FigureBox))
    assert strips.height > HEIGHT * 0.5
    assert column[-1].bottom == pytest.approx(HEIGHT, abs=8)


def test_a_back_cover_of_more_than_a_page_is_refused_in_words() -> None:
    with pytest.raises(KitError, match="shorten them"):
        back_cover(SETUP, section("back", words(60)))
