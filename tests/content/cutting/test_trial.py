"""What stands before the first cut: trying the trimmer, and what to do when a cut goes wrong."""

from __future__ import annotations

from typing import Any

from booklet.content.blocks import (
    Block,
    IfRoom,
    ItemList,
    Marker,
    Paragraph,
    Section,
    Table,
    WritingLines,
)
from booklet.content.cutting.trial import left_over_section, rescue_section, trimmer_section
from booklet.content.spans import plain_text
from booklet.content.words.language import ENGLISH
from booklet.measure.length import Unit
from booklet.placing.resolved import ResolvedKit
from tests.content.cutting.slips import resolved
from tests.kits import cut, ready, sheet


def texts(section: Section) -> list[str]:
    """The items of a section's lists."""
    return [
        plain_text(item).replace("\u00a0", " ")
        for block in section.blocks
        if isinstance(block, ItemList)
        for item in block.items
    ]


def tables(blocks: tuple[Block, ...]) -> list[list[str]]:
    """The rows of each table as lines of text."""
    found = []
    for block in blocks:
        if isinstance(block, IfRoom):
            found += tables(block.blocks)
        elif isinstance(block, Table):
            found.append([" | ".join(cell_text(cell) for cell in row.cells) for row in block.rows])
    return found


def cell_text(cell: object) -> str:
    """A cell of words."""
    assert isinstance(cell, tuple)
    return plain_text(cell).replace("\u00a0", " ")


# Trying the trimmer.


def half_a_mark(**more: Any) -> str:
    """What is said of a trimmer that is right to within half a mark."""
    kit = resolved(sheet(cut([200 if more.get("unit") else 8], ["one", "two"])), **more)
    return texts(trimmer_section(kit, ENGLISH))[2]


def test_half_a_mark_is_that_of_the_kit_s_trimmer() -> None:
    assert half_a_mark() == "The strip is right to within half a mark (¹⁄₁₆ in)? Cut as printed."
    assert "(0.5 mm)" in half_a_mark(unit=Unit.MILLIMETRE)
    assert "(¹⁄₃₂ in)" in half_a_mark(trimmer={"mark": "1/16"})


def test_half_a_mark_that_no_ruler_shows_is_left_without_a_number() -> None:
    said = half_a_mark(trimmer={"mark": "1/64"})
    assert said == "The strip is right to within half a mark? Cut as printed."


def test_steps_are_numbered_and_a_table_keeps_what_was_found() -> None:
    steps, room = trimmer_section(resolved(sheet(cut([8], ["one", "two"]))), ENGLISH).blocks
    assert isinstance(steps, ItemList)
    assert steps.marker is Marker.NUMBER
    assert isinstance(room, IfRoom)
    (table,) = room.blocks
    assert isinstance(table, WritingLines)
    assert [plain_text(head) for head in table.heads] == ["Day", "Cut at", "Came out at", "So I set it"]


# If a cut goes wrong.


def rescued(kit: ResolvedKit) -> list[list[str]]:
    """What can be replaced, then what is left over."""
    left_over = left_over_section(kit, ENGLISH)
    return tables((*rescue_section(kit, ENGLISH).blocks, *(left_over.blocks if left_over else ())))


def test_a_piece_is_replaced_from_the_smallest_scrap_of_its_paper_that_holds_it() -> None:
    first = cut([9, 3], ["one", "strip", "scrap"])
    rest = cut([9, 4], ["card", "scrap", "scrap"], take="strip", turn="clockwise")
    (replaced, left) = rescued(resolved(sheet(first, rest), places=("card",)))
    assert replaced == ["one | 3 × 12 | scrap of sheet 1, 3 × 12", "card | 6 × 4 | scrap of sheet 1, 6 × 5"]
    assert left == ["1 | Plain | 3 × 12 | scrap", "1 | Plain | 6 × 5 | scrap", "1 | Plain | 6 × 3 | scrap"]


def test_a_spare_piece_replaces_its_like_and_others_are_cut_from_it() -> None:
    strips = sheet(cut([9, 6, 3], ["one", "rail", "rail", "scrap"]), spare=["rail"])
    replaced, left = rescued(resolved(strips, places=("rail",)))
    assert "rail | 3 × 12 | the spare one" in replaced
    assert "1 | Plain | 3 × 12 | spare rail" in left


def test_what_comes_ready_cut_is_from_the_box() -> None:
    kit = resolved(sheet(cut([8], ["one", "scrap"])), places=("mat",), ready=[ready("mat", 2, spare=1)])
    replaced, left = rescued(kit)
    assert "mat | 4 × 6 | the spare one" in replaced
    assert "box | Plain | 4 × 6 | spare mat" in left


def test_scraps_alike_stand_in_one_row() -> None:
    kit = resolved(sheet(cut([11], ["one", "scrap"]), count=2), places=("one",))
    (left,) = rescued(kit)
    assert left == ["1 | Plain | 1 × 12 | scrap × 2"]


def test_where_nothing_is_left_over_nothing_is_promised() -> None:
    section = rescue_section(resolved(sheet(cut([8], ["one", "two"])), places=("two",)), ENGLISH)
    assert tables(section.blocks) == []
    said = [plain_text(block.text) for block in section.blocks if isinstance(block, Paragraph)]
    assert said == ["Nothing that is left over is large enough to replace a piece. Measure twice."]
    assert not [item for item in texts(section) if "replace" in item]
    assert left_over_section(resolved(sheet(cut([8], ["one", "two"])), places=("two",)), ENGLISH) is None


def test_of_many_pieces_the_largest_are_listed() -> None:
    """A kit with room on one page for what can be replaced, and for what is left over."""
    pieces = [ready(f"mat {at}", 2, spare=1, size=f"{at + 1} x 6") for at in range(9)]
    places = tuple(f"mat {at}" for at in range(9))
    replaced, left = rescued(resolved(sheet(cut([8], ["one", "two"])), places=("two", *places), ready=pieces))
    assert [row.split(" | ")[0] for row in replaced] == [f"mat {at}" for at in (8, 7, 6, 5, 4, 3)]
    assert [row.split(" | ")[2] for row in left] == [f"{at + 1} × 6" for at in (8, 7, 6, 5, 4, 3, 2, 1)]


def test_there_is_room_to_note_what_one_changed_or_nothing_of_it() -> None:
    section = left_over_section(resolved(sheet(cut([8], ["one", "scrap"]))), ENGLISH)
    assert section is not None
    room = section.blocks[-1]
    assert isinstance(room, IfRoom)
    (lines,) = room.blocks
    assert isinstance(lines, WritingLines)
    assert lines.least == 4


def test_of_what_replaces_a_piece_only_that_is_named_which_is_there() -> None:
    spare = resolved(sheet(cut([8], ["one", "two"])), places=("two", "mat"), ready=[ready("mat", 2, spare=1)])
    assert "Cut on the wrong side? A spare piece may replace it: see below." in texts(
        rescue_section(spare, ENGLISH)
    )
    scrap = resolved(sheet(cut([4], ["one", "scrap"])))
    assert "Cut on the wrong side? A large scrap may replace it: see below." in texts(
        rescue_section(scrap, ENGLISH)
    )


def test_what_is_too_wide_is_cut_to_its_own_width() -> None:
    """The reading that it was cut at is not its width, but for what stays at the stop."""
    (too_wide, *_) = texts(rescue_section(resolved(sheet(cut([8], ["one", "two"]))), ENGLISH))
    assert "the piece’s own width" in too_wide
