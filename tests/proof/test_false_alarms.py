"""Booklets that are right and drawn otherwise than the demos: the proof minds none of them."""

from __future__ import annotations

import pytest

from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.proof.figures import joined
from booklet.proof.measured import marks_off
from booklet.proof.numerals import leeway
from booklet.proof.printed import Box, Letter, Word
from tests.finished.kits import LONG_NAMES
from tests.spec_data import demo_data, loaded_data
from tests.tampering.proved import booklet_of, caught_by, made, whole_proof
from tests.variations import VARIATIONS


@pytest.mark.thorough
@pytest.mark.parametrize("name", ["in_the_other_of_inches_and_centimetres", "the_other_page_format"])
def test_a_demo_that_is_typed_otherwise_holds(name: str) -> None:
    """Rounded readings and rulers that end within a mark; flags that interlock and stand far aside."""
    booklet = booklet_of(loaded_data(VARIATIONS[name](demo_data("roof-garden"))))
    assert caught_by(whole_proof(booklet)) == ()


def test_a_kit_in_millimetres_holds() -> None:
    assert caught_by(whole_proof(made(LONG_NAMES))) == ()


def test_marks_may_stand_at_every_fifth_unit_but_nowhere_else() -> None:
    """A millimetre of 2 points: marks 10 apart, each second one longer."""
    marks = [(7.0 + 10.0 * at, 4.0 if at % 2 else 6.0) for at in range(12)]
    assert marks_off(marks, 7.0, 2.0) == pytest.approx(0.0, abs=1e-9)
    wide = [(7.0 + 10.4 * at, length) for at, (_, length) in enumerate(marks)]
    assert (marks_off(wide, 7.0, 2.0) or 0.0) > 0.05
    one_off = [*marks[:5], (marks[5][0] + 0.3, marks[5][1]), *marks[6:]]
    assert (marks_off(one_off, 7.0, 2.0) or 0.0) > 0.05


@pytest.mark.parametrize(
    ("said", "unit", "off"),
    [
        ("5¹⁄₈", Unit.INCH, Fraction(0)),
        ("≈ 5¹⁄₈", Unit.INCH, Fraction(1, 32)),
        ("≈ 82.5", Unit.MILLIMETRE, Fraction(1, 4)),
    ],
)
def test_what_is_said_about_may_be_half_a_mark_off(said: str, unit: Unit, off: Fraction) -> None:
    assert leeway(said, unit) == off


def test_a_number_does_not_run_into_one_that_stands_left_of_it_and_a_little_lower() -> None:
    words = [_word("3", 200.0, 100.4), _word("5", 120.0, 100.6)]
    assert [one.said for one in joined(words)] == ["5", "3"]


def test_numbers_on_one_line_are_one_text_where_no_more_than_a_space_is_between() -> None:
    words = [_word("×", 107.0, 100.0), _word("2", 100.0, 100.2), _word("4", 150.0, 99.9)]
    assert [one.said for one in joined(words)] == ["2 ×", "4"]


def _word(text: str, left: float, baseline: float) -> Word:
    box = Box(left, baseline - 7.0, left + 5.0, baseline)
    return Word((Letter(text, box, 10.0, 0.0, (0, 0, 0), baseline, 0, "BookletSans-Regular"),), box)
