"""A thing that is said to lie on or under another, and lies beside it."""

from __future__ import annotations

import pytest

from booklet.kit.finding import Severity
from tests.placing.layouts import finding_of, ids, page, serious

# The mat is 6 1/4 x 4 1/4: its right edge lies at 8 1/4, its foot at 7 1/4.
MAT = "{place: mat, left: 2, top: 3}"


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("left: 8, top: 3", []),
        ("left: 8 1/4, top: 3", ["lies-apart"]),
        ("left: 4, top: 7 1/8", []),
        ("left: 4, top: 7 1/4", ["lies-apart"]),
        # Tilted, it is taken for the upright rectangle round it, which still overlaps.
        ("left: 8 3/8, top: 4, tilt: 30", []),
        ("left: 9, top: 4, tilt: 30", ["lies-apart"]),
    ],
)
def test_a_tag_tucked_under_a_mat_reaches_under_it(words: str, found: list[str]) -> None:
    assert serious(page(f"[{MAT}, {{place: tag, {words}, tucked: mat}}]")) == found


def test_each_thing_that_it_is_tucked_under_counts() -> None:
    layout = page(f"""
      - {MAT}
      - {{place: badge, left: 9, top: 3}}
      - {{place: tag, left: 8, top: 6, tucked: [mat, badge]}}
    """)
    finding = finding_of(layout, "lies-apart")
    assert finding.severity is Severity.WARNING
    assert finding.where == ("layouts", 0, "steps", 2, "tucked", 1)
    assert finding.found == '"tag" does not reach under "badge"'


@pytest.mark.parametrize(("left", "found"), [("6 1/4", []), ("6 5/16", ["lies-apart"])])
def test_one_thing_of_a_row_is_enough(left: str, found: list[str]) -> None:
    # Three of 2 wide: the third begins 4 further right, the first alone can reach the mat's edge.
    row = f"{{row: badge, count: 3, apart: 0, left: {left}, top: 3, tucked: tall mat, overhang: yes}}"
    tall = "{place: tall mat, left: 2 1/16, top: 3}"
    assert [id for id in ids(page(f"[{tall}, {row}]")) if id == "lies-apart"] == found


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("on: mat", []),
        ("on: mat, left: 6", []),
        ("on: mat, left: 6 1/4", ["lies-apart"]),
        ("under: mat, left: 6", []),
        ("under: mat, left: 6 1/4", ["lies-apart"]),
        ("on: mat, bottom: -3", ["lies-apart"]),
    ],
)
def test_a_tag_measured_from_a_mat(words: str, found: list[str]) -> None:
    layout = page(f"[{MAT}, {{place: tag, {words}}}]")
    assert [id for id in ids(layout) if id != "piece-hidden"] == found


def test_a_ribbon_wrapped_round_a_strip_crosses_it() -> None:
    strip = "{place: strip, left: 0, top: 3}"
    assert ids(page(f"[{strip}, {{ribbon: twill, wrap: strip, run: down, left: 2}}]")) == []
    beyond = page(f"[{strip}, {{ribbon: twill, wrap: strip, run: down, left: 12, overhang: yes}}]")
    assert "lies-apart" in ids(beyond)


def test_a_photograph_is_checked_by_its_mat_alone() -> None:
    layout = page(f"[{MAT}, {{photo: 2 x 2, on: mat, left: 7}}]")
    assert serious(layout) == ["photo-beyond-mat"]
    said = finding_of(layout, "photo-beyond-mat")
    assert said.found == "a photograph of 2 x 2 on a mat of 6 1/4 x 4 1/4 lies partly beside it"
    assert said.cure == "correct a distance, or say overhang: yes"


def test_a_group_reaches_under_what_it_is_tucked_under() -> None:
    loose = "{place: tag, loose: yes}"
    for left, found in (("8", []), ("8 1/4", ["lies-apart"])):
        layout = page(f"[{MAT}, {loose}, {{group: tag, left: {left}, top: 3, tucked: mat}}]")
        assert ids(layout) == found


def test_of_what_still_lies_loose_nothing_is_reported() -> None:
    layout = page(f"""
      - {MAT}
      - {{place: tag, loose: yes, tucked: mat}}
      - {{group: tag, left: 8, top: 3}}
    """)
    assert "lies-apart" not in ids(layout)
