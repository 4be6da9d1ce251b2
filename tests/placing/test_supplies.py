"""Supplies against the box: the sums, and each finding once triggered and once just not."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from booklet.kit.finding import Severity
from booklet.placing.place_layouts import place_layouts
from booklet.placing.supplies import SupplyBalance, balance_supplies, check_supplies
from tests.placing.layouts import kit_of, pieces, steps_of


def balance(supply: dict[str, Any], *layouts: str) -> tuple[SupplyBalance, list[tuple[str, Severity]]]:
    """The balance of one supply over these layouts, and what is said about it."""
    kit = kit_of(*({"steps": steps_of(steps)} for steps in layouts), supplies=[supply])
    placed = place_layouts(kit, pieces())
    (found,) = balance_supplies(kit, placed)
    return found, [(finding.id, finding.severity) for finding in check_supplies(kit, placed)]


def twill(length: str) -> dict[str, Any]:
    return {"id": "twill", "kind": "ribbon", "width": "1/2", "length": length}


RUN = "[{ribbon: twill, run: across, top: 1}]"


def test_lengths_add_up_layout_by_layout() -> None:
    # A run across 12 and two ends of 1: 14.  A loop of 2: 4, and a bow of 9: 13.  27 in all of 40.
    found, said = balance(
        twill("40"),
        RUN,
        "[{ribbon: twill, loop: 2, left: 0, top: 0}, {ribbon: twill, bow: 9, left: 1, top: 1}]",
    )
    assert found.per_layout == (("page-1", Fraction(14)), ("page-2", Fraction(13)))
    assert (found.used, found.left) == (Fraction(27), Fraction(13))
    assert said == []


@pytest.mark.parametrize(
    ("length", "said"),
    [
        ("13 15/16", [("supply-short", Severity.ERROR)]),
        # Exactly enough leaves nothing; 14 of 14 11/16 leaves 4.7 %, 14 of 14 14/19 leaves 5 % to a hair.
        ("14", [("supply-narrow", Severity.WARNING)]),
        ("14 11/16", [("supply-narrow", Severity.WARNING)]),
        ("14 14/19", []),
        ("15", []),
    ],
)
def test_a_length_against_the_box(length: str, said: list[tuple[str, Severity]]) -> None:
    assert balance(twill(length), RUN)[1] == said


@pytest.mark.parametrize(
    ("count", "said"),
    [
        ("3", [("supply-short", Severity.ERROR)]),
        # Exactly enough is right for what is counted.
        ("4", []),
        ("5", []),
    ],
)
def test_a_count_against_the_box(count: str, said: list[tuple[str, Severity]]) -> None:
    step = "[{place: mat, left: 1, top: 1}, {add: brass, corners: all, on: mat, inset: 1/4}]"
    assert balance({"id": "brass", "kind": "brads", "count": count}, step)[1] == said


@pytest.mark.parametrize(
    ("spare", "said"),
    [
        ("26", []),
        ("25 15/16", [("supply-left-differs", Severity.ERROR)]),
        ("0", [("supply-left-differs", Severity.ERROR)]),
    ],
)
def test_what_is_left_is_stated_again(spare: str, said: list[tuple[str, Severity]]) -> None:
    # 14 of 40.
    assert balance({**twill("40"), "spare": spare}, RUN)[1] == said


def test_what_is_short_leaves_nothing_to_compare() -> None:
    assert balance({**twill("12"), "spare": "2"}, RUN)[1] == [("supply-short", Severity.ERROR)]


def test_a_number_that_is_left_may_be_none() -> None:
    step = "[{place: mat, left: 1, top: 1}, {add: brass, corners: all, on: mat, inset: 1/4}]"
    supply = {"id": "brass", "kind": "brads", "count": "4", "spare": "0"}
    assert "supply-left-differs" not in dict(balance(supply, step)[1])
    assert "supply-left-differs" in dict(balance({**supply, "count": "5"}, step)[1])


@pytest.mark.parametrize(("size", "is_found"), [("3/16 x 3/16", False), ("5/16 x 3/16", True)])
def test_brads_are_round(size: str, is_found: bool) -> None:
    step = "[{place: mat, left: 1, top: 1}, {add: brass, corners: all, on: mat, inset: 1/4}]"
    supply = {"id": "brass", "kind": "brads", "count": "4", "size": size}
    assert (("brad-not-round", Severity.NOTE) in balance(supply, step)[1]) is is_found


@pytest.mark.parametrize(
    ("size", "is_found"),
    [("6 x 6", False), ("6 1/8 x 6", True), ("6 x 6 1/8", True), ("6 1/8 x 6 1/8", False)],
)
def test_a_stencil_holds_whole_repeats_both_ways_or_has_a_rim_all_round(size: str, is_found: bool) -> None:
    step = "[{stencil: net, left: 1, top: 1, size: 6 x 6}]"
    supply = {"id": "net", "kind": "stencil", "size": size, "repeat": "1 1/2 x 1"}
    assert (("repeat-uneven", Severity.NOTE) in balance(supply, step)[1]) is is_found


def test_several_rolls_of_a_length() -> None:
    supply = {**twill("10"), "count": "2"}
    assert balance(supply, RUN)[0].left == 6


def test_an_optional_step_may_go_short_with_a_warning_only() -> None:
    steps = RUN[:-1] + ", {ribbon: twill, bow: 9, left: 1, top: 3, optional: yes}]"
    found, said = balance(twill("20"), steps)
    # 14 + 9 = 23 of 20: three too few, but the bow is optional.
    assert (found.used, found.optional, found.left) == (Fraction(23), Fraction(9), Fraction(-3))
    assert said == [("supply-short-for-options", Severity.WARNING)]


def test_what_is_used_unseen_counts() -> None:
    steps = """
      - {place: tag, left: 0, top: 0, uses: {glue dots: 4}}
      - {row: tag, count: 2, apart: 1, left: 4, top: 0, uses: {glue dots: 8}}
    """
    found, _ = balance({"id": "glue dots", "kind": "dots", "count": "100"}, steps)
    assert found.used == 12


def test_how_much_is_in_the_box_is_not_said() -> None:
    found, said = balance({"id": "twill", "kind": "ribbon", "width": "1/2"}, RUN)
    assert found.left is None
    assert said == [("supply-uncounted", Severity.WARNING)]


def test_a_stencil_and_ink_are_not_used_up() -> None:
    steps = "[{stencil: net, size: 2 x 2, left: 1, top: 1}, {stencil: net, size: 2 x 2, left: 5, top: 1}]"
    assert balance({"id": "net", "kind": "stencil", "count": "1"}, steps)[1] == []


def test_a_shortage_says_which_layout_takes_how_much() -> None:
    kit = kit_of({"steps": steps_of(RUN)}, {"steps": steps_of(RUN)}, supplies=[twill("24")])
    (finding,) = check_supplies(kit, place_layouts(kit, pieces()))
    assert finding.where == ("supplies", 0, "length")
    assert finding.found == '28 in of "twill" is used, 24 in is in the box'
    assert finding.cure == "put more in the box, or use less: page-1 14 in, page-2 14 in"


CHARM = {"id": "charms", "kind": "metal charm", "outline": "drop", "size": "1/2 x 3/4"}
THREE = "[{add: charms, run: across, count: 3, left: 2, right: 2, top: 1}]"


@pytest.mark.parametrize(
    ("count", "said"), [("2", [("supply-short", Severity.ERROR)]), ("4", []), (None, ["supply-uncounted"])]
)
def test_what_the_maker_names_is_counted_as_any_supply(count: str | None, said: list[Any]) -> None:
    supply = CHARM if count is None else {**CHARM, "count": count}
    found, told = balance(supply, THREE)
    assert found.used == 3
    assert told == said or [id for id, _ in told] == said


def test_of_what_comes_from_home_no_count_is_asked_for() -> None:
    found, said = balance({**CHARM, "from": "home"}, THREE, "[{add: charms, left: 1, top: 1}]")
    assert (found.from_home, found.boxed, found.used, said) == (True, None, Fraction(4), [])


@pytest.mark.parametrize(("count", "said"), [("2", [("supply-short", Severity.ERROR)]), ("3", []), ("4", [])])
def test_what_is_stated_of_it_is_checked(count: str, said: list[Any]) -> None:
    supply = {**CHARM, "from": "home", "count": count}
    assert balance(supply, THREE)[1] == said
