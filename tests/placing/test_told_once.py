"""What could not be laid is told where it failed, and not again by each step that names it later."""

from __future__ import annotations

import pytest

from tests.placing.layouts import ids, page

# What fails, and by which finding; the name of its own is "it" each time.
FAILS = {
    "a piece": ("{place: tag, left: 1, called: it}", "position-open"),
    "a photograph": ("{photo: 4 x 6, left: 1, called: it}", "position-open"),
    "a writing space": ("{write: 3 x 2, left: 1, called: it}", "position-open"),
    "a row": ("{row: [tag], called: it, top: 1}", "position-open"),
    "a ribbon": ("{ribbon: twill, loop: 2, left: 1, called: it}", "position-open"),
    "tape": ("{tape: rope tape, length: 3, left: 1, called: it}", "position-open"),
    "a stencilled area": ("{stencil: net, size: 2 x 2, left: 1, called: it}", "position-open"),
    "a stencil of no supply": ("{stencil: nett, size: 2 x 2, left: 1, top: 1, called: it}", "supply-unknown"),
    "a brad": ("{add: brass, left: 1, called: it}", "position-open"),
    "an embellishment of no supply": ("{add: bras, left: 1, top: 1, called: it}", "supply-unknown"),
    "a seam": (
        "{stitch: [nothing, page], along: top, inset: 1/4, length: 1/4, spacing: 1/8, called: it}",
        "reference-unknown",
    ),
}


@pytest.mark.parametrize("name", FAILS)
def test_a_later_step_is_not_blamed_for_a_thing_with_a_name_of_its_own(name: str) -> None:
    step, found = FAILS[name]
    assert ids(page(f"[{step}, {{place: mat, left: 1, below: it}}]")) == [found]


@pytest.mark.parametrize(
    ("step", "name", "found"),
    [
        ("{place: tag, left: 1}", "tag", "position-open"),
        ("{photo: 4 x 6, left: 1}", "photo", "position-open"),
        ("{write: 3 x 2, left: 1}", "writing space", "position-open"),
        ("{row: [tag], top: 1}", "tag", "position-open"),
        ("{ribbon: twill, loop: 2, left: 1}", "twill", "position-open"),
        ("{tape: rope tape, length: 3, left: 1}", "rope tape", "position-open"),
        ("{stencil: net, size: 2 x 2, left: 1}", "net", "position-open"),
        ("{add: brass, left: 1}", "brass", "position-open"),
        ("{add: bras, left: 1, top: 1}", "bras", "supply-unknown"),
        (
            "{stitch: [nothing, page], along: top, inset: 1/4, length: 1/4, spacing: 1/8}",
            "stitches",
            "reference-unknown",
        ),
    ],
)
def test_a_later_step_is_not_blamed_for_a_thing_by_its_usual_name(step: str, name: str, found: str) -> None:
    assert ids(page(f"[{step}, {{place: mat, left: 1, below: {name}}}]")) == [found]


def test_parts_of_what_nothing_makes_are_not_missed() -> None:
    steps = "{snip: nothing, at: 1, leaves: [one, two]}, {place: mat, left: 1, below: one}"
    assert "reference-unknown" not in ids(page(f"[{steps}]"))
