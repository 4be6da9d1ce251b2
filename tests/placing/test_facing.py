"""What runs off one page of a spread and on over the other."""

from __future__ import annotations

import pytest

from booklet.kit.finding import Finding, Severity
from booklet.measure.length import Unit
from booklet.placing.facing import check_facing
from booklet.placing.place_layouts import place_layouts
from tests.placing.layouts import PIECES, kit_of, pieces, steps_of

STRIP = "{place: strip, left: 0, top: 4}"


def found(left: str, right: str, unit: Unit = Unit.INCH, is_spread: bool = True) -> list[Finding]:
    """What is said of two pages, the steps of each typed in YAML."""
    facing = {"facing": "page-2"} if is_spread else {}
    one, other = {"steps": steps_of(f"[{left}]"), **facing}, {"steps": steps_of(f"[{right}]")}
    sizes = {name: f"{size} in" for name, size in PIECES.items()}
    kit = kit_of(one, {**other, "base": "other base"}, unit=unit)
    return list(check_facing(kit, place_layouts(kit, pieces(sizes, unit))))


@pytest.mark.parametrize(
    ("top", "is_offset"),
    [("4", False), ("4 1/8", True), ("3 7/8", True), ("4 1/64", True), ("4 3/16", False)],
)
def test_a_strip_that_goes_on_a_little_higher_or_lower(top: str, is_offset: bool) -> None:
    assert bool(found(STRIP, f"{{place: strip, left: 0, top: {top}}}")) is is_offset


def test_it_says_which_meets_which_and_where() -> None:
    (finding,) = found(STRIP, "{write: 1 x 1, left: 1, top: 1}, {place: strip, left: 0, top: 4 1/8}")
    assert finding.id == "facing-offset"
    assert finding.severity is Severity.WARNING
    assert finding.where == ("layouts", 1, "steps", 1)
    assert finding.found == ('"strip" begins at the gutter 1/8 lower than "strip" ends at it on "page-1"')


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("{ribbon: twill, run: across, top: 2}", "{ribbon: twill, run: across, top: 2 1/8}"),
        ("{tape: rope tape, run: across, top: 2}", "{ribbon: twill, run: across, top: 1 7/8}"),
        ("{photo: 6 x 4, right: 0, top: 2}", "{photo: 6 x 4, left: 0, top: 2 1/16}"),
        (
            "{place: strip, left: 4, top: 4, overhang: yes}",
            "{place: half strip, left: -1, top: 4 1/8, overhang: yes}",
        ),
    ],
)
def test_whatever_runs_on(left: str, right: str) -> None:
    assert [finding.id for finding in found(left, right)] == ["facing-offset"]


@pytest.mark.parametrize(
    ("left", "right"),
    [
        # It ends before the gutter, or begins after it.
        ("{place: half strip, left: 5 7/8, top: 4}", "{place: strip, left: 0, top: 4 1/8}"),
        (STRIP, "{place: half strip, left: 1/8, top: 4 1/8}"),
        # One of another height has edges of its own; what is tilted, too.
        (STRIP, "{ribbon: twill, run: across, top: 4 1/8}"),
        (STRIP, "{place: strip, left: 0, top: 4 1/8, tilt: 1, overhang: yes}"),
        # Two layers, an eighth apart on either page.
        (
            "{place: strip, left: 0, top: 4}, {place: half strip, right: 0, top: 4 1/8}",
            "{place: half strip, left: 0, top: 4 1/8}, {place: strip, left: 0, top: 4}",
        ),
        (STRIP, "{place: strip, left: 0, top: 4}, {place: half strip, left: 0, top: 4 1/8}"),
        # What is cut at the gutter meets itself.
        (
            "{place: banner, spread: yes, left: 9, top: 2}, {photo: 2 x 3, right: 0, top: 2 1/8}",
            "{other_half: banner}",
        ),
    ],
)
def test_what_does_not_run_on(left: str, right: str) -> None:
    assert found(left, right) == []


def test_pages_that_do_not_face_each_other() -> None:
    assert found(STRIP, "{place: strip, left: 0, top: 4 1/8}", is_spread=False) == []


def test_an_eighth_of_an_inch_in_millimetres() -> None:
    # 1/8 in is 3.175 mm.
    strip = "{place: strip, left: 0, top: 100}"
    for top, is_offset in (("103.175", True), ("103.2", False)):
        words = f"{{place: strip, left: 0, top: {top}}}"
        assert bool(found(strip, words, Unit.MILLIMETRE)) is is_offset


def test_the_right_page_may_stand_first_in_the_spec() -> None:
    right = {"steps": steps_of("[{place: strip, left: 0, top: 4 1/8}]")}
    left = {"steps": steps_of(f"[{STRIP}]"), "facing": "page-1", "base": "other base"}
    kit = kit_of(right, left)
    (finding,) = check_facing(kit, place_layouts(kit, pieces()))
    assert finding.where == ("layouts", 0, "steps", 0)


@pytest.mark.parametrize(("face", "said"), [("front", []), ("back", ["facing-faces-differ"])])
def test_like_pieces_that_meet_show_one_face(face: str, said: list[str]) -> None:
    right = f"{{place: strip, left: 0, top: 4, face: {face}}}"
    assert [finding.id for finding in found(STRIP, right)] == said
