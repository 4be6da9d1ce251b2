"""A person's own trimmer, from a file of the same keys as a kit's."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.cutting.cut import cut_kit
from booklet.kit.errors import SpecError, UsageError
from booklet.kit.fields import Edge
from booklet.kit.hands import Hand, HeldSide, held_width
from booklet.kit.kit import trimmer_limits
from booklet.kit.own_trimmer import fit_trimmer, load_trimmer
from booklet.kit.schema import json_schema
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from tests.kit.samples import problems, with_line
from tests.kits import Data, cut, make_kit, sheet


def typed(folder: Path, text: str) -> Path:
    file = folder / "mine.yaml"
    file.write_text(text, encoding="utf-8")
    return file


def complaint(folder: Path, text: str) -> str:
    """What is said of a file that cannot be used."""
    with pytest.raises(SpecError) as refused:
        load_trimmer(typed(folder, text), "mine.yaml")
    return str(refused.value)


def test_what_the_file_says_takes_the_place_of_what_the_kit_says(tmp_path: Path) -> None:
    own = load_trimmer(typed(tmp_path, "mark: 1/16 in\nhand: left\n"), "mine.yaml")
    kit = make_kit(sheet(), trimmer={"mark": "1/8", "reach": 14, "together": 2})
    limits = trimmer_limits(fit_trimmer(kit, own))
    assert (limits.mark, limits.reach, limits.together) == (Fraction(1, 16), Fraction(14), 2)
    assert limits.blade == 12, "neither says it: what is usual"
    assert limits.held is HeldSide.BEYOND_BLADE


@pytest.mark.parametrize("text", ["blade: 12 in\n", "unit: in\nblade: 12\n", "unit: mm\nblade: 304.8\n"])
@pytest.mark.parametrize("unit", list(Unit))
def test_it_fits_a_kit_in_any_unit(text: str, unit: Unit, tmp_path: Path) -> None:
    own = load_trimmer(typed(tmp_path, text), "mine.yaml")
    blade = trimmer_limits(fit_trimmer(make_kit(sheet(), unit=unit), own)).blade
    # 1 in = 25.4 mm exactly (yard agreement of 1959).
    assert blade * unit.millimetres == Fraction("304.8")


@pytest.mark.parametrize("zero", ["left", "right"])
@pytest.mark.parametrize(
    "lay", [{}, {"bottom": "selvedge"}, {"face": "back", "left": "wave border", "top": "selvedge"}]
)
def test_a_scale_that_begins_at_the_other_side_takes_the_same_print_off(
    zero: str, lay: Data, tmp_path: Path
) -> None:
    """Every sheet lies half round, so that readings, turns and pieces are the kit's own."""
    own = load_trimmer(typed(tmp_path, f"zero: {zero}\n"), "mine.yaml")
    cuts = (cut([8, 3], ["a", "b", "c"]), cut(5, ["d", "e"], take="b", turn="clockwise"))
    for kits_own in ("left", "right"):
        kit = make_kit(sheet(*cuts, paper="shingle", lay=lay), trimmer={"zero": kits_own})
        fitted = fit_trimmer(kit, own)
        assert trimmer_limits(fitted).zero is Edge(zero)
        before, after = cut_kit(kit)[0], cut_kit(fitted)[0]
        assert after.findings == before.findings
        assert {p.name: p.part for p in after.pieces} == {p.name: p.part for p in before.pieces}
        half = 0 if zero == kits_own else 2
        assert after.whole[0].lying.quarters == (before.whole[0].lying.quarters + half) % 4


@pytest.mark.parametrize(
    ("hand", "zero", "held"),
    [
        ("right", "left", HeldSide.AT_ZERO),
        ("left", "left", HeldSide.BEYOND_BLADE),
        ("right", "right", HeldSide.BEYOND_BLADE),
        ("left", "right", HeldSide.AT_ZERO),
    ],
)
def test_the_hand_that_holds_lies_at_its_own_side_of_the_blade(hand: str, zero: str, held: HeldSide) -> None:
    assert trimmer_limits(make_kit(sheet(), trimmer={"hand": hand, "zero": zero})).held is held


MISTAKES = {
    "reach: 14 in\nhold: 1\n": "2: hold: found 1, expected a length with its unit, such as 12 in",
    "mark: 1/8 in\nholt: 1 in\n": '2: found the unknown key "holt", expected mark, reach',
    "hold: wide\n": "1: hold: found wide, expected a length such as 6 1/4, 6.25 or 108 mm; hold is the least",
    "unit: in\nhand: lefft\n": "2: hand: found lefft, expected right or left; hand is the hand",
    "together: 11\n": "1: together: found 11, expected a whole number from 1 to 10; together is",
    "zero: top\n": "1: zero: found top, expected left or right; zero is the side",
    "- mark\n": "1: found a list, expected keys (mark, reach, blade, hold, together, ",
    "": "1: found an empty file, expected a trimmer's keys",
    "mark: 1/8 in\n  reach: 14 in\n": "2: found a key under words that go on",
}


@pytest.mark.parametrize("text", MISTAKES)
def test_a_mistake_is_reported_with_that_file_and_its_line(text: str, tmp_path: Path) -> None:
    assert complaint(tmp_path, text).startswith(f"mine.yaml:{MISTAKES[text]}")


def test_a_file_that_is_not_there_is_answered_with_the_nearest(tmp_path: Path) -> None:
    typed(tmp_path, "mark: 1/8 in\n")
    with pytest.raises(UsageError, match=r"there is no file mime\.yaml \(nearest: mine\.yaml\)"):
        load_trimmer(tmp_path / "mime.yaml", "mime.yaml")


@pytest.mark.parametrize("key", ["mark", "reach", "blade", "hold", "together", "hand"])
def test_an_editor_and_a_message_explain_each_key_by_what_it_tests(key: str) -> None:
    described = json_schema()["$defs"]["Trimmer"]["properties"][key]["description"]
    assert "tested is" in described
    stated = "trimmer: {mark: 1/8, reach: 15, together: 3}"
    text, line = with_line(stated, f"trimmer: {{{key}: nothing of the kind}}")
    (problem,) = problems(text)
    assert problem.line == line
    assert problem.expected.endswith(f"; {key} is {described}")


@pytest.mark.parametrize(
    ("hand", "side"),
    [(None, HeldSide.WIDER), (Hand.RIGHT, HeldSide.AT_ZERO), (Hand.LEFT, HeldSide.BEYOND_BLADE)],
)
def test_the_hand_that_does_not_run_the_blade_holds_the_paper_at_its_own_side(
    hand: Hand | None, side: HeldSide
) -> None:
    said = {"hand": hand.value} if hand else {}
    assert trimmer_limits(make_kit(sheet(), trimmer=said)).held is side


def test_the_part_that_is_held_is_the_wider_one_or_the_one_at_the_hand() -> None:
    near, far = Fraction(9), Fraction(3)
    assert [held_width(near, far, side) for side in HeldSide] == [9, 9, 3]
    assert held_width(far, near, HeldSide.WIDER) == 9
