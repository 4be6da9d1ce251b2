"""The bars of the proof as they are printed: met by a small kit, and not where something is wrong."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from booklet.kit.load import parse_kit
from booklet.proof.proof import Proof
from tests.benchmarks.bench_bars import (
    Bar,
    Spent,
    alarms_bar,
    caught_bar,
    lengths_bar,
    numbers_bar,
    time_bar,
)
from tests.benchmarks.bench_proof import judge
from tests.finished.kits import PLAIN
from tests.tampering.kinds import KINDS
from tests.tampering.proved import Made, booklet_of, caught_by, made, whole_proof

# The small kit by another name: another booklet that holds.
OTHERWISE = PLAIN.replace("title: A Week Outdoors", "title: A Week Indoors")


@cache
def plain() -> tuple[Made, Proof]:
    """The booklet of the small kit, and its proof."""
    booklet = made(PLAIN)
    return booklet, whole_proof(booklet)


def test_every_number_of_a_small_kit_is_found_and_traced() -> None:
    booklet, proof = plain()
    bar = numbers_bar("plain", booklet, proof)
    assert bar.is_met
    found = sum(page.found for page in proof.pages)
    assert found > 100
    assert f"{found} printed, {found} found, {found} traced" in bar.measured
    # Every page bears its number but the front and the back.
    assert f"; {len(booklet.pages) - 2} page numbers" in bar.measured


def test_a_number_from_nowhere_is_not_traced() -> None:
    booklet, proof = plain()
    lost = next(claim for claim in proof.claims if claim.source and claim.value)
    claims = tuple(replace(each, source=None) if each is lost else each for each in proof.claims)
    assert not numbers_bar("plain", booklet, replace(proof, claims=claims)).is_met


def test_a_number_that_is_not_found_is_told_with_its_page() -> None:
    booklet, _ = plain()
    expected = booklet.expected
    page = next(claim.page for claim in expected.claims if claim.value)
    claims = tuple(each for each in expected.claims if each.page != page)
    proof = whole_proof(replace(booklet, expected=replace(expected, claims=claims)))
    assert not numbers_bar("plain", booklet, proof).is_met


def test_every_length_of_a_small_kit_is_near_its_number() -> None:
    bar = lengths_bar("plain", plain()[1])
    assert bar.is_met
    assert bar.amiss == ()


@pytest.mark.parametrize("off", [None, 0.05, 0.2])
def test_one_length_that_is_beside_its_number_fails_the_bar(off: float | None) -> None:
    _, proof = plain()
    first, *others = proof.lengths
    assert not lengths_bar("plain", replace(proof, lengths=(replace(first, off=off), *others))).is_met


def test_a_small_kit_raises_no_false_alarm() -> None:
    other = whole_proof(booklet_of(parse_kit(OTHERWISE, "plain.yaml", Path())))
    bar = alarms_bar([("plain", caught_by(plain()[1])), ("otherwise", caught_by(other))])
    assert bar == Bar("false alarms: 0 of 2 untouched booklets", True)


def test_a_false_alarm_is_told_with_what_raised_it() -> None:
    bar = alarms_bar([("plain", ()), ("otherwise", ("length",))])
    assert bar.lines.splitlines() == [
        "NOT met  false alarms: 1 of 2 untouched booklets",
        "           otherwise: length",
    ]


@pytest.mark.parametrize("kind", ["digit", "cut line", "halves exchanged"])
def test_what_is_tampered_with_in_a_small_kit_is_caught(kind: str) -> None:
    judged = [(one.verdict.lower(), one.words) for one in judge(KINDS[kind], [PLAIN], 2)]
    assert caught_bar(kind, judged) == Bar(f"{kind}: 2 of 2 caught, and 0 harmless", True)


def test_what_is_missed_is_told() -> None:
    bar = caught_bar("changes", [("caught", "one"), ("missed", "another"), ("harmless", "a third")])
    assert bar == Bar("changes: 1 of 2 caught, and 1 harmless", False, ("missed: another",))


def test_nothing_caught_is_no_bar_met() -> None:
    assert not caught_bar("changes", [("harmless", "one")]).is_met


def test_a_proof_may_take_three_times_as_long_as_making() -> None:
    make = Spent(cpu=2.0, wall=1.0)
    assert time_bar("plain", [(make, Spent(cpu=6.0, wall=3.0))]).is_met
    assert not time_bar("plain", [(make, Spent(cpu=6.2, wall=3.0))]).is_met
    assert not time_bar("plain", [(make, Spent(cpu=6.0, wall=3.1))]).is_met
