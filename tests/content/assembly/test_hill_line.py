"""The demo's layouts, read as a person at the table reads them: sentences that were once stumbled over."""

from __future__ import annotations

import pytest

from booklet.content.assembly.section import layout_sections
from booklet.content.blocks import LayoutView, Section, StepList
from booklet.content.spans import Words
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import bundled_kits
from booklet.kit.load import load_kit
from booklet.placing.resolved import resolve_kit
from tests.content.assembly.telling import block, lines_of, typed


@pytest.fixture(scope="module")
def layouts() -> tuple[Section, ...]:
    return layout_sections(resolve_kit(load_kit(bundled_kits()["hill-line"])), ENGLISH)


def step(layouts: tuple[Section, ...], layout: int, number: int) -> str:
    """A printed step as one text, its head first."""
    parts = block(layouts[layout - 1], StepList).steps[number - 1].parts
    return " | ".join(f"{typed(part.head)}: {typed(part.said)}" for part in parts)


TOLD = {
    (1, 1): "Carriage band 1B: Sideways across the page, top edge 4 5/8 in down.",
    (1, 3): "Left canopy 2A: Across the page, scalloped edge along the top edge.",
    (1, 5): (
        "Brass mat, cream mat, photo 4 × 6: One on another, 1/8 in showing all round. Stand them on the"
        " rail (2), 1 in from the left. The mat stands on the rail like a carriage."
    ),
    (1, 6): (
        "Window 3K, photo 3 × 4: One on another, 1/8 in showing all round. Stand them on the rail (2),"
        " 1 3/4 in from the right. Leave the right edge unglued for (7)."
    ),
    (1, 7): (
        "Up tag 9J: Slide it under (6): 3/8 in from the right, 4 3/8 in down. Tilt 6° right."
        " Fix a brass rivet 1/4 in from its top edge, halfway across."
    ),
    (1, 9): "Line board 8P: 1 in from the left, 1/2 in up, on four foam dots.",
    (1, 10): (
        "Single ticket 9S: Punch a 1/4 in hole, the rim 1/4 in from its right edge, halfway down."
        " Clip the ticket, as the guard does. Lay it 1 in from the right, 1/2 in up. Tilt 6° left."
    ),
    (2, 3): (
        "Right canopy 2C: Turn it half round. Lay it across the page, along the top edge."
        " Its scallops hang down too."
    ),
    (2, 5): (
        "Three windows 3L 3M 3N, three photos 3 × 4: Round all four corners of each window, radius 1/4 in."
        " Stand the middle window first on the rail (2): its centre 6 in from the left."
        " The others beside it, 3/8 in apart. Centre a photo on each; 1/8 in shows all round."
    ),
    (5, 3): (
        "Meadow panel 5C: Do not glue it yet: (4) goes round it first."
        " Lay it 1 in from the left, 1 1/2 in down."
    ),
    (5, 4): (
        "Signal red ribbon: Cut 14 in: 13 in to go round, 1 in to overlap behind. Wrap it round the"
        " meadow panel (3), 1/8 in from its bottom edge. Then glue (3)."
    ),
    (5, 10): (
        "Badge mat 5H, flower badge 9AC: Turn the badge mat back side up. Lay it 1 1/4 in from the right,"
        " 1/4 in up. Tilt 6° right. Centre the flower badge on it, at the same tilt, on two foam"
        " dots; 1/8 in shows all round."
    ),
    (7, 1): (
        "Sun: Cut it in half. Lay one half, cut edge on the page’s right edge, top edge 4 3/4 in down."
        " Put the other half, 1 1/2 × 3 in, with The view. The sun comes up in the fold."
    ),
    (7, 4): (
        "Wide mat 2F, cream mat, photo 6 × 4: One on another, the cream mat sideways, 1/8 in showing all"
        " round. Stand them on the track (3), 1 in from the left. Leave the right edge unglued for (5)."
    ),
    (8, 1): (
        "Other half of the sun, cut on Summit: Lay it with its cut edge on the page’s left edge,"
        " top edge 4 3/4 in down."
    ),
    (8, 4): "Ridge strip 7A: Sideways across the page, top edge 2 in down, stitched edge at the bottom.",
    (9, 5): ("The block (3) (4): Take it in one piece. Lay it 3/4 in from the left, 5/8 in down."),
    (9, 9): (
        "Night ticket 9X: Cut 1/2 in off its right end. Lay it 1 in from the right, 1/4 in up. Tilt 2° right."
    ),
    (10, 3): (
        "Moonlit mat 7E, brass mat, cream mat, photo 6 × 4: One on another, the brass mat and the cream mat"
        " sideways: 1/4 in of the moonlit mat shows all round, 1/8 in of the others. Stand them on the"
        " rail (2), 1/2 in from the left. Leave the top edge unglued for (5)."
    ),
    (10, 6): (
        "Home tag 9R: Slide it under (4): 3/4 in from the right, 1 7/8 in down. Tilt 5° right."
        " | Signal red ribbon: Cut 8 in. Tie a bow. Fix it on the home tag, 1/4 in from its top edge,"
        " halfway across."
    ),
}


@pytest.mark.parametrize(("layout", "number"), TOLD)
def test_steps_of_the_demo(layouts: tuple[Section, ...], layout: int, number: int) -> None:
    assert step(layouts, layout, number) == TOLD[layout, number]


def test_a_photograph_is_told_by_its_way_up(layouts: tuple[Section, ...]) -> None:
    needs = [typed(need.text) for need in block(layouts[2], LayoutView).needs]
    assert needs[1] == "One photo, 6 × 4, landscape"


def test_no_number_is_glued_into_words(layouts: tuple[Section, ...]) -> None:
    for one in layouts:
        for said in lines_of(one):
            for span in said:
                assert not isinstance(span, Words) or not any(map(str.isdigit, span.text)), span
