"""Working on pieces: scissors, punch, corner rounder, ink pad, foam."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from booklet.kit.fields import Edge
from booklet.kit.steps import Corner
from booklet.kit.used import used_names, uses
from booklet.placing.details import Inked, Punched, Raised, Rounded, Snipped, TrimmedRound
from tests.drawing.looks import resolved_kit
from tests.kits import cut, make_kit, sheet
from tests.placing.layouts import detail, finding_of, ids, kit_of, named, page, rect, serious, steps_of


class TestSnip:
    def test_parts_have_sizes_and_are_placed_by_name(self) -> None:
        layout = page("""
          - {snip: strip, at: [5, 8], leaves: [long end, middle, short end]}
          - {place: long end, left: 0, top: 0}
          - {place: short end, right: 0, top: 0}
          - {place: middle, left: 5, bottom: 0}
        """)
        # 12 = 5 + 3 + 4.
        assert layout.findings == ()
        assert [named(layout, name).rect.width for name in ("long end", "middle", "short end")] == [5, 3, 4]
        assert named(layout, "short end").rect == rect("8, 0, 4 x 1")

    def test_measured_from_another_edge(self) -> None:
        layout = page("""
          - {snip: tag, measured_from: bottom, at: 1, leaves: [foot, head]}
          - {place: head, left: 0, top: 0}
          - {place: foot, left: 4, top: 0}
        """)
        parts = detail(layout, 1, Snipped).parts
        assert [(part.name, part.area) for part in parts] == [
            ("foot", rect("0, 2, 2 x 1")),
            ("head", rect("0, 0, 2 x 2")),
        ]
        assert layout.findings == ()

    def test_only_the_whole_piece_is_taken_from_the_pocket(self) -> None:
        text = """
          - {snip: strip, at: 6, leaves: [half, half]}
          - {row: half, count: 2, left: 0, right: 0, top: 1}
          - {place: half, left: 0, top: 6}
        """
        layout = kit_of({"steps": steps_of(text)}).layouts[0]
        assert [name for name, _ in used_names(layout)] == ["base", "strip", "half"]
        assert [use.part_of for use in uses(layout, 0)] == [None, None, 1, 1, None]

    def test_scrap_needs_no_place_but_a_part_does(self) -> None:
        assert ids(page("[{snip: strip, at: 5, leaves: [end, scrap]}, {place: end, left: 0, top: 0}]")) == []
        layout = page("[{snip: strip, at: 5, leaves: [end, rest]}, {place: end, left: 0, top: 0}]")
        assert finding_of(layout, "part-left-over").where == ("layouts", 0, "steps", 0, "leaves", 1)

    @pytest.mark.parametrize(
        ("at", "leaves", "found"),
        [
            ("12", "[scrap, scrap]", "snip-beyond"),
            ("[5, 4]", "[scrap, scrap, scrap]", "snip-beyond"),
            ("[5]", "[scrap, scrap, scrap]", "snip-leaves"),
        ],
    )
    def test_snips_that_do_not_work_out(self, at: str, leaves: str, found: str) -> None:
        assert ids(page(f"[{{snip: strip, at: {at}, leaves: {leaves}}}]")) == [found]


class TestTrimRound:
    def test_what_is_left_is_what_is_placed(self) -> None:
        layout = page("""
          - {trim_round: badge, size: 1 3/4 x 1 1/2, outline: the printed rope}
          - {place: badge, left: 1, top: 1}
        """)
        assert named(layout, "badge").rect == rect("1, 1, 1 3/4 x 1 1/2")
        assert detail(layout, 1, TrimmedRound).outline == "the printed rope"

    def test_it_cannot_grow(self) -> None:
        layout = page("[{trim_round: badge, size: 2 1/8 x 2}, {place: badge, left: 1, top: 1}]")
        assert ids(layout) == ["trim-too-large"]

    def test_it_comes_first(self) -> None:
        layout = page("[{place: badge, left: 1, top: 1}, {trim_round: badge, size: 1 x 1}]")
        assert ids(layout) == ["trim-too-late"]

    def test_scissors_reach_only_what_is_not_glued(self) -> None:
        glued = page("[{place: badge, left: 1, top: 1}, {trim_round: badge, outline: the rope}]")
        assert ids(glued) == ["trim-too-late"]
        loose = "{place: badge, loose: yes}, {trim_round: badge, outline: the rope}"
        assert ids(page(f"[{loose}, {{group: badge, left: 1, top: 1}}]")) == []


class TestFinish:
    def test_corners_rounded_before_or_after_placing(self) -> None:
        before = page("[{round: tag, radius: 1/4, corners: top left}, {place: tag, left: 0, top: 0}]")
        after = page("[{place: tag, left: 0, top: 0}, {round: tag, radius: 1/4, corners: top left}]")
        assert named(before, "tag").finish == named(after, "tag").finish
        assert named(after, "tag").finish.roundings[0].corners == (Corner.TOP_LEFT,)
        assert (detail(before, 1, Rounded).target.ids, detail(after, 2, Rounded).target.ids) == ((), (1,))

    def test_a_radius_leaves_something_of_the_edge(self) -> None:
        # The tag is 2 wide: 1 is the most.
        assert serious(page("[{place: tag, left: 0, top: 0}, {round: tag, radius: 1}]")) == []
        layout = page("[{place: tag, left: 0, top: 0}, {round: tag, radius: 1 1/16}]")
        assert serious(layout) == ["radius-too-large"]

    def test_a_hole_on_the_page_and_on_a_piece_in_the_hand(self) -> None:
        hole = "{punch: tag, hole: 1/4, centred: across, top: 1/4}"
        placed = page(f"[{{place: tag, left: 3, top: 5}}, {hole}]")
        assert detail(placed, 2, Punched).hole == rect("3 7/8, 5 1/4, 1/4 x 1/4")
        in_hand = page(f"[{hole}, {{place: tag, left: 3, top: 5}}]")
        assert detail(in_hand, 1, Punched).hole == rect("7/8, 1/4, 1/4 x 1/4")

    def test_a_hole_in_a_part_is_measured_on_the_part(self) -> None:
        snip, parts = "{snip: tag, at: 1, leaves: [one, two]}", "{row: [one, two], apart: 1, left: 1, top: 1}"
        inside = page(f"[{snip}, {{punch: one, hole: 1/4, right: 1/8, top: 1/4}}, {parts}]")
        # The part is 1 wide: 1 - 1/8 - 1/4 = 5/8.
        assert detail(inside, 2, Punched).hole == rect("5/8, 1/4, 1/4 x 1/4")
        assert inside.findings == ()
        outside = page(f"[{snip}, {{punch: one, hole: 1/4, left: 7/8, top: 1/4}}, {parts}]")
        assert ids(outside) == ["hole-off-piece"]

    def test_parts_of_one_name_may_differ_in_size_where_the_hole_is_in_one_place(self) -> None:
        snip, parts = (
            "{snip: tag, at: 1 1/4, leaves: [end, end]}",
            "{row: [end, end], apart: 1, left: 1, top: 1}",
        )
        same = page(f"[{snip}, {{punch: end, hole: 1/8, left: 1/4, top: 1/4}}, {parts}]")
        assert same.findings == ()
        assert [len(item.finish.holes) for item in same.items] == [1, 1]
        other = page(f"[{snip}, {{punch: end, hole: 1/8, right: 1/4, top: 1/4}}, {parts}]")
        assert ids(other) == ["hole-of-no-place"]

    def test_a_hole_in_what_has_a_name_of_its_own(self) -> None:
        hole = "{punch: mine, hole: 1/4, left: 1/4, top: 1/4}"
        tagged = page(f"[{hole}, {{place: tag, called: mine, left: 3, top: 5}}]")
        assert detail(tagged, 1, Punched).hole == rect("1/4, 1/4, 1/4 x 1/4")
        photo = page(f"[{hole}, {{photo: 4 x 6, called: mine, left: 3, top: 5}}]")
        assert [len(item.finish.holes) for item in photo.items] == [1]
        fits = page(f"[{{place: mat, left: 1, top: 1}}, {hole}, {{photo: fits, called: mine, on: mat}}]")
        assert ids(fits) == ["hole-of-no-place"]

    @pytest.mark.parametrize(("radius", "found"), [("1/2", []), ("9/16", ["radius-too-large"])])
    def test_a_radius_on_a_part_is_held_to_the_part(self, radius: str, found: list[str]) -> None:
        layout = page(f"""
          - {{snip: tag, at: 1, leaves: [one, scrap]}}
          - {{round: one, radius: {radius}}}
          - {{place: one, left: 1, top: 1}}
        """)
        assert ids(layout) == found

    @pytest.mark.parametrize(
        ("work", "found"),
        [
            ("{punch: banner, hole: 1/4, left: 1 5/8, top: 1/4}", []),
            ("{punch: banner, hole: 1/4, left: 1 3/4, top: 1/4}", ["hole-off-piece"]),
            ("{round: banner, radius: 1}", []),
            ("{round: banner, radius: 1 1/16}", ["radius-too-large"]),
        ],
    )
    def test_a_trimmed_piece_is_worked_on_as_it_is_trimmed(self, work: str, found: list[str]) -> None:
        layout = page(f"[{{trim_round: banner, size: 2 x 3}}, {work}, {{place: banner, left: 1, top: 1}}]")
        assert ids(layout) == found

    @pytest.mark.parametrize("order", [(0, 1, 2), (1, 0, 2), (1, 2, 0)])
    def test_a_piece_is_raised_once(self, order: tuple[int, ...]) -> None:
        steps = ["{place: tag, left: 0, top: 0}", *["{raise: tag, foam: foam bits}"] * 2]
        layout = page(f"[{', '.join(steps[at] for at in order)}]")
        assert serious(layout) == ["raised-twice"]
        assert finding_of(layout, "raised-twice").where[-2:] == (max(order.index(1), order.index(2)), "raise")
        assert serious(page(f"[{', '.join(steps[:2])}]")) == []

    def test_punched_corners(self) -> None:
        layout = page("[{place: tag, left: 0, top: 0}, {punch: tag, corners: all, shape: ticket}]")
        assert len(named(layout, "tag").finish.punched) == 4

    @pytest.mark.parametrize(
        ("words", "found"),
        [
            ("hole: 1/4, top: 1/64", []),
            ("hole: 1/4, top: 0", ["hole-off-piece"]),
            ("hole: 1/4, top: 9", ["hole-off-piece"]),
            ("hole: 1/4, left: -1", ["hole-off-piece"]),
            ("hole: 1 63/64", []),
            ("hole: 2", ["hole-off-piece"]),
        ],
    )
    def test_a_hole_has_paper_all_round_it(self, words: str, found: list[str]) -> None:
        laid = "{place: tag, left: 3, top: 5}"
        assert ids(page(f"[{laid}, {{punch: tag, {words}}}]")) == found
        assert ids(page(f"[{{punch: tag, {words}}}, {laid}]")) == found

    @pytest.mark.parametrize("words", ["punch: tag", "punch: tag, hole: 1/4, corners: all"])
    def test_a_punch_has_one_thing_to_do(self, words: str) -> None:
        assert ids(page(f"[{{place: tag, left: 0, top: 0}}, {{{words}}}]")) == ["punch-what"]

    def test_inked_edges(self) -> None:
        layout = page("[{ink: tag, edges: [left, top], supply: sea ink}, {place: tag, left: 0, top: 0}]")
        assert named(layout, "tag").finish.inked == (Edge.LEFT, Edge.TOP)
        assert detail(layout, 1, Inked).supply == "sea ink"
        assert layout.supplies == ()

    @pytest.mark.parametrize(
        ("more", "found"),
        [
            ({}, ["foam-unsaid"]),
            ({"supplies": []}, ["foam-missing"]),
            ({"supplies": [], "bring": ["scissors", "Foam squares"]}, []),
        ],
    )
    def test_foam_that_is_not_counted_or_not_there(self, more: dict[str, Any], found: list[str]) -> None:
        layout = page("[{place: tag, left: 0, top: 0}, {raise: tag, count: 4}]", **more)
        assert ids(layout) == found
        assert named(layout, "tag").finish.raised

    def test_raised_on_foam(self) -> None:
        layout = page("[{place: tag, left: 0, top: 0}, {raise: tag, foam: foam bits, count: 4}]")
        assert named(layout, "tag").finish.raised
        assert detail(layout, 2, Raised).count == 4
        (use,) = layout.supplies
        assert use.supply == "foam bits"
        assert use.amount == 4

    @pytest.mark.parametrize(
        ("said", "used"),
        [
            ("foam: foam bits", "1"),
            ("foam: foam bits, halves: 1", "1/2"),
            ("foam: foam bits, count: 2, halves: 3", "7/2"),
            ("foam: glue dots, count: 1, halves: 1", "3/2"),
            ("foam: brass keys, count: 2", "2"),
        ],
    )
    def test_two_halves_take_one(self, said: str, used: str) -> None:
        layout = page(f"[{{place: tag, left: 0, top: 0}}, {{raise: tag, {said}}}]")
        (use,) = layout.supplies
        assert (use.amount, layout.findings) == (Fraction(used), ())

    def test_nothing_is_raised_on_ribbon(self) -> None:
        layout = page("[{place: tag, left: 0, top: 0}, {raise: tag, foam: twill}]")
        assert finding_of(layout, "supply-of-another-kind").cure.startswith("name foam, dots or something of")

    def test_all_of_a_row_get_what_was_done_before(self) -> None:
        layout = page("[{round: tag, radius: 1/8}, {row: tag, count: 3, apart: 1, left: 0, top: 0}]")
        assert all(item.finish.roundings for item in layout.items)

    @pytest.mark.parametrize(
        "step",
        [
            "{ink: tga}",
            "{round: tga, radius: 1/8}",
            "{raise: tga}",
            "{do: press it, on: tga}",
            "{do: press them, on: [tag, tga]}",
            "{punch: tga, corners: all}",
        ],
    )
    def test_working_on_nothing(self, step: str) -> None:
        layout = page(f"[{{place: tag, left: 0, top: 0}}, {step}]")
        assert finding_of(layout, "reference-unknown").cure == 'did you mean "tag"?'

    def test_one_wrong_name_of_several_is_reported_at_its_own_place(self) -> None:
        layout = page("[{place: tag, left: 0, top: 0}, {do: press them, on: [tag, tga]}]")
        assert finding_of(layout, "reference-unknown").where == ("layouts", 0, "steps", 1, "on", 1)


class TestTheSizeInTheHand:
    """A tag of 2 x 3 that is trimmed to 1 x 2, and a strip of 12 x 1 that is snipped 2 from its end."""

    TRIMMED = "{trim_round: tag, size: 1 x 2}"
    SNIPPED = "{snip: strip, at: 2, leaves: [end, rest]}"
    LAID = "{place: end, left: 0, top: 0}, {place: rest, left: 0, top: 4}"

    @pytest.mark.parametrize(
        ("hole", "found"),
        [("left: 3/8, top: 1 5/8", []), ("left: 3/8, top: 2 1/2", ["hole-off-piece"])],
    )
    def test_a_hole_is_punched_in_what_was_trimmed(self, hole: str, found: list[str]) -> None:
        words = f"{self.TRIMMED}, {{punch: tag, hole: 1/4, {hole}}}, {{place: tag, left: 0, top: 0}}"
        assert ids(page(f"[{words}]")) == found

    @pytest.mark.parametrize(("radius", "found"), [("1/2", []), ("1", ["radius-too-large"])])
    def test_what_was_trimmed_is_rounded(self, radius: str, found: list[str]) -> None:
        words = f"{self.TRIMMED}, {{round: tag, radius: {radius}}}, {{place: tag, left: 0, top: 0}}"
        assert ids(page(f"[{words}]")) == found

    @pytest.mark.parametrize(("size", "found"), [("1 x 1", []), ("1 1/2 x 1", ["trim-too-large"])])
    def test_what_was_trimmed_does_not_grow_again(self, size: str, found: list[str]) -> None:
        words = f"{self.TRIMMED}, {{trim_round: tag, size: {size}}}, {{place: tag, left: 0, top: 0}}"
        assert ids(page(f"[{words}]")) == found

    @pytest.mark.parametrize(
        ("step", "found"),
        [
            ("{round: end, radius: 1/2}", []),
            ("{round: end, radius: 5/8}", ["radius-too-large"]),
            ("{punch: end, hole: 1/4, left: 1 1/2, centred: down}", []),
            ("{punch: end, hole: 1/4, left: 6, centred: down}", ["hole-off-piece"]),
            ("{trim_round: end, size: 2 1/8 x 1}", ["trim-too-large"]),
        ],
    )
    def test_a_part_that_scissors_left(self, step: str, found: list[str]) -> None:
        assert ids(page(f"[{self.SNIPPED}, {step}, {self.LAID}]")) == found

    def test_a_part_is_laid_as_it_was_trimmed(self) -> None:
        layout = page(f"[{self.SNIPPED}, {{trim_round: end, size: 1 x 1/2}}, {self.LAID}]")
        assert named(layout, "end").rect == rect("0, 0, 1 x 1/2")
        assert named(layout, "rest").rect.size == rect("0, 0, 10 x 1").size

    def test_the_second_part_of_a_name_has_its_own_size(self) -> None:
        layout = page("""
          - {snip: strip, at: [1, 6], leaves: [bit, scrap, bit]}
          - {place: bit, left: 0, top: 0}
          - {round: bit, radius: 1/2, corners: top left}
          - {place: bit, called: long bit, left: 0, top: 4}
        """)
        assert [item.rect.width for item in layout.items] == [1, 6]
        assert ids(layout) == []

    @pytest.mark.parametrize(("radius", "found"), [("1", []), ("1 1/8", ["radius-too-large"])])
    def test_by_the_name_that_a_later_step_gives(self, radius: str, found: list[str]) -> None:
        words = "{place: tag, called: first tag, left: 0, top: 0}"
        assert ids(page(f"[{{round: first tag, radius: {radius}}}, {words}]")) == found

    def test_trimmed_by_the_name_that_a_later_step_gives(self) -> None:
        layout = page("""
          - {trim_round: low tag, size: 1 x 1}
          - {place: tag, called: high tag, left: 0, top: 0}
          - {place: tag, called: low tag, left: 0, top: 6}
        """)
        assert [item.rect.height for item in layout.items] == [3, 1]

    @pytest.mark.parametrize(("radius", "found"), [("1", []), ("1 1/8", ["radius-too-large"])])
    def test_a_row_that_lies_already(self, radius: str, found: list[str]) -> None:
        words = "{row: tag, count: 2, called: tags, apart: 1, left: 0, top: 0}"
        assert ids(page(f"[{words}, {{round: tags, radius: {radius}}}]")) == found


# What was done before a piece was filed.


def test_what_was_done_at_the_cutting_table_is_seen_on_the_page_as_the_piece_lies() -> None:
    """A tag with a hole near its top: turned clockwise, that lies near its right end, a corner with it."""
    strip = cut(3, ["tag", "mat"])
    works = ({"punch": "tag", "hole": 1, "top": 1}, {"round": "tag", "radius": 1, "corners": "top left"})
    steps = [{"place": "tag", "turn": "clockwise", "left": 0, "top": 0}]
    kit = make_kit(sheet(strip, *works), layouts=[{"id": "ebb", "pocket": 1, "base": "mat", "steps": steps}])
    (tag,) = resolved_kit(kit).layouts[0].items
    (hole,) = tag.finish.holes
    assert (hole.middle.x, hole.middle.y) == (Fraction(21, 2), Fraction(3, 2))
    assert [one.corners for one in tag.finish.roundings] == [(Corner.TOP_RIGHT,)]


def test_a_piece_that_was_trimmed_before_it_was_filed_is_laid_as_small() -> None:
    trimmed = {"trim_round": "tag", "size": "2 x 5"}
    steps = [{"place": "tag", "right": 0, "bottom": 0}]
    layouts = [{"id": "ebb", "pocket": 1, "base": "mat", "steps": steps}]
    kit = make_kit(sheet(cut(3, ["tag", "mat"]), trimmed), layouts=layouts)
    (tag,) = resolved_kit(kit).layouts[0].items
    assert tag.rect == rect("7, 7, 2 x 5")
