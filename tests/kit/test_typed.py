"""What is written into a spec reads back as what was meant."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.kit.fields import Turn
from booklet.kit.load import parse_kit
from booklet.kit.sheet import CutStep
from booklet.kit.typed import block_cuts, flow_cuts, typed_length, typed_size
from booklet.measure.length import Size, Unit, convert, parse_length, parse_size

LENGTHS = st.fractions(min_value=Fraction(1, 10), max_value=Fraction(100), max_denominator=999)
# What a hand may type besides, in whichever unit: nine decimals.
DECIMALS = st.integers(10**9, 10**11).map(lambda number: Fraction(number, 10**9))
UNITS = st.sampled_from(list(Unit))
# A name in a spec has no spaces round it and holds no characters that cannot be seen.
NAMES = st.text(
    st.characters(exclude_categories=("Cc", "Cf", "Cs", "Zl", "Zp", "Cn")),
    min_size=1,
    max_size=20,
)
STEPS = st.builds(
    CutStep,
    at=st.lists(LENGTHS, min_size=1, max_size=12).map(tuple),
    leaves=st.lists(
        st.lists(NAMES.map(str.strip).filter(bool), min_size=1, max_size=3).map(tuple),
        min_size=1,
        max_size=12,
    ).map(tuple),
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


def read_back(cuts: str, unit: Unit) -> tuple[CutStep, ...]:
    text = SPEC.format(unit=unit.value, cuts=cuts)
    return parse_kit(text, "kit.yaml", Path()).kit.sheets[0].cut_steps


# A list of steps is dear to make up, and each holds many lengths and names.
@settings(max_examples=40)
@given(st.lists(STEPS, max_size=4).map(tuple), st.sampled_from(list(Unit)))
def test_steps_read_back_as_they_were(cuts: tuple[CutStep, ...], unit: Unit) -> None:
    assert read_back(flow_cuts(cuts, unit), unit) == cuts
    if cuts:
        assert read_back("\n" + "\n".join(block_cuts(cuts, unit, 6)), unit) == cuts


@given(DECIMALS, DECIMALS, UNITS, UNITS)
def test_a_length_typed_in_another_unit_reads_back_as_it_was(
    one: Fraction, other: Fraction, typed: Unit, unit: Unit
) -> None:
    width, height = (convert(length, typed, unit) for length in (one, other))
    assert parse_length(typed_length(width, unit), unit) == width
    assert parse_size(typed_size(Size(width, height), unit), unit) == Size(width, height)


def test_a_length_is_said_in_the_unit_of_the_kit_where_that_can_hold_it() -> None:
    inch, mm = Unit.INCH, Unit.MILLIMETRE
    assert typed_length(convert(Fraction(26), Unit.CENTIMETRE, inch), inch) == "10 30/127"
    # 12.34567891 mm is 1234567891/2540000000 in: more figures than a spec may hold.
    assert typed_length(convert(Fraction(1234567891, 10**8), mm, inch), inch) == "12.34567891 mm"
    odd = Size(convert(Fraction(1234567891, 10**8), mm, inch), Fraction(3))
    assert typed_size(odd, inch) == "12.34567891 x 76.2 mm"


@pytest.mark.parametrize("name", ["null", "~", "yes", "7", "a: b", "a #b", "- a", "[a]", "scrap, then", "*a"])
def test_names_that_yaml_would_take_for_something_else_stay_names(name: str) -> None:
    cuts = (CutStep(at=(Fraction(3),), leaves=((name,), ("scrap",)), take=(name,)),)
    assert read_back(flow_cuts(cuts, Unit.INCH), Unit.INCH) == cuts
    assert read_back("\n" + "\n".join(block_cuts(cuts, Unit.INCH, 6)), Unit.INCH) == cuts


def test_the_lines_are_those_of_a_hand() -> None:
    cuts = (
        CutStep(at=(Fraction(9), Fraction(5, 2)), leaves=(("a",), ("b b",), ("scrap",))),
        CutStep(at=(Fraction(7),), leaves=(("c", "e"), ("d",)), take=("a", "a"), turn=Turn.CLOCKWISE),
    )
    assert block_cuts(cuts, Unit.INCH, 6) == [
        "      - at: [9, 2 1/2]",
        "        leaves: [a, b b, scrap]",
        "      - take: [a, a]",
        "        turn: clockwise",
        "        at: [7]",
        "        leaves: [[c, e], d]",
    ]


def test_a_long_list_goes_on_in_the_next_line() -> None:
    names = tuple(f"a rather long name {number}" for number in range(12))
    cuts = (CutStep(at=(Fraction(1),), leaves=tuple((name,) for name in names)),)
    lines = block_cuts(cuts, Unit.INCH, 6)
    assert max(map(len, lines)) <= 108
    assert read_back("\n" + "\n".join(lines), Unit.INCH) == cuts
