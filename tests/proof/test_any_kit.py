"""Kits that are typed, measured and printed otherwise: nothing that is right is found wrong."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from math import isfinite

import pytest

from booklet.content.figures import CutFigure, PieceMap
from booklet.proof.at_trimmer import ratios_in
from booklet.proof.claim import Kind
from booklet.proof.figures import is_outline
from booklet.proof.lengths import measured
from booklet.proof.read_back import read_back
from tests.proof.finished import finished
from tests.spec_data import Data, demo_data
from tests.variations import (
    measured_from_the_other_edges,
    the_other_page_format,
)


def zero_at_the_right(data: Data) -> Data:
    return {**data, "trimmer": {**data.get("trimmer", {}), "zero": "right"}}


def wrong(spec: str) -> list[str]:
    """The keys of what is found wrong on the pages of a kit's booklet."""
    made = finished(spec)
    pages = read_back(made.claims, made.pages)
    lost = [claim.key for page in pages for claim in (*page.missing, *page.misprinted)]
    drawn = measured(made.resolved, made.figures, made.pages)
    return (
        lost
        + [one.claim.key for one in drawn if not one.holds]
        + [str(token) for page in pages for token in page.unclaimed]
    )


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("demo", "change"),
    [
        ("roof-garden", zero_at_the_right),
        ("hill-line", the_other_page_format),
        ("hill-line", measured_from_the_other_edges),
    ],
)
def test_a_demo_that_is_made_otherwise_is_found_right(demo: str, change: Callable[[Data], Data]) -> None:
    assert wrong(json.dumps(change(demo_data(demo)), indent=1, ensure_ascii=False)) == []


THIN = """
title: Thin
publisher: Harbour Paper
unit: in
sheet: 12 x 12
papers:
  reed: {title: Reed, front: {pattern: waves, colours: ["#dfe7d2", "#7f9a72"]}}
  sand: {title: Sand, front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}
sheets:
  - id: reed
    paper: reed
    cuts:
      - {at: [11 3/4, 11 1/4], leaves: [panel, thin strip, thread]}
      - {take: thin strip, turn: clockwise, at: [9, 6, 3], leaves: [tag, tag, tag, tag]}
      - {take: thread, turn: clockwise, at: [6], leaves: [dash, dash]}
  - {id: sand, paper: sand}
layouts:
  - id: one
    pocket: 1
    base: sand
    steps:
      - {place: tag, left: 6 1/4, top: 1, tilt: 7}
      - {place: dash, left: 1, top: 1}
"""


def test_a_strip_may_be_lower_than_the_figures_of_its_height() -> None:
    assert wrong(THIN) == []


PHOTOS_ALONE = """
title: Photos
publisher: Harbour Paper
unit: cm
sheet: 90 x 80
trimmer: {reach: 110}
papers: {sand: {title: Sand, front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}}
sheets: [{id: sand, paper: sand}]
layouts: [{id: one, pocket: 7, base: sand, steps: [{photo: 10 x 15, left: 5, top: 5}]}]
"""


def test_a_pocket_without_a_piece_comes_from_its_layout_and_a_ruler_may_have_marks_at_halves() -> None:
    assert wrong(PHOTOS_ALONE) == []
    claims = [claim for claim in finished(PHOTOS_ALONE).claims if claim.kind is Kind.POCKET]
    assert {claim.source for claim in claims} == {("layouts", 0, "pocket")}


def test_what_is_nowhere_has_no_distance() -> None:
    made = finished(THIN)
    bare = [
        replace(page, paths=tuple(path for path in page.paths if path.fill is None)) for page in made.pages
    ]
    found = [one.off for one in measured(made.resolved, made.figures, bare)]
    assert None in found
    assert all(off is None or isfinite(off) for off in found)


# On one page rings and numbers stand beside each other that are no flags, and a line is tilted.
SUPPLIES = """
title: Supplies
publisher: Harbour
unit: in
sheet: 12 x 12
papers:
  reed: {title: Reed, front: {pattern: waves, colours: ["#dfe7d2", "#7f9a72"]}}
  sand: {title: Sand, front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}
sheets:
  - id: reed
    paper: reed
    cuts:
      - {at: [8, 5], leaves: [panel, mat strip, tag strip]}
      - {take: tag strip, turn: clockwise, at: [9, 6, 3], leaves: [tag, tag, tag, tag]}
  - {id: sand, paper: sand, count: 2}
supplies:
  - {id: cord, kind: ribbon, title: Waxed cord, length: 100, width: 1/4, colour: "#8d5a3b"}
layouts:
  - id: one
    pocket: 1
    title: One
    base: sand
    facing: two
    steps:
      - {place: panel, left: 1, top: 0}
      - {wrap: panel, ribbon: cord, bottom: 2}
      - {place: tag, left: 6 1/3, top: 1, tilt: 7}
      - {place: tag, left: 7, top: 5, tilt: -12}
      - {ribbon: cord, run: across, top: 10, ends: 1}
  - id: two
    pocket: 1
    title: Two
    base: sand
    steps:
      - {place: mat strip, right: 1, top: 0}
      - {place: tag, left: 1, top: 1, tilt: 45}
      - {place: tag, left: 1, bottom: 1, tilt: -90}
      - {ribbon: cord, run: down, left: 1/2, ends: 1/2}
"""


def test_a_number_beside_a_ring_is_no_flag_unless_a_leader_brings_it_to_an_edge() -> None:
    assert wrong(SUPPLIES) == []


def test_a_step_whose_place_is_open_has_no_ring() -> None:
    open_place = "{place: mat strip, centred_on: page}"
    assert wrong(SUPPLIES.replace("{place: mat strip, right: 1, top: 0}", open_place)) == []


# Turned twice and oftener, a piece is shown where it lay, below the figures of its page.
MAPPED = """
title: Map two
publisher: Harbour
unit: in
sheet: 12 x 4
papers:
  reed: {title: Reed, front: {pattern: waves, colours: ["#dfe7d2", "#7f9a72"]}}
  sand: {title: Sand, front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}
sheets:
  - id: reed
    paper: reed
    cuts:
      - {at: [8, 4], leaves: [p, q, r]}
      - {take: p, turn: clockwise, at: [2], leaves: [a, b]}
      - {take: a, turn: clockwise, at: [2], leaves: [c, d]}
      - {take: c, turn: clockwise, at: [1], leaves: [e, f]}
  - {id: sand, paper: sand}
layouts:
  - {id: one, pocket: 1, base: sand, steps: [{place: e, left: 0, top: 0}, {place: f, left: 6, top: 0}]}
"""


def test_a_map_of_the_pieces_may_stand_on_a_page_with_figures_of_cuts() -> None:
    made = finished(MAPPED)
    pages = {
        kind: {one.page for one in made.figures if isinstance(one.request, kind)}
        for kind in (PieceMap, CutFigure)
    }
    assert pages[PieceMap] & pages[CutFigure]
    assert wrong(MAPPED) == []


def test_a_piece_beside_its_place_on_a_map_is_found() -> None:
    made = finished(MAPPED)
    (number,) = {one.page for one in made.figures if isinstance(one.request, PieceMap)}
    page = made.pages[number - 1]
    moved = max((path for path in page.paths if is_outline(path)), key=lambda path: path.box.top)
    box = replace(moved.box, left=moved.box.left + 1.0)
    paths = tuple(replace(path, box=box) if path is moved else path for path in page.paths)
    drawn = measured(made.resolved, made.figures, [replace(page, paths=paths)])
    assert [one.claim.key for one in drawn if not one.holds and " / map / " in one.claim.key]


def test_a_designer_may_speak_of_a_scale() -> None:
    told = SUPPLIES.replace(
        "title: One\n", "title: One\n    story: Scale 1:87, and Scale 1:0 for the moon.\n"
    )
    assert told != SUPPLIES
    assert wrong(told) == []
    assert list(ratios_in(["Scale", "1:87,", "Scale", "1:0", "Scale", "1:x", "Scale", "1:4.5"])) == [
        87.0,
        4.5,
    ]
