"""Of the names that there are, the one that was meant."""

from __future__ import annotations

import pytest

from booklet.kit.words import nearest

NAMES = ("label", "banner", "title")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("lable", "label"),
        ("BANNER", "banner"),
        # Of 13 letters 2 x 4 stand in one order, n-n-e-r in both: 0.615.
        ("lantern", "banner"),
        # Of 10 letters 2 x 3, a-e-l: 0.6, the least that is not yet likely.
        ("panel", None),
        # Of 11 letters 2 x 3, and the same letter begins both: 0.595.
        ("ticket", None),
        ("sun", None),
    ],
)
def test_a_name_is_meant_where_more_than_six_letters_of_ten_agree(typed: str, meant: str | None) -> None:
    assert nearest(typed, NAMES) == meant


def test_of_two_as_likely_the_first_is_meant() -> None:
    assert nearest("mat c", ["mat a", "mat b"]) == "mat a"
