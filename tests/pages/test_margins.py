"""What stands in the margins of a page."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, pairwise

import pytest

from booklet.content.blocks import Arrangement, PaperEdge, PocketEdge, Section, SpineEdge
from booklet.content.spans import line
from booklet.drawing.shapes.figure import Path, Rect, Shape, Text, bounds
from booklet.drawing.shapes.fonts import Font, text_width
from booklet.kit.kit import PageFormat
from booklet.pages.booklet import LaidBooklet
from booklet.pages.edges import edges_of, margin_figure
from tests.pages.documents import BACK, document, laid, read, said_on, section, words

SAFE = 9.0
SPINED = replace(BACK, edge=SpineEdge(line("Low Tide, June")))


def sheet(number: int, sentences: int = 20, arrangement: Arrangement = Arrangement.OPENING) -> Section:
    edge = PaperEdge(number - 1, str(number))
    anchor = f"sheet-{number}"
    return section(anchor, words(sentences), number=str(number), edge=edge, arrangement=arrangement)


def layout(pocket: int | str, place: int, count: int) -> Section:
    return section(f"layout-{place}", words(20), edge=PocketEdge(str(pocket), place, count))


def shapes_of(booklet: LaidBooklet, number: int) -> tuple[Shape, ...]:
    """All that is drawn in a page's margins."""
    setup = booklet.setup
    return margin_figure(setup, booklet.pages[number - 1], number, edges_of(setup.document.sections)).shapes


def texts(booklet: LaidBooklet, number: int, role: str) -> list[Text]:
    return [leaf for leaf in shapes_of(booklet, number) if isinstance(leaf, Text) and leaf.role == role]


def bands(booklet: LaidBooklet, number: int) -> list[Rect]:
    """The frames of the papers at the edge of a page."""
    return [leaf for leaf in shapes_of(booklet, number) if isinstance(leaf, Rect) and leaf.fill is None]


@pytest.mark.parametrize("page", list(PageFormat))
def test_all_that_stands_in_the_margins_keeps_clear_of_the_trimmed_edge(page: PageFormat) -> None:
    booklet = laid(document(sheet(1), sheet(12), layout(1, 0, 3), layout(14, 1, 3), back=SPINED), page)
    grid = booklet.setup.grid
    for number in range(1, len(booklet.pages) + 1):
        box = bounds(shapes_of(booklet, number))
        assert box.left >= SAFE
        assert box.top >= SAFE
        assert box.right <= grid.width - SAFE
        assert box.bottom <= grid.height - SAFE


def test_the_paper_of_a_sheet_stands_outside_the_type_area_along_its_height() -> None:
    booklet = laid(document(sheet(1), sheet(2)))
    grid = booklet.setup.grid
    for number in (1, 2):
        (band,) = bands(booklet, number)
        assert band.height == pytest.approx(grid.text_height)
        left, right = grid.left(number), grid.left(number) + grid.text_width
        assert band.x >= right if number % 2 else band.x + band.width <= left


def test_the_number_of_a_sheet_steps_down_the_edge() -> None:
    booklet = laid(document(*(sheet(number) for number in range(1, 7))))
    heights = [texts(booklet, number, "edge")[0].y for number in range(1, 7)]
    steps = [after - before for before, after in pairwise(heights)]
    assert min(steps) > 0
    assert max(steps) == pytest.approx(min(steps), abs=0.1)


def test_two_sheets_on_a_page_share_its_edge() -> None:
    booklet = laid(document(sheet(1), sheet(2, 4, Arrangement.COMPACT)))
    first, second = bands(booklet, 1)
    assert first.y + first.height < second.y
    assert [text.text for text in texts(booklet, 1, "edge")] == ["1", "2"]
    above, below = texts(booklet, 1, "edge")
    assert first.y < above.y < first.y + first.height < second.y < below.y < second.y + second.height


def test_an_index_of_pockets_shows_the_own_one_and_where_the_others_are() -> None:
    booklet = laid(document(*(layout(pocket, place, 3) for place, pocket in enumerate((4, 1, 7)))))
    for number in (1, 2, 3):
        shown = texts(booklet, number, "edge")
        assert [text.text for text in sorted(shown, key=lambda text: text.y)] == ["4", "1", "7"]
        assert max(shown, key=lambda text: text.size).text == ("4", "1", "7")[number - 1]


@pytest.mark.parametrize("page", list(PageFormat))
def test_a_long_name_of_a_pocket_runs_along_the_edge_and_touches_nothing(page: PageFormat) -> None:
    names = ["front", "A3", "2", "WWWWWWWW", "top left"]
    booklet = laid(document(*(layout(name, place, 5) for place, name in enumerate(names))), page)
    grid = booklet.setup.grid
    for number, own in enumerate(names, start=1):
        shown = texts(booklet, number, "edge")
        # The edge of the smallest page is too short for all five: a name that finds no room is left out.
        left_out = set(names) - {text.text for text in shown}
        assert own not in left_out
        assert not left_out or page is PageFormat.SQUARE_15_CM
        boxes = {text.text: bounds([text]) for text in shown}
        assert all(not one.overlaps(other) for one, other in combinations(boxes.values(), 2))
        for name in {"front", "A3"} & boxes.keys():
            runs_along = boxes[name].height > boxes[name].width
            assert runs_along == (name == "front")
        pocket = bounds(leaf for leaf in shapes_of(booklet, number) if isinstance(leaf, Path))
        assert pocket.holds(boxes[own])
        around = bounds(shapes_of(booklet, number))
        assert around.left >= SAFE
        assert around.right <= grid.width - SAFE


def test_the_folio_stands_at_the_outer_edge_and_the_title_at_the_inner_one() -> None:
    booklet = laid(document(section("one", words(20)), section("two", words(20))))
    grid = booklet.setup.grid
    for number in (1, 2):
        (folio,), (running,) = texts(booklet, number, "folio"), texts(booklet, number, "running")
        outer = grid.left(number) + (grid.text_width if number % 2 else 0.0)
        assert folio.text == str(number)
        assert folio.x == pytest.approx(outer)
        assert abs(running.x - outer) == pytest.approx(grid.text_width)


def test_a_running_title_that_is_too_long_ends_after_a_word() -> None:
    long = "Where the tide leaves a line of shells on the sand and the gulls walk along it " * 2
    (said,) = texts(laid(document(section("one", words(2), title=long))), 1, "running")
    assert said.text.endswith("…")
    assert f"{said.text.removesuffix('…')} " in long
    assert said.width < 328


def test_a_running_title_ends_twelve_points_before_the_folio() -> None:
    room: list[float] = []
    for letters in range(120, 160):
        booklet = laid(document(section("one", words(2), title="i" * letters)))
        (folio,), (running,) = texts(booklet, 1, "folio"), texts(booklet, 1, "running")
        room.append(booklet.setup.grid.text_width - folio.width - running.width)
    letter = text_width("i", Font.SANS, running.size)
    assert 12 <= min(room) < 12 + letter


def test_words_stand_along_the_spine_of_the_back_cover() -> None:
    page = read(document(section("one", words(2)), back=SPINED))[-1]
    letters = [letter for letter in page.letters if letter.angle and letter.text.strip()]
    assert "".join(letter.text for letter in letters) == "LowTide,June"
    assert all(letter.box.left > page.width - 36 for letter in letters)
    assert "Low Tide, June" in said_on(page)
