"""A piece across two facing pages, cut at the gutter."""

from __future__ import annotations

from booklet.placing.details import CutAtGutter
from booklet.placing.model import PlacedLayout
from tests.placing.layouts import detail, finding_of, ids, named, page, pages, rect, stacked

BANNER = "[{place: banner, spread: yes, left: 9, top: 2}]"
REST = "[{place: strip, left: 0, top: 2}, {other_half: banner}]"


def spread(left: str, right: str) -> tuple[PlacedLayout, ...]:
    return pages({"steps": left, "facing": "page-2"}, {"steps": right, "base": "other base"})


def test_a_banner_is_cut_at_the_gutter() -> None:
    # 8 wide from 9: 3 stay on the left page, 5 begin at the right one's left edge.
    left, right = spread(BANNER, REST)
    assert named(left, "banner").rect == rect("9, 2, 3 x 3")
    assert named(right, "banner").rect == rect("0, 2, 5 x 3")
    assert (left.findings, right.findings) == ((), ())
    cut = detail(left, 1, CutAtGutter)
    assert cut.here.width + cut.there.width == 8


def test_each_half_lies_where_its_own_page_lays_it() -> None:
    _, right = spread(BANNER, REST)
    assert stacked(right) == ["strip", "banner"]
    assert named(right, "banner").step_number == 2


def test_a_right_page_that_the_spec_lists_first_gets_its_half() -> None:
    right, left = pages({"steps": REST, "base": "other base"}, {"steps": BANNER, "facing": "page-1"})
    assert (right.id, left.id) == ("page-1", "page-2")
    assert named(right, "banner").rect == rect("0, 2, 5 x 3")
    assert (left.findings, right.findings) == ((), ())


def test_centred_on_the_spread() -> None:
    left, right = spread("[{place: banner, spread: yes, centred: yes}]", "[{other_half: banner}]")
    assert named(left, "banner").rect == rect("8, 4 1/2, 4 x 3")
    assert named(right, "banner").rect.width == 4


def test_what_is_measured_from_the_far_edge_of_the_facing_page_ends_at_the_gutter() -> None:
    left, _ = spread("[{place: banner, spread: yes, right: 9, top: 2}]", "[{other_half: banner}]")
    assert named(left, "banner").rect == rect("7, 2, 5 x 3")
    assert detail(left, 1, CutAtGutter).there.width == 3


def test_a_half_that_no_step_lays_is_an_error() -> None:
    _, right = spread(BANNER, "[{place: strip, left: 0, top: 2}]")
    assert ids(right) == ["half-left-over"]


def test_a_half_that_does_not_come() -> None:
    _, right = spread("[{place: tag, left: 0, top: 0}]", "[{other_half: banner}]")
    assert finding_of(right, "half-unknown").cure == "say spread: yes on the left page"


def test_nothing_to_cut() -> None:
    left, _ = spread("[{place: tag, spread: yes, left: 0, top: 0}]", "[]")
    assert ids(left) == ["spread-not-crossed"]
    left, _ = spread("[{place: banner, spread: yes, left: 9, top: 0, tilt: 3}]", "[]")
    assert finding_of(left, "spread-not-crossed").found == "a tilted piece is not cut at the gutter"


def test_a_half_that_is_refused_on_its_own_page_is_not_reported_on_the_other() -> None:
    tilted = "{place: banner, spread: yes, left: 9, top: 0, tilt: 3}"
    left, right = spread(f"[{tilted}]", "[{other_half: banner}]")
    # Nor is it told to go beyond the page, or into the facing one, where it is cut.
    assert (ids(left), ids(right)) == (["spread-not-crossed"], [])
    _, right = spread(f"[{tilted}]", "[{other_half: banner}, {other_half: banner}]")
    assert ids(right) == ["half-unknown"]


def test_up_to_the_gutter_is_not_across_it() -> None:
    for left_edge in ("4", "12"):
        left, _ = spread(f"[{{place: banner, spread: yes, left: {left_edge}, top: 2}}]", "[]")
        assert "spread-not-crossed" in ids(left)


def test_no_page_faces_this_one() -> None:
    assert "spread-of-one" in ids(page("[{place: tag, spread: yes, left: 0, top: 0}]"))


def test_into_the_facing_page_without_a_word() -> None:
    left, _ = spread("[{place: banner, left: 9, top: 2}]", "[]")
    assert ids(left) == ["crosses-gutter"]
    left, _ = spread("[{place: banner, left: 9, top: 2, overhang: yes}]", "[]")
    assert ids(left) == []
