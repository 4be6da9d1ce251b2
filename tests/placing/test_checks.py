"""What a checker says about a finished page: each finding once triggered, and once just not."""

from __future__ import annotations

import pytest

from booklet.kit.finding import Severity
from booklet.measure.length import Unit
from tests.placing.layouts import finding_of, ids, page, pages, serious


class TestHidden:
    def test_wholly_covered_is_an_error(self) -> None:
        layout = page("[{place: tag, left: 1, top: 1}, {place: mat, left: 1, top: 1}]")
        finding = finding_of(layout, "piece-hidden")
        assert finding.severity is Severity.ERROR
        assert finding.where == ("layouts", 0, "steps", 0)

    def test_covered_by_two_together(self) -> None:
        words = "{place: half strip, left: 0, top: 2}, {row: badge, count: 3, apart: 0, left: 0, top: 1}"
        assert serious(page(f"[{words}]")) == ["piece-hidden"]

    @pytest.mark.parametrize("words", ["left: 15/16, top: 1", "left: 1, top: 1, tilt: 5"])
    def test_a_sliver_is_seen(self, words: str) -> None:
        layout = page(f"[{{place: tag, {words}}}, {{place: tag, left: 1, top: 1}}]")
        assert "piece-hidden" not in ids(layout)

    def test_tilted_and_covered(self) -> None:
        layout = page("[{place: tag, left: 3, top: 2, tilt: 10}, {place: mat, left: 1, top: 1}]")
        assert serious(layout) == ["piece-hidden"]

    @pytest.mark.parametrize(
        ("card", "found"),
        [
            # A bow of 8 in is 2 2/3 wide and 1 1/3 high, and what shows between its loops and tails is seen.
            ("2 1/4 x 1 1/4", []),
            # Its knot alone is 6/25 by 8/25 in.
            ("1/5 x 1/5", ["piece-hidden"]),
        ],
    )
    def test_a_bow_hides_what_its_outline_covers(self, card: str, found: list[str]) -> None:
        words = "[{place: card, centred: yes}, {ribbon: twill, bow: 8, on: card}]"
        assert serious(page(words, sizes={"base": "12 x 12", "card": card})) == found

    def test_tucked_out_of_sight(self) -> None:
        assert serious(page("[{place: mat, centred: yes}, {place: tag, under: mat}]")) == ["piece-hidden"]


class TestCoveredPhotograph:
    # A 4 x 6 in photograph has 24 square inches: 6 of them, a strip 1 1/2 high, are a quarter.
    @pytest.mark.parametrize(("height", "found"), [("1 1/2", []), ("1 17/32", ["photo-covered"])])
    def test_more_than_a_quarter(self, height: str, found: list[str]) -> None:
        layout = page(
            "[{photo: 4 x 6, left: 1, top: 1}, {place: strip, on: photo, left: -1, top: 2, overhang: yes}]",
            sizes={"base": "12 x 12", "strip": f"12 x {height}"},
        )
        assert serious(layout) == found

    def test_a_writing_space_is_looked_at_too(self) -> None:
        layout = page("[{write: 4 x 2, left: 1, top: 1}, {place: tag, left: 3, top: 0}]")
        assert serious(layout) == ["writing-covered"]

    def test_what_lies_beneath_does_not_cover(self) -> None:
        assert (
            serious(page("[{photo: 4 x 6, left: 1, top: 1}, {place: strip, left: 0, top: 3, tucked: photo}]"))
            == []
        )


class TestOverhang:
    @pytest.mark.parametrize(
        ("words", "found"),
        [
            ("left: 10, top: 0", []),
            ("left: 10 1/8, top: 0", ["overhang"]),
            ("left: 10 1/8, top: 0, overhang: yes", []),
            ("left: -1, top: -1", ["overhang", "overhang"]),
            # Tilted by 10 degrees, 2 x 3 is 2 cos 10 + 3 sin 10 = 2.49 wide: 0.245 more on each side.
            ("right: 1/4, top: 3, tilt: 10", []),
            ("right: 1/8, top: 3, tilt: 10", ["overhang"]),
        ],
    )
    def test_beyond_the_page(self, words: str, found: list[str]) -> None:
        layout = page(f"[{{place: tag, {words}}}]")
        # The upright box of the piece tilted just within the page ends 0.005 in from its edge.
        assert [id for id in ids(layout) if id != "near-miss"] == found

    def test_how_far(self) -> None:
        assert finding_of(page("[{place: tag, left: 10 1/8, top: 0}]"), "overhang").found == (
            '"tag" goes 1/8 beyond the right edge'
        )


class TestOffThePage:
    @pytest.mark.parametrize(
        ("words", "edge"),
        [
            ("left: 11 15/16, top: 0", None),
            ("left: 12, top: 0", "right"),
            ("left: 0, bottom: -3", "bottom"),
            ("left: 30, top: 0, overhang: yes", "right"),
            ("left: -2, top: -3 1/2", "top"),
            ("left: -3, top: 4, tilt: 20", "left"),
        ],
    )
    def test_what_lies_wholly_beyond_an_edge(self, words: str, edge: str | None) -> None:
        layout = page(f"[{{place: tag, {words}}}]")
        told = [finding.found for finding in layout.findings if finding.severity is Severity.ERROR]
        assert told == ([f'"tag" lies wholly beyond the page\'s {edge} edge'] if edge else [])

    def test_what_lies_on_the_facing_page_belongs_there(self) -> None:
        left, _ = pages(
            {"steps": "[{place: tag, left: 13, top: 0}]", "facing": "page-2"},
            {"steps": "[]", "base": "other base"},
        )
        assert finding_of(left, "off-page").cure == "place it on the facing page"


class TestNearMiss:
    @pytest.mark.parametrize(
        ("left", "found"),
        [
            ("3", []),  # they meet
            ("3 1/32", ["near-miss"]),  # apart by a hair
            ("3 1/16", []),  # a sixteenth is meant
            ("2 31/32", ["near-miss"]),  # overlap by a hair
            ("2 15/16", []),
            ("6", []),
        ],
    )
    def test_two_pieces_side_by_side(self, left: str, found: list[str]) -> None:
        layout = page(f"[{{place: tag, left: 1, top: 1}}, {{place: badge, left: {left}, top: 1}}]")
        assert serious(layout) == found

    @pytest.mark.parametrize(
        ("top", "found"), [("4", []), ("4 1/32", []), ("3 31/32", []), ("3", ["near-miss"])]
    )
    def test_only_edges_that_face_each_other(self, top: str, found: list[str]) -> None:
        words = f"{{place: tag, left: 1, top: 1}}, {{place: badge, left: 3 1/32, top: {top}}}"
        assert serious(page(f"[{words}]")) == found

    @pytest.mark.parametrize(("left", "found"), [("1", []), ("1 1/32", ["near-miss"]), ("1 1/16", [])])
    def test_edges_that_are_nearly_in_line(self, left: str, found: list[str]) -> None:
        layout = page(f"[{{place: mat, left: 1, top: 1}}, {{place: tag, left: {left}, top: 2}}]")
        assert serious(layout) == found

    @pytest.mark.parametrize(
        ("right", "found"), [("0", []), ("1/32", ["near-miss"]), ("1/16", []), ("-1/32", ["near-miss"])]
    )
    def test_nearly_at_the_page_edge(self, right: str, found: list[str]) -> None:
        assert serious(page(f"[{{place: tag, right: {right}, top: 1}}]")) == found

    @pytest.mark.parametrize(("left", "found"), [("3.3", ["near-miss"]), ("3.4", [])])
    def test_a_tilted_piece(self, left: str, found: list[str]) -> None:
        # A tag tilted by 10 degrees reaches 0.245 beyond its upright right edge at 3: to 3.245.
        layout = page(f"[{{place: tag, left: 1, top: 1, tilt: 10}}, {{place: tag, left: {left}, top: 1}}]")
        assert serious(layout) == found

    def test_a_sixteenth_of_an_inch_in_millimetres(self) -> None:
        # 1/16 in is 1.5875 mm.
        for left, found in (("51.58", ["near-miss"]), ("51.5875", [])):
            words = f"[{{place: card, left: 0, top: 0}}, {{place: card, left: {left}, top: 0}}]"
            layout = page(words, Unit.MILLIMETRE, {"base": "300 x 300", "card": "50 x 50"})
            assert serious(layout) == found


class TestSpacing:
    @pytest.mark.parametrize(
        ("third", "found"),
        [
            # Badges of 2 at 0 and 3: a gap of 1; the third at 6 has the same.
            ("6", []),
            ("6 1/8", ["spacing-uneven"]),
            ("6 3/16", []),  # a clear difference is meant
        ],
    )
    def test_three_in_line(self, third: str, found: list[str]) -> None:
        lefts = ("0", "3", third)
        layout = page("[" + ", ".join(f"{{place: badge, left: {left}, top: 1}}" for left in lefts) + "]")
        assert serious(layout) == found

    def test_one_below_the_other(self) -> None:
        tops = ("0", "3", "5 15/16")
        layout = page("[" + ", ".join(f"{{place: badge, top: {top}, left: 1}}" for top in tops) + "]")
        assert finding_of(layout, "spacing-uneven").found == '3 of "badge" in line have gaps of 1 and 15/16'


class TestPrintSizes:
    @pytest.mark.parametrize(
        ("size", "found"),
        [("4 x 6", []), ("6 x 4", []), ("10 x 15 cm", []), ("3 x 3", ["photo-no-print-size"])],
    )
    def test_of_photographs(self, size: str, found: list[str]) -> None:
        layout = page(f"[{{photo: {size}, left: 1, top: 1}}]")
        assert ids(layout) == found
        assert serious(layout) == []
