"""Where each finding of a layout stands in the spec, how grave it is, that it is told once with a cure."""

from __future__ import annotations

from typing import Any

import pytest

from booklet.kit.finding import Severity
from booklet.placing.model import PlacedLayout
from tests.placing.layouts import finding_of, ids, page, pages

TAG = "{place: tag, left: 1, top: 1}"
MAT = "{place: mat, left: 1, top: 1}"
LOOSE = "{place: tag, loose: yes}"
FAR_SEAM = "along: left, ends: 1/4, inset: 2 1/4, length: 1/4, spacing: 1/8"
SEAM = "along: top, inset: 1/4, length: 1/4, spacing: 1/8"

# The id, the step from 0 that it stands at with the keys in it, and the steps.
ERRORS: dict[str, tuple[str, tuple[str | int, ...], str]] = {
    "scissors beyond the piece": ("snip-beyond", (0, "at"), "{snip: tag, at: 2, leaves: [scrap, scrap]}"),
    "a part that is not named": (
        "snip-leaves",
        (0, "leaves"),
        "{snip: tag, at: [1/2, 1], leaves: [scrap, scrap]}",
    ),
    "a part that no step takes": (
        "part-left-over",
        (0, "leaves", 0),
        "{snip: tag, at: 1, leaves: [a, scrap]}",
    ),
    "trimmed once it is laid": (
        "trim-too-late",
        (1, "trim_round"),
        f"{TAG}, {{trim_round: tag, size: 1 x 2}}",
    ),
    "trimmed to more than it is": ("trim-too-large", (0, "size"), f"{{trim_round: tag, size: 2 x 4}}, {TAG}"),
    "a corner rounder than the piece": (
        "radius-too-large",
        (0, "radius"),
        f"{{round: tag, radius: 1 1/8}}, {TAG}",
    ),
    "a punch for nothing": ("punch-what", (0,), f"{{punch: tag}}, {TAG}"),
    "a hole through the edge": ("hole-off-piece", (0,), f"{{punch: tag, hole: 1/4, left: 0, top: 1}}, {TAG}"),
    "ink that is ribbon": ("supply-of-another-kind", (1, "supply"), f"{TAG}, {{ink: tag, supply: twill}}"),
    "foam that is ribbon": ("supply-of-another-kind", (1, "foam"), f"{TAG}, {{raise: tag, foam: twill}}"),
    "a ribbon that is tape": (
        "supply-of-another-kind",
        (0, "ribbon"),
        "{ribbon: rope tape, run: across, top: 1}",
    ),
    "tape that is a ribbon": ("supply-of-another-kind", (0, "tape"), "{tape: twill, run: across, top: 1}"),
    "a stencil that is ink": (
        "supply-of-another-kind",
        (0, "stencil"),
        "{stencil: sea ink, size: 2 x 2, left: 1, top: 1}",
    ),
    "a stencil's ink that is foam": (
        "supply-of-another-kind",
        (0, "supply"),
        "{stencil: net, size: 2 x 2, left: 1, top: 1, supply: foam bits}",
    ),
    "an embellishment that is ink": ("supply-of-another-kind", (0, "add"), "{add: sea ink, left: 1, top: 1}"),
    "a thread that is tape": (
        "supply-of-another-kind",
        (2, "thread"),
        f"{MAT}, {TAG}, {{stitch: [tag, mat], {SEAM}, thread: rope tape}}",
    ),
    "unseen use of what is not there": (
        "supply-unknown",
        (0, "uses", "glue"),
        f"{TAG[:-1]}, uses: {{glue: 1}}}}",
    ),
    "a ribbon of two forms": ("ribbon-form", (0,), "{ribbon: twill, loop: 2, bow: 6, left: 1, top: 1}"),
    "tape of no form": ("tape-form", (0,), "{tape: rope tape, left: 1, top: 1}"),
    "tape wider than its strip": (
        "tape-wider-than-strip",
        (1, "along"),
        "{place: thin, left: 0, top: 1}, {tape: rope tape, along: thin}",
    ),
    "a photograph that fits on nothing": (
        "photo-fits-nothing",
        (0, "photo"),
        "{photo: fits, left: 1, top: 1}",
    ),
    "a photograph that its border leaves nothing of": (
        "photo-fits-nothing",
        (1, "photo"),
        f"{TAG}, {{photo: fits, on: tag, border: 1}}",
    ),
    "a photograph on what is not there": ("reference-unknown", (0, "on"), "{photo: fits, on: nothing}"),
    "work on what is not there": ("reference-unknown", (0, "round"), "{round: nothing, radius: 1/8}"),
    "a raise of what is not there": ("reference-unknown", (0, "raise"), "{raise: nothing, foam: foam bits}"),
    "distances that leave less than nothing": (
        "position-reversed",
        (0, "right"),
        "{stencil: net, left: 7, right: 6, top: 1, bottom: 1}",
    ),
    "a piece with no place down the page": ("position-open", (0,), "{place: tag, left: 1}"),
    "a group that is tilted": (
        "group-not-so",
        (1, "tilt"),
        f"{TAG}, {{group: [tag], left: 1, top: 1, tilt: 5}}",
    ),
    "words about what is not there": ("reference-unknown", (0, "on", 0), "{do: Wait., on: nothing}"),
    "tape along what is not there": ("reference-unknown", (0, "along"), "{tape: rope tape, along: nothing}"),
    "a group of what is not there": (
        "reference-unknown",
        (1, "group", 1),
        f"{TAG}, {{group: [tag, nothing], left: 1}}",
    ),
    "brads scattered on what is not there": (
        "reference-unknown",
        (0, "on"),
        "{add: brass, count: 3, on: nothing}",
    ),
    "a border that is not so": (
        "border-differs",
        (1, "border"),
        f"{MAT}, {{photo: 4 x 4, on: mat, border: 1/4}}",
    ),
    "a border of what lies on nothing": ("word-alone", (0, "border"), f"{TAG[:-1]}, border: 1/8}}"),
    "the page as a group": ("under-the-page", (0, "group", 0), "{group: [page], left: 1, top: 1}"),
    "brads in corners without an inset": (
        "position-open",
        (1,),
        f"{TAG}, {{add: brass, corners: all, on: tag}}",
    ),
    "three brads in four corners": (
        "corners-count",
        (1, "count"),
        f"{TAG}, {{add: brass, corners: all, on: tag, inset: 1/4, count: 3}}",
    ),
    "brads that lie on each other": (
        "overlap-too-large",
        (0, "apart"),
        "{add: brass, count: 3, run: across, left: 1, top: 1, apart: 1/8}",
    ),
    "more brads than there is room": (
        "series-too-long",
        (0,),
        "{add: brass, count: 20, run: across, left: 1, right: 10, top: 1}",
    ),
    "a loose piece with a place": (
        "position-twice",
        (0, "left"),
        f"{LOOSE[:-1]}, left: 1}}, {{group: [tag], left: 0, top: 0}}",
    ),
    "a loose piece that stays loose": ("left-loose", (0,), LOOSE),
    "a seam along two pieces": (
        "stitch-what",
        (2, "stitch", 0),
        f"{MAT}, {TAG}, {{stitch: [page, tag], {SEAM}}}",
    ),
    "a stitch longer than its edge": (
        "stitch-too-long",
        (2, "length"),
        f"{MAT}, {TAG}, {{stitch: [tag, mat], along: top, inset: 1/4, length: 3, spacing: 1/8}}",
    ),
    "a seam beside the second piece": (
        "stitch-beside",
        (2, "stitch", 1),
        f"{MAT}, {{place: tag, left: 6 1/4, top: 2}}, {{stitch: [tag, mat], {SEAM}}}",
    ),
    "a seam beside the first piece": (
        "stitch-beside",
        (2, "stitch", 0),
        f"{MAT}, {TAG}, {{stitch: [tag, mat], {FAR_SEAM}}}",
    ),
    "a spread that no page faces": ("spread-of-one", (0, "spread"), f"{TAG[:-1]}, spread: yes}}"),
}

WARNINGS: dict[str, tuple[str, tuple[str | int, ...], str]] = {
    "foam that is not counted": ("foam-unsaid", (1,), f"{TAG}, {{raise: tag}}"),
    "a border that is nearly even": (
        "border-nearly-even",
        (1,),
        "{place: tall mat, left: 1, top: 1}, {photo: 4 x 6 1/8, on: tall mat}",
    ),
}


def laid(steps: str) -> PlacedLayout:
    sizes = {"base": "12 x 12", "mat": "6 1/4 x 4 1/4", "tall mat": "4 1/4 x 6 1/4", "tag": "2 x 3"}
    return page(f"[{steps}]", sizes={**sizes, "thin": "12 x 3/8"})


def told(layout: PlacedLayout, id: str) -> Any:
    """The finding of this id, which is told once and says what was found and what to do."""
    finding = finding_of(layout, id)
    assert finding.found
    assert finding.cure
    return finding


@pytest.mark.parametrize(("id", "where", "steps"), ERRORS.values(), ids=ERRORS.keys())
def test_an_error_stands_at_the_key_that_is_wrong(id: str, where: tuple[str | int, ...], steps: str) -> None:
    finding = told(laid(steps), id)
    assert (finding.where, finding.severity) == (("layouts", 0, "steps", *where), Severity.ERROR)


@pytest.mark.parametrize(("id", "where", "steps"), WARNINGS.values(), ids=WARNINGS.keys())
def test_a_warning_stands_at_its_step(id: str, where: tuple[str | int, ...], steps: str) -> None:
    finding = told(laid(steps), id)
    assert (finding.where, finding.severity) == (("layouts", 0, "steps", *where), Severity.WARNING)


def test_foam_that_is_nowhere_is_a_warning_at_its_step() -> None:
    finding = told(page(f"[{TAG}, {{raise: tag}}]", supplies=[]), "foam-missing")
    assert (finding.where, finding.severity) == (("layouts", 0, "steps", 1), Severity.WARNING)


@pytest.mark.parametrize(
    ("bring", "found"),
    [([], ["foam-missing"]), (["scissors"], ["foam-missing"]), (["scissors", "Foam squares"], [])],
)
def test_foam_that_the_member_brings_need_not_be_in_the_box(bring: list[str], found: list[str]) -> None:
    assert ids(page(f"[{TAG}, {{raise: tag}}]", supplies=[], bring=bring)) == found


def test_the_foam_that_may_be_meant_is_named() -> None:
    assert told(laid(f"{TAG}, {{raise: tag}}"), "foam-unsaid").cure == "say foam: foam bits"


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("", "neither corners nor a hole"),
        (", corners: all, hole: 1/4, centred: yes", "both corners and a hole"),
    ],
)
def test_a_punch_for_nothing_or_for_both_is_told_apart(words: str, found: str) -> None:
    assert told(laid(f"{{punch: tag{words}}}, {TAG}"), "punch-what").found == found


def test_a_half_that_nothing_lays_stands_at_the_steps_of_its_page() -> None:
    _, right = pages(
        {"steps": "[{place: strip, left: 6, top: 1, spread: yes}]", "facing": "page-2"},
        {"steps": "[]", "base": "other base"},
    )
    assert told(right, "half-left-over").where == ("layouts", 1, "steps")


@pytest.mark.parametrize("turned", [0, 1])
def test_how_near_a_tilted_piece_comes_is_told_as_about(turned: int) -> None:
    """A tag tilted by 10 degrees reaches 0.245 beyond its upright edges."""
    tilts = ["tilt: 10" if at == turned else "tilt: 0" for at in (0, 1)]
    steps = f"{{place: tag, left: 1, top: 1, {tilts[0]}}}, {{place: tag, left: 3.3, top: 1, {tilts[1]}}}"
    assert "apart by about 0.0" in told(laid(steps), "near-miss").found
