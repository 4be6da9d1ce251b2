"""Letters that the booklet's typefaces lack are told before they print as boxes."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawing.shapes.fonts import Font, font_file, missing_letters
from booklet.kit.kit import Kit
from booklet.kit.load import load_kit
from booklet.proof.letters import COVERED, check_letters
from tests.kits import cut, element, layout, make_kit, sheet, value_at

SPECS = Path(__file__).parents[2] / "kit_specs"
# The faces' own tables, read by another library than the one that prints.
FACES = [frozenset(TTFont(font_file(font)).getBestCmap()) for font in Font]
KNOWN = frozenset.intersection(*FACES)


def kit_that_says(text: str) -> Kit:
    return make_kit(sheet(cut(4, ["strip", "panel"])), title=text)


def told(kit: Kit) -> list[tuple[tuple[str | int, ...], str]]:
    return [(finding.where, finding.found) for finding in check_letters(kit)]


def test_every_letter_that_is_passed_unseen_is_in_all_four_faces() -> None:
    passed = {ord(sign) for sign in map(chr, range(sys.maxunicode + 1)) if re.match(f"[{COVERED}]", sign)}
    assert {ord(sign) for sign in "aZ09ÀÿŁž–—’“”…•€×½"} - {ord("€")} <= passed
    assert {sign for sign in passed if not chr(sign).isspace()} <= KNOWN


@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=30))
def test_the_letters_missed_are_those_that_the_faces_lack_or_that_steer_others(text: str) -> None:
    steering = "\u00ad\u200b\u200d\u202e\u2066\ufeff"
    expected = {sign for sign in text if ord(sign) not in KNOWN and not sign.isspace()}
    missed = missing_letters(text)
    assert expected <= set(missed)
    assert len(missed) == len(set(missed))
    assert missing_letters(steering) == tuple(steering)


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("潮 Low tide", "潮 (U+6F6E)"),
        ("Low tide 🌊", "🌊 (U+1F30A)"),
        ("Low\u200btide", "U+200B"),
        ("Low \u202eedit", "U+202E"),
        ("Low \ue000 tide", "U+E000"),
        ("潮潮汐", "潮 (U+6F6E), 汐 (U+6C50)"),
        (
            "一二三四五六七八",
            "一 (U+4E00), 二 (U+4E8C), 三 (U+4E09), 四 (U+56DB), 五 (U+4E94), 六 (U+516D) and 2 more",
        ),
    ],
)
def test_letters_that_no_face_holds_are_named(text: str, named: str) -> None:
    assert told(kit_that_says(text)) == [(("title",), f"no typeface of the booklet holds {named}")]


@pytest.mark.parametrize("text", ["Crème brûlée", "Łódź, ½ past", "“Tide” – it’s €5…", "Two\nlines"])
def test_letters_of_latin_languages_are_accepted(text: str) -> None:
    assert told(kit_that_says(text)) == []


def test_a_name_is_reported_once_where_it_first_stands() -> None:
    one = sheet(id="labels", elements=[element("潮", 1, 2)], cuts=None, spare=["潮"])
    kit = make_kit(
        {key: value for key, value in one.items() if key != "cuts"},
        sheet(cut(4, ["strip", "base"])),
        layouts=[layout("base", "潮", "strip")],
    )
    ((where, _),) = told(kit)
    assert value_at(kit, where) == "潮"


def test_the_words_of_an_edge_are_looked_through() -> None:
    kit = make_kit(sheet(), papers={"plain": {"front": {}, "edges": {"left": "波 border"}}})
    assert [where for where, _ in told(kit)] == [("papers", "plain", "edges", "left")]


@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_the_kits_that_come_along_are_all_in_the_faces(name: str) -> None:
    assert told(load_kit(SPECS / f"{name}.yaml").kit) == []
