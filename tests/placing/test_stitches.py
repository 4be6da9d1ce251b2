"""Stitches: two things joined by a line of them, and what is wrong with a line that joins nothing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.kit.fields import Edge
from booklet.placing.stitches import Stitched, stitches_along
from tests.placing.layouts import detail, ids, named, page, rect, stacked

MAT = "{place: mat, left: 1, top: 1}"
TAG = "{place: tag, left: 2, top: 2}"


def seam(**keys: str) -> str:
    said = {"along": "right", "inset": "1/4", "length": "1/4", "spacing": "1/8"} | keys
    return f"{{stitch: [tag, mat], {', '.join(f'{key}: {value}' for key, value in said.items())}}}"


def test_a_tag_is_sewn_to_a_mat_along_its_right_edge() -> None:
    # The tag is 2 x 3: from 1/4 to 2 3/4 there is room for 2 1/2; 7 x 1/4 + 6 x 1/8 is 2 1/2 exactly.
    layout = page(f"[{MAT}, {TAG}, {seam()}]")
    assert ids(layout) == []
    found = detail(layout, 3, Stitched)
    assert (found.count, found.start, found.edge) == (7, Fraction(1, 4), Edge.RIGHT)
    line = named(layout, "stitches")
    assert line.rect == rect("3 23/32, 2 1/4, 1/16 x 2 1/2")
    assert line.rect.centre.x == 4 - Fraction(1, 4)
    assert stacked(layout) == ["mat", "tag", "stitches"]


@pytest.mark.parametrize(
    ("edge", "expected"),
    {
        "top": "2 1/4, 2 7/32, 1 3/8 x 1/16",
        "bottom": "2 1/4, 4 23/32, 1 3/8 x 1/16",
        "left": "2 7/32, 2 1/4, 1/16 x 2 1/2",
    }.items(),
)
def test_along_each_edge(edge: str, expected: str) -> None:
    layout = page(f"[{MAT}, {TAG}, {seam(along=edge)}]")
    line, box = named(layout, "stitches").rect, rect(expected)
    assert (line.width, line.height) == (box.width, box.height)
    if edge == "left":
        assert line == box
    else:  # Of 1 1/2, four stitches and three spaces take 1 3/8: 1/16 more is left at either end.
        assert line.x == box.x + Fraction(1, 16)
        assert line.y == box.y


def test_the_line_may_stop_elsewhere_than_its_inset() -> None:
    found = detail(page(f"[{MAT}, {TAG}, {seam(ends='1')}]"), 3, Stitched)
    assert (found.count, found.start) == (3, Fraction(1))


@given(
    st.fractions(min_value=0, max_value=40),
    st.fractions(min_value=Fraction(1, 8), max_value=2),
    st.fractions(min_value=Fraction(1, 16), max_value=1),
)
def test_as_many_stitches_as_fit(line: Fraction, length: Fraction, spacing: Fraction) -> None:
    count = stitches_along(line, length, spacing)
    assert count * length + max(count - 1, 0) * spacing <= line
    assert (count + 1) * length + count * spacing > line


def test_thread_is_used_up_by_the_line_and_its_two_tails() -> None:
    layout = page(f"[{MAT}, {TAG}, {seam(thread='twill')}]")
    (use,) = layout.supplies
    assert (use.supply, use.amount) == ("twill", Fraction(5, 2) + 2)


def test_what_is_tilted_is_sewn_as_it_lies() -> None:
    tilted = "{place: tag, left: 3, top: 2, tilt: 5}"
    layout = page(f"[{{place: banner, left: 1, top: 2}}, {tilted}, {seam().replace('mat', 'banner')}]")
    assert ids(layout) == []
    assert named(layout, "stitches").tilt == 5
    assert named(layout, "stitches").pivot == named(layout, "tag").rect.centre


def test_a_piece_may_be_sewn_to_the_page() -> None:
    layout = page(f"[{TAG}, {seam().replace('mat', 'page')}]")
    assert ids(layout) == []
    assert detail(layout, 2, Stitched).second == (0,)


def test_a_line_goes_with_the_block_that_it_lies_on() -> None:
    block = "{place: mat, loose: yes}, {place: tag, on: mat, left: 1, top: 1}"
    layout = page(f"[{block}, {seam()}, {{group: [mat], left: 2, top: 3}}]")
    assert ids(layout) == []
    assert named(layout, "stitches").rect == rect("4 23/32, 4 1/4, 1/16 x 2 1/2")


WRONG = {
    f"[{MAT}, {TAG}, {seam(length='3')}]": ["stitch-too-long"],
    f"[{MAT}, {TAG}, {seam(length='2 1/2')}]": [],
    # The mat ends at 7 1/4: the tag lies on it with its left half only.
    f"[{MAT}, {{place: tag, left: 6 1/4, top: 2}}, {seam()}]": ["stitch-beside"],
    f"[{MAT}, {{place: tag, left: 6 1/4, top: 2}}, {seam(along='left')}]": [],
    f"[{MAT}, {TAG}, {seam(inset='2 1/4')}]": ["stitch-too-long"],
    f"[{MAT}, {TAG}, {seam(inset='2 1/4', ends='1/4')}]": ["stitch-beside"],
    f"[{MAT}, {TAG}, {seam().replace('[tag, mat]', '[tag, tag]')}]": ["stitch-what"],
    f"[{MAT}, {TAG}, {seam().replace('[tag, mat]', '[page, tag]')}]": ["stitch-what"],
    f"[{MAT}, {seam()}]": ["reference-unknown"],
    f"[{MAT}, {TAG}, {seam(thread='rope tape')}]": ["supply-of-another-kind"],
    f"[{MAT}, {{place: tag, loose: yes}}, {seam(along='left')}]": ["loose-mixed", "left-loose"],
}


@pytest.mark.parametrize("steps", WRONG)
def test_a_line_that_joins_nothing(steps: str) -> None:
    assert ids(page(steps)) == WRONG[steps]
