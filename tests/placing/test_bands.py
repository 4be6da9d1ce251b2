"""Ribbon and tape: where they lie and how much is cut off the roll, the sums written out."""

from __future__ import annotations

from fractions import Fraction
from math import atan2, degrees, hypot

import pytest

from booklet.measure.geometry import ExactRect
from booklet.measure.length import Unit
from booklet.placing.details import BandForm, CutLength, Tied
from booklet.placing.model import ItemKind
from booklet.placing.visible import tilted_rect
from tests.placing.layouts import detail, finding_of, ids, named, page, rect, serious

MAT = "{place: mat, left: 2, top: 3}"


def ribbon(words: str) -> tuple[CutLength, str]:
    """The length that a ribbon of these words takes beside a mat at 2, 3, and where it lies."""
    layout = page(f"[{MAT}, {{ribbon: twill, {words}}}]")
    assert serious(layout) == []
    band = named(layout, "twill").rect
    return detail(layout, 2, CutLength), f"{band.x}, {band.y}, {band.width} x {band.height}"


@pytest.mark.parametrize(
    ("words", "form", "total", "where"),
    [
        # 12, and two ends of 1.
        ("run: across, top: 2", BandForm.RUN, "14", "0, 2, 12 x 1/2"),
        ("run: across, top: 2, ends: 1/2", BandForm.RUN, "13", "0, 2, 12 x 1/2"),
        ("run: down, right: 1, ends: 0", BandForm.RUN, "12", "21/2, 0, 1/2 x 12"),
        # From 2 to 12 - 3 = 9: 7, and 2 x 1.
        ("run: across, left: 2, right: 3, top: 1", BandForm.RUN, "9", "2, 1, 7 x 1/2"),
        # Over the mat only: 6 1/4 and 2 x 1; in the middle of 4 1/4: 3 + 1 7/8.
        ("run: across, on: mat", BandForm.RUN, "8 1/4", "2, 39/8, 25/4 x 1/2"),
        # Round 6 1/4 and back, and 1/2 over.
        ("wrap: mat", BandForm.WRAP, "13", "2, 39/8, 25/4 x 1/2"),
        # The other way round: 2 x 4 1/4 + 1/2 = 9.
        ("wrap: mat, run: down, left: 1", BandForm.WRAP, "9", "3, 3, 1/2 x 17/4"),
        ("wrap: mat, overlap: 1, bottom: 1/4", BandForm.WRAP, "13 1/2", "2, 13/2, 25/4 x 1/2"),
        # Twice 1 1/2.
        ("loop: 1 1/2, left: 0, top: 0", BandForm.LOOP, "3", "0, 0, 1/2 x 3/2"),
        (
            "loop: 1 1/2, left: 0, top: 0, turn: clockwise, ends: 1/4",
            BandForm.LOOP,
            "3 1/4",
            "0, 0, 3/2 x 1/2",
        ),
        ("bow: 9, left: 1, top: 1", BandForm.BOW, "9", "1, 1, 3 x 3/2"),
        # Each tail lies to one side of the knot: 2 x 1 1/2 wide; a third of 6 where it is not said.
        ("knot: 6, tails: 1 1/2, left: 1, top: 1", BandForm.KNOT, "6", "1, 1, 3 x 3/4"),
        ("knot: 6, ends: 1/2, left: 1, top: 1", BandForm.KNOT, "6 1/2", "1, 1, 4 x 1"),
    ],
)
def test_forms_of_ribbon(words: str, form: BandForm, total: str, where: str) -> None:
    length, lies = ribbon(words)
    assert length.form is form
    assert length.total == rect(f"0, 0, {total} x 1").width
    assert lies == where


def test_metric_ends_are_round_in_millimetres() -> None:
    layout = page("[{ribbon: twill, run: across, top: 20}]", Unit.MILLIMETRE, {"base": "300 x 300"})
    # 300 + 2 x 25.
    assert detail(layout, 1, CutLength).total == 350


def test_a_metric_overlap_is_round_in_millimetres() -> None:
    sizes = {"base": "300 x 300", "mat": "160 x 100"}
    layout = page("[{place: mat, left: 20, top: 20}, {ribbon: twill, wrap: mat}]", Unit.MILLIMETRE, sizes)
    # 2 x 160 + 12.
    assert detail(layout, 2, CutLength).total == 332


def test_a_ribbon_lies_on_what_it_is_wrapped_round() -> None:
    layout = page(
        "[{place: mat, left: 2, top: 3}, {ribbon: twill, wrap: mat}, {group: mat, left: 0, top: 0}]"
    )
    assert named(layout, "twill").kind is ItemKind.RIBBON
    assert named(layout, "twill").rect == rect("0, 1 7/8, 6 1/4 x 1/2")


@pytest.mark.parametrize("words", ["top: 1", "run: across, loop: 2, top: 1", "wrap: mat, loop: 2"])
def test_a_ribbon_has_one_form(words: str) -> None:
    assert ids(page(f"[{MAT}, {{ribbon: twill, {words}}}]")) == ["ribbon-form"]


class TestTape:
    @pytest.mark.parametrize(
        ("words", "form", "total", "where"),
        [
            # In the middle of a strip 12 x 1 at the top left.
            ("along: strip", BandForm.ALONG, "12", "0, 1/4, 12 x 1/2"),
            ("along: strip, top: 0, ends: 1/2", BandForm.ALONG, "13", "0, 0, 12 x 1/2"),
            ("run: down, left: 3", BandForm.RUN, "12", "3, 0, 1/2 x 12"),
            ("length: 2, left: 1, top: 5", BandForm.STRIP, "2", "1, 5, 2 x 1/2"),
            ("length: 2, left: 1, top: 5, turn: clockwise", BandForm.STRIP, "2", "1, 5, 1/2 x 2"),
        ],
    )
    def test_forms(self, words: str, form: BandForm, total: str, where: str) -> None:
        layout = page(f"[{{place: strip, left: 0, top: 0}}, {{tape: rope tape, {words}}}]")
        assert layout.findings == ()
        length = detail(layout, 2, CutLength)
        assert length.form is form
        assert length.total == rect(f"0, 0, {total} x 1").width
        band = named(layout, "rope tape").rect
        assert f"{band.x}, {band.y}, {band.width} x {band.height}" == where

    def test_along_an_upright_strip_it_runs_down(self) -> None:
        layout = page(
            "[{place: strip, turn: clockwise, left: 1, top: 0, tilt: 3, overhang: yes},"
            " {tape: rope tape, along: strip, overhang: yes}]"
        )
        assert named(layout, "rope tape").rect == rect("1 1/4, 0, 1/2 x 12")
        assert named(layout, "rope tape").tilt == 3

    @pytest.mark.parametrize(("width", "found"), [("1/2", []), ("7/16", ["tape-wider-than-strip"])])
    def test_its_width_is_checked_against_the_strip(self, width: str, found: list[str]) -> None:
        layout = page(
            "[{place: strip, left: 0, top: 3}, {tape: rope tape, along: strip, overhang: yes}]",
            sizes={"base": "12 x 12", "strip": f"12 x {width}"},
        )
        assert ids(layout) == found

    @pytest.mark.parametrize(
        "words", ["top: 1", "along: strip, length: 2", "run: down, length: 2, left: 1, top: 1"]
    )
    def test_tape_has_one_form(self, words: str) -> None:
        assert ids(page(f"[{{place: strip, left: 0, top: 0}}, {{tape: rope tape, {words}}}]")) == [
            "tape-form"
        ]


class TestSupplies:
    def test_an_unknown_supply_brings_the_nearest(self) -> None:
        assert finding_of(page("[{ribbon: twil, run: across, top: 1}]"), "supply-unknown").cure == (
            'did you mean "twill"?'
        )

    def test_a_supply_of_another_kind(self) -> None:
        finding = finding_of(page("[{ribbon: rope tape, run: across, top: 1}]"), "supply-of-another-kind")
        assert (finding.found, finding.cure) == ('"rope tape" is tape', "name ribbon here")

    def test_a_ribbon_without_a_width(self) -> None:
        supplies = [{"id": "twill", "kind": "ribbon", "length": "36"}]
        layout = page("[{ribbon: twill, run: across, top: 1}]", supplies=supplies)
        assert finding_of(layout, "supply-without-width").where == ("supplies", 0)


TILTED = "{place: tag, left: 4, top: 4, tilt: 10}"


@pytest.mark.parametrize(
    "words",
    [
        "{ribbon: twill, wrap: tag, run: across, top: 1/4}",
        "{tape: rope tape, along: tag, right: 1/4}",
        "{ribbon: twill, bow: 3, on: tag, top: 1/4}",
        "{add: brass, on: tag, top: 1/8}",
    ],
)
def test_what_is_fixed_to_a_tilted_piece_turns_with_it(words: str) -> None:
    layout = page(f"[{TILTED}, {words}]")
    tag, band = layout.items
    assert band.tilt == 10
    assert band.pivot == tag.rect.centre
    # As far from the middle of the tag as it is untilted, and turned by the same angle.
    away = [float(a - b) for a, b in zip(centre(band.rect), centre(tag.rect), strict=True)]
    turned = [float(a - b) for a, b in zip(centre(tilted_rect(band)), centre(tag.rect), strict=True)]
    angle = degrees(atan2(turned[1], turned[0]) - atan2(away[1], away[0]))
    assert angle == pytest.approx(10)
    assert hypot(*turned) == pytest.approx(hypot(*away))


def test_a_strip_of_tape_with_a_tilt_of_its_own_keeps_it() -> None:
    layout = page(f"[{TILTED}, {{tape: rope tape, length: 1, on: tag, top: 0, tilt: -30}}]")
    assert layout.items[1].tilt == -30
    assert layout.items[1].pivot is None


def test_a_band_hangs_over_with_what_it_is_fixed_to() -> None:
    strip = "place: strip, turn: clockwise, left: 1, top: 0, tilt: 4"
    tape = "{tape: rope tape, along: strip}"
    assert serious(page(f"[{{{strip}, overhang: yes}}, {tape}]")) == []
    assert "overhang" in serious(page(f"[{{{strip}}}, {tape}]"))


def centre(rect: ExactRect) -> tuple[Fraction, Fraction]:
    return rect.centre.x, rect.centre.y


@pytest.mark.parametrize(
    ("words", "total", "form", "where"),
    [
        # Round 6 1/4 and back, and 9 for the bow: no overlap.  The middle of the mat is at 5 1/8, 5 1/8.
        ("wrap: mat, bow: 9", "21 1/2", BandForm.BOW, "3 5/8, 4 3/8, 3 x 3/2"),
        ("wrap: mat, knot: 6, tails: 1, bottom: 1/4", "18 1/2", BandForm.KNOT, "4 1/8, 6 1/2, 2 x 1/2"),
        ("wrap: mat, knot: 6, tails: 1, tied_at: 2", "18 1/2", BandForm.KNOT, "3, 4 7/8, 2 x 1/2"),
        # Down: 2 x 4 1/4 and 6; 1 from the top edge at 3, the band's middle at 3 1/4.
        ("wrap: mat, run: down, left: 1, knot: 6, tails: 1, tied_at: 1", "14 1/2", BandForm.KNOT,
         "2 1/4, 3 3/4, 2 x 1/2"),
    ],
)  # fmt: skip
def test_a_wrap_is_tied_in_front(words: str, total: str, form: BandForm, where: str) -> None:
    layout = page(f"[{MAT}, {{ribbon: twill, {words}}}]")
    band, tie = layout.of_step(2)
    assert serious(layout) == []
    assert detail(layout, 2, CutLength).total == rect(f"0, 0, {total} x 1").width
    assert (detail(layout, 2, Tied).item, detail(layout, 2, Tied).form) == (tie.id, form)
    assert (tie.rect, tie.layer > band.layer) == (rect(where), True)


def test_a_tie_turns_and_moves_with_what_its_ribbon_goes_round() -> None:
    layout = page(
        f"[{MAT.replace('}', ', tilt: 5}')}, {{ribbon: twill, wrap: mat, bow: 9}},"
        " {group: [mat], left: 4, top: 5}]"
    )
    mat, band, tie = layout.items
    assert band.tilt == tie.tilt == mat.tilt != 0
    assert tie.pivot == mat.rect.centre == tie.rect.centre


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("bow: 9, knot: 6, left: 1, top: 1", "ribbon-form"),
        ("loop: 1, knot: 6, left: 1, top: 1", "ribbon-form"),
        ("knot: 4, tails: 2, left: 1, top: 1", "knot-short"),
        ("bow: 9, tails: 2, left: 1, top: 1", "word-alone"),
        ("knot: 6, tied_at: 2, left: 1, top: 1", "word-alone"),
        ("wrap: mat, tied_at: 2", "word-alone"),
        ("wrap: mat, bow: 9, overlap: 1", "overlap-of-tied"),
        ("wrap: mat, bow: 9, tied_at: 6 1/4", "tie-off-ribbon"),
    ],
)
def test_a_tie_that_cannot_be_is_refused(words: str, said: str) -> None:
    assert ids(page(f"[{MAT}, {{ribbon: twill, {words}}}]")) == [said]


@pytest.mark.parametrize(
    "words", ["knot: 4, tails: 1 15/16, left: 1, top: 1", "wrap: mat, bow: 9, tied_at: 6 1/8"]
)
def test_a_tie_that_just_can_be_is_not(words: str) -> None:
    assert serious(page(f"[{MAT}, {{ribbon: twill, {words}}}]")) == []
