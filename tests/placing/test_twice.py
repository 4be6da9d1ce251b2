"""A step that was typed twice, and what is said twice within one."""

from __future__ import annotations

import pytest

from booklet.kit.finding import Severity
from tests.placing.layouts import finding_of, ids, page

MAT = "{place: mat, left: 2, top: 3}"
# Stamps are badges; two of them lie on the page, one after the other.
STAMP = "{place: badge, left: 1, top: 1}"
SECOND = "{place: badge, left: 5, top: 8}"


@pytest.mark.parametrize(
    ("steps", "is_found"),
    [
        (f"{MAT}, {{write: 4 x 2, on: mat}}, {{write: 4 x 2, on: mat}}", True),
        (f"{MAT}, {{write: 4 x 2, on: mat, tip: Once.}}, {{write: 4 x 2, on: mat}}", True),
        (f"{MAT}, {{write: 4 x 2, on: mat}}, {{write: 4 x 1 7/8, on: mat}}", False),
        ("{write: 4 x 2, left: 1, top: 1}, {write: 4 x 2, left: 1, top: 4}", False),
        ("{ink: badge}, {ink: badge}, {place: badge, left: 1, top: 1}", True),
        ("{ink: badge, edges: top}, {ink: badge, edges: bottom}, {place: badge, left: 1, top: 1}", False),
        (f"{{ink: badge}}, {STAMP}, {{ink: badge}}, {SECOND}", False),
        (f"{STAMP}, {{write: 1 x 1, on: badge}}, {SECOND}, {{write: 1 x 1, on: badge}}", False),
        (f"{MAT}, {{punch: mat, hole: 1/4, top: 1/4}}, {{punch: mat, hole: 1/4, top: 1/4}}", True),
        (f"{MAT}, {{punch: mat, hole: 1/4, top: 1/4}}, {{punch: mat, hole: 1/4, top: 1/2}}", False),
        ("{stencil: net, left: 0, right: 0, top: 1, bottom: 5}, " * 2, True),
    ],
)
def test_what_is_done_once_is_not_done_again_in_the_same_place(steps: str, is_found: bool) -> None:
    assert ("step-twice" in ids(page(f"[{steps}]"))) is is_found


def test_the_second_of_two_is_the_one_too_many() -> None:
    finding = finding_of(page(f"[{MAT}, {{write: 4 x 2, on: mat}}, {{write: 4 x 2, on: mat}}]"), "step-twice")
    assert finding.severity is Severity.WARNING
    assert finding.where == ("layouts", 0, "steps", 2, "write")
    assert finding.found == "step 3 does the same as step 2"


@pytest.mark.parametrize(
    ("ends", "is_found"),
    [
        ("left: 1, right: 1", False),
        ("left: 1, right: 1 1/8", True),
        ("left: 1 1/8, right: 1", True),
        ("left: 1, right: 1 3/16", False),
        ("left: 1, apart: 1/2", False),
    ],
)
def test_a_row_is_spread_between_equal_ends_or_clearly_other_ones(ends: str, is_found: bool) -> None:
    layout = page(f"[{{row: badge, count: 3, {ends}, top: 1}}]")
    assert ("ends-uneven" in ids(layout)) is is_found
    if is_found:
        assert finding_of(layout, "ends-uneven").severity is Severity.WARNING


def test_a_column_has_its_ends_above_and_below() -> None:
    layout = page("[{column: badge, count: 3, top: 1, bottom: 1 1/8, left: 1}]")
    finding = finding_of(layout, "ends-uneven")
    assert finding.where == ("layouts", 0, "steps", 0, "bottom")
    assert finding.found == "1 before the first and 1 1/8 after the last"


@pytest.mark.parametrize(
    ("lower", "upper", "is_found"),
    [
        ("6", "6", False),
        ("6", "-6", True),
        ("6", "0", True),
        ("6", "5", True),
        # On a straight mat a badge may lie at any angle.
        ("0", "6", False),
    ],
)
def test_what_is_mounted_is_tilted_with_what_it_is_mounted_on(lower: str, upper: str, is_found: bool) -> None:
    steps = f"{{place: mat, left: 2, top: 3, tilt: {lower}}}, {{place: badge, on: mat, tilt: {upper}}}"
    layout = page(f"[{steps}]")
    assert ("tilt-differs" in ids(layout)) is is_found
    if is_found:
        assert finding_of(layout, "tilt-differs").severity is Severity.NOTE


def test_what_is_measured_from_an_edge_of_a_tilted_thing_has_a_tilt_of_its_own() -> None:
    layout = page("[{place: mat, left: 2, top: 3, tilt: 6}, {place: tag, on: mat, left: 1, top: 1}]")
    assert "tilt-differs" not in ids(layout)


@pytest.mark.parametrize(
    ("on", "is_found"), [("", False), (", on: mat", False), (", on: my mat", False), (", on: tag", True)]
)
def test_a_wrap_is_measured_on_what_it_goes_round(on: str, is_found: bool) -> None:
    mat = "{place: mat, called: my mat, left: 2, top: 3}, {place: tag, left: 9, top: 1}"
    layout = page(f"[{mat}, {{ribbon: twill, wrap: mat, run: across, top: 1{on}}}]")
    assert ("wrap-differs" in ids(layout)) is is_found
    if is_found:
        finding = finding_of(layout, "wrap-differs")
        assert (finding.severity, finding.where[-1]) == (Severity.ERROR, "on")
