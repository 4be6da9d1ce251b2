"""Mats on mats and photographs on mats: borders computed and checked."""

from __future__ import annotations

from fractions import Fraction

import pytest

from booklet.kit.finding import Severity
from booklet.measure.length import Size
from booklet.placing.details import Held, NestBorder
from booklet.placing.model import PlacedLayout
from tests.placing.layouts import PIECES, detail, finding_of, ids, named, page, rect, serious, stacked

EIGHTH = Fraction(1, 8)


def test_a_print_on_two_mats_leaves_an_eighth_all_round_twice() -> None:
    # 4 + 2 x 1/8 = 4 1/4, 6 + 2 x 1/8 = 6 1/4; again 4 1/2 and 6 1/2 (common practice, no source).
    layout = page("""
      - {place: big mat, centred: yes}
      - {place: tall mat, on: big mat}
      - {photo: 4 x 6, on: tall mat}
    """)
    assert layout.findings == ()
    borders = [detail(layout, number, NestBorder) for number in (2, 3)]
    assert [(border.across, border.down) for border in borders] == [(EIGHTH, EIGHTH)] * 2


@pytest.mark.parametrize(
    ("mat", "border", "found"),
    [
        ("tall mat", "1/8", []),
        ("big mat", "1/4", []),
        ("big mat", "1/8", ["border-differs"]),
        ("mat", "1/8", ["border-differs", "photo-beyond-mat"]),
        ("big mat", "[1/4, 1/4]", []),
        ("big mat", "[1/4, 1/8]", ["border-differs"]),
    ],
)
def test_a_stated_border_is_checked(mat: str, border: str, found: list[str]) -> None:
    layout = page(f"[{{place: {mat}, centred: yes}}, {{photo: 4 x 6, on: {mat}, border: {border}}}]")
    assert serious(layout) == found


def test_a_wrong_border_says_what_there_is() -> None:
    layout = page("[{place: big mat, centred: yes}, {photo: 4 x 6, on: big mat, left: 1/8, border: 1/4}]")
    assert finding_of(layout, "border-differs").found == (
        "4 x 6 on 4 1/2 x 6 1/2 leaves 1/8 at the left, 3/8 at the right"
    )


@pytest.mark.parametrize(
    ("mat", "found"),
    # A 4 x 6 in photograph leaves 1/8 at the sides and 1/4 above and below, then 1/8 and 9/32.
    [("4 1/4 x 6 1/2", ["border-nearly-even"]), ("4 1/4 x 6 9/16", []), ("4 1/4 x 6 1/4", [])],
)
def test_a_border_that_is_nearly_even_looks_like_a_mistake(mat: str, found: list[str]) -> None:
    layout = page(
        "[{place: mat, centred: yes}, {photo: 4 x 6, on: mat}]", sizes={"base": "12 x 12", "mat": mat}
    )
    assert serious(layout) == found


def test_stated_two_ways_a_border_is_not_a_mistake() -> None:
    layout = page(
        "[{place: mat, centred: yes}, {photo: 4 x 6, on: mat, border: [1/8, 1/4]}]",
        sizes={"base": "12 x 12", "mat": "4 1/4 x 6 1/2"},
    )
    assert layout.findings == ()


STRIP = "{place: strip, left: 0, top: 2}"


def test_edges_that_are_flush_are_meant_so() -> None:
    # 12 x 3/4 in the middle of 12 x 1 leaves 1/8 above and below, and nothing at the sides.
    sizes = {"base": "12 x 12", "strip": "12 x 1", "inner strip": "12 x 3/4"}
    assert page(f"[{STRIP}, {{place: inner strip, on: strip}}]", sizes=sizes).findings == ()
    # 11 7/8 x 3/4 leaves 1/16 at the sides, which is neither flush nor even.
    nearly = {**sizes, "inner strip": "11 7/8 x 3/4"}
    assert "border-nearly-even" in serious(
        page(f"[{STRIP}, {{place: inner strip, on: strip}}]", sizes=nearly)
    )


@pytest.mark.parametrize(
    ("size", "border", "found"),
    [
        ("12 x 3/4", "[0, 1/8]", []),
        ("12 x 3/4", "1/8", ["border-differs"]),
        ("12 x 1", "0", []),
        ("12 x 3/4", "0", ["border-differs"]),
    ],
)
def test_a_border_of_nothing_may_be_stated(size: str, border: str, found: list[str]) -> None:
    sizes = {"base": "12 x 12", "strip": "12 x 1", "inner strip": size}
    layout = page(f"[{STRIP}, {{place: inner strip, on: strip, border: {border}}}]", sizes=sizes)
    assert [id for id in serious(layout) if id != "piece-hidden"] == found


def test_a_mat_slipped_under_shows_its_border_too() -> None:
    layout = page("[{place: tall mat, centred: yes}, {place: big mat, under: tall mat, border: 1/8}]")
    assert layout.findings == ()
    border = detail(layout, 2, NestBorder)
    assert (border.inner, border.outer) == (1, 2)


@pytest.mark.parametrize(
    ("step", "held"),
    [
        ("photo: 4 x 6", True),
        ("photo: 4 1/4 x 6 1/4", True),
        ("photo: 6 x 4", False),
        ("photo: 4 x 6, left: 1/2", False),
        ("photo: 4 x 6, left: 1/2, overhang: yes", True),
    ],
)
def test_a_mat_must_hold_its_photograph(step: str, held: bool) -> None:
    layout = page(f"[{{place: tall mat, centred: yes}}, {{{step}, on: tall mat}}]")
    assert ("photo-beyond-mat" in ids(layout)) is not held


def test_a_row_of_photographs_must_be_held_too() -> None:
    words = "row: {photo: 3 x 4}, count: 2, apart: 1/4, on: mat"
    # 3 + 1/4 + 3 = 6 1/4 just fits; 4 is lower than 4 1/4.
    assert serious(page(f"[{{place: mat, centred: yes}}, {{{words}}}]")) == []
    layout = page(f"[{{place: mat, centred: yes}}, {{{words.replace('apart: 1/4', 'apart: 1/2')}}}]")
    assert serious(layout) == ["photo-beyond-mat"]


class TestAPhotographThatFits:
    @pytest.mark.parametrize(
        ("mat", "size"),
        [("tall mat", "4 x 6"), ("mat", "6 x 4"), ("tag", "2 x 3"), ("big mat", "4 x 6")],
    )
    def test_the_largest_print_that_the_mat_holds(self, mat: str, size: str) -> None:
        layout = page(f"[{{place: {mat}, centred: yes}}, {{photo: fits, on: {mat}}}]")
        assert named(layout, "photo").rect.size == rect(f"0, 0, {size}").size

    def test_metric_mats_hold_metric_prints(self) -> None:
        from booklet.measure.length import Unit

        layout = page(
            "[{place: mat, centred: yes}, {photo: fits, on: mat}]",
            Unit.MILLIMETRE,
            {"base": "300 x 300", "mat": "105 x 155"},
        )
        assert named(layout, "photo").rect.size == Size(Fraction(100), Fraction(150))

    def test_a_border_decides_the_size(self) -> None:
        layout = page("[{place: tall mat, centred: yes}, {photo: fits, on: tall mat, border: 1/4}]")
        assert named(layout, "photo").rect.size == rect("0, 0, 3 3/4 x 5 3/4").size
        assert ids(layout) == ["photo-no-print-size"]
        assert finding_of(layout, "photo-no-print-size").cure == "it is trimmed from a print of 4 x 6 in"

    @pytest.mark.parametrize("words", ["photo: fits, left: 0, top: 0", "photo: fits, on: small tag"])
    def test_nothing_to_fit(self, words: str) -> None:
        assert ids(page(f"[{{place: small tag, left: 9, top: 9}}, {{{words}}}]")) == ["photo-fits-nothing"]


def test_a_border_of_nothing() -> None:
    assert ids(page("[{place: tag, left: 0, top: 0, border: 1/8}]")) == ["word-alone"]


SIZES = {
    "base": "12 x 12",
    "mat": "5 x 7",
    "frame": "4 1/4 x 3 1/4",
    "card": "4 x 3",
    "dot": "1/2 x 1/2",
    "slat": "1 x 3",
    "half slat": "1 x 1 1/2",
    "board": "2 1/4 x 8",
}


class TestUnderWithWhatItLiesOn:
    """A mat, and a frame that is slid under it so that half an inch of its left is covered."""

    FRAME = "{place: mat, left: 1, top: 2}, {place: frame, tucked: mat, left: 5 1/2, top: 3}"

    def laid(self, *steps: str) -> PlacedLayout:
        return page(f"[{self.FRAME}, {', '.join(steps)}]", sizes=SIZES)

    def test_a_card_goes_under_with_its_frame_and_so_does_what_lies_on_the_card(self) -> None:
        layout = self.laid("{place: card, on: frame}", "{photo: 3 1/2 x 2 1/2, on: card}")
        assert stacked(layout) == ["frame", "card", "photo", "mat"]
        assert detail(layout, 3, Held).over == ((1,),)

    def test_what_the_mat_does_not_cover_stays_on_top(self) -> None:
        # The mat ends at 6, the dot begins there.
        assert stacked(self.laid("{place: dot, on: frame, left: 1/2}")) == ["frame", "mat", "dot"]
        assert stacked(self.laid("{place: dot, on: frame, left: 3/8}")) == ["frame", "dot", "mat"]

    @pytest.mark.parametrize(
        "step", ["add: brass, on: frame, left: 0", "ribbon: twill, bow: 3, on: frame, left: 0"]
    )
    def test_what_is_fixed_to_the_face_stays_on_top(self, step: str) -> None:
        assert stacked(self.laid(f"{{{step}}}"))[:2] == ["frame", "mat"]

    def test_a_row_goes_under_as_one(self) -> None:
        row = "{row: dot, count: 2, apart: 2, on: frame, left: 1/4}"
        assert stacked(self.laid(row)) == ["frame", "dot", "dot", "mat"]

    def test_what_a_group_has_moved_out_is_under_nothing(self) -> None:
        layout = self.laid("{group: [frame], left: 1, top: 2}", "{place: card, on: frame}")
        assert stacked(layout) == ["mat", "frame", "card"]
        layout = self.laid("{group: [frame], left: 2, top: 2, tucked: mat}", "{place: card, on: frame}")
        assert stacked(layout)[:2] == ["frame", "card"]

    def test_a_border_that_is_slid_out_of_sight(self) -> None:
        layout = self.laid("{place: card, on: frame, border: 1/8}")
        finding = finding_of(layout, "border-hidden")
        assert finding.severity is Severity.ERROR
        assert finding.where == ("layouts", 0, "steps", 2, "border")
        assert finding.found == 'the border of "frame" round "card" is not seen in full at the left'


class TestAStatedBorderIsSeen:
    CARD = "{place: frame, left: 4, top: 4}, {place: card, on: frame, border: 1/8}"

    @pytest.mark.parametrize(
        ("cover", "found"),
        [
            # A slat as high as the card, up to 1/16 in from the frame's left edge, and up to that edge.
            ("{place: slat, left: 3 1/16, top: 4 1/8}", ["border-hidden"]),
            ("{place: slat, left: 3, top: 4 1/8}", []),
            ("{place: slat, left: 3 1/16, top: 4}", []),
            ("{row: half slat, count: 2, apart: 0, turn: half, left: 3, top: 4}", []),
            ("{column: half slat, count: 2, apart: 0, left: 3 1/16, top: 4 1/8}", ["border-hidden"]),
            ("{column: half slat, count: 2, apart: 1/8, left: 3 1/16, top: 4}", []),
            ("{ribbon: twill, run: across, top: 7}", ["border-hidden"]),
            ("{ribbon: twill, run: down, left: 6}", []),
            ("{write: 6 x 4, left: 3, top: 3}", []),
        ],
    )
    def test_in_its_full_width_somewhere_on_every_side(self, cover: str, found: list[str]) -> None:
        layout = page(f"[{self.CARD}, {cover}]", sizes=SIZES)
        assert [id for id in ids(layout) if id.startswith("border")] == found

    def test_a_tilted_frame_is_seen_unless_all_of_a_side_is_covered(self) -> None:
        tilted = self.CARD.replace("top: 4", "top: 4, tilt: 5").replace("border", "tilt: 5, border")
        for cover, found in (("left: 2 1/8", ["border-hidden"]), ("left: 1/2", [])):
            words = f"[{tilted}, {{place: board, {cover}, top: 2}}]"
            layout = page(words, sizes=SIZES)
            assert [id for id in ids(layout) if id.startswith("border")] == found

    def test_a_border_that_follows_is_not_asked_for(self) -> None:
        steps = self.CARD.replace(", border: 1/8", "") + ", {place: slat, left: 3 1/16, top: 4 1/8}"
        assert "border-hidden" not in ids(page(f"[{steps}]", sizes=SIZES))


class TestLargerThanWhatItLiesOn:
    """A tag is 2 x 3, a badge 2 x 2, the mat 6 1/4 x 4 1/4."""

    @pytest.mark.parametrize(
        ("steps", "found"),
        [
            ("{place: tag, on: badge}", ["larger-than-below"]),
            ("{place: tag, on: badge, turn: clockwise}", ["larger-than-below"]),
            ("{place: tag, on: badge, overhang: yes}", []),
            # The border says that one of the sizes is wrong.
            ("{place: tag, on: badge, border: [0, 1/8]}", ["border-differs"]),
            ("{place: small tag, on: badge}", []),
            ("{place: small tag, on: badge, left: 1 1/2}", []),
            ("{place: half badge, on: badge}", []),
            ("{write: 2 x 1, on: badge}", []),
            ("{write: 2 1/8 x 1, on: badge}", ["larger-than-below"]),
            ("{photo: 2 x 3, on: badge}", ["photo-beyond-mat"]),
            ("{ribbon: twill, bow: 9, on: badge}", []),
            ("{row: small tag, count: 2, apart: 0, on: badge}", []),
            ("{row: small tag, count: 2, apart: 1/8, on: badge}", ["larger-than-below"]),
            ("{place: tag, loose: yes}, {group: tag, on: badge}", ["larger-than-below"]),
            ("{place: small tag, loose: yes}, {group: small tag, on: badge}", []),
        ],
    )
    def test_unless_that_is_said(self, steps: str, found: list[str]) -> None:
        layout = page(
            f"[{{place: badge, left: 5, top: 5}}, {steps}]", sizes={**PIECES, "half badge": "1 x 2"}
        )
        known = {"larger-than-below", "border-differs", "photo-beyond-mat"}
        assert [id for id in ids(layout) if id in known] == found

    def test_the_page_has_edges_of_its_own(self) -> None:
        layout = page("[{place: board, on: page, left: 0, top: 0}]", sizes={**PIECES, "board": "13 x 12"})
        assert ids(layout) == ["overhang"]

    def test_it_says_how_large_both_are(self) -> None:
        finding = finding_of(
            page("[{place: badge, left: 5, top: 5}, {place: tag, on: badge}]"), "larger-than-below"
        )
        assert finding.severity is Severity.WARNING
        assert finding.where == ("layouts", 0, "steps", 1, "on")
        assert finding.found == '"tag" of 2 x 3 on 2 x 2 of "badge"'
