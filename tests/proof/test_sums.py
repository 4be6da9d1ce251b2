"""Sums that must close, and the room that is left to the nearest limit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from booklet.measure.exact import Fraction
from booklet.proof.sums import (
    MarginId,
    Part,
    Sum,
    SumId,
    layout_margin,
    layout_sums,
    least_supply,
    sheet_margin,
    sheet_sums,
    supply_sums,
)
from tests.finished.kits import PLAIN
from tests.proof.finished import finished


@pytest.mark.parametrize(
    "kit", ["hill-line", "roof-garden", PLAIN], ids=["hill-line", "roof-garden", "plain"]
)
def test_all_sums_of_a_kit_without_errors_close(kit: str) -> None:
    resolved = finished(kit).resolved
    sums = [one for sheet in resolved.sheets for one in sheet_sums(resolved, sheet)]
    sums += [one for layout in resolved.layouts for one in layout_sums(resolved, layout)]
    sums += supply_sums(resolved)
    assert [one for one in sums if not one.closes] == []
    assert {one.id for one in sums} == set(SumId)


def test_the_strips_of_a_stage_are_told_by_their_widths() -> None:
    resolved = finished(PLAIN).resolved
    first = next(iter(sheet_sums(resolved, resolved.sheets[0])))
    widths = [strip.end - strip.start for strip in resolved.sheets[0].stages[0].strips]
    assert [part.value for part in first.parts for _ in range(part.count)] == widths
    assert (first.id, first.stage, first.total) == (SumId.STRIPS, 1, Fraction(12))


def test_strips_that_do_not_add_up_to_their_sheet_are_found() -> None:
    resolved = finished(PLAIN).resolved
    sheet = resolved.sheets[0]
    stage = sheet.stages[0]
    short = replace(stage, strips=stage.strips[:-1])
    found = sheet_sums(resolved, replace(sheet, stages=(short, *sheet.stages[1:])))
    assert [(one.id, one.stage) for one in found if not one.closes] == [(SumId.STRIPS, 1)]


def test_a_piece_that_the_ledger_does_not_know_is_found() -> None:
    resolved = finished(PLAIN).resolved
    ledger = replace(resolved.ledger, entries=resolved.ledger.entries[1:])
    sheet = next(one for one in resolved.sheets if ("sheets", one.index) == resolved.ledger.entries[0].source)
    found = sheet_sums(replace(resolved, ledger=ledger), sheet)
    assert [one.id for one in found if not one.closes] == [SumId.PIECES]


def test_a_supply_that_does_not_suffice_does_not_close() -> None:
    used = (Part(1, Fraction(30)), Part(1, Fraction(8)))
    assert Sum(SumId.SUPPLY, used, Fraction(40), name="cord", left=Fraction(2)).closes
    assert not Sum(SumId.SUPPLY, used, Fraction(36), name="cord", left=Fraction(-2)).closes


def test_the_least_room_is_told_of_the_hand_and_of_the_page() -> None:
    resolved = finished("hill-line").resolved
    margins = [sheet_margin(resolved, sheet) for sheet in resolved.sheets if sheet.stages]
    assert all(margin is not None and margin.room >= 0 for margin in margins)
    # The pine wood: at 1 1/2, the last cut, a strip of 1 1/2 stays at either side; the safe hold is 1.
    pine = next(sheet for sheet in resolved.sheets if sheet.sheet.id == "pine")
    margin = sheet_margin(resolved, pine)
    assert margin is not None
    assert (margin.id, margin.room) == (MarginId.HOLD, Fraction(1, 2))
    edge = layout_margin(resolved.layouts[0])
    assert edge is not None
    assert (edge.id, edge.room) == (MarginId.EDGE, Fraction(3, 8))


def test_the_supply_of_which_the_least_is_left_is_told() -> None:
    least = least_supply(finished("roof-garden").resolved)
    assert least is not None
    assert (least.name, least.left, least.total) == ("string", Fraction(5), Fraction(100))
