"""Photographs: how many of which size, which way up, and what is seen of them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from booklet.measure.length import Unit, parse_size
from booklet.placing.photos import WayUp, photo_slots
from booklet.placing.prints import PRINT_SIZES, exact_print, smallest_print_for
from tests.placing.layouts import page, pages


def test_sizes_of_prints() -> None:
    # 4 x 6 in = 101.6 x 152.4 mm exactly (1 in = 25.4 mm); sold as 102 x 152 (from memory).
    four_by_six = next(one for one in PRINT_SIZES if one.name == "4 x 6 in").size(Unit.MILLIMETRE)
    assert (four_by_six.width, four_by_six.height) == (Fraction(1016, 10), Fraction(1524, 10))
    assert round(four_by_six.width) == 102
    assert round(four_by_six.height) == 152


@pytest.mark.parametrize(
    ("size", "unit", "exact", "smallest"),
    [
        ("4 x 6", Unit.INCH, "4 x 6 in", "4 x 6 in"),
        ("6 x 4", Unit.INCH, "4 x 6 in", "4 x 6 in"),
        ("100 x 150", Unit.MILLIMETRE, "10 x 15 cm", "10 x 15 cm"),
        ("10 x 15 cm", Unit.INCH, "10 x 15 cm", "4 x 6 in"),
        ("3 x 3", Unit.INCH, None, "3 x 4 in"),
        ("3 3/4 x 5 3/4", Unit.INCH, None, "4 x 6 in"),
        ("11 x 12", Unit.INCH, None, None),
    ],
)
def test_which_print_it_takes(size: str, unit: Unit, exact: str | None, smallest: str | None) -> None:
    found, larger = (
        exact_print(parse_size(size, unit), unit),
        smallest_print_for(parse_size(size, unit), unit),
    )
    assert (found.name if found else None) == exact
    assert (larger.name if larger else None) == smallest


def test_slots_of_a_page() -> None:
    layout = page("""
      - {photo: 4 x 6, left: 1, top: 1}
      - {photo: 4 x 6, right: 0, bottom: 1, turn: clockwise}
      - {photo: 3 x 3, left: 6, top: 1}
      - {place: strip, left: 0, top: 6}
    """)
    upright, lying, square = photo_slots(layout, Unit.INCH)
    assert (upright.way_up, lying.way_up, square.way_up) == (WayUp.UPRIGHT, WayUp.LYING, WayUp.SQUARE)
    # The strip covers the photograph from 6 to 7, its last inch of 6.
    assert upright.visible == Fraction(5, 6)
    assert (upright.trimmed, lying.trimmed, square.trimmed) == (False, False, True)


def test_a_photograph_across_the_gutter_counts_once_and_whole() -> None:
    layouts = pages(
        {"steps": "[{photo: 7 x 5, spread: yes, left: 9, top: 1}]", "facing": "page-2"},
        {"steps": "[{other_half: photo}]"},
    )
    (slot,) = (one for layout in layouts for one in photo_slots(layout, Unit.INCH))
    assert (slot.size, slot.way_up, slot.trimmed) == (parse_size("7 x 5", Unit.INCH), WayUp.LYING, False)
