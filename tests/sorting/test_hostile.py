"""Kits that make no sense, as far as a spec can say them: findings, never a failure."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.cutting.cut import cut_kit
from booklet.cutting.model import CutSheet, Fate, sheet_work
from booklet.kit.finding import Finding
from booklet.kit.kit import Kit
from booklet.measure.length import Unit
from booklet.sorting.ledger import keep_ledger, wants
from booklet.sorting.pile import check_pile, pile
from tests.cutting.balance import area_balance
from tests.kits import Data, cut, cut_one, element, ids, layout, make_kit, ready, sheet, value_at

NAMES = ["a", "b", "scrap", "Scrap", "sheet 0", "a and b", "\u202e\x1b[2J", "x" * 60]
names = st.sampled_from(NAMES)
lengths = (
    st.integers(1, 13)
    | st.sampled_from([4, 6, 8, "1/8", "100", "1/7", "4 1/3", "1 mm", "11.999999999", "12.000000001"])
    | st.fractions(min_value=Fraction(1, 127), max_value=20, max_denominator=127)
)
anywhere = st.integers(-3, 14) | st.sampled_from(["-0.000001", "1/7", "-100", "100", "3 1/3"])
sizes = st.sampled_from(["12 x 12", "3 x 3", "1/7 x 1/3", "1/8 x 100", "100 x 1", "305 mm x 1 cm"])
pockets = st.integers(1, 5) | st.sampled_from(["A3", "front"])
turns = st.sampled_from([None, "clockwise", "anticlockwise", "half"])


def few(things: st.SearchStrategy[Any], least: int = 0, most: int = 4) -> st.SearchStrategy[list[Any]]:
    return st.lists(things, min_size=least, max_size=most)


steps = st.builds(cut, few(lengths, 1), few(names, most=5), take=few(names, most=5), turn=turns)
elements = st.builds(element, st.sampled_from(["a", "b", "scrap", "sun"]), anywhere, anywhere, sizes)
lays = st.fixed_dictionaries(
    {
        "face": st.sampled_from(["front", "back"]),
        "left": st.sampled_from(["left", "selvedge", "top", "right"]),
    }
)


@st.composite
def sheets(draw: st.DrawFn, number: int) -> Data:
    return sheet(
        *draw(st.lists(steps, max_size=5)),
        id=draw(st.sampled_from([f"sheet {number}", "a", "scrap"])) if number else "sheet 0",
        paper="shingle",
        size=draw(sizes | st.none()),
        count=draw(st.integers(1, 12)),
        lay=draw(lays),
        elements=draw(st.just([]) | few(elements)),
        spare=draw(few(names)),
        sizes=draw(st.dictionaries(names, sizes, max_size=2)),
        pockets=draw(st.dictionaries(names, pockets | few(pockets, 1), max_size=2)),
    )


@st.composite
def kits(draw: st.DrawFn) -> Kit:
    limits = st.fixed_dictionaries({}, optional=dict.fromkeys(("mark", "reach", "blade", "hold"), lengths))
    layouts = st.builds(lambda wanted, pocket: layout(*wanted, pocket=pocket), few(names, 1), pockets)
    boxes = st.builds(ready, names, st.integers(1, 9), st.integers(0, 20))
    return make_kit(
        *(draw(sheets(number)) for number in range(draw(st.integers(1, 3)))),
        layouts=[one | {"id": f"layout {n}"} for n, one in enumerate(draw(few(layouts, 1, 3)))],
        unit=draw(st.sampled_from(Unit)),
        sheet=draw(sizes),
        trimmer=draw(limits),
        ready=draw(few(boxes, most=2)),
        pile=draw(few(names) | st.none()),
        assembly=draw(st.sampled_from(["first layout first", "last layout first"])),
    )


def findings_of(kit: Kit) -> tuple[tuple[CutSheet, ...], list[Finding]]:
    done = cut_kit(kit)
    ledger = keep_ledger(kit, done, wants(kit))
    assert len(pile(kit, done, ledger)) == len(kit.sheets)
    return done, [*(f for one in done for f in one.findings), *ledger.findings, *check_pile(kit)]


def assert_sound(done: CutSheet) -> None:
    """Whatever was asked, paper is neither made nor lost, and every stage can be drawn."""
    assert area_balance(done) == 0
    assert len(done.whole) == done.sheet.count
    assert all(piece.size.width > 0 and piece.size.height > 0 for piece in done.pieces)
    pairs = combinations(done.pieces, 2)
    assert not any(one.part.overlaps(other.part) for one, other in pairs if one.copy == other.copy)
    labels = [piece.label for piece in done.pieces if piece.part.size != done.size and piece.label]
    assert len(labels) == len(set(labels))
    for stage in done.stages:
        assert stage.taken
        assert len(stage.strips) == len(stage.cuts) + 1
        assert [s.start for s in stage.strips[1:]] == [s.end for s in stage.strips[:-1]]
        assert stage.strips[0].start == 0
        assert stage.strips[-1].end == stage.seen.width
        assert all(len(s.pieces) == len(stage.taken) for s in stage.strips)
        assert all(piece.fate is Fate.CUT_AGAIN for piece in stage.taken)
    numbers = [one.number for stage in done.stages for one in stage.cuts]
    assert numbers == list(range(1, sheet_work(done).cuts + 1))


@settings(max_examples=40)
@given(kits())
def test_no_kit_makes_the_stages_fail(kit: Kit) -> None:
    assert_answered(kit)


@pytest.mark.thorough
@settings(max_examples=200)
@given(kits())
def test_none_of_many_kits_makes_the_stages_fail(kit: Kit) -> None:
    assert_answered(kit)


def assert_answered(kit: Kit) -> None:
    done, findings = findings_of(kit)
    for one in done:
        assert_sound(one)
    assert len(findings) == len(set(findings))
    for finding in findings:
        value_at(kit, finding.where)
        said = f"{finding.found} {finding.cure}".replace("\u00a0", " ")
        assert said.isprintable(), "a message could move the cursor of a terminal"


def test_a_strip_as_thin_as_a_spec_can_say_is_cut_exactly() -> None:
    done = cut_one(sheet(cut("0.015625001", ["thread", "rest"])))
    assert ids(done.findings) == ["reading-off-mark"]
    assert done.pieces[0].size.width == Fraction("0.015625001")


def test_forty_readings_across_a_sheet() -> None:
    at = [f"{n}/4" for n in range(47, 0, -1)]
    done = cut_one(sheet(cut(at, ["strip"] * 48)))
    assert {f.id for f in done.findings} == {"narrow-hold"}
    starts = [s.start for s in done.stages[0].strips]
    assert {far - near for near, far in pairwise(starts)} == {Fraction(1, 4)}


@pytest.mark.parametrize("outside", [(-4, 0), (13, 0), (0, -4), (0, 13)])
def test_an_element_far_off_the_sheet_is_found_and_named_nowhere(outside: tuple[int, int]) -> None:
    done = cut_one(sheet(cut(6, ["a", "b"]), elements=[element("sun", *outside)]))
    assert ids(done.findings) == ["element-off-sheet"]
