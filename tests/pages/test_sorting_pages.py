"""The sorting table, the pockets' contents, and both tables for other programs."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.platypus import Flowable, Table

from booklet.cutting.labels import letter
from booklet.kit.kit import layout_title
from booklet.pages.filed import filed_groups, short_labels
from booklet.pages.lists import PEN_LINE
from booklet.pages.page import break_story
from booklet.pages.sorting import GroupRows, pocket_blocks, pockets_of, sorting_blocks
from tests.pages.front import SMALL, assert_well_set, book_of, demo, pages_of, parts_of, words_of

DEMOS = ("hill-line", "roof-garden")


@pytest.mark.parametrize("name", DEMOS)
def test_the_sorting_pages_are_well_set(name: str) -> None:
    book = demo(name)
    assert_well_set(book, pages_of([*sorting_blocks(book), *pocket_blocks(book)]))


@pytest.mark.parametrize("name", DEMOS)
def test_no_piece_is_lost_where_alike_ones_share_a_row(name: str) -> None:
    resolved = demo(name).resolved
    rows = [row for group in filed_groups(resolved) for row in group.rows]
    assert sum(row.count for row in rows) == len(resolved.ledger.entries)
    filed = Counter((row.name, row.pocket) for row in rows for _ in range(row.count))
    assert filed == Counter((entry.name, entry.pocket) for entry in resolved.ledger.entries)


def test_alike_pieces_for_one_layout_share_a_row_and_others_do_not() -> None:
    rows = {row.labels: row for group in filed_groups(demo("hill-line").resolved) for row in group.rows}
    mats = rows["1D", "1E", "1F", "1G"]
    assert (mats.name, mats.count, mats.pocket, mats.goes) == ("square mat", 4, 3, "Four cows and a cake")
    assert rows["1H",].goes == "Home by starlight"


def test_a_row_reads_label_piece_size_pocket_layout() -> None:
    book = demo("hill-line")
    said = " ".join(words_of(book, pages_of(sorting_blocks(book))))
    assert "1D, E, F, G square mat × 4 2¹⁄₄ × 2¹⁄₄ 3 Four cows and a cake" in said
    assert "box brass mat 4¹⁄₂ × 6¹⁄₂ spare" in said


SNIPPED = SMALL.replace(
    "      - {place: strap, right: 0, top: 0}\n",
    """
      - {snip: strap, measured_from: top, at: [4, 9], leaves: [head, middle, scrap]}
      - {snip: middle, at: 1, leaves: [thin, wide]}
      - {place: head, left: 6, top: 0}
      - {place: thin, left: 3, top: 1}
      - {place: wide, left: 4, top: 1, optional: yes}
""",
).replace("{place: tall panel,", "{place: tall panel, optional: yes,")


def test_a_piece_to_snip_is_filed_whole_with_its_parts_and_their_sizes() -> None:
    book = book_of(SNIPPED)
    # The strap is 4 x 12: 4 of it, then 5 of it in 1 and 3, the rest is scrap.
    (filed,) = [row for group in filed_groups(book.resolved) for row in group.rows if row.name == "strap"]
    assert filed.said.replace("\u00a0", " ") == "strap (snip: head 4 × 4, thin 1 × 5, wide 3 × 5)"
    for blocks in (sorting_blocks(book), pocket_blocks(book)):
        said = " ".join(words_of(book, pages_of(blocks)))
        assert all(part in said for part in ("(snip:", "head", "thin", "wide"))


def test_a_piece_that_a_page_may_do_without_is_marked_in_both_lists() -> None:
    book = book_of(SNIPPED)
    for blocks in (sorting_blocks(book), pocket_blocks(book)):
        assert "tall panel (if you like)" in " ".join(words_of(book, pages_of(blocks)))


def test_every_page_of_the_table_bears_its_head() -> None:
    book = demo("hill-line")
    pages = pages_of(sorting_blocks(book))
    assert len(pages) > 2
    for words in words_of(book, pages):
        assert "Label Piece Size, in Pocket Layout" in words


def test_a_sheet_that_goes_on_over_the_page_says_so() -> None:
    book = demo("hill-line")
    words = words_of(book, pages_of(sorting_blocks(book)))
    assert "Label Piece Size, in Pocket Layout Sheet 8 Cards and nameboards, continued 8U" in words[2]
    assert "Sheet 8 Cards and nameboards 8G" in words[1]
    assert sum(page.count("continued") for page in words) == 1


@pytest.mark.parametrize("room", [40, 60, 90, 200, 400])
def test_a_group_over_many_pages_keeps_each_row_once_under_its_title(room: int) -> None:
    book = demo("hill-line")
    group = filed_groups(book.resolved)[8]
    rows: list[list[str | Flowable]] = [[label, "", "", "", ""] for row in group.rows for label in row.labels]
    pages = break_story([GroupRows(book, group, rows)], book.grid.text_width, room)
    tables = [
        part for page in pages for laid in page for part in parts_of(laid.flowable) if isinstance(part, Table)
    ]
    assert [row[0] for table in tables for row in table._cellvalues[1:]] == [row[0] for row in rows]
    titles = [" ".join(part.getPlainText() for part in table._cellvalues[0][0]) for table in tables]
    assert titles == [titles[0], *[f"{titles[0]}, continued"] * (len(pages) - 1)]
    assert all(len(table._cellvalues) > 1 for table in tables)


@given(st.lists(st.integers(1, 60), min_size=1, max_size=8, unique=True), st.integers(1, 30))
def test_short_labels_can_be_read_back(places: list[int], number: int) -> None:
    labels = [f"{number}{letter(place)}" for place in sorted(places)]
    first, *others = short_labels(labels).split(", ")
    assert [first, *(f"{number}{other}" for other in others)] == labels


@pytest.mark.parametrize("name", DEMOS)
def test_each_pocket_lists_what_the_ledger_files_in_it(name: str) -> None:
    book = demo(name)
    said = " ".join(words_of(book, pages_of(pocket_blocks(book))))
    places = [said.index(f"Pocket {pocket}") for pocket in pockets_of(book)]
    assert places == sorted(places)
    for start, end, pocket in zip(places, [*places[1:], len(said)], pockets_of(book), strict=True):
        part = said[start:end]
        for entry in book.resolved.ledger.in_pocket(pocket):
            assert f"{entry.label or 'box'} {entry.name}" in part


def test_a_pocket_says_which_layouts_it_serves_and_its_tip() -> None:
    book = demo("hill-line")
    said = " ".join(words_of(book, pages_of(pocket_blocks(book))))
    assert "Pocket 2 Set the wood up first, all six trunks, and only then the rail." in said
    for layout in book.kit.layouts:
        assert layout_title(layout) in said


def crowded_pocket() -> str:
    """One layout with some 70 pieces, far more than a page holds."""
    cuts = "\n".join(
        f"  - {{id: s{at}, paper: sand, cuts: [{{at: [7, 6, 5, 4, 3, 2, 1], "
        f"leaves: [{', '.join(f'long named piece {at} {place}' for place in range(8))}]}}]}}"
        for at in range(9)
    )
    placed = "\n".join(
        f"      - {{place: long named piece {at} {place}, left: 0, top: 0}}"
        for at in range(9)
        for place in range(8)
    )
    return SMALL.replace("layouts:", f"{cuts}\nlayouts:").rstrip() + f"\n{placed}\n"


def test_a_pocket_higher_than_a_page_goes_on_under_its_own_head() -> None:
    book = book_of(crowded_pocket())
    pages = pages_of(pocket_blocks(book))
    said = words_of(book, pages)
    assert len(pages) > 1
    assert "Pocket 1, continued" in said[1]
    assert all(f"long named piece {at} {place}" in " ".join(said) for at in range(9) for place in range(8))
    assert_well_set(book, pages)


def test_a_last_page_that_ends_early_has_room_to_note_what_is_missing() -> None:
    book = demo("hill-line")
    *others, last = pages_of(pocket_blocks(book))
    assert "Not in its pocket? Note its label here." in " ".join(words_of(book, [last]))
    assert "Not in its pocket?" not in " ".join(words_of(book, others))
    lines = last.laid[-1]
    assert isinstance(lines.flowable, Table)
    foot = book.grid.text_height - lines.y - lines.height
    assert 0 <= foot < PEN_LINE  # the lines reach the foot of the page
