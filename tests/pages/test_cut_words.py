"""The sentences of the cutting pages, told against the cuts that they come from."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.cutting.model import CutSheet, Stage
from booklet.kit.load import parse_kit
from booklet.pages.cut_moves import moves
from booklet.pages.cut_words import direction_words, lay_words, strip_words, take_words
from booklet.pages.type import escaped
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.pages.front import SPECS
from tests.pages.telling import typed

PAPERS = """
papers:
  waves:
    front: {pattern: waves, colours: ["#dfe9ec", "#5d8794"]}
    edges: {left: wave border}
  double:
    front: {pattern: waves, colours: ["#dfe9ec", "#5d8794"]}
    back: {pattern: stripes, colours: ["#ffffff", "#5d8794"]}
  plain: {front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}
  dots: {front: {pattern: dots, colours: ["#efe3cf", "#5d8794"]}}
"""


def work(sheet: str, steps: str = "", base: str = "A one") -> ResolvedKit:
    """A kit of one sheet, given as YAML, and one layout."""
    text = (
        f"title: Low Tide\npublisher: Harbour Paper\nsheet: 12 x 12\n{PAPERS}\nsheets:\n  - {sheet}\n"
        f"layouts:\n  - {{id: ebb, pocket: 4, base: {base}, steps: [{steps}]}}\n"
    )
    return resolve_kit(parse_kit(text, "kit.yaml", SPECS))


def cutting(cuts: str, paper: str = "waves", more: str = "", steps: str = "") -> tuple[ResolvedKit, CutSheet]:
    resolved = work(f"{{id: tide, paper: {paper}, cuts: [{cuts}]{more}}}", steps)
    return resolved, resolved.sheets[0]


def told(resolved: ResolvedKit, sheet: CutSheet, stage: int = 0) -> list[str]:
    """Each move of a stage as one line, with lengths as they are typed."""
    return [
        typed(f"{'-'.join(map(str, move.numbers))} {move.order} {' '.join(move.outcome)}")
        for move in moves(resolved, sheet, sheet.stages[stage])
    ]


def test_cut_at_8_then_2_and_a_half() -> None:
    resolved, sheet = cutting("{at: [8, 2 1/2], leaves: [A one, A two, A three]}")
    assert told(resolved, sheet) == [
        "1 Cut at 8. C comes off: A three, 4 x 12.".replace(" x ", " × "),
        "2 Slide to 2 1/2, cut. B comes off: A two, 5 1/2 × 12. A is left: A one, 2 1/2 × 12, pocket 4.",
    ]


def test_a_piece_that_is_cut_on_names_the_step_and_scrap_its_size() -> None:
    resolved, sheet = cutting(
        "{at: [8], leaves: [A two, A one]}, {take: A two, turn: clockwise, at: [7], leaves: [A three, scrap]}"
    )
    assert told(resolved, sheet)[0].endswith("A is left, to be cut in step 2.")
    assert take_words(sheet, sheet.stages[1]) == "Turn A a quarter turn clockwise"
    assert told(resolved, sheet, 1) == ["2 Cut at 7. 8 × 5 of scrap comes off. C is left: A three, 8 × 7."]


def test_cuts_that_give_the_same_piece_are_told_in_one_breath() -> None:
    resolved, sheet = cutting(
        "{at: [9, 6, 3], leaves: [A one, A two, A two, A two]}", steps="{place: A two, left: 0, top: 0}"
    )
    assert told(resolved, sheet) == [
        "1-2-3 Cut at 9, slide to 6 and 3, cut each time. D, C and B come off: A two, 3 × 12, pocket 4. "
        "A is left: A one, 3 × 12, pocket 4."
    ]


def test_a_cut_from_a_cut_edge_says_where_that_edge_lies() -> None:
    resolved, sheet = cutting("{at: [2, 5], leaves: [A one, A two, A three]}")
    assert told(resolved, sheet) == [
        "1 Cut at 2. A comes off: A one, 2 × 12, pocket 4.",
        "2 Lay the cut edge at 2, cut at 5. C comes off: A three, 7 × 12. B is left: A two, 3 × 12.",
    ]


def test_two_halves_that_are_both_cut_again_stay_in_hand() -> None:
    resolved, sheet = cutting("{at: [6, 9, 3], leaves: [A one, A two, A three, A four]}")
    assert told(resolved, sheet)[0] == "1 Cut at 6. Keep both parts in hand."


def test_spare_pieces_say_so() -> None:
    resolved, sheet = cutting("{at: [8], leaves: [A one, A two]}", more=", spare: [A two]")
    assert told(resolved, sheet)[0].startswith("1 Cut at 8. B comes off: A two, 4 × 12, spare.")
    assert strip_words(resolved, sheet, sheet.stages[0].strips[1]).goes == "spare"


def test_pieces_that_are_cut_together_come_off_together() -> None:
    resolved, sheet = cutting("{at: [8], leaves: [A one, A two]}", more=", count: 2")
    assert "C and D come off: A two, 4 × 12." in told(resolved, sheet)[0]
    assert strip_words(resolved, sheet, sheet.stages[0].strips[0]).letters == "A, B"


def test_readings_on_register_marks_are_approximate() -> None:
    resolved = work(
        "{id: tide, paper: plain, lay: {left: top}, elements: [{name: A one, left: 0, top: 0, size: 12 x 4}, "
        "{name: A two, left: 0, top: 4, size: 12 x 4}, {name: A three, left: 0, top: 8, size: 12 x 4}], "
        "cuts: [{at: [8, 4]}]}"
    )
    assert told(resolved, resolved.sheets[0]) == [
        "1-2 Cut on the register marks at ≈ 8 and ≈ 4. Off come C: A three; B: A two. Left is A: A one → 4."
    ]


LAYS = [
    ("waves", "", "Lay it print up, upright."),
    ("waves", "left: wave border", "Lay it print up, wave border at the left."),
    ("waves", "face: back, left: wave border", "Lay it print down, wave border at the left."),
    ("waves", "left: top", "Lay it print up, top of the print at the left."),
    ("double", "face: back", "Lay it stripes up, left of the print, underneath, at the left."),
    ("double", "", "Lay it waves up, upright."),
    ("plain", "", "Lay it either side up, any edge at the left."),
    ("dots", "face: back", "Lay it print down, any edge at the left."),
]


@pytest.mark.parametrize(("paper", "lay", "said"), LAYS)
def test_how_the_sheet_is_laid(paper: str, lay: str, said: str) -> None:
    resolved, sheet = cutting("{at: [8], leaves: [A one, scrap]}", paper, f", lay: {{{lay}}}")
    assert lay_words(resolved, sheet) == said


def test_sheets_that_are_cut_together_are_laid_on_each_other() -> None:
    resolved, sheet = cutting("{at: [8], leaves: [A one, scrap]}", more=", count: 2")
    assert lay_words(resolved, sheet) == "Lay the two sheets on each other, print up, upright."


@pytest.mark.parametrize(
    ("turn", "side"), [("clockwise", "right"), ("half", "near side"), ("anticlockwise", "left")]
)
def test_after_a_turn_the_print_s_top_lies_where_the_figure_shows_it(turn: str, side: str) -> None:
    resolved, sheet = cutting(
        "{at: [8], leaves: [A one, A two]}, "
        f"{{take: A two, turn: {turn}, at: [2], leaves: [A three, scrap]}}"
    )
    assert direction_words(resolved, sheet, sheet.stages[1]) == f"Print’s top at the {side}."


@pytest.mark.parametrize(
    ("as_typed", "as_set"),
    [
        ("move it 3/8 in", "move it ³⁄₈ in"),
        ("the 4 1/2 x 6-1/4 mat's edge", "the 4¹⁄₂\u00a0×\u00a06¹⁄₄ mat’s edge"),
        ("on 1/4/2026, open 24/7, 9/2", "on 1/4/2026, open 24/7, 9/2"),
    ],
)
def test_fractions_in_a_tip_are_set_as_fractions(as_typed: str, as_set: str) -> None:
    assert escaped(as_typed) == as_set


@st.composite
def readings(draw: st.DrawFn) -> list[Fraction]:
    eighths = draw(st.lists(st.integers(9, 95), min_size=1, max_size=6, unique=True))
    return [Fraction(each, 8) for each in eighths]


@given(readings())
def test_every_cut_and_every_piece_is_told_once(values: list[Fraction]) -> None:
    names = ", ".join(f"A piece {at}" for at in range(len(values) + 1))
    at = ", ".join(f'"{value}"' if value.denominator == 1 else typed_mixed(value) for value in values)
    resolved, sheet = cutting(f"{{at: [{at}], leaves: [{names}]}}")
    (stage,) = sheet.stages
    lines = told(resolved, sheet)
    assert [int(n) for line in lines for n in line.split()[0].split("-")] == [c.number for c in stage.cuts]
    text = " ".join(lines)
    for strip in stage.strips:
        assert text.count(f"{strip.pieces[0].name}, ") == 1
    assert in_hand(stage) == [cut.reading for cut in stage.cuts]


def in_hand(stage: Stage) -> list[Fraction]:
    """The readings, each of which parts a strip that was not parted before."""
    bounds = [Fraction(0), stage.seen.width]
    done = []
    for cut in stage.cuts:
        assert any(low < cut.reading < high for low, high in pairwise(sorted(bounds)))
        bounds.append(cut.reading)
        done.append(cut.reading)
    return done


def typed_mixed(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    return f"{whole} {rest}" if whole else str(rest)


def test_a_long_row_of_elements_is_told_by_its_letters_and_marks() -> None:
    names = ", ".join(f"{{name: A {n}, left: {2 * n}, top: 0, size: 2 x 12}}" for n in range(6))
    resolved = work(f"{{id: tide, paper: plain, elements: [{names}], cuts: [{{at: [10, 8, 6, 4, 2]}}]}}")
    assert told(resolved, resolved.sheets[0]) == [
        "1-2-3-4-5 Cut on the five register marks, from ≈ 10 to ≈ 2. Off come B to F. Left is A. "
        "Each, ≈ 2 × 12, goes to the pocket on its chip."
    ]
