"""The sections of the sheets: order, heads, tips, figures, and what follows where there is room."""

from __future__ import annotations

from typing import Any

from booklet.content.blocks import Arrangement, Cards, CutStage, Heading, PaperEdge, Picture
from booklet.content.cutting.labels import strip_labels
from booklet.content.cutting.sheets import sheet_sections
from booklet.content.figures import CutFigure, FinishedPages, PieceMap
from booklet.content.spans import Own, plain_text
from booklet.content.words.language import ENGLISH
from booklet.placing.resolved import ResolvedKit
from tests.content.cutting.slips import optional_of, resolved, section_of, stages_of
from tests.kits import Data, cut, element, layout, sheet

LABELS = sheet(
    cut([6]), id="labels", elements=[element("tag", 0, 0, "6 x 12"), element("ticket", 6, 0, "6 x 12")]
)
PLAIN = sheet(cut([8], ["one", "two"]), id="plain sheet")
WHOLE: Data = {"id": "base", "paper": "plain", "cuts": []}


def given(*sheets: Data, **more: Any) -> str:
    """The line under the title of the first sheet."""
    return plain_text(section_of(resolved(*sheets, **more)).lead).replace("\u00a0", " ")


def test_sheets_stand_in_cutting_order_and_those_left_whole_not_at_all() -> None:
    kit = resolved(WHOLE, LABELS, PLAIN)
    sections = sheet_sections(kit, ENGLISH)
    assert [section.number for section in sections] == ["1", "2"]
    assert [plain_text(section.title) for section in sections] == ["Plain sheet", "Labels"]
    assert [section.anchor for section in sections] == ["sheet-plain sheet", "sheet-labels"]
    assert [section.edge for section in sections] == [PaperEdge(2, "1"), PaperEdge(1, "2")]
    assert {section.arrangement for section in sections} == {Arrangement.OPENING}


def test_the_first_sheet_of_each_kind_begins_a_part() -> None:
    more = sheet(cut([4], ["three", "four"]), id="more")
    sections = sheet_sections(resolved(PLAIN, more, LABELS), ENGLISH)
    assert [plain_text(section.part) for section in sections] == ["Cutting", "", "Cut-aparts"]


def test_a_kit_without_cuts_has_no_sections() -> None:
    assert sheet_sections(resolved(WHOLE, base="base"), ENGLISH) == ()


def test_a_title_is_the_sheet_s_own_or_its_paper_s() -> None:
    titled = resolved(sheet(cut([8], ["one", "two"]), title="Low water"))
    assert section_of(titled).title == (Own("Low water", ("sheets", 0, "title")),)
    papers: Data = {"plain": {"title": "Sand", "front": {}, "back": {}}}
    named = resolved(sheet(cut([8], ["one", "two"])), papers=papers)
    assert section_of(named).title == (Own("Sand", ("papers", "plain", "title")),)


# What a sheet gives.


def test_a_sheet_gives_its_pieces_by_name_in_the_order_of_their_letters() -> None:
    said = given(sheet(cut([9, 6, 3], ["leaf", "leaf", "sky", "sky"])))
    assert said == "1 sheet, 12 × 12 in, gives 2 leaves, 2 skies: nothing is left over"
    assert given(sheet(cut([9], ["one", "scrap"]))) == "1 sheet, 12 × 12 in, gives 1 one"


def test_sheets_that_are_cut_together_give_twice_as_much() -> None:
    said = given(sheet(cut([9], ["band", "hill picture"]), count=2), base="band")
    assert said == "2 sheets, 12 × 12 in each, give 2 bands, 2 hill pictures: nothing is left over"


def test_spare_pieces_are_counted_and_said() -> None:
    said = given(sheet(cut([8, 4], ["band", "rail", "rail"]), spare=["rail"]), base="band")
    assert said == "1 sheet, 12 × 12 in, gives 1 band, 2 rails, one of them spare"


def test_of_many_names_only_the_pieces_are_counted() -> None:
    names = [f"card {letter}" for letter in "abcdefg"]
    assert "gives 7 pieces" in given(sheet(cut([10, 9, 8, 7, 6, 5], names)), base="card a")
    rows = [element(f"card {letter}", 0, at, "12 x 1") for at, letter in enumerate("abcdefg")]
    printed = sheet(cut([6, 5, 4, 3, 2, 1, 7]), lay={"left": "top"}, elements=rows)
    assert "gives 7 printed pieces" in given(printed, base="card a")


# Its stages.


def test_each_stage_has_its_figure_its_turn_and_its_tips() -> None:
    later = cut([6], ["two", "three"], take="strip", turn="clockwise", tip="Hold it flat.")
    stages = stages_of(section_of(resolved(sheet(cut([8], ["one", "strip"]), later))))
    assert [stage.picture.figure for stage in stages] == [CutFigure(0, 1), CutFigure(0, 2)]
    assert [stage.tips for stage in stages] == [
        (),
        ((Own("Hold it flat.", ("sheets", 0, "cuts", 1, "tip")),),),
    ]


def test_a_figure_is_told_from_the_stop_outwards() -> None:
    (stage,) = stages_of(section_of(resolved(sheet(cut([8, "2 1/2"], ["one", "two", "scrap"])))))
    said = plain_text(stage.picture.alt).replace("\u00a0", " ")
    assert said == "From the stop outwards: A, 2¹⁄₂ in; B, 5¹⁄₂ in; scrap, 4 in."


def test_the_figure_of_a_cut_apart_says_its_widths_as_roughly_as_the_slip() -> None:
    (stage,) = stages_of(section_of(resolved(LABELS, base="tag")))
    said = plain_text(stage.picture.alt).replace("\u00a0", " ")
    assert said == "From the stop outwards: A, ≈ 6 in; B, ≈ 6 in."


def labels(kit: ResolvedKit, stage: int) -> tuple[tuple[str, ...], ...]:
    """What is written on the strips of a stage of the first sheet."""
    return strip_labels(kit.sheets[0], kit.sheets[0].stages[stage], ENGLISH)


def test_strips_bear_the_names_of_their_pieces_several_of_a_stack() -> None:
    first = cut([9, 6, 3], ["strip", "strip", "rail", "scrap"])
    stack = cut([6], ["window", "panel"], take=["strip", "strip"], turn="clockwise")
    kit = resolved(sheet(first, stack, spare=["rail"]), base="window")
    assert labels(kit, 0) == (("strip",), ("strip",), ("rail", "spare"), ())
    assert labels(kit, 1) == (("windows",), ("panels",))


def test_nothing_is_written_on_printed_elements() -> None:
    assert labels(resolved(LABELS, base="tag"), 0) == ((), ())


# What follows where there is room.


def test_a_sheet_shows_where_its_pieces_lay_once_they_are_turned_twice() -> None:
    first = cut([8], ["one", "strip"])
    second = cut([8], ["two", "rest"], take="strip", turn="clockwise")
    third = cut([2], ["three", "four"], take="rest", turn="clockwise")
    figures = [
        block.figure
        for part in optional_of(section_of(resolved(sheet(first, second, third))))
        for block in part.blocks
        if isinstance(block, Picture)
    ]
    assert figures == [PieceMap(0)]
    once = optional_of(section_of(resolved(sheet(first, second))))
    assert not [block for part in once for block in part.blocks if isinstance(block, Picture)]


def met_again(kit: ResolvedKit) -> list[tuple[object, str]]:
    """The finished pages at the end of the first sheet, each with the pieces that it takes."""
    cards = [
        card
        for part in optional_of(section_of(kit))
        for block in part.blocks
        if isinstance(block, Cards)
        for card in block.cards
    ]
    return [(card.picture.figure, plain_text(card.lines[1]).replace("\u00a0", " ")) for card in cards]


def wood(**more: Any) -> ResolvedKit:
    """A sheet of saplings and trunks for two layouts."""
    layouts = [
        layout("trunk", "sapling", "sapling", id="pines", pocket=2),
        layout("trunk", id="lamps", pocket=3),
    ]
    one = sheet(cut([9, 6, 3], ["sapling", "sapling", "trunk", "trunk"]))
    return resolved(one, layouts=layouts, **more)


def test_finished_pages_are_met_again_in_the_order_of_assembly() -> None:
    first, last = (FinishedPages((0,)), "saplings A B, trunk C"), (FinishedPages((1,)), "trunk D")
    assert met_again(wood()) == [first, last]
    assert met_again(wood(assembly="last layout first")) == [last, first]


def test_of_facing_pages_the_left_is_met_again_first_though_the_last_layout_is_made_first() -> None:
    layouts = [
        layout("rail", id="alone"),
        layout("post", id="left") | {"facing": "right"},
        layout("beam", id="right"),
    ]
    one = sheet(cut([8, 4], ["rail", "post", "beam"]))
    met = met_again(resolved(one, layouts=layouts, assembly="last layout first"))
    assert met == [
        (FinishedPages((1,)), "post B"),
        (FinishedPages((2,)), "beam C"),
        (FinishedPages((0,)), "rail A"),
    ]


def test_of_more_pages_than_four_none_is_shown() -> None:
    layouts = [layout("base", "rail", id=f"layout {at}") for at in range(5)]
    strips = sheet(cut([10, 8, 6, 4, 2], [*["rail"] * 5, "scrap"]))
    base = WHOLE | {"count": 5}
    assert met_again(resolved(strips, base, layouts=layouts)) == []
    assert len(met_again(resolved(strips, base, layouts=layouts[:4]))) == 4


def test_nothing_that_must_be_there_stands_only_where_there_is_room() -> None:
    blocks = section_of(wood()).blocks
    assert [type(block) for block in blocks[1:-1]] == [CutStage]
    for part in optional_of(section_of(wood())):
        assert isinstance(part.blocks[0], Heading)
