"""Pockets as they are printed on a sorter: numbers and short names, and the order that they have there."""

from __future__ import annotations

import pytest

from booklet.kit.pockets import in_order
from booklet.kit.spreads import pockets_of
from tests.kit.test_limits import load, spec, told
from tests.kits import layout, make_kit, sheet

TOLD = "the number of a pocket from 1 to 99, or its name of at most 8 letters"


def said(pocket: object) -> str:
    return told(spec(layouts=[{"id": "ebb", "pocket": pocket, "base": "sand"}]))


@pytest.mark.parametrize(
    ("pocket", "read"),
    [
        (3, "3"),
        ("07", "7"),
        (99, "99"),
        ("A3", "A3"),
        ("front", "front"),
        ("top left", "top left"),
        ("2b", "2b"),
        ("grün", "grün"),
        ("C+", "C+"),
    ],
)
def test_a_pocket_is_a_number_or_a_name_of_a_few_letters(pocket: object, read: str) -> None:
    kit = load(spec(layouts=[{"id": "ebb", "pocket": pocket, "base": "sand"}]))
    assert kit.layouts[0].pocket == read


@pytest.mark.parametrize("pocket", [0, 100, -1, 1.5, "", "the front", "A B C D E", "#1", "a\nb", [1], "A-"])
def test_what_no_tab_of_a_sorter_bears_is_refused(pocket: object) -> None:
    assert "layouts › ebb › pocket: found" in said(pocket)
    assert TOLD in said(pocket) or said(pocket).endswith("found nothing, expected " + TOLD)


@pytest.mark.parametrize(
    ("stated", "order"),
    [
        (["10", "9", "1"], ["1", "9", "10"]),
        (["A10", "A2", "B1", "A1"], ["A1", "A2", "A10", "B1"]),
        (["B2", "A1", "B1"], ["B1", "B2", "A1"]),
        (["front", "middle", "back"], ["front", "middle", "back"]),
        (["front", "2", "back", "1", "front"], ["front", "1", "2", "back"]),
        (["2b", "2a", "1a"], ["2b", "2a", "1a"]),
    ],
)
def test_numbers_count_up_and_words_come_as_the_kit_says_them(stated: list[str], order: list[str]) -> None:
    assert in_order(stated) == tuple(order)


def test_a_kit_has_the_pockets_of_its_layouts_each_once() -> None:
    layouts = [layout("sheet", id=f"page {at}", pocket=at) for at in ("A2", "A10", "A1")]
    kit = make_kit(sheet(), layouts=[*layouts, layout("sheet", id="last", pocket="A1")])
    assert pockets_of(kit) == ("A1", "A2", "A10")


def test_a_tip_and_a_piece_name_their_pockets_as_the_layout_does() -> None:
    sheets = [{"id": "sand", "paper": "plain", "pockets": {"sand": ["A3", 4]}}]
    kit = load(spec(sheets=sheets, pocket_tips={"A3": "Fold it once.", 4: "Last."}))
    assert kit.sheets[0].pockets == {"sand": ("A3", "4")}
    assert list(kit.pocket_tips) == ["A3", "4"]
    assert "pocket_tips › no such one: found the key" in told(spec(pocket_tips={"no such one": "Where?"}))
