"""What finished looks are made of: scales, papers, stand-ins for photographs, ribbon, tape, stencil."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from booklet.drawing.layouts.finished_supplies import supply_shapes
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.photos import photo_shapes
from booklet.drawing.shapes.affine import Box, translation
from booklet.drawing.shapes.figure import Circle, Colour, Group, Motifs, Polygon, Rect, bounds
from booklet.drawing.shapes.figure import Path as Outline
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.measure.length import Size, Unit
from tests.drawing.looks import colours, look_of, resolved_kit
from tests.drawing.walking import walk
from tests.kits import Data, element, make_kit, ready, sheet

# Scales.


def test_scales_are_round_and_reduce_ever_more() -> None:
    reductions = [scale.reduction for scale in ROUND_SCALES]
    assert reductions == sorted(set(reductions))
    assert reductions[0] == 1
    assert all((2 * reduction).denominator == 1 for reduction in reductions)
    # ISO 5455 lists 1:2, 1:5, 1:10, 1:20, 1:50, 1:100 (from memory).
    assert {2, 5, 10, 20, 50, 100} <= set(reductions)


@pytest.mark.parametrize(
    ("reduction", "said"),
    [("1", "1:1"), ("5/2", "1:2.5"), ("4", "1:4"), ("20", "1:20")],
)
def test_a_scale_is_stated_as_one_to_so_much(reduction: str, said: str) -> None:
    assert Scale(Fraction(reduction)).ratio == said


@given(st.sampled_from(ROUND_SCALES), st.integers(1, 400))
def test_a_length_is_drawn_the_same_in_any_unit(scale: Scale, sixteenths: int) -> None:
    inches = Fraction(sixteenths, 16)
    drawn = [
        scale.points(inches, Unit.INCH),
        scale.points(inches * Fraction("25.4"), Unit.MILLIMETRE),
        scale.points(inches * Fraction("2.54"), Unit.CENTIMETRE),
    ]
    # 1 in is 25.4 mm exactly, and 72 pt.
    assert drawn == pytest.approx([float(inches) * 72 / float(scale.reduction)] * 3)


# Papers.


def papers_of(kit: Kit, folder: Path = Path()) -> KitPapers:
    return KitPapers(kit, folder)


def test_a_paper_is_drawn_once_for_all_sheets_of_its_size() -> None:
    kit = make_kit(
        sheet(id="one", paper="shingle"),
        sheet(id="two", paper="shingle"),
        sheet(id="small", paper="shingle", size="6 x 6"),
    )
    papers = papers_of(kit)
    assert papers.sheet(0, Face.FRONT) is papers.sheet(1, Face.FRONT)
    assert papers.sheet(0, Face.FRONT) is papers.paper(
        "shingle", Face.FRONT, Size(Fraction(12), Fraction(12))
    )
    keys = {papers.sheet(index, face).key for index in (0, 2) for face in Face}
    assert len(keys) == 4


@pytest.mark.parametrize("unit", list(Unit))
def test_a_paper_is_drawn_at_full_size(unit: Unit) -> None:
    kit = make_kit(sheet(size="12 x 6 in"), unit=unit)
    symbol = papers_of(kit).sheet(0, Face.FRONT)
    assert (symbol.width, symbol.height) == pytest.approx((864, 432))


def test_only_the_front_of_a_cut_apart_bears_its_elements() -> None:
    kit = make_kit(sheet(id="a", elements=[{**element("tag", 1, 2), "ground": "#123456"}]), sheet(id="b"))
    papers = papers_of(kit)
    printed = [leaf for leaf, _ in walk(papers.sheet(0, Face.FRONT).shapes) if isinstance(leaf, Rect)]
    assert [leaf.box for leaf in printed if leaf.fill and leaf.fill.colour.hex == "#123456"] == [
        Box(72, 144, 288, 360)
    ]
    assert papers.sheet(0, Face.BACK) is papers.sheet(1, Face.BACK)
    assert papers.sheet(0, Face.FRONT) is papers.sheet(0, Face.FRONT)


def test_the_tone_of_a_paper_is_its_ground_or_the_mean_of_its_image(tmp_path: Path) -> None:
    picture = Image.new("RGB", (40, 40), "#000000")
    picture.paste("#ff8040", (0, 0, 20, 40))
    picture.save(tmp_path / "half.png")
    papers: Data = {
        "drawn": {
            "front": {"pattern": "dots", "colours": ["#abcdef", "#000000"]},
            "back": {"colours": ["#fedcba"]},
        },
        "half": {"front": {"image": "half.png"}},
    }
    found = papers_of(make_kit(sheet(paper="drawn"), papers=papers), tmp_path)
    assert found.tone("drawn", Face.FRONT) == Colour("#abcdef")
    assert found.tone("drawn", Face.BACK) == Colour("#fedcba")
    assert found.tone("half", Face.FRONT) == Colour("#804020")


# Photographs.

BOXES = st.builds(
    lambda left, top, width, height: Box(left, top, left + width, top + height),
    *[st.floats(0, 50)] * 2,
    *[st.floats(4, 200)] * 2,
)


@given(BOXES, st.integers(0, 40))
def test_a_scene_fills_its_box_and_no_more(box: Box, variety: int) -> None:
    scene = photo_shapes(box, variety)
    assert scene.clip == box.corners
    shown = bounds([scene])
    assert tuple(shown) == pytest.approx(tuple(box))


@given(BOXES, st.integers(0, 40))
def test_scenes_are_grey_and_neighbours_differ(box: Box, variety: int) -> None:
    leaves = [leaf for leaf, _ in walk([photo_shapes(box, variety)])]
    for leaf in leaves:
        assert isinstance(leaf, Rect | Circle | Outline | Polygon)
        assert leaf.fill is not None
        red, _, blue = leaf.fill.colour.rgb
        assert 0 <= blue - red < 0.11, "no more than a breath of blue"
    assert leaves != [leaf for leaf, _ in walk([photo_shapes(box, variety + 1)])]


# Supplies.

SUPPLIES = [
    {"id": "twill", "kind": "ribbon", "width": "1/2", "length": "200", "colour": "#b03a2e"},
    {"id": "washi", "kind": "tape", "width": "1/2", "length": "200", "colour": "#2e6ab0"},
    {"id": "net", "kind": "stencil", "size": "6 x 6", "repeat": "1 1/2 x 1"},
    {"id": "brass", "kind": "brads", "count": "90", "size": "1/4 x 1/4"},
]
STEPS: list[Data] = [
    {"ribbon": "twill", "run": "across", "top": 3},
    {"ribbon": "twill", "run": "down", "left": 3},
    {"ribbon": "twill", "loop": 2, "left": 3, "top": 3},
    {"ribbon": "twill", "bow": 14, "left": 3, "top": 3},
    {"tape": "washi", "run": "across", "top": 3},
    {"tape": "washi", "length": 3, "left": 1, "top": 1, "turn": "clockwise"},
    {"stencil": "net", "size": "5 x 3", "left": 2, "top": 2},
    {"add": "brass", "left": 1, "top": 1},
    {"add": "brass", "count": 30, "on": "page"},
    {"add": "brass", "count": 3, "run": "across", "left": 1, "apart": 1, "top": 1},
]


@pytest.mark.parametrize("step", STEPS, ids=str)
def test_a_supply_is_drawn_within_its_box(step: Data) -> None:
    layouts = [{"id": "page", "pocket": 1, "base": "base", "steps": [step]}]
    base = ready("base", size="12 x 12")
    look = look_of(resolved_kit(make_kit(sheet(), layouts=layouts, ready=[base], supplies=SUPPLIES)))
    assert look.layout.items
    for item in look.layout.items:
        box = look.box(item)
        shapes = tuple(
            supply_shapes(item, look.layout, box, look.resolved.kit, Colour("#ffffff"), look.scale)
        )
        # A stroke may lie half outside, and metal casts a narrow shade.
        margin, reach, dots = 20.0, 0.6, 4.0
        moved = Group(shapes, translation(margin, margin))
        pixels = colours([moved], box.width + 2 * margin, box.height + 2 * margin, dots)
        inked = np.argwhere((pixels != 255).any(axis=2)) / dots - margin
        assert len(inked)
        assert inked.min() >= -reach
        assert inked[:, 0].max() <= box.height + reach
        assert inked[:, 1].max() <= box.width + reach


def motifs(scale: Scale, **more: Any) -> int:
    """How many motifs a stencilled area of 6 x 4 shows."""
    layouts = [
        {
            "id": "page",
            "pocket": 1,
            "base": "base",
            "steps": [{"stencil": "net", "size": "6 x 4", "left": 1, "top": 1}],
        }
    ]
    net: Data = {"id": "net", "kind": "stencil", "size": "6 x 6", **more}
    kit = make_kit(sheet(), layouts=layouts, ready=[ready("base", size="12 x 12")], supplies=[net])
    look = look_of(resolved_kit(kit), scale=scale)
    (item,) = look.layout.items
    shapes = supply_shapes(item, look.layout, look.box(item), kit, Colour("#ffffff"), look.scale)
    return sum(len(row.xs) for leaf, _ in walk(shapes) if isinstance(leaf, Motifs) for row in leaf.rows)


@pytest.mark.parametrize("reduction", [1, 3, 6])
def test_a_stencil_repeats_as_often_as_it_fits_at_any_scale(reduction: int) -> None:
    assert motifs(Scale(Fraction(reduction)), repeat="1 1/2 x 1") == 4 * 4
    assert motifs(Scale(Fraction(reduction)), repeat="2 x 2") == 3 * 2


def test_a_stencil_that_says_no_repeat_has_motifs_of_a_quarter_inch_at_any_scale() -> None:
    # 18 pt as drawn: 6 x 4 in at 1:6 are 72 x 48 pt, at 1:3 twice as much.
    assert motifs(Scale(Fraction(6))) == 4 * 3
    assert motifs(Scale(Fraction(3))) == 8 * 6
