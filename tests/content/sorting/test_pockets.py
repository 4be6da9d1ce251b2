"""What each pocket holds."""

from __future__ import annotations

from collections import Counter

import pytest

from booklet.content.blocks import IfRoom, Picture, Row, RowKind, Section, Table, Tick
from booklet.content.figures import PocketFigure
from booklet.content.sorting.filed import pocket_groups
from booklet.content.sorting.planner import labels_section
from booklet.content.sorting.pockets import pockets_section
from booklet.content.spans import Extent, Own, PieceRef
from booklet.content.words.language import ENGLISH
from booklet.measure.exact import Fraction
from booklet.placing.resolved import ResolvedKit
from tests.content.specs import DEMOS, SMALL, SNIPPED, demo, resolved_spec
from tests.content.walking import all_of, said, text_of
from tests.drawing.looks import resolved_kit
from tests.kits import cut, layout, make_kit, sheet


def pockets_of(kit: ResolvedKit) -> Section:
    return pockets_section(kit, kit.kit.pocket_tips, ENGLISH)


def pockets(text: str) -> Section:
    return pockets_of(resolved_spec(text))


def table(section: Section) -> tuple[Row, ...]:
    (found,) = all_of(Table, section)
    return found.rows


def rows(section: Section) -> list[list[str]]:
    """What is said in each row of pieces."""
    return [
        [said(cell) for cell in row.cells if isinstance(cell, tuple)]
        for row in table(section)
        if row.kind is RowKind.BODY
    ]


@pytest.mark.parametrize("name", DEMOS)
def test_every_piece_that_a_layout_takes_stands_once_at_the_pocket_of_its_layout(name: str) -> None:
    kit = demo(name)
    listed = Counter(
        (group.pocket, entry.label, entry.name)
        for group in pocket_groups(kit)
        for row in group.rows
        for entry in row
    )
    assert listed == Counter(
        (kit.kit.layouts[entry.use.layout_index].pocket, entry.label, entry.name)
        for entry in kit.ledger.entries
        if entry.use is not None
    )


def test_a_row_has_a_box_to_tick_labels_and_name_and_the_size() -> None:
    (first, *_) = [row for row in table(pockets(SMALL)) if row.kind is RowKind.BODY]
    assert isinstance(first.cells[0], Tick)
    assert rows(pockets(SMALL)) == [
        ["2  sand (pile)", "12 × 12"],
        ["1A  strip", "2¹⁄₂ × 12"],
        ["1C  strap", "4 × 12"],
        ["1D  tall panel", "5¹⁄₂ × 7"],
    ]


def test_alike_pieces_of_a_spread_share_a_row_with_all_their_labels() -> None:
    section = pockets_of(demo("hill-line"))
    assert ["4 × 1D, E, F, G  square mat", "2¹⁄₄ × 2¹⁄₄"] in rows(section)
    assert ["2 × 1B, C  carriage band", "4⁷⁄₈ × 12"] in rows(section)
    assert ["3 × box  brass mat", "4¹⁄₂ × 6¹⁄₂"] in rows(section)


@pytest.mark.parametrize("name", DEMOS)
def test_labels_are_whole_and_each_stands_once(name: str) -> None:
    kit = demo(name)
    labels = [ref.label for ref in all_of(PieceRef, pockets_of(kit))]
    taken = {entry.label for entry in kit.ledger.entries if entry.use is not None and entry.label}
    assert Counter(labels) == Counter(taken)


def test_a_pocket_s_title_has_its_picture_and_the_layouts_that_it_serves() -> None:
    titles = [row for row in table(pockets_of(demo("hill-line"))) if row.kind is RowKind.GROUP]
    assert [figure.name for figure in all_of(PocketFigure, titles)] == ["1", "2", "3", "4", "5"]
    picture, words, *_ = titles[1].cells
    assert isinstance(picture, Picture)
    assert said(picture.alt) == "Pocket 2"
    assert isinstance(words, tuple)
    assert said(words) == "Into the pines and Lamps on"


def test_layouts_of_one_pocket_that_do_not_face_each_other_have_a_part_each() -> None:
    kit = resolved_kit(
        make_kit(
            sheet(cut([9, 6, 3], ["base", "mat", "mat", "ground"])),
            layouts=[layout("base", "mat", pocket=4), layout("ground", "mat", id="high tide", pocket=4)],
        )
    )
    section = pockets_of(kit)
    assert [row.kind for row in table(section)] == [
        *[RowKind.GROUP, RowKind.BODY, RowKind.BODY],
        *[RowKind.GROUP, RowKind.BODY, RowKind.BODY],
    ]
    assert [row[0][:2] for row in rows(section)] == ["1A", "1B", "1C", "1D"]


def test_a_pocket_serves_any_of_the_layouts_and_is_called_as_the_sorter_calls_it() -> None:
    """The first and the last page are filed in front, the one between in A3; each has a mat of one strip."""
    pages = [("one", "front"), ("two", "A3"), ("three", "front")]
    strips = sheet(cut([9, 6, 3], ["mat", "mat", "mat", "scrap"]), pockets={"mat": ["front", "A3"]})
    bases = [sheet(id=f"base {page}") for page, _ in pages]
    layouts = [layout(f"base {page}", "mat", id=page, pocket=pocket) for page, pocket in pages]
    kit = resolved_kit(make_kit(strips, *bases, layouts=layouts))
    assert kit.ledger.findings == ()
    groups = pocket_groups(kit)
    assert [(group.pocket, group.layouts) for group in groups] == [
        ("front", (0,)),
        ("front", (2,)),
        ("A3", (1,)),
    ]
    assert [figure.name for figure in all_of(PocketFigure, table(pockets_of(kit)))] == [
        "front",
        "front",
        "A3",
    ]
    assert text_of(labels_section(kit, ENGLISH).blocks).splitlines() == [
        "Pocket front",
        "One",
        "Three",
        "Pocket A3",
        "Two",
    ]


def test_a_spread_whose_layouts_have_two_pockets_stands_in_both() -> None:
    left = layout("base", "mat", pocket=2) | {"facing": "high tide"}
    kit = resolved_kit(
        make_kit(
            sheet(cut([9, 6, 3], ["base", "mat", "mat", "ground"])),
            layouts=[left, layout("ground", "mat", id="high tide", pocket=1)],
        )
    )
    assert [(group.pocket, group.layouts) for group in pocket_groups(kit)] == [("1", (1,)), ("2", (0,))]


def test_a_pocket_s_tip_stands_once_below_its_title() -> None:
    title, *_ = table(pockets(SMALL + "pocket_tips: {1: The strips go first.}\n"))
    assert title.kind is RowKind.GROUP
    assert [said(cell) for cell in title.cells if isinstance(cell, tuple)] == ["Ebb", "The strips go first."]
    tips = [own for own in all_of(Own, pockets_of(demo("hill-line"))) if own.source[0] == "pocket_tips"]
    assert [tip.source for tip in tips] == [("pocket_tips", pocket) for pocket in "124"]


def test_bases_that_stay_whole_are_looked_for_in_the_pile() -> None:
    listed = [row[0] for row in rows(pockets_of(demo("hill-line")))]
    assert [row for row in listed if "(pile)" in row] == [
        "2 × 10  timetable (pile)",
        "2 × 11  sage (pile)",
        "2 × 12  straw (pile)",
        "2 × 13  mist (pile)",
        "2 × 14  night (pile)",
    ]
    filed = pockets(SMALL.replace("{id: sand, paper: sand}", "{id: sand, paper: sand, pockets: {sand: 1}}"))
    assert "the pile" not in text_of(filed)
    assert ["2  sand", "12 × 12"] in rows(filed)


def test_a_piece_that_its_layout_snips_is_filed_whole() -> None:
    assert ["1C  strap", "4 × 12"] in rows(pockets(SNIPPED))
    assert "snip" not in text_of(pockets(SNIPPED))


def test_a_piece_that_a_layout_may_do_without_is_marked() -> None:
    assert ["1D  tall panel (if you like)", "5¹⁄₂ × 7"] in rows(pockets(SNIPPED))


def test_a_size_leads_back_to_where_the_spec_states_it() -> None:
    stated = SMALL.replace(
        "  - {id: sand, paper: sand}", "    sizes: {strip: 2 1/2 x 12}\n  - {id: sand, paper: sand}"
    )
    sources = {size.size.width: size.source for size in all_of(Extent, pockets(stated))}
    assert sources[Fraction(5, 2)] == ("sheets", 0, "sizes", "strip")
    assert sources[Fraction(4)] == ("sheets", 0, "cuts", 0, "leaves", 2)


def test_room_to_note_what_is_missing_only_where_there_is_room() -> None:
    (room,) = all_of(IfRoom, pockets(SMALL))
    assert "Not in its pocket?" in text_of(room)
