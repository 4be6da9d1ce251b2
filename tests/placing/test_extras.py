"""Stencilled areas, brads and other embellishments."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.kit.fields import Edge
from booklet.measure.length import Unit
from booklet.placing.details import Added, EvenGap, Repeat, Stencilled
from booklet.placing.extras import fit_repeat
from tests.placing.layouts import detail, finding_of, ids, measured_from_page, named, page, rect


class TestStencil:
    def test_a_band_from_a_guideline(self) -> None:
        layout = page("[{stencil: net, left: 0, right: 0, top: 3 1/2, bottom: 6, supply: sea ink}]")
        assert named(layout, "net").rect == rect("0, 3 1/2, 12 x 2 1/2")
        # The repeat is 1 1/2 x 1: 12 = 8 x 1 1/2 exactly; 2 1/2 = 2 x 1 + 1/2.
        found = detail(layout, 1, Stencilled)
        assert (found.across, found.down) == (
            Repeat(8, Fraction(0), Fraction(3, 2)),
            Repeat(2, Fraction(1, 2), Fraction(1)),
        )
        assert found.guideline is Edge.TOP

    def test_turned_with_its_piece_its_guideline_and_repeats_turn(self) -> None:
        found = detail(page("[{stencil: net, size: 6 x 5 1/2, left: 0, top: 1}]"), 1, Stencilled)
        once, twice = found.turned(1), found.turned(2)
        assert (once.guideline, once.across, once.down) == (Edge.RIGHT, found.down, found.across)
        assert (twice.guideline, twice.across, twice.down) == (Edge.BOTTOM, found.across, found.down)

    def test_the_guideline_is_ruled_from_the_page_s_edge(self) -> None:
        layout = page("[{stencil: net, size: 12 x 2, left: 0, top: 3 1/2}]")
        found = detail(layout, 1, Stencilled)
        assert (found.guideline, found.ruled) == (Edge.TOP, Fraction(7, 2))

    def test_between_two_edges_the_guideline_is_ruled_from_the_first(self) -> None:
        layout = page("[{stencil: net, left: 0, right: 0, top: 3, bottom: 6}]")
        assert detail(layout, 1, Stencilled).ruled == 3

    def test_at_the_edge_of_the_page_no_guideline_is_ruled(self) -> None:
        found = detail(page("[{stencil: net, size: 12 x 2, left: 0, top: 0, guideline: top}]"), 1, Stencilled)
        assert (found.guideline, found.ruled, found.tools) == (Edge.TOP, None, ())

    def test_a_guideline_at_the_other_edge_is_computed(self) -> None:
        layout = page("[{stencil: net, size: 12 x 2, left: 0, top: 3 1/2, guideline: bottom}]")
        # 12 - (3 1/2 + 2) from the bottom.
        assert detail(layout, 1, Stencilled).ruled == Fraction(13, 2)

    @pytest.mark.parametrize(
        ("area", "found"),
        # The repeat of 1/8 x 1 fits 99 times in 12 3/8, and once more in 12 1/2.
        [("12 3/8 x 3", []), ("12 1/2 x 3", ["stencil-too-fine"]), ("3 x 12 1/2", [])],
    )
    def test_as_many_repeats_in_line_as_a_hand_dabs(self, area: str, found: list[str]) -> None:
        fine = {"id": "net", "kind": "stencil", "repeat": "1/8 x 1"}
        steps = f"[{{stencil: net, size: {area}, left: 0, top: 0}}, {{write: 1 x 1, below: net, left: 0}}]"
        layout = page(steps, sizes={"base": "15 x 15"}, supplies=[fine])
        assert ids(layout) == found
        # What lies by it is not blamed in its place, and not drawn without it.
        assert [item.name for item in layout.items] == (["net", "writing space"] if not found else [])

    @pytest.mark.parametrize(("areas", "found"), [(2, []), (3, ["stencil-too-much"])])
    def test_as_many_repeats_on_a_page_as_a_hand_dabs(self, areas: int, found: list[str]) -> None:
        # 96 x 96 repeats are 9,216; twice that is less than 20,000, three times is more.
        fine = {"id": "net", "kind": "stencil", "repeat": "1/8 x 1/8"}
        steps = ", ".join(["{stencil: net, size: 12 x 12, left: 0, top: 0}"] * areas)
        layout = page(f"[{steps}]", sizes={"base": "15 x 15"}, supplies=[fine])
        assert [id for id in ids(layout) if id.startswith("stencil")] == found

    def test_an_area_that_is_open(self) -> None:
        layout = page("[{stencil: net, left: 0, right: 0, top: 3}]")
        assert (
            finding_of(layout, "position-open").found
            == "only one edge down the page is said; the other is open"
        )

    def test_an_area_inside_out(self) -> None:
        assert ids(page("[{stencil: net, left: 7, right: 5, top: 0, bottom: 0}]")) == ["position-reversed"]

    def test_a_stencil_hides_nothing(self) -> None:
        assert ids(page("[{place: tag, left: 1, top: 1}, {stencil: net, on: tag, size: 2 x 3}]")) == []

    @given(
        st.fractions(Fraction(1, 4), 40, max_denominator=64),
        st.fractions(Fraction(1, 8), 5, max_denominator=64),
    )
    def test_repeats_and_remainder_make_the_length(self, length: Fraction, repeat: Fraction) -> None:
        found = fit_repeat(length, repeat)
        assert found.times * repeat + found.remainder == length
        assert 0 <= found.remainder < repeat


class TestAdd:
    def test_a_distance_goes_to_where_it_pierces_the_paper(self) -> None:
        layout = page("[{add: brass, left: 1, top: 1}]")
        assert named(layout, "brass").rect == rect("7/8, 7/8, 1/4 x 1/4")
        assert list(measured_from_page(layout)) == [(1, Edge.LEFT, Fraction(1)), (1, Edge.TOP, Fraction(1))]
        assert [use.amount for use in layout.supplies] == [Fraction(1)]

    def test_one_in_each_corner_of_a_mat(self) -> None:
        layout = page("[{place: mat, left: 2, top: 3}, {add: brass, corners: all, on: mat, inset: 1/4}]")
        assert [item.rect for item in layout.of_step(2)] == [
            rect("2 1/8, 3 1/8, 1/4 x 1/4"),
            rect("7 7/8, 3 1/8, 1/4 x 1/4"),
            rect("7 7/8, 6 7/8, 1/4 x 1/4"),
            rect("2 1/8, 6 7/8, 1/4 x 1/4"),
        ]
        assert detail(layout, 2, Added) == Added((2, 3, 4, 5), 4, scattered=False)
        assert [use.amount for use in layout.supplies] == [Fraction(4)]

    def test_a_row_of_them(self) -> None:
        layout = page("[{add: brass, count: 3, run: across, apart: 1/2, left: 1, top: 1}]")
        assert [item.rect.centre.x for item in layout.of_step(1)] == [1, Fraction(3, 2), 2]
        assert detail(layout, 1, EvenGap).gap == Fraction(1, 2)

    def test_a_row_between_two_edges_is_spread_from_middle_to_middle(self) -> None:
        layout = page("[{add: brass, count: 5, run: across, left: 1, right: 1, top: 1}]")
        assert [item.rect.centre.x for item in layout.of_step(1)] == [1, 3.5, 6, 8.5, 11]
        assert detail(layout, 1, EvenGap).gap == Fraction(5, 2)

    def test_those_in_line_do_not_lie_on_each_other(self) -> None:
        close = "{add: brass, count: 3, run: across, apart: 3/16, left: 1, top: 1}"
        many = "{add: brass, count: 9, run: across, left: 1, right: 9 1/4, top: 1}"
        assert ids(page(f"[{close}]")) == ["overlap-too-large"]
        assert ids(page(f"[{many}]")) == ["series-too-long"]
        assert ids(page(f"[{close.replace('3/16', '1/4')}]")) == []
        assert ids(page(f"[{many.replace('9 1/4', '9')}]")) == []

    def test_scattered_they_hide_nothing(self) -> None:
        layout = page("[{place: mat, left: 2, top: 3}, {add: brass, count: 7, on: mat}]")
        assert layout.findings == ()
        assert detail(layout, 2, Added) == Added((2,), 7, scattered=True)
        assert layout.items[-1].count == 7

    @pytest.mark.parametrize(
        ("words", "found"),
        [
            ("count: 3, left: 1, top: 1", "position-open"),
            ("corners: all, on: tag", "position-open"),
            ("corners: all, on: tag, inset: 1/4, count: 3", "corners-count"),
            ("count: 3, run: across, left: 1, top: 1", "position-open"),
        ],
    )
    def test_not_settled(self, words: str, found: str) -> None:
        assert found in ids(page(f"[{{place: tag, left: 0, top: 0}}, {{add: brass, {words}}}]"))


def test_what_has_no_size_is_a_quarter_of_an_inch_or_six_millimetres_wide() -> None:
    sizes = {"base": "300 x 300"}
    metric = page("[{add: glue dots, left: 50, top: 50}]", Unit.MILLIMETRE, sizes)
    assert named(metric, "glue dots").rect == rect("47, 47, 6 x 6", Unit.MILLIMETRE)
    inches = page("[{add: glue dots, left: 2, top: 2}]")
    assert named(inches, "glue dots").rect == rect("1 7/8, 1 7/8, 1/4 x 1/4")


def test_what_the_maker_names_has_its_size_about_its_middle_and_is_turned_as_said() -> None:
    done = page("[{add: brass keys, left: 3, top: 2}, {add: brass keys, left: 6, top: 2, turn: clockwise}]")
    upright, turned = done.items
    assert (upright.rect, turned.rect) == (rect("2 3/4, 1 5/8, 1/2 x 3/4"), rect("5 5/8, 1 3/4, 3/4 x 1/2"))
    assert (turned.turn, ids(done)) == (1, [])
