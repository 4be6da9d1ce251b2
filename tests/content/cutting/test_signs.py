"""The page that explains the signs, each only where the kit has it."""

from __future__ import annotations

import pytest

from booklet.content.blocks import Arrangement, Card, Cards
from booklet.content.cutting.signs import how_to_read_section
from booklet.content.figures import Sign, SignFigure
from booklet.content.spans import Length, length_text, plain_text
from booklet.content.words.language import ENGLISH
from booklet.measure.length import Unit
from booklet.placing.resolved import ResolvedKit
from tests.content.cutting.slips import resolved
from tests.kits import Data, cut, element, sheet

FEW = sheet(cut([8], ["one", "two"]))
LABELS = sheet(
    cut([6]), id="labels", elements=[element("tag", 0, 0, "6 x 12"), element("ticket", 6, 0, "6 x 12")]
)
ALWAYS = {Sign.READING, Sign.PIECE, Sign.WIDTH, Sign.RING, Sign.FLAG}


def cards(kit: ResolvedKit) -> dict[Sign, Card]:
    """The signs that are explained, in order."""
    (block,) = how_to_read_section(kit, ENGLISH).blocks
    assert isinstance(block, Cards)
    found = {}
    for card in block.cards:
        assert isinstance(card.picture.figure, SignFigure)
        found[card.picture.figure.sign] = card
    return found


def said(card: Card) -> str:
    """What stands beside a sign, under its name."""
    return plain_text(card.lines[1]).replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("sheets", "more"),
    [
        ([FEW], set()),
        ([sheet(cut([8], ["one", "scrap"]))], {Sign.SCRAP}),
        ([sheet(cut([8], ["one", "two"]), count=2)], {Sign.STACK}),
        ([sheet(cut([9, 6, 3], ["one", "two", "two", "two"]))], {Sign.BRACKET}),
        ([sheet(cut([8, "7 1/2"], ["one", "two", "three"]))], {Sign.LENS}),
        (
            [sheet(cut([8], ["one", "two"]), cut([6], ["three", "four"], take="one", turn="clockwise"))],
            {Sign.SET_ASIDE, Sign.TURN},
        ),
        ([FEW, LABELS], {Sign.REGISTER_MARK}),
    ],
)
def test_a_sign_is_explained_only_in_a_kit_that_has_it(sheets: list[Data], more: set[Sign]) -> None:
    assert set(cards(resolved(*sheets))) == ALWAYS | more


def test_a_kit_of_printed_sheets_alone_measures_no_strip() -> None:
    assert Sign.WIDTH not in cards(resolved(LABELS, base="tag"))


def test_a_kit_without_cuts_explains_the_signs_of_its_layouts() -> None:
    whole: Data = {"id": "base", "paper": "plain", "cuts": []}
    section = how_to_read_section(resolved(whole, base="base"), ENGLISH)
    assert plain_text(section.lead) == "All measures are in inches."
    assert list(cards(resolved(whole, base="base"))) == [Sign.RING, Sign.FLAG]


def test_the_signs_are_wanted_on_one_page() -> None:
    assert how_to_read_section(resolved(FEW), ENGLISH).arrangement is Arrangement.COMPACT


@pytest.mark.parametrize(
    ("unit", "shown"),
    [(Unit.INCH, "3\u00a0in"), (Unit.MILLIMETRE, "100\u00a0mm"), (Unit.CENTIMETRE, "10\u00a0cm")],
)
def test_the_value_in_the_words_is_the_one_in_the_sign(unit: Unit, shown: str) -> None:
    kit = resolved(sheet(cut([100], ["one", "two"])) if unit is Unit.MILLIMETRE else FEW, unit=unit)
    reading = cards(kit)[Sign.READING]
    assert isinstance(reading.picture.figure, SignFigure)
    lengths = [span for span in reading.lines[1] if isinstance(span, Length)]
    assert lengths == [reading.picture.figure.value] * 2
    assert length_text(lengths[0]) == shown


def test_that_letters_are_left_out_is_told_where_one_is() -> None:
    eight = sheet(cut([7, 6, 5, 4, 3, 2, 1], [*["one"] * 8]))
    nine = sheet(cut([8, 7, 6, 5, 4, 3, 2, 1], [*["one"] * 9]))
    told = "No piece is called I or O: they look like 1 and 0."
    assert told not in said(cards(resolved(eight))[Sign.PIECE])
    assert told in said(cards(resolved(nine))[Sign.PIECE])


def test_a_kit_with_a_spare_piece_says_to_keep_it() -> None:
    spare = sheet(cut([8, 4], ["one", "two", "scrap"]), spare=["two"])
    assert "spare" in said(cards(resolved(spare))[Sign.SCRAP])
    assert "spare" not in said(cards(resolved(sheet(cut([8], ["one", "scrap"]))))[Sign.SCRAP])
