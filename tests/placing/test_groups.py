"""Several things moved as one block, and things put together on the table first."""

from __future__ import annotations

from booklet.kit.fields import Edge
from booklet.kit.steps import Corner
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactPoint
from booklet.placing.details import Moved
from tests.placing.layouts import detail, finding_of, ids, named, page, rect, stacked


def test_a_group_moves_what_lies_on_its_pieces() -> None:
    layout = page("""
      - {place: mat, left: 0, top: 0}
      - {photo: 6 x 4, on: mat}
      - {place: tag, left: 9, top: 9}
      - {group: mat, right: 1/4, bottom: 1/2}
    """)
    # 12 - 1/4 - 6 1/4 = 5 1/2, 12 - 1/2 - 4 1/4 = 7 1/4: the photograph keeps its 1/8 of border.
    assert named(layout, "mat").rect == rect("5 1/2, 7 1/4, 6 1/4 x 4 1/4")
    assert named(layout, "photo").rect == rect("5 5/8, 7 3/8, 6 x 4")
    assert stacked(layout) == ["tag", "mat", "photo"]
    assert detail(layout, 4, Moved).items == (1, 2)


def test_loose_pieces_are_laid_down_together() -> None:
    layout = page("""
      - {place: tall mat, loose: yes}
      - {place: badge, beside: tall mat, gap: 1/4, flush: top}
      - {photo: 4 x 6, on: tall mat, border: 1/8}
      - {group: [tall mat, badge], called: cluster, centred: yes}
      - {place: strip, below: cluster, gap: 1/2, left: 0}
    """)
    # The block is 4 1/4 + 1/4 + 2 = 6 1/2 wide and 6 1/4 high: from 2 3/4 across and 2 7/8 down.
    assert layout.findings == ()
    assert named(layout, "tall mat").rect == rect("2 3/4, 2 7/8, 4 1/4 x 6 1/4")
    assert named(layout, "badge").rect == rect("7 1/4, 2 7/8, 2 x 2")
    assert named(layout, "photo").rect == rect("2 7/8, 3, 4 x 6")
    assert named(layout, "strip").rect.y == rect("0, 9 5/8, 1 x 1").y


def test_a_quarter_turn_of_a_block() -> None:
    layout = page("""
      - {place: tag, called: first, left: 0, top: 0}
      - {place: badge, left: 2, top: 0}
      - {group: [first, badge], turn: clockwise, left: 0, top: 0}
    """)
    # The block of 4 x 3 becomes 3 x 4; clockwise, its left side comes to the top and its top to the right.
    assert named(layout, "first").rect == rect("0, 0, 3 x 2")
    assert named(layout, "badge").rect == rect("1, 2, 2 x 2")
    assert [named(layout, name).turn for name in ("first", "badge")] == [1, 1]


def test_four_quarter_turns_bring_a_block_back() -> None:
    words = "{group: [tag, badge], turn: clockwise, centred: yes}"
    layout = page(
        "[{place: tag, left: 4, top: 4.5}, {place: badge, left: 6, top: 4.5}," + ",".join([words] * 4) + "]"
    )
    assert named(layout, "tag").rect == rect("4, 4 1/2, 2 x 3")
    assert named(layout, "badge").rect == rect("6, 4 1/2, 2 x 2")
    assert named(layout, "tag").turn == 0


def test_a_group_tucked_under_a_strip() -> None:
    layout = page("""
      - {place: strip, left: 0, top: 3}
      - {place: tag, left: 0, top: 6}
      - {group: tag, left: 2, top: 2, tucked: strip}
    """)
    assert stacked(layout) == ["tag", "strip"]


def test_what_stays_loose_is_an_error_and_not_on_the_page() -> None:
    layout = page("[{place: tag, loose: yes}, {place: small tag, on: tag}]")
    assert ids(layout) == ["left-loose"]
    assert layout.items == ()


def test_a_loose_piece_has_no_place_of_its_own() -> None:
    layout = page("[{place: tag, loose: yes, left: 1}, {group: tag, left: 0, top: 0}]")
    assert finding_of(layout, "position-twice").where[-1] == "left"


def test_by_something_loose_and_by_the_page_at_once() -> None:
    layout = page(
        "[{place: tag, loose: yes}, {place: badge, beside: tag, top: 1}, {group: tag, centred: yes}]"
    )
    assert "loose-mixed" in ids(layout)


def test_a_group_by_itself() -> None:
    layout = page("[{place: tag, left: 0, top: 0}, {group: tag, on: tag}]")
    assert ids(layout) == ["group-by-itself"]


def test_a_group_is_not_tilted() -> None:
    layout = page("[{place: tag, left: 0, top: 0}, {group: tag, left: 1, top: 1, tilt: 5}]")
    assert finding_of(layout, "group-not-so").where[-1] == "tilt"


def test_a_group_of_something_unknown() -> None:
    assert ids(page("[{place: tag, left: 0, top: 0}, {group: [tag, bagde], left: 0, top: 0}]")) == [
        "reference-unknown"
    ]
    assert ids(page("[{group: page, left: 0, top: 0}]")) == ["under-the-page"]


def test_words_of_a_finish_turn_with_the_block() -> None:
    layout = page("""
      - {place: tag, left: 1, top: 1}
      - {round: tag, radius: 1/4, corners: [top left]}
      - {punch: tag, corners: [bottom left]}
      - {ink: tag, edges: [top]}
      - {punch: tag, hole: 1/2, left: 1/4, top: 1/4}
      - {group: tag, turn: clockwise, left: 1, top: 1}
    """)
    finish = named(layout, "tag").finish
    assert finish.roundings[0].corners == (Corner.TOP_RIGHT,)
    assert (finish.punched, finish.inked) == ((Corner.TOP_LEFT,), (Edge.RIGHT,))
    # Of 2 x 3 the top left corner comes to the top right of 3 x 2: 3 - 1/2 across, 1/2 down.
    assert finish.holes[0].middle == ExactPoint(Fraction(5, 2), Fraction(1, 2))
