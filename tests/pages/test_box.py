"""The welcome, the box, the tools, the cautions, the pile."""

from __future__ import annotations

import pymupdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.marks.print_check import print_check
from booklet.drawing.shapes.figure import dimensions
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.kit import capitalised, layout_title, sheet_title
from booklet.kit.load import parse_kit
from booklet.measure.length import Unit, parse_length, to_points
from booklet.pages.box import box_blocks, supply_words, trimmer_words
from booklet.pages.cautions import cautions_of
from booklet.pages.cutting import numbers_said
from booklet.pages.page import PageName, Start, flow
from booklet.pages.pile import pile_blocks, pile_words
from booklet.pages.welcome import check_bar, welcome_block
from booklet.pages.write import Imprint, write_pages
from tests.pages.front import SMALL, SPECS, assert_well_set, book_of, demo, pages_of, words_of

DEMOS = ("hill-line", "roof-garden")


@pytest.mark.parametrize("name", DEMOS)
def test_the_front_pages_are_well_set(name: str) -> None:
    book = demo(name)
    assert_well_set(book, pages_of([*box_blocks(book), *pile_blocks(book)]))


@pytest.mark.parametrize("name", DEMOS)
def test_welcome_and_box_face_each_other(name: str) -> None:
    welcome, box, tools = box_blocks(demo(name))
    assert welcome.start is Start.LEFT
    assert [len(block.pages) for block in (welcome, box, tools)] == [1, 1, 1]
    assert [block.pages[0].anchor for block in (welcome, box, tools)] == ["welcome", "box", "tools"]


def test_the_box_shows_every_sheet_and_every_ready_cut_piece() -> None:
    book = demo("hill-line")
    (words,) = words_of(book, box_blocks(book)[1].pages)
    for sheet in book.resolved.sheets:
        assert f"{sheet.number} {sheet_title(book.kit, sheet.sheet)} 12 × 12 in" in words
    for ready in book.kit.ready:
        assert capitalised(ready.name) in words
    assert "6 Hills at dawn 12 × 12 in, two sheets" in words
    assert "8 pieces, one to spare" in words
    assert "20 sheets in all" in words


def test_contents_name_every_section_and_layout_that_there_is() -> None:
    book = demo("hill-line")
    (words,) = words_of(book, welcome_block(book).pages)
    for layout in book.kit.layouts:
        assert layout_title(layout) in words
    for section in ("The pile", "Cutting", "Cutting apart", "Photographs and supplies"):
        assert section in words


def test_contents_say_which_sheets_are_cut_and_which_are_cut_apart() -> None:
    book = demo("hill-line")
    (words,) = words_of(book, welcome_block(book).pages)
    assert "How to read the cutting pages" in words
    assert "Cutting, sheets 1 to 7" in words
    assert "Cutting apart, sheets 8 and 9" in words
    (words,) = words_of(book_of(SMALL), welcome_block(book_of(SMALL)).pages)
    assert "Cutting, sheet 1 " in words


@given(st.sets(st.integers(1, 30), min_size=1))
def test_numbers_in_few_words_are_all_the_numbers(numbers: set[int]) -> None:
    said = numbers_said(sorted(numbers))
    runs = [run.split(" to ") for run in said.replace(" and ", ", ").split(", ")]
    assert [n for run in runs for n in range(int(run[0]), int(run[-1]) + 1)] == sorted(numbers)
    assert all(int(run[-1]) - int(run[0]) > 1 for run in runs if len(run) > 1)


def test_contents_leave_out_what_a_kit_has_not() -> None:
    book = book_of(SMALL)
    (words,) = words_of(book, welcome_block(book).pages)
    assert "Cutting" in words
    assert "Cutting apart" not in words
    assert "Photographs" not in words


def test_many_layouts_stand_as_one_section() -> None:
    bases = "\n".join(f"  - {{id: base{at}, paper: sand}}" for at in range(40))
    layouts = "\n".join(f"  - {{id: page{at}, pocket: 1, base: base{at}}}" for at in range(40))
    text = SMALL.replace("layouts:", f"{bases}\nlayouts:").rstrip() + f"\n{layouts}\n"
    book = book_of(text)
    (words,) = words_of(book, welcome_block(book).pages)
    assert "The layouts" in words
    assert "Page39" not in words


@pytest.mark.parametrize("letters", [0, 300, 900, 1200, 1600, 2000])
def test_the_bar_is_on_the_welcome_s_first_page_whatever_is_said(letters: int) -> None:
    said = ("Tides and shingle. " * 120)[:letters].strip() or "Hello."
    book = book_of(SMALL.replace("unit: in", f'unit: in\nwelcome: "{said}"'))
    pages = welcome_block(book).pages
    told = words_of(book, pages)
    assert "Is this page its true size?" in told[0]
    for number, page in enumerate(told):
        assert page.startswith("Welcome, continued") == (number > 0)
        assert ("In this booklet" in page) == ("Where every piece goes" in page)
    assert "".join(told).count("In this booklet") == 1
    assert_well_set(book, pages)


@pytest.mark.parametrize("side", [24, 40, 60, 100])
def test_a_large_paper_leaves_room_for_its_words_in_the_box(side: int) -> None:
    book = book_of(SMALL.replace("12 x 12", f"{side} x {side}"))
    block = box_blocks(book)[1]
    assert f"Sand {side} × {side} in" in " ".join(words_of(book, block.pages))
    assert_well_set(book, block.pages)


# The bar.


@pytest.mark.parametrize(
    ("unit", "said"), [(Unit.INCH, "4 in"), (Unit.CENTIMETRE, "10 cm"), (Unit.MILLIMETRE, "100 mm")]
)
def test_the_bar_is_as_long_as_it_says(unit: Unit, said: str) -> None:
    (measured,) = dimensions(print_check(unit, DrawingStyle()).shapes)
    assert measured.label == said.replace(" ", "\u00a0")
    assert measured.length == pytest.approx(to_points(parse_length(said, unit), unit), abs=1e-9)


@pytest.mark.parametrize(("name", "points"), [("hill-line", 4 * 72.0), ("roof-garden", 10 * 72 / 2.54)])
def test_the_bar_keeps_its_length_in_print(name: str, points: float) -> None:
    """Read back by MuPDF: the ruler's edge and the dimension line are the longest level lines."""
    book = demo(name)
    pages = flow(check_bar(book), book.grid, PageName(""))
    pdf = write_pages(pages, book.grid, book.palette, Imprint("", "", ""), draft=False)
    drawn = pymupdf.open(stream=pdf)[0].get_drawings()
    lines = [item for path in drawn if path["type"] == "s" for item in path["items"]]
    lines = [item for item in lines if item[0] == "l"]
    level = sorted(abs(start.x - end.x) for _, start, end in lines if abs(start.y - end.y) < 0.01)
    assert level[-2:] == pytest.approx([points, points], abs=0.02)


# Tools and cautions.


def test_supplies_say_how_much_there_is() -> None:
    book = demo("hill-line")
    said = {supply.id: supply_words(book, supply) for supply in book.kit.supplies}
    assert said["grosgrain"] == "54\u00a0in, ³⁄₈\u00a0in wide"
    assert said["foam"] == "48"


def test_the_trimmer_is_asked_for_what_the_cuts_ask_of_it() -> None:
    assert list(trimmer_words(book_of(SMALL))) == [
        "Your trimmer: the largest reading of this kit is 8\u00a0in, the longest cut 12\u00a0in.",
        "Every cut lies on a mark of ¹⁄₈\u00a0in.",
    ]


def test_no_promise_of_marks_where_a_reading_lies_between_them() -> None:
    said = list(trimmer_words(book_of(SMALL.replace("at: [7]", "at: [7 1/16]"))))
    assert not any("mark" in line for line in said)


def signals(text: str) -> list[tuple[str, str]]:
    return [(caution.signal, caution.text) for caution in cautions_of(parse_kit(text, "kit.yaml", SPECS).kit)]


def test_blades_call_for_a_warning_with_hazard_and_how_to_avoid_it() -> None:
    ((signal, text),) = signals(SMALL)
    assert signal == "WARNING"
    for part in ("Blades are sharp", "cut deeply", "Keep fingers out"):
        assert part in text


def test_small_parts_and_adhesive_call_for_cautions_after_the_warning() -> None:
    supplies = "supplies: [{id: rivets, kind: brads, count: 8}, {id: glue, kind: adhesive, count: 1}]"
    said = signals(f"{SMALL}\n{supplies}\n")
    assert [signal for signal, _ in said] == ["WARNING", "CAUTION", "CAUTION"]
    assert "choke" in said[1][1]
    assert "Adhesive" in said[2][1]


def test_a_kit_without_blades_has_no_warning() -> None:
    whole = SMALL[: SMALL.index("    cuts:")] + "  - {id: sand, paper: sand}\n" + "layouts:\n"
    assert signals(f"{whole}  - {{id: ebb, pocket: 1, base: sand}}\n") == []


def test_cautions_of_the_publisher_stand_beside_ours() -> None:
    book = demo("hill-line")
    (words,) = words_of(book, box_blocks(book)[2].pages)
    assert "WARNING" in words
    assert "CAUTION" in words
    assert "The corner rounder and the hole punch bite." in words
    assert "Follow the directions of the makers" in words


# The pile.


def test_the_pile_is_listed_from_the_top_with_how_each_sheet_lies() -> None:
    book = book_of(SMALL)
    (words,) = words_of(book, pages_of(pile_blocks(book)))
    assert words.index("Shingle print") < words.index("Sand")
    assert "wave border at the left" in words
    assert "left whole" in words


def test_the_pile_says_whose_paper_lies_on_top_of_what_is_left_whole() -> None:
    assert pile_words(book_of(SMALL)).endswith("the paper of the first layout on top.")
    last = SMALL.replace("sheet: 12 x 12", "sheet: 12 x 12\nassembly: last layout first")
    assert pile_words(book_of(last)).endswith("the paper of the last layout on top.")


def test_a_high_pile_goes_on_over_the_page() -> None:
    more = "\n".join(f"  - {{id: sand{at}, paper: sand, title: Sand number {at}}}" for at in range(30))
    text = SMALL.replace("layouts:", f"{more}\nlayouts:")
    book = book_of(text)
    pages = pages_of(pile_blocks(book))
    assert len(pages) > 1
    first, *later = words_of(book, pages)
    assert "continued" not in first
    assert all(words.startswith("The pile, continued ") for words in later)
    said = " ".join([first, *later])
    assert all(f"Sand number {at}" in said for at in range(30))
    assert_well_set(book, pages)


def test_one_sheet_is_no_pile() -> None:
    lone = SMALL.replace("  - {id: sand, paper: sand}\n", "").replace("base: sand", "base: strip")
    assert pile_blocks(book_of(lone.replace("      - {place: strip, left: 0, top: 0}\n", ""))) == ()
