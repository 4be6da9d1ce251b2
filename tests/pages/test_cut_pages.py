"""The cutting pages: sheets on openings, the scale, everything said and nothing over anything else."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.model import Fate
from booklet.drawing.shapes.figure import Figure, dimensions
from booklet.drawing.shapes.scale import ROUND_SCALES
from booklet.kit.load import load_kit, parse_kit
from booklet.measure.length import Unit
from booklet.pages.book import Book, open_book
from booklet.pages.cut_aparts import cut_apart_blocks
from booklet.pages.cut_blocks import settle_sides
from booklet.pages.cut_pages import fits_opening, settled_plan
from booklet.pages.cut_plan import figure_column
from booklet.pages.cut_split import Rooms, RowSize, fits, split_rows
from booklet.pages.cutting import cut_figures, cut_sheets, cutting_blocks
from booklet.pages.flow import FigureBox
from booklet.pages.page import Block, Page, Start
from booklet.pages.reading import reading_blocks
from booklet.pages.scale import choose_scale
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.pages.front import SMALL, SPECS, assert_well_set, pages_of, parts_of, printed, words_of

DEMOS = ("hill-line", "roof-garden")

# Six readings, strips of 1/4 in, the back up, two papers together, and the same in millimetres on A5.
HARD = """
title: Hard
publisher: Harbour Paper
sheet: 12 x 12
papers:
  leaf:
    title: Leaf print
    front: {pattern: leaves, colours: ["#eee8d5", "#7c9a5e"]}
    back: {pattern: stripes, colours: ["#ffffff", "#d99b7c"]}
    edges: {top: scalloped edge}
sheets:
  - id: leaf
    paper: leaf
    lay: {face: back, left: scalloped edge}
    tip: Hold the narrow strips down with a ruler.
    cuts:
      - {at: [11 3/4, 11 1/4, 10 3/8, 9, 7, 4], leaves: [one, two, three, four, five, six, seven]}
      - {take: two, turn: anticlockwise, at: [8, 3 3/16], leaves: [eight, nine, scrap], tip: Turn it once.}
  - id: pair
    paper: leaf
    count: 2
    cuts: [{at: [5], leaves: [ten, eleven]}]
layouts:
  - {id: ebb, pocket: 1, base: one}
"""
METRIC = (
    HARD.replace("sheet: 12 x 12", "sheet: 305 x 305\nunit: mm\npage: a5")
    .replace("11 3/4, 11 1/4, 10 3/8, 9, 7, 4", "298, 286, 263, 229, 178, 102")
    .replace("8, 3 3/16", "200, 81")
    .replace("at: [5]", "at: [127]")
)


def long_spec() -> str:
    """The small kit with its panel trimmed nine times, turned over and over."""
    steps = [
        f"      - {{take: {'panel' if at == 0 else f'rest {at}'}, turn: half, at: [{5 - Fraction(at, 2)}], "
        f"leaves: [{'tall panel' if at == 8 else f'rest {at + 1}'}, scrap]}}\n".replace("[9/2]", "[4.5]")
        for at in range(9)
    ]
    turned = "      - {take: panel, turn: clockwise, at: [7], leaves: [tall panel, scrap]}\n"
    return SMALL.replace(turned, "".join(steps))


@cache
def resolved(name: str) -> ResolvedKit:
    texts = {"small": SMALL, "hard": HARD, "metric": METRIC, "long": long_spec()}
    if name in texts:
        return resolve_kit(parse_kit(texts[name], "kit.yaml", SPECS))
    return resolve_kit(load_kit(SPECS / f"{name}.yaml"))


@cache
def book(name: str) -> Book:
    return open_book(resolved(name), choose_scale(resolved(name)))


def all_blocks(name: str) -> tuple[Block, ...]:
    return (*reading_blocks(book(name)), *cutting_blocks(book(name)), *cut_apart_blocks(book(name)))


@cache
def words_by_page(name: str) -> dict[str, list[str]]:
    """The words of each page, under its running title."""
    pages = pages_of(all_blocks(name))
    found: dict[str, list[str]] = {}
    for page, words in zip(pages, words_of(book(name), pages), strict=True):
        found.setdefault(page.running, []).append(words)
    return found


def figures_on(pages: tuple[Page, ...]) -> list[Figure]:
    return [
        part.figure
        for page in pages
        for laid in page.laid
        for part in parts_of(laid.flowable)
        if isinstance(part, FigureBox)
    ]


KITS = [*DEMOS, "small", "hard", "metric", "long"]


@pytest.mark.parametrize("name", KITS)
def test_the_cutting_pages_are_well_set(name: str) -> None:
    assert_well_set(book(name), pages_of(all_blocks(name)), hang=2.0)


@pytest.mark.parametrize("name", KITS)
def test_everything_lies_within_the_type_area(name: str) -> None:
    grid = book(name).grid
    for page in pages_of(all_blocks(name)):
        for laid in page.laid:
            assert laid.y + laid.height <= grid.text_height + 0.1, (page.running, laid.flowable)


@pytest.mark.parametrize("name", KITS)
def test_a_sheet_of_several_pages_begins_on_the_left_and_none_is_left_empty(name: str) -> None:
    for blocks in (cutting_blocks(book(name)), cut_apart_blocks(book(name))):
        left = blocks[0].start is not Start.RIGHT if blocks else True
        for block in blocks:
            if len(block.pages) > 1:
                assert block.start is Start.LEFT
            if block.start is not Start.ANYWHERE:
                assert block.start is (Start.LEFT if left else Start.RIGHT)
            left = left == (len(block.pages) % 2 == 0)


@pytest.mark.parametrize("name", KITS)
def test_every_piece_is_told_with_its_name_and_its_pocket(name: str) -> None:
    """Of a long row of printed elements the letters are told: its names are not, the figure shows them."""
    blocks = (*cutting_blocks(book(name)), *cut_apart_blocks(book(name)))
    sheets = [s for s in sorted(resolved(name).sheets, key=lambda sheet: sheet.number) if s.stages]
    for sheet, block in zip(sheets, blocks, strict=True):
        words = " ".join(words_by_page(name)[block.pages[0].running])
        for piece in sheet.pieces:
            if piece.fate is Fate.SCRAP:
                continue
            letter = piece.label.removeprefix(str(sheet.number))
            assert piece.name in words or (sheet.sheet.is_cut_apart and re.search(rf"\b{letter}\b", words))
            entry = resolved(name).ledger.of_piece(piece)
            if entry and entry.pocket is not None:
                assert f"→ {entry.pocket}" in words or f", {entry.pocket}" in words


@pytest.mark.parametrize("name", KITS)
def test_every_figure_states_the_one_scale_and_measures_by_it(name: str) -> None:
    scale = book(name).scale
    unit = resolved(name).kit.unit
    seen = 0
    for figure in cut_figures(book(name)):
        if "stage" not in figure.name:
            continue
        assert figure.scale == scale.words
        number, stage = (int(part) for part in figure.name.split("-")[1::2])
        sheet = next(sheet for sheet in resolved(name).sheets if sheet.number == number)
        widths = [strip.end - strip.start for strip in sheet.stages[stage - 1].strips]
        chain = [each for each in dimensions(figure.shapes) if each.start[1] == each.end[1]]
        if sheet.sheet.is_cut_apart:
            assert not chain
            continue
        assert [each.length for each in chain] == pytest.approx([scale.points(w, unit) for w in widths])
        seen += 1
    assert seen


@pytest.mark.parametrize("name", KITS)
def test_the_figures_for_files_are_those_on_the_pages(name: str) -> None:
    shown = {id(figure) for figure in figures_on(pages_of(all_blocks(name)))}
    exported = cut_figures(book(name))
    assert {id(figure) for figure in exported} <= shown
    assert len({figure.name for figure in exported}) == len(exported)


def test_bookmarks_stand_under_cutting() -> None:
    (reading,) = reading_blocks(book("small"))
    assert (reading.pages[0].bookmark, reading.pages[0].bookmark_level) == ("Cutting", 0)
    (sheet,) = cutting_blocks(book("small"))
    first = sheet.pages[0]
    assert (first.bookmark, first.bookmark_level) == ("Sheet 1: Shingle print", 1)
    assert first.anchor == "sheet-shingle"


def test_a_long_sheet_goes_on_over_the_page_and_says_so() -> None:
    (block,) = cutting_blocks(book("long"))
    assert len(block.pages) > 2
    assert block.start is Start.LEFT
    words = words_by_page("long")[block.pages[0].running]
    assert "Goes on over the page with step" in words[1]
    assert "Goes on over the page" not in words[0]
    assert "Sheet 1, Shingle print, continued" in words[2]


def test_stages_stay_in_cutting_order() -> None:
    for name in KITS:
        numbers = [sheet.number for sheet in cut_sheets(book(name))]
        assert numbers == sorted(numbers)
        for block in cutting_blocks(book(name)):
            names = [f.name for f in figures_on(block.pages) if "stage" in f.name]
            assert names == sorted(names, key=lambda each: int(each.rsplit("-", 1)[1]))


# The scale.


@pytest.mark.parametrize("name", KITS)
def test_the_scale_is_the_largest_at_which_every_sheet_that_can_fits_an_opening(name: str) -> None:
    chosen = ROUND_SCALES.index(book(name).scale)
    cut = [sheet for sheet in resolved(name).sheets if sheet.stages]
    page = book(name).grid.text_width
    larger = [
        open_book(resolved(name), scale)
        for scale in ROUND_SCALES[:chosen]
        if figure_column(resolved(name), scale) + 106 <= page
    ]
    for bigger in larger:
        failing = [s for s in cut if not fits_opening(bigger, settled_plan(bigger, s.index))]
        assert any(fits_opening(book(name), settled_plan(book(name), s.index)) for s in failing)


def test_a_foot_wide_sheet_on_half_a_letter_page_is_drawn_at_1_to_4() -> None:
    assert book("small").scale.words == "Scale 1:4"


def test_readings_between_labels_are_enlarged_once_on_a_sheet() -> None:
    views = [f.alt for f in cut_figures(book("hard")) if "-step-" in f.name]
    text = " ".join(views)
    assert all(text.count(value) == 1 for value in ("11³⁄₄", "11¹⁄₄", "10³⁄₈", "3³⁄₁₆"))
    assert resolved("hard").kit.unit is Unit.INCH


@pytest.mark.parametrize("name", DEMOS)
def test_where_the_print_s_top_lies_stands_on_one_line(name: str) -> None:
    pages = pages_of(all_blocks(name))
    pdf = printed(book(name), pages)
    lines = [
        line for at in range(len(pages)) for line in pdf[at].get_textpage().get_text_range().splitlines()
    ]
    said = [line for line in lines if "Print’s top" in line]
    assert said
    assert all(re.search(r"Print’s top at the (left|right|far side|near side)\.$", line) for line in said)


@pytest.mark.parametrize("name", KITS)
def test_enlarged_views_that_begin_a_page_say_what_they_are(name: str) -> None:
    pages = pages_of(all_blocks(name))
    for page, words in zip(pages, words_of(book(name), pages), strict=True):
        shown = figures_on((page,))
        if shown and "-step-" in shown[0].name:
            assert "The marks between the labels, enlarged" in words


def test_views_that_go_on_over_the_page_take_their_title_with_them() -> None:
    _, later = words_by_page("hill-line")["Sheet 3  Iron"]
    assert later.startswith("Sheet 3, Iron, continued The marks between the labels, enlarged")


# How rows and sheets are shared out.


ROWS = st.lists(
    st.builds(RowSize, st.floats(20, 300), st.sampled_from([0, 0, 1, 2]), st.sampled_from([0.0, 18.0])),
    min_size=1,
    max_size=8,
)
ROOMS = Rooms(first=400, later=450, gap=6, tail=30, turning=20)


@given(ROWS)
def test_rows_keep_their_order_and_fit_their_pages(rows: list[RowSize]) -> None:
    split = split_rows(rows, ROOMS)
    assert [at for page in split for at in page] == list(range(len(rows)))
    assert all(split)
    if len(split) < len(rows):
        assert fits(split, rows, ROOMS)


@pytest.mark.parametrize(("title", "pages"), [(0.0, 2), (20.0, 3)])
def test_a_title_at_the_head_of_a_page_takes_its_room(title: float, pages: int) -> None:
    rows = [RowSize(390), RowSize(400, 1, title), RowSize(14)]
    assert len(split_rows(rows, ROOMS)) == pages


@given(ROWS)
def test_no_fewer_pages_would_do(rows: list[RowSize]) -> None:
    pages = len(split_rows(rows, ROOMS))
    filled, needed = 0.0, 1
    for row in rows:
        room = ROOMS.first if needed == 1 else ROOMS.later
        step = row.height + (ROOMS.gap if filled else 0)
        if filled + step > room:
            needed, filled, step = needed + 1, 0.0, row.height
        filled += step
    assert pages >= needed


@given(st.lists(st.integers(1, 5), min_size=1, max_size=9))
def test_no_sheet_is_turned_in_the_middle_for_want_of_a_left_page(counts: list[int]) -> None:
    sides = settle_sides(counts)
    if all(count == 1 for count in counts):
        assert {side.start for side in sides} == {Start.ANYWHERE}
        return
    left = sides[0].start is Start.LEFT
    for count, side in zip(counts, sides, strict=True):
        assert side.start is (Start.LEFT if left else Start.RIGHT)
        assert count == 1 or left
        assert side.pages - count in {0, 1}
        left = left == (side.pages % 2 == 0)


# The page that explains the signs.


SIGNS = {
    "Scrap.": {"small", "hard", "hill-line"},
    "Papers on each other.": {"hard", "hill-line", "roof-garden"},
    "A register mark,": {"hill-line", "roof-garden"},
    "Between two labels": {"small", "hard", "metric", "hill-line", "roof-garden"},
}


@pytest.mark.parametrize("sign", SIGNS)
def test_a_sign_is_explained_only_in_a_kit_that_has_it(sign: str) -> None:
    for name in SIGNS[sign]:
        assert sign in words_by_page(name)["How to read the cutting pages"][0]
    for name in {"small"} - SIGNS[sign]:
        assert sign not in words_by_page(name)["How to read the cutting pages"][0]


@pytest.mark.parametrize("name", KITS)
def test_the_signs_stand_on_one_page(name: str) -> None:
    (block,) = reading_blocks(book(name))
    assert len(block.pages) == 1


def test_a_kit_without_cuts_has_no_cutting_pages() -> None:
    whole = SMALL.split("    lay: {left: wave border}")[0] + "  - {id: sand, paper: sand}\n"
    text = f"{whole}layouts:\n  - {{id: ebb, pocket: 1, base: sand}}\n"
    kit = resolve_kit(parse_kit(text, "kit.yaml", SPECS))
    plain = open_book(kit, choose_scale(kit))
    assert (*reading_blocks(plain), *cutting_blocks(plain), *cut_apart_blocks(plain)) == ()
    assert cut_figures(plain) == ()
