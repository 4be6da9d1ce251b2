"""Small things of a kind that the maker names, drawn by their outline."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from booklet.drawing.layouts.finished_figure import finished_shapes
from booklet.drawing.papers.embellishments import embellishment_shapes
from booklet.drawing.papers.swatch import supply_swatch
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Colour, Group, bounds
from booklet.drawing.shapes.figure import Path as Outline
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.supply import SupplyOutline
from tests.drawing.looks import colours, look_of, resolved_kit
from tests.kits import make_kit, sheet

BOX = Box(10, 10, 50, 70)


def dark(kind: SupplyOutline, turn: int = 0) -> Any:
    """Where a page of 60 by 80 points is dark that bears one black thing in a box with room about it."""
    (_, itself, _) = embellishment_shapes(kind, BOX, Colour("#000000"), turn)
    return colours([itself], 60, 80, dots_per_point=2.0)[:, :, 0] < 128


@pytest.mark.parametrize("kind", SupplyOutline)
def test_a_thing_fills_its_box_and_nothing_beside_it(kind: SupplyOutline) -> None:
    rows, columns = np.nonzero(dark(kind))
    found = (columns.min() / 2, rows.min() / 2, (columns.max() + 1) / 2, (rows.max() + 1) / 2)
    assert found == pytest.approx(tuple(BOX), abs=2)


def test_no_two_outlines_look_alike() -> None:
    looks = [dark(kind) for kind in SupplyOutline]
    for number, one in enumerate(looks):
        assert all((one != other).mean() > 0.015 for other in looks[:number])


def test_half_a_circle_stands_on_its_flat_side_and_turns_with_the_thing() -> None:
    upright, turned = dark(SupplyOutline.HALF_CIRCLE), dark(SupplyOutline.HALF_CIRCLE, turn=2)
    assert upright[:80].sum() < 0.8 * upright[80:].sum()
    assert turned[:80].sum() > 1.2 * turned[80:].sum()


def charms(step: str | dict[str, Any], **more: Any) -> list[Group]:
    """What a page shows of this step's charms."""
    page = {"id": "p", "pocket": 1, "base": "sand", "steps": [step]}
    supply = {
        "id": "charms",
        "kind": "metal charm",
        "outline": "heart",
        "size": "1 x 1 1/2",
        "count": 9,
        **more,
    }
    resolved = resolved_kit(make_kit(sheet(id="sand"), layouts=[page], supplies=[supply]))
    return [
        one for one in finished_shapes(look_of(resolved)) if isinstance(one, Group) and one.tag == "added"
    ]


def test_a_charm_is_drawn_at_its_size_where_it_lies() -> None:
    (group,) = charms({"add": "charms", "left": 3, "top": 2})
    (_, itself, _) = group.children
    assert isinstance(itself, Outline)
    assert bounds([itself]).width == pytest.approx(12, abs=0.6)  # an inch is 12 points here
    assert bounds([itself]).height == pytest.approx(18, abs=0.6)


def test_scattered_charms_keep_their_size_and_lie_within_what_they_are_scattered_over() -> None:
    (group,) = charms({"add": "charms", "count": 5, "on": "page"})
    hearts = [one for one in group.children if isinstance(one, Outline)][1::3]
    assert len(hearts) == 5
    page = Box(-1, -1, 145, 145)
    assert all(page.holds(bounds([one])) for one in hearts)


@pytest.mark.parametrize(("size", "shown"), [("1 x 1", 3), ("1/2 x 3/4", 3), ("2 x 1", 1)])
def test_a_swatch_shows_a_few_or_one_broad_one(size: str, shown: int) -> None:
    supply = {"id": "bits", "kind": "foam", "outline": "half circle", "size": size, "count": 4}
    kit = make_kit(sheet(id="base"), supplies=[supply])
    swatch = supply_swatch(kit.supplies[0], DrawingStyle())
    assert len(swatch.shapes) == 3 * shown
    within = Box(0, 0, swatch.width, swatch.height)
    assert all(within.grown(0.6).holds(bounds([one])) for one in swatch.shapes)
