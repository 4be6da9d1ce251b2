"""Strips that run from edge to edge, said in one word."""

from __future__ import annotations

import pytest

from tests.content.assembly.telling import said
from tests.placing.layouts import PIECES, finding_of, ids, named, page, rect

SIZES = {**PIECES, "mat strip": "1 x 6 1/4", "long strip": "13 x 1", "square": "12 x 12"}


@pytest.mark.parametrize(
    ("step", "lies", "turn"),
    [
        ("{place: strip, run: across, bottom: 2}", "0, 9, 12 x 1", 0),
        ("{place: strip, run: down, right: 1}", "10, 0, 1 x 12", 1),
        ("{place: strip, run: down, turn: anticlockwise, left: 1}", "1, 0, 1 x 12", 3),
        ("{place: strip, run: across, turn: half, top: 1}", "0, 1, 12 x 1", 2),
        ("{place: square, run: across, top: 0}", "0, 0, 12 x 12", 0),
    ],
)
def test_a_strip_runs_from_edge_to_edge_of_the_page_and_is_turned_as_it_needs(
    step: str, lies: str, turn: int
) -> None:
    done = page(f"[{step}]", sizes=SIZES)
    (strip,) = done.items
    assert (strip.rect, strip.turn, ids(done)) == (rect(lies), turn, [])


def test_a_strip_runs_over_what_it_lies_on() -> None:
    done = page(
        "[{place: mat, left: 1, top: 2}, {place: mat strip, run: across, on: mat, bottom: 1/2}]", sizes=SIZES
    )
    assert named(done, "mat strip").rect == rect("1, 4 3/4, 6 1/4 x 1")


def test_a_strip_runs_beside_what_is_placed() -> None:
    done = page("[{place: banner, left: 1, top: 2}, {place: strip, run: across, below: banner, gap: 1/4}]")
    assert named(done, "strip").rect == rect("0, 5 1/4, 12 x 1")


def test_a_part_that_is_as_long_as_the_page_runs_across_it() -> None:
    snip = "{snip: base strip, measured_from: top, at: 1, leaves: [thin, scrap]}"
    done = page(f"[{snip}, {{place: thin, run: across, top: 1}}]", sizes={**SIZES, "base strip": "12 x 2"})
    assert (named(done, "thin").rect, ids(done)) == (rect("0, 1, 12 x 1"), [])


@pytest.mark.parametrize(
    ("step", "found"),
    [
        ("{place: half strip, run: across, top: 1}", '"half strip" is 6 long and runs over 12: 6 is missing'),
        (
            "{place: long strip, run: down, left: 1}",
            '"long strip" is 13 long and runs over 12: 1 goes beyond',
        ),
    ],
)
def test_a_strip_that_does_not_reach_from_edge_to_edge_is_an_error(step: str, found: str) -> None:
    finding = finding_of(page(f"[{step}]", sizes=SIZES), "strip-not-to-edges")
    assert (finding.found, finding.where) == (found, ("layouts", 0, "steps", 0, "run"))


def test_a_strip_may_hang_over_where_it_says_so() -> None:
    assert ids(page("[{place: long strip, run: down, left: 1, overhang: yes}]", sizes=SIZES)) == []


@pytest.mark.parametrize("key", ["left: 1", "right: 0", "centred: across", "flush: left"])
def test_where_a_strip_lies_along_its_run_is_not_said_twice(key: str) -> None:
    done = page(f"[{{place: strip, run: across, top: 1, {key}}}]")
    assert finding_of(done, "position-twice").found.startswith("run and ")


def test_a_loose_strip_runs_nowhere() -> None:
    done = page("[{place: strip, run: across, loose: yes}, {group: [strip], left: 0, top: 0}]")
    assert ids(done) == ["position-twice"]


def test_where_it_lies_the_other_way_must_still_be_said() -> None:
    assert ids(page("[{place: strip, run: across}]")) == ["position-open"]


@pytest.mark.parametrize(
    ("short", "long"),
    [
        ("{place: strip, run: across, bottom: 2}", "{place: strip, left: 0, bottom: 2}"),
        ("{place: strip, run: down, left: 2}", "{place: strip, turn: clockwise, top: 0, left: 2}"),
    ],
)
def test_a_strip_is_told_as_if_its_turn_and_its_edge_had_been_typed(short: str, long: str) -> None:
    assert said(f"[{short}]") == said(f"[{long}]")
