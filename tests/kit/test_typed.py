"""What is written into a spec reads back as what was meant."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.kit.fields import Turn
from booklet.kit.load import parse_kit
from booklet.kit.sheet import CutStep
from booklet.kit.typed import block_cuts, flow_cuts
from booklet.measure.length import Unit

LENGTHS = st.fractions(min_value=Fraction(1, 10), max_value=Fraction(100), max_denominator=999)
# A name in a spec has no spaces round it and holds no control characters.
NAMES = st.text(
    st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp", "Cn"), exclude_characters="\ufeff"),
    min_size=1,
    max_size=20,
)
STEPS = st.builds(
    CutStep,
    at=st.lists(LENGTHS, min_size=1, max_size=12).map(tuple),
    leaves=st.lists(NAMES.map(str.strip).filter(bool), min_size=1, max_size=12).map(tuple),
    take=st.lists(NAMES.map(str.strip).filter(bool), max_size=3).map(tuple),
    turn=st.sampled_from([None, *Turn]),
)

SPEC = """
title: T
publisher: P
unit: {unit}
sheet: 12 x 12
papers: {{plain: {{front: {{}}}}}}
sheets:
  - id: plain
    paper: plain
    cuts: {cuts}
    tip: t
layouts: [{{id: a, pocket: 1, base: plain}}]
"""


def read_back(cuts: str, unit: Unit) -> tuple[CutStep, ...] | None:
    text = SPEC.format(unit=unit.value, cuts=cuts)
    return parse_kit(text, "kit.yaml", Path()).kit.sheets[0].cuts


@given(st.lists(STEPS, max_size=4).map(tuple), st.sampled_from(list(Unit)))
def test_steps_read_back_as_they_were(cuts: tuple[CutStep, ...], unit: Unit) -> None:
    assert read_back(flow_cuts(cuts, unit), unit) == cuts
    if cuts:
        assert read_back("\n" + "\n".join(block_cuts(cuts, unit, 6)), unit) == cuts


@pytest.mark.parametrize("name", ["null", "~", "yes", "7", "a: b", "a #b", "- a", "[a]", "scrap, then", "*a"])
def test_names_that_yaml_would_take_for_something_else_stay_names(name: str) -> None:
    cuts = (CutStep(at=(Fraction(3),), leaves=(name, "scrap"), take=(name,)),)
    assert read_back(flow_cuts(cuts, Unit.INCH), Unit.INCH) == cuts
    assert read_back("\n" + "\n".join(block_cuts(cuts, Unit.INCH, 6)), Unit.INCH) == cuts


def test_the_lines_are_those_of_a_hand() -> None:
    cuts = (
        CutStep(at=(Fraction(9), Fraction(5, 2)), leaves=("a", "b b", "scrap")),
        CutStep(at=(Fraction(7),), leaves=("c", "d"), take=("a", "a"), turn=Turn.CLOCKWISE),
    )
    assert block_cuts(cuts, Unit.INCH, 6) == [
        "      - at: [9, 2 1/2]",
        "        leaves: [a, b b, scrap]",
        "      - take: [a, a]",
        "        turn: clockwise",
        "        at: [7]",
        "        leaves: [c, d]",
    ]


def test_a_long_list_goes_on_in_the_next_line() -> None:
    names = tuple(f"a rather long name {number}" for number in range(12))
    cuts = (CutStep(at=(Fraction(1),), leaves=names),)
    lines = block_cuts(cuts, Unit.INCH, 6)
    assert max(map(len, lines)) <= 108
    assert read_back("\n" + "\n".join(lines), Unit.INCH) == cuts
