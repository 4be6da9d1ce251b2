"""The page as it stands after a step, and finished pages side by side."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from booklet.drawing.layouts.finished_pages import draw_finished_pages, finished_page
from booklet.drawing.layouts.look import Look
from booklet.drawing.layouts.step_figure import (
    ARROW_TAG,
    HIDDEN_TAG,
    draw_step_figure,
    step_figure_size,
)
from booklet.drawing.shapes.affine import Box, Point, scaling
from booklet.drawing.shapes.figure import Figure, Group, Line, Polygon, Polyline, bounds
from booklet.drawing.shapes.scale import Scale
from booklet.kit.load import load_kit
from booklet.measure.length import Unit
from booklet.placing.resolved import resolve_kit
from tests.drawing.looks import Pixels, colours, look_of, resolved_kit
from tests.drawing.rasters import figure_pdf, figure_svg, same_picture
from tests.drawing.styles import STYLE
from tests.drawing.walking import groups, walk
from tests.kits import Data, make_kit, ready, sheet

SPECS = Path(__file__).parents[2] / "kit_specs"
TENTH = Scale(Fraction(10))
INCH = 7.2  # at a tenth
DOTS = 4.0
RED, BLUE = "#b03a2e", "#1f4f8c"
RIBBON = {"id": "twill", "kind": "ribbon", "width": "1/2", "length": "100", "colour": RED}


def look_at(*steps: Data, **more: Any) -> Look:
    """The look of a white page of a foot with these steps, on which red and blue cards may lie."""
    papers = {name: {"front": {"colours": [colour]}} for name, colour in (("red", RED), ("blue", BLUE))}
    papers["white"] = {"front": {"colours": ["#ffffff"]}}
    pieces = [{**ready(name, count=9, size="4 x 3"), "paper": name} for name in ("red", "blue")]
    layouts = [{"id": "page", "pocket": 1, "base": "base", "steps": list(steps)}]
    said: Data = {"papers": papers, "ready": pieces, "supplies": [RIBBON], "layouts": layouts}
    return look_of(resolved_kit(make_kit(sheet(id="base", paper="white"), **(said | more))), scale=TENTH)


def after(step: int, look: Look, numbers: list[int] | None = None) -> Figure:
    own = numbers or [one.number for one in look.layout.steps]
    return draw_step_figure(look, own, step, STYLE, "step")


def corner(figure: Figure) -> Point:
    """Where the page's top left corner lies in the figure."""
    (moved,) = figure.shapes
    assert isinstance(moved, Group)
    return moved.transform.apply((0.0, 0.0))


def pixels_of(figure: Figure) -> Pixels:
    return colours(figure.shapes, figure.width, figure.height, DOTS)


def seen_at(figure: Figure, x: float, y: float) -> tuple[int, ...]:
    """The colour at a point in inches from the page's top left."""
    left, top = corner(figure)
    pixels = pixels_of(figure)
    return tuple(int(part) for part in pixels[int((top + y * INCH) * DOTS), int((left + x * INCH) * DOTS)])


def rgb(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[at : at + 2], 16) for at in (1, 3, 5))


def parts(figure: Figure, tag: str) -> list[Box]:
    """Where each part of this kind lies, in inches from the page's top left."""
    left, top = corner(figure)
    found = [bounds([Group((group,), map_)]) for group, map_ in tagged(figure, tag)]
    return [Box(*((side - (left, top)[at % 2]) / INCH for at, side in enumerate(box))) for box in found]


def tagged(figure: Figure, tag: str) -> list[tuple[Group, Any]]:
    """The groups of a kind, without their own map, and the map that they stand under."""
    return [
        (replace(group, transform=type(map_)()), map_)
        for group, map_ in groups(figure.shapes)
        if group.tag == tag
    ]


TWO = ({"place": "red", "left": 1, "top": 1}, {"place": "blue", "left": 6, "top": 7})


def test_the_step_s_own_thing_is_in_its_print_and_earlier_ones_are_pale() -> None:
    figure = after(2, look_at(*TWO))
    assert seen_at(figure, 8, 8.5) == rgb(BLUE)
    pale = seen_at(figure, 3, 2.5)
    assert min(pale) > 190
    assert pale[0] > pale[2]  # still a tint of its own colour


def test_later_things_are_not_there_yet() -> None:
    figure = after(1, look_at(*TWO))
    assert seen_at(figure, 3, 2.5) == rgb(RED)
    assert seen_at(figure, 8, 8.5) == (255, 255, 255)


def test_steps_printed_together_are_shown_together() -> None:
    figure = after(1, look_at(*TWO), [1, 1])
    assert seen_at(figure, 3, 2.5) == rgb(RED)
    assert seen_at(figure, 8, 8.5) == rgb(BLUE)


TUCKED = (
    {"place": "red", "left": 4, "top": 4},
    # A blue card of 4 x 3 from 2 to 6 across: 2 inches of it go beneath the red one.
    {"place": "blue", "left": 2, "top": 4.5, "tucked": "red"},
)


def test_what_is_tucked_under_is_dashed_where_it_is_hidden() -> None:
    figure = after(2, look_at(*TUCKED))
    (hidden,) = parts(figure, HIDDEN_TAG)
    # From the red card's left edge at 4 to the blue card's right edge at 6; the red card ends at 7 down.
    assert (hidden.left, hidden.right) == pytest.approx((4, 6), abs=0.4)
    assert (hidden.top, hidden.bottom) == pytest.approx((4.5, 7), abs=0.4)
    dashes = [
        leaf.stroke.dash
        for group, _ in tagged(figure, HIDDEN_TAG)
        for leaf, _ in walk([group])
        if isinstance(leaf, Polyline)
    ]
    assert [bool(dash) for dash in dashes] == [False, True]


def test_an_arrow_shows_which_way_a_thing_is_slid_under() -> None:
    figure = after(2, look_at(*TUCKED))
    ((group, map_),) = tagged(figure, ARROW_TAG)
    shaft = next(leaf for leaf, _ in walk([group]) if isinstance(leaf, Line))
    tip = next(leaf for leaf, _ in walk([group]) if isinstance(leaf, Polygon)).points[0]
    left, _ = corner(figure)
    start, end = (map_.apply(point) for point in (shaft.start, tip))
    assert start[0] < end[0]
    # It ends beneath the red card, whose left edge lies at 4.
    assert 4 < (end[0] - left) / INCH < 6


@pytest.mark.parametrize("step", [1, 2])
def test_nothing_is_dashed_where_nothing_is_hidden(step: int) -> None:
    figure = after(step, look_at(*TWO))
    assert parts(figure, HIDDEN_TAG) == []
    assert parts(figure, ARROW_TAG) == []


def test_a_mat_under_its_photograph_is_dashed_but_nothing_slides() -> None:
    figure = after(1, look_at(TWO[0], {"photo": "3 x 2", "on": "red"}, TWO[1]), [1, 1, 2])
    assert parts(figure, ARROW_TAG) == []


def test_the_ends_of_a_ribbon_that_are_folded_behind_stand_out_at_both_edges() -> None:
    figure = after(1, look_at({"ribbon": "twill", "run": "across", "top": 5, "ends": "1/2"}))
    left, _ = corner(figure)
    dashed = [
        bounds([Group((leaf,), map_)])
        for leaf, map_ in walk(figure.shapes)
        if isinstance(leaf, Polygon) and leaf.stroke and leaf.stroke.dash
    ]
    ends = sorted(((box.left - left) / INCH, (box.right - left) / INCH) for box in dashed)
    assert ends == [pytest.approx((-0.5, 0), abs=0.1), pytest.approx((12, 12.5), abs=0.1)]
    assert all(box.left >= 0 and box.right <= figure.width for box in dashed)


def test_the_size_is_known_without_drawing() -> None:
    look = look_at(*TWO)
    figure = after(1, look)
    assert step_figure_size(look.layout.size, Unit.INCH, look.scale) == (figure.width, figure.height)


@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_every_step_of_a_demo_can_be_shown(name: str) -> None:
    done = resolve_kit(load_kit(SPECS / f"{name}.yaml"))
    papers = look_of(done, 0).papers
    for index, layout in enumerate(done.layouts):
        look = look_of(done, index, TENTH, papers)
        for step in layout.steps:
            figure = after(step.number, look)
            box = bounds(figure.shapes)
            assert Box(0, 0, figure.width, figure.height).grown(0.01).holds(box), (layout.id, step.number)
            tucked = [item for item in layout.of_step(step.number) if is_tucked(item.id, look)]
            assert bool(parts(figure, ARROW_TAG)) == bool(tucked), (layout.id, step.number)


def is_tucked(id: int, look: Look) -> bool:
    """Whether a thing lies partly beneath something that was laid before it."""
    item = look.layout.item(id)
    return any(
        other.id < id and other.layer > item.layer and other.rect.overlaps(item.rect) and other.covers
        for other in look.layout.items
    )


def test_both_writers_draw_a_step_alike() -> None:
    # At an eighth an inch is 9 pt, so that upright edges lie between pixels.
    figure = after(2, replace(look_at(*TUCKED), scale=Scale(Fraction(8))))
    width, height = (float(ceil(4 * side)) for side in (figure.width, figure.height))
    large = replace(figure, width=width, height=height, shapes=(Group(figure.shapes, scaling(4)),))
    assert same_picture(figure_pdf(large), figure_svg(large))


# Finished pages.


def two_pages(folder: Path = Path(), **more: Any) -> list[Any]:
    """The finished pages of two layouts, a red card on one and a blue one on the other."""
    papers = {name: {"front": {"colours": [colour]}} for name, colour in (("red", RED), ("blue", BLUE))}
    papers["white"] = {"front": {"colours": ["#ffffff"]}}
    pieces = [{**ready(name, size="12 x 12"), "paper": name} for name in ("red", "blue")]
    layouts = [
        {
            "id": f"{name} page",
            "pocket": 1,
            "base": name,
            "steps": [{"write": "1 x 1", "left": 1, "top": 1}],
            **more,
        }
        for name in ("red", "blue")
    ]
    kit = make_kit(sheet(id="base", paper="white"), papers=papers, ready=pieces, layouts=layouts)
    done = resolved_kit(kit, folder)
    papers_ = look_of(done).papers
    return [finished_page(done, index, papers_) for index in range(2)]


@pytest.mark.parametrize("width", [328.0, 108.0])
def test_finished_pages_lie_side_by_side_at_one_scale(width: float) -> None:
    pages = two_pages()
    figure = draw_finished_pages(pages, width, None, STYLE, "spread")
    assert (figure.width, figure.height) == pytest.approx((width, width / 2))
    pixels = colours(figure.shapes, width, figure.height, 2.0)
    row = pixels[int(figure.height)]
    assert tuple(row[int(width * 0.5)]) == rgb(RED)
    assert tuple(row[int(width * 1.5)]) == rgb(BLUE)


def test_finished_pages_are_no_higher_than_their_room() -> None:
    figure = draw_finished_pages(two_pages(), 328.0, 100.0, STYLE, "spread")
    assert (figure.width, figure.height) == pytest.approx((200.0, 100.0))


def test_a_photograph_of_the_page_stands_for_its_look_and_keeps_its_shape(tmp_path: Path) -> None:
    # 200 x 100: green but for a square of black in the middle, which must stay a square.
    picture = Image.new("RGB", (200, 100), "#3a9a3a")
    picture.paste("#000000", (75, 25, 125, 75))
    picture.save(tmp_path / "page.png")
    page, _ = two_pages(tmp_path, photograph="page.png")
    figure = draw_finished_pages([page], 100.0, 100.0, STYLE, "page")
    pixels = colours(figure.shapes, 100.0, 100.0, 2.0)[4:-4, 4:-4]
    black = np.argwhere(pixels.max(axis=2) < 60)
    assert np.ptp(black, axis=0).tolist() == pytest.approx([100, 100], abs=3)
    green = pixels[10, 10]
    assert green[1] > 2 * green[0]
