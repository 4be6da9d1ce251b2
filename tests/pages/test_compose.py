"""Sections on pages: what begins where, what shares a page, what fills the gaps."""

from __future__ import annotations

from dataclasses import replace

import pytest

from booklet.content.blocks import (
    Arrangement,
    Contents,
    ContentsEntry,
    Heading,
    IfRoom,
    ItemList,
    Marker,
    Paragraph,
    Section,
    WritingLines,
)
from booklet.content.figures import FinishedPages, PieceMap
from booklet.content.spans import Own, line
from booklet.pages.boxes import PEN_FOOT, PEN_LINE, PenLines
from booklet.pages.compose import Page
from booklet.pages.flow import PageOverflowError, column_height, story_height
from booklet.pages.story import story
from tests.pages.documents import (
    NOTES,
    document,
    laid,
    picture,
    read,
    said_on,
    section,
    setup_of,
    text,
    titles,
    words,
)

COVER = section("cover", picture(FinishedPages((0, 1))), arrangement=Arrangement.FRONT_COVER)
HEIGHT = setup_of(document()).grid.text_height


def opening(anchor: str, sentences: int) -> Section:
    return section(anchor, *(words(4) for _ in range(sentences // 4)), arrangement=Arrangement.OPENING)


def compact(anchor: str, sentences: int) -> Section:
    return section(anchor, words(sentences), arrangement=Arrangement.COMPACT)


def facing(anchor: str) -> Section:
    return section(anchor, words(20), arrangement=Arrangement.FACING)


def page(anchor: str) -> Section:
    return section(anchor, words(20), arrangement=Arrangement.OPENING)


def numbers_of(pages: list[list[str]], anchor: str) -> list[int]:
    return [number for number, anchors in enumerate(pages, 1) if anchor in anchors]


def used(one: Page) -> float:
    return column_height(one.column) / HEIGHT


# Whole press sheets.


@pytest.mark.parametrize("count", range(9))
def test_pages_are_a_multiple_of_four_and_the_back_cover_is_the_last(count: int) -> None:
    booklet = laid(document(COVER, *(section(f"s{at}", words(3)) for at in range(count))))
    assert len(booklet.pages) % 4 == 0
    assert titles(booklet)[0] == ["cover"]
    assert titles(booklet)[-1] == ["back"]
    assert [page.is_bare for page in booklet.pages[1:-1]] == [False] * (len(booklet.pages) - 2)


def test_gaps_are_filled_by_the_best_pages_first_and_the_last_one_repeats() -> None:
    planner, labels = section("planner", words(3)), section("labels", words(3))
    few = laid(document(COVER, section("one", words(3)), fillers=(planner, labels, NOTES)))
    assert titles(few)[2:-1] == [["planner"]]
    more = laid(document(COVER, *(section(f"s{at}", words(3)) for at in range(3)), fillers=(planner, NOTES)))
    assert titles(more)[4:-1] == [["planner"], ["notes"], ["notes"]]


@pytest.mark.parametrize(
    ("count", "printed"),
    [(1, ["s0", "pockets"]), (2, ["s0", "s1"]), (3, ["trial", "s0", "s1", "s2", "pockets"]), (6, None)],
)
def test_an_optional_section_stands_where_it_takes_no_further_press_sheet(
    count: int, printed: list[str] | None
) -> None:
    """Covers and `count` sections are that many pages and two; of two optional ones the last goes first."""
    always = [page(f"s{at}") for at in range(count)]
    trial, pockets = (replace(page(anchor), is_optional=True) for anchor in ("trial", "pockets"))
    booklet = laid(document(COVER, trial, *always, pockets, fillers=(NOTES,)))
    every = [f"s{at}" for at in range(count)]
    shown = [anchor for anchors in titles(booklet)[1:-1] for anchor in anchors if anchor != "notes"]
    assert shown == (every if printed is None else printed)
    assert len(booklet.pages) == len(laid(document(COVER, *always, fillers=(NOTES,))).pages)


def test_a_filler_of_more_pages_than_the_gap_waits_for_a_larger_one() -> None:
    long = section("planner", *(words(20) for _ in range(3)))
    booklet = laid(document(COVER, section("one", words(3)), fillers=(long, NOTES)))
    assert titles(booklet)[2:-1] == [["notes"]]


@pytest.mark.parametrize("count", [2, 3, 5])
@pytest.mark.parametrize("pages", [2, 3])
def test_a_filler_of_several_pages_is_printed_whole_or_not_at_all(pages: int, count: int) -> None:
    long = section("planner", *(words(18) for _ in range(pages)), text("All planned."))
    made = document(COVER, *(section(f"s{at}", words(18)) for at in range(count)), fillers=(long, NOTES))
    gap = -(count + 2) % 4
    printed = [said_on(page) for page in read(made)]
    is_begun = any("Planner" in said for said in printed)
    assert is_begun == any("All planned." in said for said in printed) == (pages <= gap)


def test_a_page_to_keep_stands_before_the_back_cover_or_not_at_all() -> None:
    album = section("album", words(3), arrangement=Arrangement.LAST)
    gaps = laid(document(COVER, section("one", words(3)), fillers=(album, NOTES)))
    assert titles(gaps)[2:-1] == [["album"]]
    none = laid(document(COVER, section("one", words(3)), section("two", words(3)), fillers=(album, NOTES)))
    assert titles(none) == [["cover"], ["one"], ["two"], ["back"]]


def test_a_gap_without_fillers_gets_a_page_for_notes() -> None:
    booklet = laid(document(COVER, section("one", words(3)), fillers=()))
    assert [part.section.title for part in booklet.pages[2].parts] == [line("Your notes")]


# What must be seen at once.


@pytest.mark.parametrize("before", range(4))
def test_facing_sections_lie_on_one_opening(before: int) -> None:
    sections = [section(f"s{at}", words(20)) for at in range(before)]
    booklet = laid(document(COVER, *sections, facing("left"), page("right"), page("alone")))
    pages = titles(booklet)
    (left,), (right,) = numbers_of(pages, "left"), numbers_of(pages, "right")
    assert left % 2 == 0
    assert right == left + 1


@pytest.mark.parametrize("before", range(4))
def test_an_opening_is_seen_without_turning_the_page(before: int) -> None:
    sections = [section(f"s{at}", words(20)) for at in range(before)]
    booklet = laid(document(COVER, *sections, opening("sheet", 48), page("after")))
    first, second = numbers_of(titles(booklet), "sheet")
    assert first % 2 == 0
    assert second == first + 1


def test_an_opening_of_one_page_begins_on_either_side() -> None:
    booklet = laid(document(COVER, page("one"), page("two"), page("three")))
    assert titles(booklet)[1:4] == [["one"], ["two"], ["three"]]


def test_a_section_over_more_pages_says_at_the_head_of_each_that_it_goes_on() -> None:
    pages = read(document(section("rules", *(words(8) for _ in range(9)), title="The rules")))
    assert "The rules, continued" not in said_on(pages[0])
    assert said_on(pages[1]).startswith("The rules, continued")


# What shares a page.


def test_compact_sections_share_a_page_where_they_fit() -> None:
    booklet = laid(document(COVER, compact("one", 5), compact("two", 5), compact("three", 5)))
    assert titles(booklet)[1] == ["one", "two", "three"]


def test_a_compact_section_begins_a_page_where_it_does_not_fit_whole() -> None:
    booklet = laid(document(COVER, compact("one", 20), compact("two", 16)))
    assert titles(booklet)[1:3] == [["one"], ["two"]]


def test_a_compact_section_stands_below_the_end_of_any_other() -> None:
    booklet = laid(document(COVER, section("long", *(words(8) for _ in range(6))), compact("short", 2)))
    assert titles(booklet)[1:3] == [["long"], ["long", "short"]]


def test_a_section_is_set_tighter_where_that_spares_its_last_page() -> None:
    def pages(parts: int) -> int:
        blocks = [block for at in range(parts) for block in (Heading(line(f"Part {at}")), words(1))]
        return len(numbers_of(titles(laid(document(section("one", *blocks)))), "one"))

    setup = setup_of(document())
    usual = story_height(
        story(setup, [Heading(line("Part")), words(1)] * 9, setup.grid.text_width), setup.grid.text_width
    )
    assert usual > HEIGHT - 45
    assert pages(9) == 1
    assert pages(14) == 2


def test_a_section_that_flows_begins_a_page() -> None:
    booklet = laid(document(COVER, section("one", words(2)), section("two", words(2))))
    assert titles(booklet)[1:3] == [["one"], ["two"]]


def test_what_is_only_wanted_where_there_is_room_gives_way_to_a_section_below() -> None:
    extra = IfRoom((Heading(line("You will meet them again")), words(14)))
    sheet = section("sheet", words(8), extra, arrangement=Arrangement.OPENING)
    alone = " ".join(map(said_on, read(document(sheet, page("next")))))
    assert "You will meet them again" in alone
    shared = document(sheet, compact("next", 12))
    assert titles(laid(shared))[0] == ["sheet", "next"]
    assert "You will meet them again" not in said_on(read(shared)[0])


def test_of_two_ways_to_lay_pages_that_with_fewer_is_taken() -> None:
    sections = (compact("one", 14), compact("two", 8), compact("three", 14), compact("four", 8))
    booklet = laid(document(COVER, *sections, fillers=(NOTES,)))
    assert titles(booklet)[1:3] == [["one", "two"], ["three", "four"]]


# No page is left half empty.


def test_a_page_that_would_have_notes_is_filled_with_what_is_optional_and_shares_none_then() -> None:
    left_over = replace(compact("left-over", 2), is_optional=True)
    sections = (section("one", words(20)), left_over, opening("sheet", 56), page("two"), page("three"))
    shown = titles(laid(document(COVER, *sections)))
    assert shown[1:5] == [["one"], ["left-over"], ["sheet"], ["sheet"]]
    assert ["notes"] not in shown


def test_the_contents_list_nothing_that_is_left_out() -> None:
    listed = Contents((tuple(ContentsEntry(line(f"Page of {each}"), each) for each in ("two", "labels")),))
    labels = replace(page("labels"), is_optional=True)
    said = said_on(read(document(COVER, section("one", listed), labels, page("two")))[1])
    assert "Page of two" in said
    assert "Page of labels" not in said


def test_the_contents_list_what_fills_a_page_where_it_stands() -> None:
    anchors = ("late", "sheet", "two")
    listed = Contents((tuple(ContentsEntry(line(f"Page of {each}"), each) for each in anchors),))
    late = replace(page("late"), is_optional=True)
    made = document(COVER, section("one", listed), late, page("short"), opening("sheet", 56), page("two"))
    assert titles(laid(made))[3:7] == [["sheet"], ["sheet"], ["two"], ["late"]]
    said = said_on(read(made)[1])
    places = [said.index(f"Page of {each}") for each in ("sheet", "two", "late")]
    assert places == sorted(places)


def test_a_page_that_ends_early_gets_lines_for_a_pen() -> None:
    booklet = laid(document(COVER, section("short", words(4)), section("full", words(26))))
    short, full = booklet.pages[1:3]
    assert used(short) > 1 - (PEN_LINE + PEN_FOOT) / HEIGHT
    assert [placed for placed in short.column if isinstance(placed.flowable, PenLines)]
    assert not [placed for placed in full.column if isinstance(placed.flowable, PenLines)]


def test_a_picture_grows_before_lines_are_added() -> None:
    one = laid(document(COVER, section("map", words(2), picture(PieceMap(0))))).pages[1]
    assert not [placed for placed in one.column if isinstance(placed.flowable, PenLines)] or used(one) > 0.9
    assert used(one) > 0.6


def test_lines_to_write_on_fill_their_page_down_to_a_little_above_its_foot() -> None:
    booklet = laid(document(COVER, section("pen", words(1), WritingLines(line("What I changed"), least=4))))
    assert 1 - (PEN_LINE + PEN_FOOT) / HEIGHT < used(booklet.pages[1]) <= 1 - PEN_FOOT / HEIGHT


def test_lines_to_write_on_if_there_is_room_take_all_of_it_or_are_left_out() -> None:
    wanted = IfRoom((WritingLines(line("Missing?"), least=2),))
    with_room = document(section("pockets", words(10), wanted))
    assert "Missing?" in said_on(read(with_room)[0])
    assert used(laid(with_room).pages[0]) > 1 - (PEN_LINE + PEN_FOOT) / HEIGHT
    without = read(document(section("pockets", words(32), wanted)))
    assert not any("Missing?" in said_on(each) for each in without)


# What cannot be laid.


def test_what_fits_no_page_names_its_section() -> None:
    low = section("low", WritingLines((), least=40), title="Low water")
    told = replace(low, title=(Own("Low water", ("layouts", 3, "title")),))
    with pytest.raises(PageOverflowError, match=r"Low water: .* shorten its words") as refused:
        laid(document(told))
    assert refused.value.where == ("layouts", 3, "title")


def test_an_item_longer_than_a_page_goes_on_beside_its_marker() -> None:
    endless = ItemList((line("shingle " * 2000),), Marker.TICK)
    pages = laid(document(section("low", endless, title="Low water"))).pages
    assert len([each for each in pages if each.parts[0].section.anchor == "low"]) >= 3


def test_a_paragraph_longer_than_a_page_goes_on() -> None:
    pages = laid(document(section("tale", Paragraph(line("shingle " * 2000))))).pages
    assert len([each for each in pages if each.parts[0].section.anchor == "tale"]) >= 3
