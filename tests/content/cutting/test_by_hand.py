"""What scissors and punches do between the cuts, as it is told below a stage and in the lists of tools."""

from __future__ import annotations

import pytest

from booklet.content.blocks import ItemList
from booklet.content.front.tools import tools_section
from booklet.content.spans import Own
from booklet.content.words.language import ENGLISH
from booklet.placing.resolved import ResolvedKit
from tests.content.cutting.slips import resolved, row_text, section_of, slip, stages_of
from tests.content.walking import all_of, lines_of, said
from tests.kits import Data, cut, layout, sheet

STRIP = cut([9, 3], ["one", "rest", "words"])
TAGS = cut([8, 4], ["tag", "tag", "tag"], take="words", turn="clockwise")


def by_hand(kit: ResolvedKit, stage: int) -> list[str]:
    """The rows of what is done by hand after a stage."""
    work = stages_of(section_of(kit))[stage].work
    return [] if work is None else [row_text(row).replace("\u00a0", " ") for row in work.rows]


def told(step: Data, **more: str) -> str:
    """What is said of a step that works on three tags of 3 x 4."""
    kit = resolved(sheet(STRIP, TAGS, step, **more), places=("tag", "tag", "tag"))
    return by_hand(kit, 1)[0]


def test_the_parts_of_a_strip_of_words_go_to_their_pockets() -> None:
    snip = {
        "snip": "words",
        "measured_from": "top",
        "at": [3, 5, 11],
        "leaves": ["sky", "sea", "sand", "scrap"],
    }
    layouts = [layout("one", "sky", "sand", pocket="A3"), layout("rest", "sea", id="flood", pocket=2)]
    kit = resolved(sheet(STRIP, snip), layouts=layouts)
    assert kit.ledger.findings == ()
    assert slip(kit)[0] == "1 9 | C aside for 3"
    assert by_hand(kit, 0) == [
        "3  | Snip C at 3 in, 5 in and 11 in from its top edge.",
        "D sky, 3 × 3 | A3 tick",
        "E sea, 3 × 2 | 2 tick",
        "F sand, 3 × 6 | A3 tick",
        "scrap, 1 in wide",
    ]


def test_a_piece_is_filed_once_all_is_done_to_it_and_not_before() -> None:
    works: list[Data] = [
        {"round": "tag", "radius": "1/4", "corners": ["top left", "top right"]},
        {"punch": "tag", "hole": "1/8", "top": "1/4", "tip": "Twice, for thick paper."},
    ]
    kit = resolved(sheet(STRIP, TAGS, *works), places=("tag", "tag", "tag"))
    assert slip(kit, 1) == ["3 8 | F aside for 5", "4 4 | E aside for 5", "stays | D: go on to 5"]
    assert by_hand(kit, 1) == [
        "5  | Round the top left and top right corners of D E F, radius ¹⁄₄ in.",
        "D E F aside for 6",
        "6  | Punch a ¹⁄₈ in hole in D E F, the rim ¹⁄₄ in from the top edge, half way across.",
        "Twice, for thick paper.",
        "D E F tags, 3 × 4 | 4 tick",
    ]


SAID = [
    ({"punch": "tag", "hole": "1/4"}, "Punch a ¹⁄₄ in hole in D E F, in the middle."),
    (
        {"punch": "tag", "hole": 1, "left": "1/4", "bottom": 1, "shape": "round"},
        "Punch a 1 in round hole in D E F, the rim ¹⁄₄ in from the left edge, 1 in from the bottom edge.",
    ),
    (
        {"punch": "tag", "corners": "all", "shape": "ticket"},
        "Punch all four corners of D E F, shape: ticket.",
    ),
    ({"trim_round": "tag"}, "Trim D E F along their printed outline."),
    (
        {"trim_round": "tag", "size": "2 x 3 1/2", "outline": "the printed cloud"},
        "Trim D E F along the printed cloud, to 2 × 3¹⁄₂ in.",
    ),
    ({"round": "tag", "radius": "1/2"}, "Round all four corners of D E F, radius ¹⁄₂ in."),
    ({"snip": "tag", "at": 1, "leaves": ["tag", "scrap"]}, "Snip D E F at 1 in from their left edge."),
]


@pytest.mark.parametrize(("step", "words"), SAID)
def test_what_is_done_is_said_with_the_letters_of_the_pieces(step: Data, words: str) -> None:
    assert told(step).removeprefix("5  | ") == words


def test_a_part_that_is_cut_on_is_set_aside_and_taken_up_again() -> None:
    snip = {"snip": "words", "measured_from": "top", "at": 4, "leaves": ["sky", "sea"]}
    later = cut(4, ["one more", "scrap"], take="sea", turn="clockwise")
    kit = resolved(sheet(STRIP, snip, later), places=("sky",))
    assert by_hand(kit, 0)[1:] == ["D sky, 3 × 4 | 4 tick", "E aside for 4"]
    assert said(stages_of(section_of(kit))[1].heading).startswith("Take E. Turn it a quarter, clockwise.")


def test_scissors_and_punches_are_in_the_lists_of_tools() -> None:
    works = [{"punch": "tag", "hole": "1/8"}, {"trim_round": "tag"}]
    kit = resolved(sheet(STRIP, TAGS, *works), places=("tag", "tag", "tag"))
    assert any(one.endswith("By hand: scissors, hole punch.") for one in lines_of(section_of(kit)))
    listed = [said(one) for one in all_of(ItemList, tools_section(kit, ENGLISH))[0].items]
    assert listed[-1] == "for the cutting table: scissors, hole punch"
    without = resolved(sheet(STRIP, TAGS), places=("tag", "tag", "tag"))
    assert not any("By hand" in one for one in lines_of(section_of(without)))
    assert "for the cutting table" not in " ".join(lines_of(tools_section(without, ENGLISH)))


def test_the_designer_s_words_for_an_outline_are_the_designer_s_own() -> None:
    kit = resolved(sheet(STRIP, TAGS, {"trim_round": "tag", "outline": "the wavy line"}), places=("tag",) * 3)
    own = {(one.text, one.source) for one in all_of(Own, section_of(kit))}
    assert ("the wavy line", ("sheets", 0, "cuts", 2, "outline")) in own
