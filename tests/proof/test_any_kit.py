"""Kits that are typed, measured and printed otherwise: nothing that is right is found wrong."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.proof.lengths import measured
from booklet.proof.measured import marks_off
from booklet.proof.numerals import leeway
from booklet.proof.read_back import read_back
from tests.finished.kits import LONG_NAMES
from tests.proof.finished import finished
from tests.spec_data import Data, demo_data
from tests.variations import (
    in_the_other_of_inches_and_centimetres,
    measured_from_the_other_edges,
    the_other_page_format,
)


def zero_at_the_right(data: Data) -> Data:
    return {**data, "trimmer": {**data.get("trimmer", {}), "zero": "right"}}


def wrong(spec: str) -> list[str]:
    """The keys of what is found wrong on the pages of a kit's booklet."""
    made = finished(spec)
    pages = read_back(made.claims, made.pages)
    lost = [claim.key for page in pages for claim in (*page.missing, *page.misprinted)]
    drawn = measured(made.resolved, made.figures, made.pages)
    return (
        lost
        + [one.claim.key for one in drawn if not one.holds]
        + [str(token) for page in pages for token in page.unclaimed]
    )


def test_words_may_be_broken_at_the_end_of_a_line_and_marks_be_wider_apart_than_millimetres() -> None:
    assert wrong(LONG_NAMES) == []


@pytest.mark.parametrize(
    ("demo", "change"),
    [
        ("roof-garden", zero_at_the_right),
        ("roof-garden", in_the_other_of_inches_and_centimetres),
        ("roof-garden", the_other_page_format),
        ("hill-line", the_other_page_format),
        ("hill-line", measured_from_the_other_edges),
    ],
)
def test_a_demo_that_is_made_otherwise_is_found_right(demo: str, change: Callable[[Data], Data]) -> None:
    assert wrong(json.dumps(change(demo_data(demo)), indent=1, ensure_ascii=False)) == []


def test_a_number_that_says_it_is_rounded_may_be_half_a_mark_off() -> None:
    assert leeway("≈ 5¹⁄₈", Unit.INCH) == Fraction(1, 32)
    assert leeway("5¹⁄₈", Unit.INCH) == 0


def test_marks_may_stand_at_every_fifth_millimetre() -> None:
    marks = [(3.0 * at, 4.6 if at % 2 == 0 else 2.8) for at in range(31)]
    assert marks_off(marks, 0.0, 0.6) == pytest.approx(0.0, abs=1e-9)
    assert marks_off(marks, 0.0, 0.63) == pytest.approx(0.15 * 30 * 127 / 360)
