"""What every verb says, with lengths as a hand types them."""

from __future__ import annotations

import pytest

from tests.content.assembly.telling import last, said

TAG = "{place: tag, left: 1, top: 1}"
MAT = "{place: mat, left: 1, top: 1}"
STRIP = "{place: strip, left: 0, top: 5}"
CARD = "{place: mat, left: 4, top: 1}"

# What is done to a piece, before it is laid or after.
WORK = {
    "{snip: banner, at: [3, 6], leaves: [wing, heart, tail]}, {place: wing, left: 0, top: 0},"
    " {place: heart, left: 4, top: 0}, {place: tail, left: 8, top: 0}": [
        "Snip it at 3 in and 6 in from its left edge: wing 3 × 3, heart 3 × 3 and tail 2 × 3.",
        "In the top left corner of the page.",
        "Against the top edge, 4 in from the left.",
        "Against the top edge, 8 in from the left.",
    ],
    "{snip: tag, measured_from: bottom, at: 1, leaves: [scrap, head], say: Keep the eyelet.},"
    " {place: head, left: 1, top: 1}": [
        "Cut 1 in off its bottom end. Keep the eyelet. Lay it 1 in from the left, 1 in down.",
    ],
    f"{{trim_round: badge, size: 1 3/4 x 1 1/2, outline: the printed rope}}, {STRIP}, {{place:"
    f" badge, left: 1, top: 1}}": [
        "Trim it along the printed rope, to 1 3/4 × 1 1/2 in.",
        "Across the page, top edge 5 in down.",
        "1 in from the left, 1 in down.",
    ],
    f"{MAT}, {{round: mat, radius: 1/4}}, {{round: mat, radius: 1/2, corners: [top left, bottom right]}}": [
        (
            "Round all four corners, radius 1/4 in. Round the top left and bottom right corners, radius"
            " 1/2 in. Lay it 1 in from the left, 1 in down."
        ),
    ],
    "{snip: tag, at: 1, leaves: [one, two]}, {punch: one, hole: 1/8, left: 1/4, top: 1/4},"
    " {place: one, left: 0, top: 0}, {place: two, left: 4, top: 0}": [
        "Snip it at 1 in from its left edge: one 1 × 3 and two 1 × 3.",
        (
            "Punch a 1/8 in hole, the rim 1/4 in from its left edge, 1/4 in from its top edge. Lay it in the"
            " top left corner of the page."
        ),
        "Against the top edge, 4 in from the left.",
    ],
    f"{{round: tag, radius: 1/4, corners: top left}}, {TAG}": [
        "Round the top left corner, radius 1/4 in. Lay it 1 in from the left, 1 in down.",
    ],
    f"{{punch: tag, corners: all, shape: ticket}}, {TAG}, {{punch: tag, hole: 1/4, right: 1/4}}": [
        (
            "Punch all four corners with a ticket punch. Punch a 1/4 in hole, the rim 1/4 in from its right"
            " edge, halfway down. Lay it 1 in from the left, 1 in down."
        ),
    ],
    f"{{punch: tag, hole: 1/4, top: 1/4, centred: across}}, {TAG}, {{punch: tag, hole: 1/2, shape: star}}": [
        (
            "Punch a 1/4 in hole, the rim 1/4 in from its top edge, halfway across. Punch a 1/2 in star"
            " hole in its middle. Lay it 1 in from the left, 1 in down."
        ),
    ],
    f"{{ink: tag, supply: sea ink}}, {TAG}, {{ink: tag, edges: [left, right]}}": [
        (
            "Ink all four edges. Use the sea ink. Ink the left and right edges. Lay it 1 in from the left,"
            " 1 in down."
        ),
    ],
    f"{TAG}, {{raise: tag, foam: foam bits, count: 4}}, {{raise: tag, count: 2}}": [
        "Raise it on two bits of foam. Lay it 1 in from the left, 1 in down, on four foam bits.",
    ],
    f"{TAG}, {{raise: tag, foam: foam bits, count: 2, halves: 1}}": [
        "1 in from the left, 1 in down, on two whole and one half foam bits.",
    ],
    f"{TAG}, {{raise: tag, foam: glue dots, halves: 3}}": [
        "1 in from the left, 1 in down, on three half glue dots.",
    ],
    f"{TAG}, {{raise: tag, foam: brass keys, halves: 1}}": [
        "1 in from the left, 1 in down, on one half brass key."
    ],
    f"{TAG}, {{raise: tag, halves: 1, count: 1}}": [
        "1 in from the left, 1 in down, on one whole and one half bits of foam.",
    ],
    f"{TAG}, {{raise: tag, foam: glue dots, halves: 3, say: Press them on.}}": [
        "Raise it on three half glue dots. Press them on. Lay it 1 in from the left, 1 in down.",
    ],
    f"{TAG}, {{raise: tag, foam: glue dots, count: 1, halves: 2, optional: yes}}": [
        "1 in from the left, 1 in down.",
        "If you like: raise the tag (1) on one whole and two half.",
    ],
    f"{TAG}, {{raise: tag, foam: glue dots, halves: 2, optional: yes}}": [
        "1 in from the left, 1 in down.",
        "If you like: raise the tag (1) on two halves.",
    ],
    f"{TAG}, {{raise: tag, foam: foam bits}}": ["1 in from the left, 1 in down, on a foam bit."],
    f"{TAG}, {{do: Press it overnight., on: tag}}, {{do: Sign the page.}}": [
        "1 in from the left, 1 in down. Press it overnight.",
        "Sign the page.",
    ],
    f"{TAG}, {CARD}, {{do: Press them overnight., on: [tag, mat]}}": [
        "1 in from the left, 1 in down.",
        "4 in from the left, 1 in down.",
        "On (1) and (2): Press them overnight.",
    ],
    f"{TAG}, {{do: Dust them., on: [tag, mat]}}, {CARD}": [
        "1 in from the left, 1 in down.",
        "Dust them.",
        "4 in from the left, 1 in down.",
    ],
    "{row: [tag, small tag], apart: 1, left: 1, top: 2}, {do: Dust them., on: [tag, small tag]}": [
        "Lay them in a row, in this order from the left: the first 1 in from the left, top edges 2 in down, "
        "1 in apart. Dust them.",
    ],
}

# Ribbon, tape, stencils and small things.
SUPPLIES = {
    "{ribbon: twill, run: across, top: 2, ends: 1/2}": (
        "Cut 13 in: 12 in and 1/2 in to fold behind at each end. Lay it across the page, top edge 2 in down."
    ),
    "{ribbon: twill, run: down, right: 2, ends: 0}": (
        "Cut 12 in. Lay it from top to bottom of the page, 2 in from the right."
    ),
    f"{MAT}, {{ribbon: twill, wrap: mat, bottom: 1/8, overlap: 1}}": (
        "Cut 13 1/2 in: 12 1/2 in to go round, 1 in to overlap behind. Wrap it round the mat (1), 1/8"
        " in from its bottom edge. Then glue (1)."
    ),
    f"{MAT}, {{ribbon: twill, wrap: mat, bottom: 1/8, bow: 8}}": (
        "Cut 20 1/2 in: 12 1/2 in to go round, 8 in for the bow. Wrap it round the mat (1), 1/8 in from its "
        "bottom edge. Tie a bow in front, halfway across. Then glue (1)."
    ),
    f"{MAT}, {{ribbon: twill, wrap: mat, run: down, left: 1, knot: 6, tails: 1, tied_at: 2}}": (
        "Cut 14 1/2 in: 8 1/2 in to go round, 6 in for the knot and its tails. Wrap it round the mat (1), "
        "top to bottom, 1 in from its left edge. Tie a knot in front, 2 in from the top, with tails of 1 in. "
        "Then glue (1)."
    ),
    "{ribbon: twill, knot: 6, tails: 1 1/2, ends: 1/2, left: 1, top: 2}": (
        "Cut 6 1/2 in: 6 in for the knot and its tails, 1/2 in to fix it. Tie a knot with tails of 1 1/2 in. "
        "Fix it 1 in from the left, 2 in down."
    ),
    "{ribbon: twill, knot: 6, left: 1, top: 2}": (
        "Cut 6 in. Tie a knot. Fix it 1 in from the left, 2 in down."
    ),
    f"{MAT}, {{ribbon: twill, wrap: mat, run: down, overlap: 1}}": (
        "Cut 9 1/2 in: 8 1/2 in to go round, 1 in to overlap behind. Wrap it round the mat (1), top"
        " to bottom, halfway across. Then glue (1)."
    ),
    "{place: tag, left: 2, top: 3}, {ribbon: twill, loop: 1 1/2, above: tag, gap: -1/2, centred:"
    " across, tucked: tag}": (
        "Cut 3 in. Fold it to a loop 1 1/2 in long. Fix its ends above (1), 1/2 in of it tucked under,"
        " centred on (1) left to right."
    ),
    f"{STRIP}, {{ribbon: twill, bow: 9, on: strip, right: 4}}": (
        "Cut 9 in. Tie a bow. Fix it on the strip, 4 in from its right edge, halfway down."
    ),
    f"{MAT}, {{ribbon: twill, bow: 9, on: mat, ends: 1}}": (
        "Cut 10 in: 9 in for the bow, 1 in to fix it. Tie a bow. Fix it in the middle of the mat."
    ),
    "{tape: rope tape, run: across, top: 3, ends: 1/2}": (
        "Cut 13 in: 12 in and 1/2 in to fold behind at each end. Lay it across the page, top edge 3 in down."
    ),
    f"{STRIP}, {{tape: rope tape, along: strip}}": "Cut 12 in. Lay it along the strip (1), halfway down.",
    f"{STRIP}, {{tape: rope tape, along: strip, top: 1/4}}": (
        "Cut 12 in. Lay it along the strip (1), 1/4 in from its top edge."
    ),
    "{tape: rope tape, length: 1 1/2, left: 8, top: 2, tilt: 3}": (
        "Cut 1 1/2 in. Lay it 8 in from the left, 2 in down. Tilt 3° right."
    ),
    "{stencil: net, left: 0, right: 0, top: 3, bottom: 5 1/2, guideline: top, supply: sea ink}": (
        "Rule a pencil line 3 in from the top edge of the page. Stencil 12 × 3 1/2 in below it,"
        " across the page, the stencil’s top edge on the line. The pattern fits eight times across"
        " and three times down (1/2 in over). Use the sea ink."
    ),
    "{stencil: net, size: 9 1/4 x 1, left: 1, top: 0}": (
        "Rule a pencil line 1 in from the left edge of the page. Stencil 9 1/4 × 1 in to the right of"
        " it, against the top edge, the stencil’s left edge on the line. The pattern fits six times"
        " across (1/4 in over) and once down."
    ),
    "{stencil: net, size: 12 x 1/2, left: 0, top: 0, guideline: top}": (
        "Stencil 12 × 1/2 in, across the page, along the top edge. Lay the stencil’s top edge along"
        " the page’s. The pattern fits eight times across."
    ),
    "{stencil: net, left: 0, right: 0, top: 3, bottom: 3, guideline: top}": (
        "Rule a pencil line 3 in from the top edge of the page. Stencil twice below it, side by side, 6 × 6"
        " in each, across the page, the stencil’s top edge on the line."
    ),
    "{stencil: net, size: 6 x 12, left: 0, top: 0, guideline: left}": (
        "Stencil twice, one below the other, 6 × 6 in each, from top to bottom of the page, along the left"
        " edge. Lay the stencil’s left edge along the page’s."
    ),
    f"{MAT}, {{add: brass, on: mat}}": "1 in from the left, 1 in down. Fix one of the brass in its middle.",
    f"{MAT}, {{add: brass, on: mat, top: 1/4}}": (
        "1 in from the left, 1 in down. Fix one of the brass 1/4 in from its top edge, halfway across."
    ),
    f"{MAT}, {{add: brass, corners: all, on: mat, inset: 1/8}}": (
        "1 in from the left, 1 in down. Fix one of the brass in each corner, 1/8 in from both edges."
    ),
    "{add: brass, corners: [top left, top right], inset: 1/2}": (
        "Fix one in each of the top left and top right corners of the page, 1/2 in from both edges."
    ),
    f"{STRIP}, {{add: brass, count: 5, on: strip}}": (
        "Across the page, top edge 5 in down. Scatter five of the brass over it."
    ),
    "{add: glue dots, run: across, count: 6, left: 1, right: 1, top: 1 1/2}": (
        "Put six in a row: their middles 1 1/2 in down, the first 1 in from the left, then every 2 in."
    ),
    "{add: brass keys, left: 3, top: 1, turn: clockwise, tilt: 10}": (
        "Turn one a quarter clockwise. Put it with its middle 3 in from the left, 1 in down. Tilt 10° right."
    ),
    "{add: brass keys, run: across, count: 3, apart: 2, left: 3, top: 1, turn: half, tilt: -10}": (
        "Turn three half round. Put them in a row: their middles 1 in down, the first 3 in from the left, "
        "then every 2 in. Tilt each 10° left."
    ),
    f"{MAT}, {{add: brass keys, corners: all, inset: 1/2, turn: half, on: mat}}": (
        "1 in from the left, 1 in down. Put a brass key in each corner, its middle 1/2 in from both edges. "
        "Turn each half round."
    ),
    "{place: tag, left: 1, top: 1, uses: {glue dots: 4}}": (
        "1 in from the left, 1 in down. Use four of the glue dots."
    ),
    "{place: tag, left: 1, top: 1, uses: {rope tape: 2 1/2}}": (
        "1 in from the left, 1 in down. Use 2 1/2 in of the rope tape."
    ),
}


@pytest.mark.parametrize("steps", WORK)
def test_work_on_pieces(steps: str) -> None:
    assert said(f"[{steps}]") == WORK[steps]


@pytest.mark.parametrize("steps", SUPPLIES)
def test_supplies(steps: str) -> None:
    assert last(f"[{steps}]") == SUPPLIES[steps]
