"""What lies over a photograph unsaid: found, and once just not."""

from __future__ import annotations

import pytest

from booklet.kit.finding import Severity
from tests.placing.layouts import finding_of, page, serious

# A photograph 6 x 4, from 2 to 8 across and from 4 to 8 down: 24 square inches.
PHOTO = "{photo: 6 x 4, left: 2, top: 4}"


def over(words: str) -> list[str]:
    return serious(page(f"[{PHOTO}, {words}]"))


class TestRoomToWrite:
    @pytest.mark.parametrize(
        ("words", "found"),
        [
            ("{write: 3 x 2, left: 8, top: 4}", []),
            ("{write: 3 x 2, left: 7, top: 4}", ["writing-on-photo"]),
            ("{write: 3 x 2, left: 3, top: 5}", ["writing-on-photo"]),
            ("{write: 3 x 2, on: photo}", []),
            # What is slid beneath lies beneath: no pen reaches the photograph there.
            ("{write: 3 x 2, left: 7, top: 7, tucked: photo}", []),
        ],
    )
    def test_on_a_photograph(self, words: str, found: list[str]) -> None:
        assert over(words) == found

    def test_on_a_card_that_lies_on_the_photograph(self) -> None:
        # The card of 1 x 2 hides a twelfth of the photograph, and is said to.
        assert over("{place: small tag, on: photo, left: 0, top: 0}, {write: 1 x 1, on: small tag}") == []
        larger = (
            "{place: small tag, on: photo, left: 0, top: 0}, {write: 1 x 3, on: small tag, overhang: yes}"
        )
        assert over(larger) == ["writing-on-photo"]

    def test_it_is_told_where_it_is_said(self) -> None:
        finding = finding_of(page(f"[{PHOTO}, {{write: 3 x 2, left: 7, top: 4}}]"), "writing-on-photo")
        assert finding.where == ("layouts", 0, "steps", 1)
        assert finding.severity is Severity.WARNING


class TestPaper:
    @pytest.mark.parametrize(
        ("words", "found"),
        [
            # 2.4 square inches are a tenth: 3 x 0.8 of a banner whose other end lies on the page.
            ("{place: banner, left: 5, top: 7 1/5, overhang: yes}", []),
            ("{place: banner, left: 5, top: 7 3/16, overhang: yes}", ["paper-on-photo"]),
            # A small thing in the middle of it hides a face as well.
            ("{place: small tag, left: 4, top: 5}", ["paper-on-photo"]),
            ("{place: small tag, on: photo}", []),
            ("{place: small tag, left: 4, top: 3}", []),
            ("{place: small tag, tilt: 5, left: 4, top: 5}", ["paper-on-photo"]),
        ],
    )
    def test_over_a_photograph(self, words: str, found: list[str]) -> None:
        assert over(words) == found

    def test_how_much_is_hidden(self) -> None:
        # 1 x 2 of 6 x 4 is a twelfth.
        finding = finding_of(page(f"[{PHOTO}, {{place: small tag, left: 4, top: 5}}]"), "paper-on-photo")
        assert finding.found == '"small tag" lies over "photo" and hides 8 % of it'

    def test_what_lies_on_a_piece_that_is_said_to_lie_there_hides_no_more(self) -> None:
        assert over("{place: small tag, on: photo}, {photo: 1/2 x 1, on: small tag}") == []

    def test_a_photograph_that_is_hidden_for_a_quarter_is_reported_as_such(self) -> None:
        assert over("{place: banner, left: 2, top: 4}") == ["photo-covered"]

    def test_ribbon_and_tape_may_run_over_a_photograph(self) -> None:
        assert over("{tape: rope tape, length: 2, left: 7, top: 4}") == []
