"""Templates measured as a person would: pages joined by their marks, corners found, nothing missing.

The marks and the outlines are found in the finished file; sizes and places come from the kit alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations
from math import ceil, cos, hypot, radians, sin
from pathlib import Path

import pytest

from booklet.content.templates import layout_document, piece_document
from booklet.content.words.language import ENGLISH
from booklet.kit.load import parse_kit
from booklet.kit.sheet import OutlineShape
from booklet.pages.office_paper import OfficePaper
from booklet.pages.template_pages import write_templates
from booklet.placing.details import BandForm
from booklet.placing.model import ItemKind, Placed
from booklet.placing.resolved import resolve_kit
from tests.templates.joined import (
    Box,
    Ground,
    Laid,
    Page,
    Point,
    Stroke,
    away,
    is_end,
    joined,
    on_table,
    read_pages,
    within,
)
from tests.templates.made import HILL_LINE, ROOF_GARDEN, pages, resolved
from tests.templates.tricky import TRICKY

# The same bound that the proof of a booklet holds, in millimetres on paper.
NEAR = 0.05
# ISO 128-2 (from memory): lines of 0.5 mm for what is seen.
WIDE = 0.5

PIECES = [
    (HILL_LINE, "left canopy"),  # a strip longer than a page
    (HILL_LINE, "rail"),
    (HILL_LINE, "night panel"),
    (HILL_LINE, "tall mat"),
    (HILL_LINE, "up tag"),  # a printed element
    (HILL_LINE, "brass mat"),  # ready-cut
    (ROOF_GARDEN, "parapet"),
    (ROOF_GARDEN, "wide trellis"),
    (ROOF_GARDEN, "dill label"),
    (ROOF_GARDEN, "chalk mat"),
]
LAYOUTS = [
    pytest.param(HILL_LINE, "all-aboard", marks=pytest.mark.thorough),
    (HILL_LINE, "home-by-starlight"),
    pytest.param(ROOF_GARDEN, "watering-round", marks=pytest.mark.thorough),
    (ROOF_GARDEN, "good-night"),
]


def in_mm(kit: str, *lengths: object) -> list[float]:
    unit = resolved(kit).kit.unit
    return [float(length * unit.millimetres) for length in lengths]  # type: ignore[operator]


@pytest.mark.parametrize("paper", OfficePaper)
@pytest.mark.parametrize(("kit", "name"), PIECES)
def test_a_piece_has_its_size(kit: str, name: str, paper: OfficePaper) -> None:
    size = next(entry.size for entry in resolved(kit).ledger.entries if entry.name == name)
    width, height = in_mm(kit, size.width, size.height)
    strokes = [one for one in on_table(pages(kit, name, paper)) if is_wide(one)]
    left, top, right, bottom = box_of(strokes)
    assert right - left == pytest.approx(width, abs=NEAR)
    assert bottom - top == pytest.approx(height, abs=NEAR)
    corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
    for corner, after in zip(corners, [*corners[1:], corners[0]], strict=True):
        assert is_end(corner, strokes, NEAR)
        assert_drawn(corner, after, strokes)


def is_wide(stroke: Stroke) -> bool:
    return stroke.width == pytest.approx(WIDE, abs=0.02)


def box_of(strokes: Sequence[Stroke]) -> Box:
    return box_about([end for one in strokes for end in (one.start, one.end)])


def box_about(points: Sequence[Point]) -> Box:
    xs, ys = ([point[axis] for point in points] for axis in (0, 1))
    return min(xs), min(ys), max(xs), max(ys)


def assert_drawn(start: Point, end: Point, strokes: Sequence[Stroke]) -> None:
    """Every millimetre of an edge is drawn on one of the pages at least."""
    count = max(1, ceil(hypot(end[0] - start[0], end[1] - start[1])))
    for at in range(count + 1):
        share = at / count
        point = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
        assert any(away(point, one) <= NEAR for one in strokes), f"nothing is drawn at {point}"


def test_a_disc_is_round_and_as_large_as_it_comes() -> None:
    (page,) = pages(HILL_LINE, "sun")
    strokes = [one for one in page.shown if is_wide(one)]
    left, top, right, bottom = box_of(strokes)
    middle = ((left + right) / 2, (top + bottom) / 2)
    radius = 3 * 25.4 / 2
    assert len(strokes) > 100
    for one in strokes:
        for x, y in (one.start, ((one.start[0] + one.end[0]) / 2, (one.start[1] + one.end[1]) / 2)):
            assert hypot(x - middle[0], y - middle[1]) == pytest.approx(radius, abs=NEAR)


@pytest.mark.parametrize("paper", OfficePaper)
@pytest.mark.parametrize(("kit", "name"), LAYOUTS)
def test_a_layout_has_everything_at_its_place(kit: str, name: str, paper: OfficePaper) -> None:
    layout = next(one for one in resolved(kit).layouts if one.id == name)
    strokes = on_table(pages(kit, name, paper))
    width, height = in_mm(kit, layout.size.width, layout.size.height)
    left, top = page_corner(strokes, width, height)
    ground = Ground(strokes)
    checked = 0
    for item in (layout.base, *layout.items):
        for start, end in edges_of(kit, item):
            placed = [(x + left, y + top) for x, y in (start, end)]
            beside = ground.beside(box_about(placed), NEAR)
            assert is_end(placed[0], beside, NEAR), (item.name, start)
            assert_drawn(placed[0], placed[1], beside)
            checked += 1
    assert checked >= 4 * 8


def page_corner(strokes: Sequence[Stroke], width: float, height: float) -> Point:
    """The top left corner of the one upright rectangle in wide lines that has the size of the page."""
    wide = [one for one in strokes if is_wide(one)]
    level = sorted({round(one.start[1], 2) for one in wide if one.length > 40 and one.start[1] == one.end[1]})
    upright = sorted(
        {round(one.start[0], 2) for one in wide if one.length > 40 and one.start[0] == one.end[0]}
    )
    tops = [low for low, high in combinations(level, 2) if abs(high - low - height) <= NEAR]
    lefts = [low for low, high in combinations(upright, 2) if abs(high - low - width) <= NEAR]
    assert tops, "no outline as high as the page"
    assert lefts, "no outline as wide as the page"
    return lefts[0], tops[0]


def edges_of(kit: str, item: Placed) -> Iterator[tuple[Point, Point]]:
    """The edges of a paper or photograph where the kit puts it, by its rectangle and its tilt alone."""
    is_band = item.kind is ItemKind.RIBBON and item.form in (BandForm.RUN, BandForm.WRAP)
    if item.kind not in (ItemKind.BASE, ItemKind.PIECE, ItemKind.PHOTO, ItemKind.TAPE) and not is_band:
        return
    if item.outline is not OutlineShape.RECTANGLE or item.finish.roundings:
        return
    rect, pivot = item.rect, item.pivot or item.rect.centre
    left, top, right, bottom, x, y = in_mm(kit, rect.x, rect.y, rect.right, rect.bottom, pivot.x, pivot.y)
    flat = ((left, top), (right, top), (right, bottom), (left, bottom))
    corners = [turned(corner, (x, y), float(item.tilt)) for corner in flat]
    yield from zip(corners, [*corners[1:], corners[0]], strict=True)


# What is pierced.


@pytest.mark.parametrize(("kit", "name"), [(HILL_LINE, "all-aboard"), (ROOF_GARDEN, "good-night")])
def test_a_cross_stands_where_a_brad_goes_through(kit: str, name: str) -> None:
    layout = next(one for one in resolved(kit).layouts if one.id == name)
    strokes = on_table(pages(kit, name))
    left, top = page_corner(strokes, *in_mm(kit, layout.size.width, layout.size.height))
    brads = [item for item in layout.items if item.kind is ItemKind.ADDED and item.count == 1]
    assert brads
    short = [one for one in strokes if 1.5 < one.length < 2.5]
    for item in brads:
        centre = item.rect.centre
        x, y, turned_about_x, turned_about_y = in_mm(
            kit, centre.x, centre.y, *((item.pivot or centre).x, (item.pivot or centre).y)
        )
        x, y = turned((x, y), (turned_about_x, turned_about_y), float(item.tilt))
        middles = [one for one in short if away((x + left, y + top), one) <= NEAR]
        assert len(middles) >= 2, item.name


def turned(point: Point, about: Point, degrees: float) -> Point:
    """Clockwise, as y runs down."""
    across, down, angle = point[0] - about[0], point[1] - about[1], radians(degrees)
    return (
        about[0] + across * cos(angle) - down * sin(angle),
        about[1] + across * sin(angle) + down * cos(angle),
    )


def test_holes_and_stitches_are_where_the_kit_has_them() -> None:
    kit = resolve_kit(parse_kit(TRICKY, "tricky.yaml", Path()))
    card = [entry for entry in kit.ledger.entries if entry.name == "card"]
    (page,) = read_pages(write_templates(piece_document(kit, card, ENGLISH), OfficePaper.A4))
    wide = [one for one in page.shown if is_wide(one)]
    left, top, _, _ = box_of(wide)
    # 1/2 in from the left, 3/8 in from the foot of a card 4 in high, 1/4 in wide.
    hole = [
        one
        for one in wide
        if one.length < 1 and hypot(one.start[0] - left - 15.875, one.start[1] - top - 88.9) < 5
    ]
    assert box_of(hole) == pytest.approx((left + 12.7, top + 85.725, left + 19.05, top + 92.075), abs=NEAR)
    read = read_pages(write_templates(layout_document(kit, 0, ENGLISH), OfficePaper.A4))
    strokes = on_table(read)
    left, top = page_corner(strokes, 12 * 25.4, 12 * 25.4)
    # Along the top of a flap 5 in wide at (6, 1 1/2), tilted by 8 degrees about its middle, 1/4 in below its
    # edge: 9 stitches of 3/8 in, 1/8 in between two, which take 4 3/8 in.
    for at in range(9):
        start = 6 + 5 / 16 + at * (3 / 8 + 1 / 8)
        ends = [turned((25.4 * x, 25.4 * 1.75), (25.4 * 8.5, 25.4 * 3.5), 8) for x in (start, start + 3 / 8)]
        sewn = [one for one in strokes if one.length == pytest.approx(25.4 * 3 / 8, abs=NEAR)]
        assert any(all(is_end((x + left, y + top), [one], NEAR) for x, y in ends) for one in sewn), at


# Pages that are joined.

JOINED = [(HILL_LINE, "left canopy"), (ROOF_GARDEN, "parapet"), *LAYOUTS]


@pytest.mark.parametrize(("kit", "name"), JOINED)
def test_neighbours_show_the_same_where_they_overlap(kit: str, name: str) -> None:
    read = pages(kit, name)
    laid = joined(read)
    pairs = [
        pair
        for pair in combinations(range(len(read)), 2)
        if len(read[pair[0]].marks.keys() & read[pair[1]].marks.keys()) == 2
    ]
    assert pairs
    for one, other in pairs:
        shared = overlap(window_on(read[one], laid[one]), window_on(read[other], laid[other]))
        assert min(shared[2] - shared[0], shared[3] - shared[1]) == pytest.approx(10, abs=0.6)
        marks = read[one].marks.keys() & read[other].marks.keys()
        for mark in marks:
            x, y = laid[one].point(read[one].marks[mark])
            assert shared[0] < x < shared[2]
            assert shared[1] < y < shared[3]
        drawn = [shown_in(read[at], laid[at], shared) for at in (one, other)]
        assert drawn[0]
        assert drawn[0] == drawn[1]


def window_on(page: Page, lies: Laid) -> tuple[float, float, float, float]:
    (left, top), (right, bottom) = (lies.point((page.window[at], page.window[at + 1])) for at in (0, 2))
    return left, top, right, bottom


def overlap(one: Sequence[float], other: Sequence[float]) -> tuple[float, float, float, float]:
    return max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3])


def shown_in(page: Page, lies: Laid, shared: Sequence[float]) -> set[object]:
    """Every stroke and letter within a strip, to a tenth of a millimetre."""
    left, top, right, bottom = shared
    found: set[object] = set()
    for one in page.shown:
        start, end = sorted(lies.point(end) for end in (one.start, one.end))
        cut = within(replace(one, start=start, end=end), shared)
        if cut is not None and cut.length > 0.2:
            ends = (*cut.start, *cut.end)
            found.add((one.is_dashed, *map(near, ends)))
    for sign in page.signs:
        x, y = lies.point(((sign.box[0] + sign.box[2]) / 2, (sign.box[1] + sign.box[3]) / 2))
        if left + 2 < x < right - 2 and top + 2 < y < bottom - 2:
            found.add((sign.text, near(x), near(y)))
    return found


def near(length: float) -> int:
    """A length in steps of 0.1 mm, off their middles: pages are joined to a thousandth of one."""
    return round(length / 0.1 + 0.23)


@pytest.mark.parametrize("paper", OfficePaper)
@pytest.mark.parametrize(("kit", "name"), JOINED)
def test_both_scales_are_true_on_every_page(kit: str, name: str, paper: OfficePaper) -> None:
    for page in pages(kit, name, paper):
        ticks = [one for one in page.others if one.start[0] == one.end[0] and 1 < one.length < 4]
        foot = max(max(one.start[1], one.end[1]) for one in ticks)
        base = foot - max(one.length for one in ticks)
        inches = sorted(one.start[0] for one in ticks if min(one.start[1], one.end[1]) < base - 0.1)
        millimetres = sorted(one.start[0] for one in ticks if max(one.start[1], one.end[1]) > base + 0.1)
        assert (len(inches), len(millimetres)) == (33, 101)
        assert inches[-1] - inches[0] == pytest.approx(4 * 25.4, abs=NEAR)
        assert millimetres[-1] - millimetres[0] == pytest.approx(100, abs=NEAR)


LARGE = """
title: A large board
publisher: Harbour Paper
unit: in
sheet: 30 x 25
trimmer: {blade: 30, reach: 30}
papers: {sand: {front: {colours: ["#efe3cf"]}}}
sheets: [{id: sand, paper: sand}, {id: board, paper: sand, cuts: [{at: [21], leaves: [board, strip]}]}]
layouts:
  - id: wall
    pocket: 1
    base: sand
    steps: [{place: board, left: 1, top: 0}, {place: strip, right: 0, top: 0}]
"""


def test_a_board_of_many_pages_is_joined_mark_by_mark() -> None:
    kit = resolve_kit(parse_kit(LARGE, "wall.yaml", Path()))
    board = [entry for entry in kit.ledger.entries if entry.name == "board"]
    read = read_pages(write_templates(piece_document(kit, board, ENGLISH), OfficePaper.LETTER))
    assert len(read) == 9
    names = [set(page.marks) for page in read]
    # Each mark stands on two pages, and on no third.
    assert all(sum(name in page for page in names) == 2 for name in set().union(*names))
    assert len(set().union(*names)) == 2 * 12
    strokes = [one for one in on_table(read) if is_wide(one)]
    left, top, right, bottom = box_of(strokes)
    assert right - left == pytest.approx(21 * 25.4, abs=NEAR)
    assert bottom - top == pytest.approx(25 * 25.4, abs=NEAR)
