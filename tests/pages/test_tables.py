"""Tables: widths, and where rows are parted."""

from __future__ import annotations

import pytest

from booklet.content.blocks import Align, Column, Row, RowKind, Table, Tick
from booklet.content.figures import PocketFigure
from booklet.content.spans import Line, line, plain_text
from booklet.pages.flow import break_story
from booklet.pages.tables import CELL_GAP, RowsTable, column_widths, rows_abreast, table
from booklet.pages.text import line_width
from tests.pages.documents import document, picture, read, said_on, section, setup_of

SETUP = setup_of(document())
WIDTH = SETUP.grid.text_width
NAME = Column(line("Piece"), share=1.0)
SIZE = Column(line("Size"), Align.END)


def rows(*names: str) -> tuple[Row, ...]:
    return tuple(Row((line(name), line("4 × 6"))) for name in names)


def group(title: str) -> Row:
    return Row((line(title),), RowKind.GROUP)


def numbered(name: str, count: int) -> tuple[Row, ...]:
    return rows(*(f"{name} {at}" for at in range(1, count + 1)))


def pages_of(block: Table, height: float) -> list[list[Row]]:
    """The rows of each page, from what is laid."""
    columns = break_story(table(SETUP, block, WIDTH), WIDTH, height)
    return [[row for placed in column for row in placed.flowable.rows] for column in columns]


def titles_of(row: Row) -> Line:
    (title,) = row.cells
    assert isinstance(title, tuple)
    return title


# Widths.


def test_a_table_is_as_wide_as_its_column() -> None:
    widths = column_widths(SETUP, Table((NAME, SIZE), rows("rail", "window")), WIDTH)
    assert sum(widths) == pytest.approx(WIDTH)


def test_a_column_without_a_share_hugs_its_widest_cell() -> None:
    block = Table((NAME, SIZE), rows("rail", "window"))
    wide = line_width(line("4 × 6"), SETUP.styles.cell) + CELL_GAP
    assert column_widths(SETUP, block, WIDTH)[1] == pytest.approx(wide, abs=0.5)


def test_columns_with_shares_are_first_as_wide_as_their_cells() -> None:
    few = Column(line("A"), share=0.9)
    much = Column(line("B"), share=0.1)
    block = Table((few, much), (Row((line("a"), line("where the tide leaves a line of shells"))),))
    assert column_widths(SETUP, block, WIDTH)[1] > line_width(
        line("where the tide leaves a line of shells"), SETUP.styles.cell
    )


def test_one_long_cell_does_not_make_all_others_break() -> None:
    columns = (Column(line("A"), share=0.5), Column(line("B"), share=0.5))
    long = "a piece that is snipped: long end 4 × 3, short end 3 × 3, and kept"
    block = Table(
        columns,
        (
            *(Row((line("rail"), line("Tags, tickets and track"))) for _ in range(30)),
            Row((line(long), line("Iron"))),
        ),
    )
    assert column_widths(SETUP, block, WIDTH)[1] > line_width(
        line("Tags, tickets and track"), SETUP.styles.cell
    )


@pytest.mark.parametrize("width", [60.0, 150.0, 328.0])
def test_columns_never_pass_the_table_however_wide_their_cells(width: float) -> None:
    block = Table(
        (NAME, SIZE, Column(line("From"))), (Row((line("W" * 60), line("W" * 60), line("W" * 60))),)
    )
    widths = column_widths(SETUP, block, width)
    assert sum(widths) == pytest.approx(width)
    assert min(widths) > 0


# Parting rows.


@pytest.mark.parametrize("height", range(90, 400, 7))
def test_a_group_s_title_never_ends_a_page(height: int) -> None:
    block = Table((NAME, SIZE), (group("One"), *numbered("one", 7), group("Two"), *numbered("two", 9)))
    pages = pages_of(block, height)
    assert all(page[-1].kind is not RowKind.GROUP for page in pages)
    assert [row for page in pages for row in page] == list(block.rows)


def test_a_group_that_goes_on_says_so_once() -> None:
    block = Table((NAME, SIZE), (group("Pocket 1"), *numbered("piece", 90)))
    first, *later = (said_on(page) for page in read(document(section("pockets", block)))[:3])
    assert "continued" not in first
    for page in later:
        assert page.count("Pocket 1, continued") == 1
        assert page.count("Piece Size") == 1


def test_a_group_that_begins_a_page_is_not_continued() -> None:
    block = Table((NAME, SIZE), (*numbered("loose", 27), group("Pocket 1"), *numbered("piece", 20)))
    second = break_story(table(SETUP, block, WIDTH), WIDTH, 460)[1][0].flowable
    assert isinstance(second, RowsTable)
    assert not second.carried or second.rows[0].kind is not RowKind.GROUP


@pytest.mark.parametrize("height", range(90, 300, 7))
def test_a_sum_stays_with_the_row_above_it_and_no_row_of_a_group_alone(height: int) -> None:
    sums = Row((line("all"), line("12 × 12")), RowKind.SUM)
    block = Table((NAME, SIZE), (group("One"), *numbered("one", 12), sums))
    for page in pages_of(block, height):
        assert page[0].kind is not RowKind.SUM
        assert len([row for row in page if row.kind is not RowKind.GROUP]) >= 2


def test_a_group_that_a_page_holds_stays_whole() -> None:
    block = Table((NAME, SIZE), tuple(row for at in "1234567" for row in (group(at), *numbered(at, 9))))
    pages = pages_of(block, SETUP.grid.text_height)
    assert len(pages) > 1
    assert all(page[0].kind is RowKind.GROUP for page in pages)


def test_a_remark_on_a_group_stands_once_below_its_title() -> None:
    titled = Row((line("Pocket 1"), line("Lay the two bands side by side.")), RowKind.GROUP)
    block = Table((NAME, SIZE), (titled, *numbered("piece", 60)))
    first, second = (said_on(page) for page in read(document(section("pockets", block)))[:2])
    assert "Pocket 1 Lay the two bands side by side." in first
    assert "Pocket 1, continued" in second
    assert "Lay the two bands" not in second


def test_a_row_higher_than_a_page_has_its_cells_under_one_another() -> None:
    block = Table((NAME, SIZE), rows("shingle " * 900, "harbour"))
    pages = read(document(section("pockets", block)))
    assert sum(said_on(page).count("shingle") for page in pages) == 900
    assert sum(said_on(page).count("harbour") for page in pages) == 1


# What is printed.


def test_pictures_ticks_and_words_stand_in_cells() -> None:
    columns = (Column(()), Column(line("Label"), is_strong=True), Column(line("Piece"), share=1.0))
    block = Table(
        columns,
        (
            Row((picture(PocketFigure("1")), line("All aboard")), RowKind.GROUP),
            Row((Tick(), line("1B"), line("carriage band"))),
            Row((picture(PocketFigure("2")), line("2C"), line("rail"))),
        ),
    )
    page = read(document(section("pockets", block)))[0]
    assert "Label Piece All aboard 1B carriage band 2C rail" in said_on(page)


def test_a_table_without_rows_prints_nothing() -> None:
    assert table(SETUP, Table((NAME,), ()), WIDTH) == []


# Rows side by side.


def names_of(row: Row) -> list[str]:
    """The names in a row of a table whose rows stand in two columns."""
    return [plain_text(cell) for cell in row.cells[::3] if isinstance(cell, tuple)]


def test_rows_abreast_are_read_down_one_side_of_their_group_and_then_the_other() -> None:
    block = Table((NAME, SIZE), (group("One"), *numbered("rail", 5), group("Two"), *rows("tag")), abreast=2)
    two = rows_abreast(block)
    assert len(two.columns) == 5
    assert [names_of(row) for row in two.rows if row.kind is RowKind.BODY] == [
        ["rail 1", "rail 4"],
        ["rail 2", "rail 5"],
        ["rail 3", ""],
        ["tag", ""],
    ]
    assert [row.kind for row in two.rows if row.kind is not RowKind.BODY] == [RowKind.GROUP] * 2


def test_a_table_that_is_not_to_stand_abreast_stays_as_it_is() -> None:
    block = Table((NAME, SIZE), rows("rail", "window"))
    assert rows_abreast(block) is block
