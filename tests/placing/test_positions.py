"""Where one thing lies: distances, neighbours, edges in line, centres."""

from __future__ import annotations

from fractions import Fraction

import pytest

from booklet.kit.fields import Face
from booklet.measure.length import Unit
from tests.placing.layouts import finding_of, ids, named, page, rect, stacked


@pytest.mark.parametrize(
    ("words", "where"),
    [
        ("left: 1 1/2, top: 2", "1 1/2, 2, 2 x 3"),
        ("right: 1 1/2, top: 2", "8 1/2, 2, 2 x 3"),
        ("left: 0, bottom: 0", "0, 9, 2 x 3"),
        ("centred: yes", "5, 4 1/2, 2 x 3"),
        ("centred: across, top: 1/2", "5, 1/2, 2 x 3"),
        ("centred: down, right: 1/2", "9 1/2, 4 1/2, 2 x 3"),
        ("flush: [top, left]", "0, 0, 2 x 3"),
        ("flush: right, bottom: 1/4", "10, 8 3/4, 2 x 3"),
        ("left: 1, top: 1, turn: clockwise", "1, 1, 3 x 2"),
        ("left: 1, top: 1, turn: half", "1, 1, 2 x 3"),
        ("left: 1, top: 1, tilt: 7.5", "1, 1, 2 x 3"),
        ("right: -1/2, top: 1, overhang: yes", "10 1/2, 1, 2 x 3"),
        ("on: page", "5, 4 1/2, 2 x 3"),
    ],
)
def test_a_tag_on_the_page(words: str, where: str) -> None:
    layout = page(f"[{{place: tag, {words}}}]")
    assert named(layout, "tag").rect == rect(where)
    assert layout.findings == ()


@pytest.mark.parametrize(
    ("words", "where"),
    [
        # The mat lies at 2, 3 and is 6 1/4 x 4 1/4: its right edge at 8 1/4, its bottom at 7 1/4.
        ("on: mat", "4 1/8, 3 5/8, 2 x 3"),
        ("on: mat, left: 1/4", "2 1/4, 3 5/8, 2 x 3"),
        ("on: mat, right: 1/4, bottom: 1/8", "6, 4 1/8, 2 x 3"),
        ("on: mat, flush: [right, bottom]", "6 1/4, 4 1/4, 2 x 3"),
        ("beside: mat, flush: top", "8 1/4, 3, 2 x 3"),
        ("beside: mat, side: left, centred: down", "0, 3 5/8, 2 x 3"),
        ("beside: mat, gap: 1/2, flush: bottom", "8 3/4, 4 1/4, 2 x 3"),
        ("below: mat, gap: 1/4, flush: left", "2, 7 1/2, 2 x 3"),
        ("above: mat, centred: across", "4 1/8, 0, 2 x 3"),
        ("below: mat, left: 1", "1, 7 1/4, 2 x 3"),
        ("beside: mat, top: 1/2", "8 1/4, 1/2, 2 x 3"),
        ("below: mat, gap: -1, flush: right", "6 1/4, 6 1/4, 2 x 3"),
        ("below: mat, flush: right, flush_with: page", "10, 7 1/4, 2 x 3"),
        ("beside: mat, centred: down, centred_on: page", "8 1/4, 4 1/2, 2 x 3"),
    ],
)
def test_a_tag_by_a_mat(words: str, where: str) -> None:
    layout = page(f"[{{place: mat, left: 2, top: 3}}, {{place: tag, {words}}}]")
    assert named(layout, "tag").rect == rect(where)
    assert layout.findings == ()


def test_beside_one_thing_and_below_another_takes_an_axis_from_each() -> None:
    layout = page("""
      - {place: mat, left: 1, top: 1}
      - {place: strip, left: 0, top: 6}
      - {place: tag, beside: mat, below: strip, gap: 1/4}
    """)
    assert named(layout, "tag").rect == rect("7 1/2, 7 1/4, 2 x 3")


def test_lengths_stay_exact_across_units() -> None:
    layout = page(
        "[{place: card, left: 1/3 in, top: 10.5}]", Unit.MILLIMETRE, {"base": "300 x 300", "card": "4 x 6 in"}
    )
    card = named(layout, "card").rect
    assert (card.x, card.y) == (Fraction(254, 30), Fraction(21, 2))
    assert card.right == Fraction(254, 30) + Fraction(1016, 10)


def test_a_turned_base_and_the_back_of_a_piece() -> None:
    layout = page("[{place: tag, right: 0, top: 0, face: back}]", sizes={"base": "12 x 6", "tag": "2 x 3"})
    assert named(layout, "tag").face is Face.BACK
    assert layout.size.width == 12


class TestStacking:
    def test_what_comes_later_lies_on_top(self) -> None:
        layout = page("[{place: mat, centred: yes}, {place: tag, on: mat}, {photo: 2 x 2, on: mat}]")
        assert stacked(layout) == ["mat", "tag", "photo"]
        assert [item.layer for item in layout.items] == [1, 2, 3]

    def test_under_goes_beneath_and_is_measured_from_it(self) -> None:
        layout = page(
            "[{place: strip, left: 0, top: 5}, {place: mat, centred: yes}, {place: tag, under: mat}]"
        )
        assert stacked(layout) == ["strip", "tag", "mat"]
        assert named(layout, "tag").rect.centre == named(layout, "mat").rect.centre

    def test_tucked_goes_beneath_but_is_measured_from_the_page(self) -> None:
        layout = page("""
          - {place: tag, called: one, left: 0, top: 0}
          - {place: tag, called: two, left: 3, top: 0}
          - {place: strip, left: 0, top: 2, tucked: [two, one]}
        """)
        assert stacked(layout) == ["strip", "one", "two"]
        assert named(layout, "strip").rect == rect("0, 2, 12 x 1")

    def test_nothing_goes_under_the_page(self) -> None:
        assert ids(page("[{place: tag, under: page}]")) == ["under-the-page"]


class TestWhatIsNotSettled:
    @pytest.mark.parametrize(
        ("words", "found"),
        [
            ("top: 2", "nothing says how far from the left or right"),
            ("left: 2", "nothing says how far from the top or bottom"),
            ("centred: across", "nothing says how far from the top or bottom"),
        ],
    )
    def test_an_open_axis_says_what_is_missing(self, words: str, found: str) -> None:
        layout = page(f"[{{place: tag, {words}}}]")
        finding = finding_of(layout, "position-open")
        assert finding.found == found
        assert finding.where == ("layouts", 0, "steps", 0)
        assert layout.items == ()

    @pytest.mark.parametrize(
        ("words", "key"),
        [
            ("left: 1, right: 9, top: 0", "right"),
            ("left: 1, centred: yes, top: 0", "centred"),
            ("flush: [left, right], top: 0", "flush"),
            ("below: mat, top: 3, left: 0", "below"),
            ("below: mat, above: mat, left: 0", "below"),
        ],
    )
    def test_an_axis_fixed_twice_names_the_second_word(self, words: str, key: str) -> None:
        layout = page(f"[{{place: mat, left: 0, top: 0}}, {{place: tag, {words}}}]")
        assert (*("layouts", 0, "steps", 1), key) in [
            finding.where for finding in layout.findings if finding.id == "position-twice"
        ]

    def test_both_axes_are_reported(self) -> None:
        assert ids(page("[{place: tag}]")) == ["position-open", "position-open"]

    @pytest.mark.parametrize(
        ("words", "key"),
        [
            ("left: 0, top: 0, gap: 1/4", "gap"),
            ("left: 0, top: 0, side: left", "side"),
            ("left: 0, top: 0, flush_with: page", "flush_with"),
            ("left: 0, top: 0, centred_on: page", "centred_on"),
        ],
    )
    def test_a_word_that_says_nothing_alone(self, words: str, key: str) -> None:
        assert finding_of(page(f"[{{place: tag, {words}}}]"), "word-alone").where[-1] == key

    def test_on_and_under_at_once(self) -> None:
        layout = page("[{place: mat, left: 0, top: 0}, {place: tag, on: mat, under: mat}]")
        assert finding_of(layout, "position-twice").where[-1] == "under"


class TestReferences:
    def test_an_unknown_name_brings_the_nearest(self) -> None:
        layout = page("[{place: tall mat, left: 0, top: 0}, {place: tag, on: tal mat}]")
        finding = finding_of(layout, "reference-unknown")
        assert finding.where == ("layouts", 0, "steps", 1, "on")
        assert finding.cure == 'did you mean "tall mat"?'

    def test_a_name_that_comes_later_says_when(self) -> None:
        layout = page("[{place: tag, beside: mat, top: 0}, {place: mat, left: 0, top: 0}]")
        assert finding_of(layout, "reference-later").found == '"mat" is placed only in step 2'

    def test_a_thing_of_a_later_row_says_when(self) -> None:
        row = "{row: [badge, {place: mat, called: wide mat}], left: 0, top: 0}"
        for name in ("mat", "wide mat"):
            layout = page(f"[{{place: tag, beside: {name}, top: 0}}, {row}]")
            assert finding_of(layout, "reference-later").found == f'"{name}" is placed only in step 2'

    @pytest.mark.parametrize("word", ["on: tag", "under: tag", "tucked: tag, left: 0, top: 0"])
    def test_nothing_lies_on_or_under_itself(self, word: str) -> None:
        finding = finding_of(page(f"[{{place: tag, {word}}}]"), "reference-later")
        assert finding.found == '"tag" is what this step lays itself'

    def test_a_piece_that_no_step_places_is_not_taken_for_a_misspelling(self) -> None:
        layout = page("[{place: tall mat, left: 0, top: 0}, {group: [tall mat, mat], right: 0, top: 0}]")
        finding = finding_of(layout, "reference-unknown")
        assert finding.found == '"mat" is a piece of this kit that no step of this layout places'
        assert finding.cure == "place it in an earlier step"

    def test_what_could_not_be_placed_is_reported_once(self) -> None:
        layout = page("[{place: mat, top: 0}, {place: tag, on: mat}, {place: badge, on: tag}]")
        assert ids(layout) == ["position-open"]

    def test_a_piece_that_nothing_makes_is_left_to_the_ledger(self) -> None:
        layout = page("[{place: unheard of, left: 0, top: 0}, {place: tag, on: unheard of}]")
        assert (layout.items, layout.findings) == ((), ())

    def test_of_two_of_a_name_the_latest_is_meant_and_it_says_so(self) -> None:
        layout = page("""
          - {place: badge, left: 0, top: 0}
          - {place: badge, left: 6, top: 0}
          - {place: tag, below: badge, flush: left}
        """)
        assert named(layout, "tag").rect == rect("6, 2, 2 x 3")
        assert finding_of(layout, "reference-repeated").found.endswith("of step 2")

    def test_a_name_of_its_own_tells_two_apart(self) -> None:
        layout = page("""
          - {place: badge, called: first badge, left: 0, top: 0}
          - {place: badge, left: 6, top: 0}
          - {place: tag, below: first badge, flush: left}
        """)
        assert named(layout, "tag").rect == rect("0, 2, 2 x 3")
        assert layout.findings == ()
