"""What stands round the steps: the order of the layouts, base, needs, flags, what is glued when, pictures."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from booklet.content.assembly.section import laying_line, layout_sections
from booklet.content.blocks import Arrangement, LayoutView, Paragraph, PocketEdge, Section, StepList, Tone
from booklet.content.figures import PhotoFigure, StepFigure, SupplySwatch
from booklet.content.spans import Line, Own, PieceRef, plain_text
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import bundled_kits
from booklet.kit.fields import Edge
from booklet.kit.kit import Assembly
from booklet.kit.load import load_kit
from booklet.measure.length import Size
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.content.assembly.telling import block, flags, items, last, resolved, said, section, typed
from tests.drawing.looks import resolved_kit
from tests.kits import PAPERS, cut, make_kit, ready, sheet
from tests.placing.layouts import kit_of, steps_of

MAT = "{place: mat, left: 3, top: 3}"


@pytest.fixture(scope="module")
def hill() -> ResolvedKit:
    return resolve_kit(load_kit(bundled_kits()["hill-line"]))


# The order.


def test_layouts_come_in_the_order_of_assembly_left_before_right(hill: ResolvedKit) -> None:
    first = layout_sections(hill, ENGLISH)
    assert [one.number for one in first] == [str(n) for n in range(1, 11)]
    assert [plain_text(one.title) for one in first[:2]] == ["All aboard", "Platform one"]
    assert [one.arrangement for one in first] == [Arrangement.FACING, Arrangement.OPENING] * 5
    backwards = replace(hill, kit=replace(hill.kit, assembly=Assembly.LAST))
    titles = [plain_text(one.title) for one in layout_sections(backwards, ENGLISH)]
    assert titles[:4] == ["Last train down", "Home by starlight", "Summit", "The view"]


def test_each_stands_by_its_pocket_among_all(hill: ResolvedKit) -> None:
    edges = [one.edge for one in layout_sections(hill, ENGLISH)]
    assert edges[0] == edges[1] == PocketEdge("1", 0, 5)
    assert edges[-1] == PocketEdge("5", 4, 5)


def test_title_story_and_tip_are_the_designers(hill: ResolvedKit) -> None:
    two = layout_sections(hill, ENGLISH)[1]
    (story,) = two.lead
    assert isinstance(story, Own)
    assert story.source == ("layouts", 1, "story")
    tips = [found for found in two.blocks if isinstance(found, Paragraph) and found.tone is Tone.TIP]
    assert [typed(tip.text) for tip in tips] == [
        "Choose three close portraits. Heads of one size make the row look like a carriage."
    ]


# How to read them.


def laying(steps: str) -> str:
    """What is said of laying before the layouts of a page of these steps."""
    return typed(laying_line(resolved(kit_of({"steps": steps_of(steps)})), ENGLISH))


def test_laying_is_explained_by_what_the_steps_have() -> None:
    glue = "Laying. Lay means glue, unless the step says not yet."
    edges = "From the left, down, up: from the page’s edge to the piece’s nearest edge"
    assert laying(f"[{MAT}]") == f"{glue} {edges}."
    assert laying(f"[{MAT}, {{add: brass, on: mat}}]").startswith(f"{glue} {edges}; rivets, brads, bows: to")
    assert laying("[{place: mat, turn: clockwise, left: 3, top: 3, tilt: 4}]") == (
        f"{glue} {edges}. Sideways: turned a quarter."
        " Tilt a piece about its middle, after measuring it straight; right is clockwise."
    )


# The base.


def base_of(**base: Any) -> str:
    """What is told of a base that is a whole sheet of a paper with waves and a wave border at its left."""
    sheets = [sheet(id="sea", paper="shingle"), sheet(cut(["6"], ["half", "half"]), id="cut", paper="plain")]
    layouts = [
        {"id": "a", "pocket": 3, "base": base.get("base", "sea"), "steps": []},
        {"id": "b", "pocket": 3, "base": base.get("other", "half"), "steps": []},
    ]
    kit = make_kit(*sheets, layouts=layouts, ready=[ready("card", size="12 x 12")])
    return typed(base_need(layout_sections(resolved_kit(kit), ENGLISH)[0]))


def base_need(one: Section) -> Line:
    """What is said of the base: the first of a layout's needs."""
    return block(one, LayoutView).needs[0].text


@pytest.mark.parametrize(
    ("base", "told"),
    [
        ("sea", "Base: sea 2, from the pile. Keep the wave border at the left."),
        ("half", "Base: half 1A, in pocket 3."),
        ("card", "Base: card, from the box."),
        # Plain and square: a turn of it shows nowhere.
        ({"piece": "card", "turn": "half"}, "Base: card, from the box."),
        (
            {"piece": "sea", "turn": "clockwise"},
            "Base: sea 2, from the pile. Turn it a quarter clockwise. Keep the wave border at the top.",
        ),
        (
            {"piece": "sea", "face": "back"},
            "Base: sea 2, from the pile. Turn it back side up. Keep the top of the print at the top.",
        ),
    ],
)
def test_the_base_is_told_with_where_it_waits_and_which_way_it_lies(base: Any, told: str) -> None:
    assert base_of(base=base) == told


def test_the_top_of_a_print_is_told_where_no_edge_has_a_word(hill: ResolvedKit) -> None:
    night, day = layout_sections(hill, ENGLISH)[-1], layout_sections(hill, ENGLISH)[0]
    assert typed(base_need(night)) == "Base: night 14, from the pile. Keep the top of the print at the top."
    assert typed(base_need(day)) == "Base: timetable 10, from the pile."
    assert PieceRef("10", "10") in base_need(day)


# What it needs.


def needs(steps: str) -> list[str]:
    """What a layout needs after its base."""
    return [typed(need.text) for need in block(section(steps), LayoutView).needs[1:]]


def test_photographs_are_counted_by_size_and_way() -> None:
    assert needs(
        "[{photo: 4 x 6, left: 0, top: 0}, {photo: 6 x 4, left: 5, top: 0}, {photo: 2 x 2, left: 6, top: 8},"
        " {photo: 4 x 6, left: 0, top: 6}]"
    ) == ["Two photos, 4 × 6, portrait", "One photo, 6 × 4, landscape", "One photo, 2 × 2"]


def test_a_photograph_that_is_partly_covered_says_about_how_much_is_seen() -> None:
    # A strip 1 high over a photograph of 4 x 6 covers a sixth of it: 83 % is seen.
    assert needs("[{photo: 4 x 6, left: 0, top: 0}, {place: strip, left: 0, top: 2}]") == [
        "One photo, 4 × 6, portrait (about 85 % is seen)"
    ]


def test_a_print_of_another_system_of_units_is_called_as_it_is_sold() -> None:
    # 10 x 15 cm is 3.937 x 5.906 in: no ruler of inches shows it.
    assert needs('[{photo: "15 x 10 cm", left: 0, top: 0}]') == ["One photo, 15 × 10 cm, landscape"]


def test_supplies_are_summed_and_tools_follow_from_the_steps() -> None:
    assert needs(
        "[{ribbon: twill, run: across, top: 2, ends: 1/2}, {ribbon: twill, run: across, top: 4, ends: 1/2},"
        " {place: tag, left: 1, top: 6}, {raise: tag, foam: foam bits, count: 4}, {round: tag, radius: 1/4},"
        " {punch: tag, hole: 1/4}, {stencil: net, size: 3 x 2, left: 6, top: 8, supply: sea ink}]"
    ) == [
        "Twill, 26 in",
        "Net",
        "Sea ink",
        "Foam bits, 4",
        "Scissors, corner rounder, hole punch, pencil, ruler",
    ]


def test_brads_need_a_pin_and_ink_that_is_no_supply_a_pad() -> None:
    assert needs("[{place: tag, left: 1, top: 1}, {ink: tag}, {add: brass, on: tag}]")[-1] == "Pin, ink pad"
    assert needs("[{place: tag, left: 1, top: 1}, {ink: tag, supply: sea ink}]") == ["Sea ink"]


def test_a_layout_of_plain_pieces_needs_nothing_more() -> None:
    assert needs(f"[{MAT}]") == []


def test_needs_have_pictures_of_photographs_and_supplies() -> None:
    found = block(
        section("[{photo: 6 x 4, left: 0, top: 0}, {ribbon: twill, run: across, top: 5}]"), LayoutView
    )
    _, photo, ribbon, scissors = found.needs
    assert photo.picture is not None
    assert isinstance(photo.picture.figure, PhotoFigure)
    assert photo.picture.figure.size.size == Size(Fraction(6), Fraction(4))
    assert ribbon.picture is not None
    assert ribbon.picture.figure == SupplySwatch(0)
    assert scissors.picture is None


# Flags.


def flagged(steps: str) -> list[tuple[str, str, Fraction, tuple[int, ...]]]:
    return [(one.along.value, one.start.value, one.value.value, one.steps) for one in flags(steps)]


def test_distances_from_the_page_are_flags_and_those_from_things_are_not() -> None:
    assert flagged(
        f"[{MAT}, {{place: tag, right: 1, bottom: 1/2}}, {{place: badge, on: mat, left: 1/4, top: 1/4}},"
        " {place: small tag, left: 3, beside: mat, gap: 1, top: 0}]".replace("left: 3, beside", "beside")
    ) == [
        ("left", "top", Fraction(3), (1,)),
        ("bottom", "right", Fraction(1), (2,)),
        ("left", "bottom", Fraction(1, 2), (2,)),
        ("top", "left", Fraction(3), (1,)),
    ]


def test_steps_that_share_a_distance_share_a_flag() -> None:
    assert ("top", "left", Fraction(1), (1, 2)) in flagged(
        "[{place: tag, left: 1, top: 1}, {place: badge, left: 1, top: 6}]"
    )


def test_both_ends_of_a_row_are_flags() -> None:
    found = flagged("[{row: badge, count: 3, left: 3/4, right: 1, top: 2}]")
    assert [(along, start) for along, start, _, _ in found] == [
        ("left", "top"),
        ("bottom", "right"),
        ("top", "left"),
    ]


def test_the_ruler_down_the_page_lies_on_its_outer_side() -> None:
    kit = kit_of(
        {"steps": steps_of("[{place: tag, left: 1, top: 2}]"), "facing": "page-2"},
        {"steps": steps_of("[{place: tag, left: 1, top: 2}]"), "base": "other base"},
    )
    left, right = layout_sections(resolved(kit), ENGLISH)
    down = [
        next(flag.along for flag in block(one, LayoutView).picture.figure.flags if flag.start is Edge.TOP)  # type: ignore[union-attr]
        for one in (left, right)
    ]
    assert down == [Edge.LEFT, Edge.RIGHT]


def test_a_pencil_line_is_a_flag_and_what_it_settles_is_not() -> None:
    assert flagged("[{stencil: net, left: 0, right: 0, top: 3, bottom: 5 1/2, guideline: top}]") == [
        ("left", "top", Fraction(3), (1,))
    ]


# What is glued when.


def test_the_edge_under_which_something_is_slid_later_is_left_unglued() -> None:
    lines = said(f"[{MAT}, {{place: tag, tucked: mat, left: 2, top: 3 1/2}}]")
    assert lines[0] == "3 in from the left, 3 in down. Leave the left edge unglued for (2)."


@pytest.mark.parametrize(
    ("position", "edges"),
    [
        ("left: 2, top: 4", "left edge"),
        ("left: 8, top: 4", "right edge"),
        ("left: 5, top: 1", "top edge"),
        ("left: 5, top: 6", "bottom edge"),
        # Over a corner by 1 both ways: both edges are crossed alike.
        ("left: 2, top: 1", "top and left edges"),
        # Over the corner by a hair at the top: only the side matters.
        ("left: 2, top: 2 3/4", "left edge"),
    ],
)
def test_which_edge_is_left_unglued(position: str, edges: str) -> None:
    lines = said(f"[{MAT}, {{place: tag, tucked: mat, {position}}}]")
    assert lines[0].endswith(f"Leave the {edges} unglued for (2).")


def test_of_several_put_on_one_another_the_lowest_is_meant_or_else_named() -> None:
    steps = "{place: big mat, left: 3, top: 3}, {place: tall mat, on: big mat}"
    lowest, *_ = said(f"[{steps}, {{place: tag, tucked: big mat, left: 2, top: 4}}]")
    assert lowest.endswith("Leave the left edge unglued for (2).")
    upper, *_ = said(f"[{steps}, {{place: tag, tucked: tall mat, left: 2, top: 4}}]")
    assert upper.endswith("Leave the tall mat’s left edge unglued for (2).")


def test_one_of_a_row_is_left_unglued_for_several_things_at_once() -> None:
    row = "{row: badge, count: 3, called: badges, left: 1, right: 1, top: 5}"
    tags = (
        "{place: tag, tucked: badges 2, left: 5, top: 3},"
        " {place: small tag, tucked: badges 2, left: 5 1/2, top: 4}"
    )
    first, *_ = said(f"[{row}, {tags}]")
    assert first.endswith("Leave the top edge of the middle one unglued for (2) and (3).")
    other = "{place: tag, tucked: badges 3, left: 9, top: 3}"
    first, *_ = said(f"[{row}, {tags}, {other}]")
    assert first.endswith(
        "Leave the top edges of the middle one (for (2) and (3)) and the right one (for (4)) unglued."
    )


def test_what_is_wrapped_is_glued_only_then() -> None:
    lines = said(f"[{MAT}, {{ribbon: twill, wrap: mat, bottom: 1/8, overlap: 1}}]")
    assert lines[0] == "Do not glue it yet: (2) goes round it first. Lay it 3 in from the left, 3 in down."
    assert lines[1].endswith("Then glue (1).")
    upper = "{place: big mat, left: 3, top: 3}, {place: tag, on: big mat, bottom: 1/2}"
    told, *_ = said(f"[{upper}, {{ribbon: twill, wrap: tag, bottom: 1/8, overlap: 1}}]")
    assert not told.endswith("yet: (2) goes round it first.")


def test_a_block_is_left_unglued_where_it_is_laid() -> None:
    steps = "{place: mat, loose: yes}, {photo: 4 x 3, on: mat}, {group: [mat], left: 3, top: 3}"
    lines = said(f"[{steps}, {{place: tag, tucked: mat, left: 2, top: 3 1/2}}]")
    assert "unglued" not in lines[0]
    assert any("unglued for (3)" in line for line in lines)


# Pictures of what is hidden.


def pictured(steps: str) -> list[int]:
    return [item.number for item in items(steps) if item.picture is not None]


def test_what_later_steps_hide_has_a_picture() -> None:
    assert pictured(f"[{MAT}, {{place: banner, left: 2, top: 2}}]") == []
    hidden = "{place: mat, left: 3, top: 3}, {place: banner, left: 3 1/2, top: 3 1/2}"
    (first, _) = items(f"[{hidden}]")
    assert first.picture is not None
    assert first.picture.figure == StepFigure(0, (1, 2), 1)


def test_what_lies_on_a_thing_does_not_hide_it() -> None:
    assert pictured("[{place: big mat, left: 1, top: 1}, {place: tall mat, on: big mat}]") == []


def test_what_is_slid_under_far_has_a_picture() -> None:
    assert pictured(f"[{MAT}, {{place: tag, tucked: mat, left: 2, top: 3 1/2}}]") == [2]
    assert pictured(f"[{MAT}, {{place: tag, tucked: mat, left: 1 1/4, top: 3 1/2}}]") == []


# The fold.


def spread(left: str, right: str = "[{other_half: banner}]") -> list[str]:
    kit = kit_of(
        {"steps": steps_of(left), "facing": "page-2", "title": "Ebb"},
        {"steps": steps_of(right), "base": "other base", "title": "Flood"},
    )
    sections = layout_sections(resolved(kit), ENGLISH)
    return [typed(block(one, StepList).steps[0].parts[0].said) for one in sections]


def test_a_piece_across_the_fold_is_cut_and_each_half_is_laid_on_its_page() -> None:
    assert spread("[{place: banner, spread: yes, left: 8, top: 2}]") == [
        "Cut it in half. Lay the left half, cut edge on the page’s right edge, top edge 2 in down."
        " Put the other half, 4 × 3 in, with Flood.",
        "Lay it with its cut edge on the page’s left edge, top edge 2 in down.",
    ]


def test_what_the_facing_page_has_left_over_is_among_what_a_layout_needs() -> None:
    kit = kit_of(
        {
            "steps": steps_of("[{place: banner, spread: yes, left: 8, top: 2}]"),
            "facing": "page-2",
            "title": "Ebb",
        },
        {"steps": steps_of("[{other_half: banner}]"), "base": "other base"},
    )
    _, flood = layout_sections(resolved(kit), ENGLISH)
    assert typed(block(flood, LayoutView).needs[1].text) == "Other half of the banner, from Ebb"


def test_a_piece_that_the_fold_does_not_halve_is_cut_by_the_ruler() -> None:
    here, _ = spread("[{place: banner, spread: yes, left: 9, top: 0}]")
    assert here == (
        "Cut it 3 in from its left edge. Lay the left part, cut edge on the page’s right edge,"
        " against the top edge. Put the other part, 5 × 3 in, with Flood."
    )


def test_the_other_half_of_what_may_be_left_out_may_be_left_out_too() -> None:
    here, there = spread("[{place: banner, spread: yes, centred: yes, optional: yes}]")
    assert here.startswith("If you like: cut it in half.")
    assert there.startswith("If you like: lay it with its cut edge")


def test_a_distance_cut_by_the_fold_is_no_flag() -> None:
    kit = kit_of(
        {"steps": steps_of("[{place: banner, spread: yes, left: 8, top: 2}]"), "facing": "page-2"},
        {"steps": steps_of("[{other_half: banner}]"), "base": "other base"},
    )
    for one in layout_sections(resolved(kit), ENGLISH):
        found = block(one, LayoutView).picture.figure.flags  # type: ignore[union-attr]
        assert [(flag.start, flag.value.value) for flag in found] == [(Edge.TOP, 2)]


# Blocks.


def test_a_block_is_built_on_the_table_and_laid_down_whole() -> None:
    assert said(
        "[{place: tall mat, loose: yes}, {photo: 4 x 6, on: tall mat},"
        " {place: badge, beside: tall mat, gap: 1/4, flush: bottom},"
        " {group: [tall mat, badge], called: block, left: 1, top: 2},"
        " {place: strip, left: 0, below: block, gap: 1/2}]"
    ) == [
        "Keep the tall mat on the table for now. Centre the photo on it; 1/8 in shows all round.",
        "1/4 in to the right of (1), in line with (1) at the bottom.",
        "Take it in one piece. Lay it 1 in from the left, 2 in down.",
        "Across the page, 1/2 in below the block (3).",
    ]


def test_a_block_on_the_page_is_moved_and_turned() -> None:
    assert last(
        "[{place: mat, left: 1, top: 1}, {place: small tag, on: mat},"
        " {group: mat, turn: clockwise, right: 1, top: 1}]"
    ) == ("Take it in one piece. Turn it a quarter clockwise. Move it 1 in from the right, 1 in down.")


def test_what_is_told_of_a_piece_holds_after_its_block_was_turned() -> None:
    steps = "{place: big mat, left: 1, top: 1}, {place: small tag, on: big mat, top: 1}"
    alone = said(f"[{steps}]")
    turned = said(f"[{steps}, {{group: big mat, turn: clockwise, left: 1, top: 1}}]")
    assert turned[:2] == alone


# Turns.


def test_a_quarter_turn_is_told_as_a_turn_only_where_it_shows() -> None:
    sheets = [
        sheet(cut(["2"], ["plain strip", "rest"]), id="one", paper="plain", spare=["rest"]),
        sheet(cut(["2"], ["wave strip", "left"]), id="two", paper="shingle", spare=["left"]),
        sheet(cut(["2"], ["leaf strip", "end"]), id="three", paper="leaves", spare=["end"]),
        sheet(id="base", paper="plain"),
    ]
    steps = [
        {"place": "plain strip", "turn": "clockwise", "left": 0, "top": 1},
        {"place": "wave strip", "turn": "clockwise", "left": 0, "top": 5},
        {"place": "leaf strip", "turn": "clockwise", "left": 0, "top": 9},
    ]
    papers = {**PAPERS, "leaves": {"front": {"pattern": "leaves", "colours": ["#ffffff", "#2f5d50"]}}}
    kit = make_kit(*sheets, layouts=[{"id": "a", "pocket": 1, "base": "base", "steps": steps}], papers=papers)
    (only,) = layout_sections(resolved_kit(kit), ENGLISH)
    told = [typed(item.parts[0].said) for item in block(only, StepList).steps]
    assert told == [
        "Sideways across the page, top edge 1 in down.",
        "Sideways across the page, top edge 5 in down, wave border at the top.",
        "Turn it a quarter clockwise. Lay it across the page, top edge 9 in down.",
    ]
    assert [typed(item.parts[0].head) for item in block(only, StepList).steps] == [
        "Plain strip 1A",
        "Wave strip 2A",
        "Leaf strip 3A",
    ]
