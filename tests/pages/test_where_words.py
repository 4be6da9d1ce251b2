"""Every word of a position as a sentence, with lengths as a hand types them."""

from __future__ import annotations

import pytest

from tests.pages.telling import body

TAG = "{place: tag, left: 1, top: 1}"
MAT = "{place: mat, left: 1, top: 1}"
STRIP = "{place: strip, left: 0, top: 5}"

# Where one piece lies, by itself.
ON_THE_PAGE = {
    "{place: tag, left: 1, top: 2 7/8}": "Lay it 1 from the page's left edge, 2 7/8 from its top.",
    "{place: tag, right: 3/4, bottom: 3/4}": "Lay it 3/4 from the page's right and bottom edges.",
    "{place: tag, left: 0, top: 0}": "Lay it in the page's top left corner.",
    "{place: tag, flush: [bottom, right]}": "Lay it in the page's bottom right corner.",
    "{place: tag, left: 0, top: 3}": "Lay it in line with the page's left edge, 3 from its top.",
    "{place: strip, left: 0, top: 7 1/2}": (
        "Lay it across the whole page, its top edge 7 1/2 below the page's top."
    ),
    "{place: strip, left: 0, bottom: 2}": (
        "Lay it across the whole page, its bottom edge 2 above the page's bottom."
    ),
    "{place: strip, left: 0, top: 0}": "Lay it across the whole page, in line with the page's top edge.",
    "{place: strip, turn: clockwise, right: 2, top: 0}": (
        "Give it a quarter turn clockwise and lay it from top to bottom of the page,"
        " 2 from the page's right edge."
    ),
    "{place: other base, left: 0, top: 0}": "Lay it over the whole page.",
    "{place: mat, centred: yes}": "Centre it on the page: 2 7/8 at the sides, 3 7/8 above and below.",
    "{place: tag, centred: across, top: 6}": (
        "Lay it with its top edge 6 below the page's top, centred on the page left to right (5 at each side)."
    ),
    "{place: banner, right: -1/2, top: 2, overhang: yes}": (
        "Lay it reaching 1/2 beyond the page's right edge, 2 from its top. Trim it at the page's right edge."
    ),
    "{place: tag, left: -1/4, top: 2, tilt: 6, overhang: yes}": (
        "Lay it reaching 1/4 beyond the page's left edge, 2 from its top, then tilt it 6° clockwise."
        " Trim it at the page's left edge."
    ),
    "{row: [tag, banner], apart: 1/4, left: 8, top: -1, overhang: yes}": (
        "Lay them in a row, in this order, the first 8 from the page's left edge, reaching 1 beyond the"
        " page's top edge, 1/4 apart. Trim them at the page's top and right edges."
    ),
    "{photo: 4 x 6, right: -1, top: 2, overhang: yes}": (
        "Mount it reaching 1 beyond the page's right edge, 2 from its top. Trim it at the page's right edge."
    ),
    "{place: tag, left: 1, top: 2, overhang: yes}": "Lay it 1 from the page's left edge, 2 from its top.",
    "{place: tag, left: 1, top: 2, tilt: 6}": (
        "Lay it 1 from the page's left edge, 2 from its top, then tilt it 6° clockwise."
    ),
    "{place: tag, left: 1, top: 2, tilt: -2.5}": (
        "Lay it 1 from the page's left edge, 2 from its top, then tilt it 2.5° anticlockwise."
    ),
    "{place: tag, left: 1, top: 2, turn: half}": (
        "Give it half a turn and lay it 1 from the page's left edge, 2 from its top."
    ),
    "{place: tag, left: 1, top: 2, face: back}": (
        "Turn it back side up and lay it 1 from the page's left edge, 2 from its top."
    ),
    "{place: tag, left: 1, top: 2, face: back, turn: anticlockwise}": (
        "Turn it back side up, give it a quarter turn anticlockwise"
        " and lay it 1 from the page's left edge, 2 from its top."
    ),
    "{place: tag, left: 1, top: 2, optional: yes}": (
        "If you like: lay it 1 from the page's left edge, 2 from its top."
    ),
    "{photo: 4 x 6, left: 1, top: 2}": "Mount it 1 from the page's left edge, 2 from its top.",
    "{write: 4 x 2, left: 1, top: 2}": (
        "Leave it free to write in, 1 from the page's left edge, 2 from its top."
    ),
}


@pytest.mark.parametrize("step", ON_THE_PAGE)
def test_one_piece_on_the_page(step: str) -> None:
    assert body(f"[{step}]") == ON_THE_PAGE[step]


# The last step, after those before it.
BY_SOMETHING = {
    f"{MAT}, {{place: tag, below: mat, gap: 1/4, flush: left}}": (
        "Lay it below 1, 1/4 between, flush with 1 at the left."
    ),
    f"{STRIP}, {{place: tag, above: strip, gap: 0, left: 3/4}}": (
        "Lay it edge to edge above 1, 3/4 from the page's left edge."
    ),
    f"{MAT}, {{place: tag, beside: mat, side: right, gap: 1/4, flush: top}}": (
        "Lay it to the right of 1, 1/4 between, flush with 1 at the top."
    ),
    f"{MAT}, {{place: tag, beside: mat, gap: -1/2, flush: bottom}}": (
        "Lay it to the right of 1, overlapping it by 1/2, flush with 1 at the bottom."
    ),
    "{place: mat, centred: yes}, {place: tag, beside: mat, side: left, gap: 1, centred: down}": (
        "Lay it to the left of 1, 1 between, centred on 1 top to bottom (5/8 above and below)."
    ),
    f"{TAG}, {STRIP}, {{place: badge, beside: tag, below: strip, gap: 1/4}}": (
        "Lay it to the right of 1, 1/4 between, and below 2, 1/4 between."
    ),
    f"{TAG}, {STRIP}, {{place: badge, above: strip, gap: 1/2, flush: left, flush_with: tag}}": (
        "Lay it above 2, 1/2 between, flush with 1 at the left."
    ),
    f"{TAG}, {{place: small tag, centred_on: tag, centred: across, top: 6}}": (
        "Lay it with its top edge 6 below the page's top, centred on 1 left to right (1/2 at each side)."
    ),
    f"{MAT}, {{place: tag, on: mat, left: 1/2, top: 1/4}}": (
        "Lay it on 1, 1/2 from its left edge, 1/4 from its top."
    ),
    f"{MAT}, {{place: tag, on: mat, top: 3/8}}": (
        "Lay it on 1, 3/8 from its top edge, centred left to right (2 1/8 at each side)."
    ),
    "{place: big mat, left: 1, top: 1}, {place: tall mat, on: big mat}": (
        "Centre it on 1: an even 1/8 all round."
    ),
    "{place: big mat, left: 1, top: 1}, {place: tall mat, on: big mat, border: 1/8}": (
        "Centre it on 1: an even 1/8 all round."
    ),
    "{place: banner, left: 1, top: 1}, {place: half strip, on: banner}": (
        "Centre it on 1: an even 1 all round."
    ),
    "{place: mat, left: 1, top: 1}, {place: half strip, on: mat}": (
        "Centre it on 1: 1/8 at the sides, 1 5/8 above and below."
    ),
    "{place: tall mat, centred: yes}, {place: big mat, under: tall mat}": (
        "Tuck it under 1, centred: an even 1/8 all round."
    ),
    "{place: mat, left: 3, top: 3}, {place: tag, left: 2, top: 3 1/2, tucked: mat, tilt: 6}": (
        "Tuck it under 1, 2 from the page's left edge, 3 1/2 from its top, then tilt it 6° clockwise."
    ),
    f"{MAT}, {{place: tag, on: mat, left: 1/2}},"
    " {place: badge, beside: mat, gap: -1, top: 1, tucked: [mat, tag]}": (
        "Tuck it under 2, to the right of 1, 1 of it tucked under, its top edge 1 below the page's top."
    ),
    "{place: tag, left: 3, top: 3, tilt: 6}, {place: badge, on: tag, tilt: 6}": (
        "Centre it on 1, tilted alike: flush at the sides, 1/2 above and below."
    ),
    # A border that is nowhere the same is not claimed.
    "{place: mat, left: 3, top: 3}, {place: badge, on: mat, tilt: 6}": (
        "Centre it on 1, then tilt it 6° clockwise."
    ),
    "{place: tall mat, centred: yes}, {photo: 4 x 6, on: tall mat}": "Centre it on 1: an even 1/8 all round.",
    f"{MAT}, {{write: 5 x 3, on: mat}}": ("Leave it free to write in, centred on 1: an even 5/8 all round."),
    "{place: tag, called: one, left: 0, top: 0}, {place: tag, called: two, beside: one, flush: top}": (
        "Lay it edge to edge to the right of 1, flush with 1 at the top."
    ),
}


@pytest.mark.parametrize("steps", BY_SOMETHING)
def test_one_piece_by_another(steps: str) -> None:
    assert body(f"[{steps}]") == BY_SOMETHING[steps]


# Rows and columns.
IN_LINE = {
    "{row: badge, count: 3, left: 3/4, right: 3/4, bottom: 3/4}": (
        "Lay three in a row, 3/4 from the page's left and right edges,"
        " their bottom edges 3/4 above the page's bottom, 2 1/4 apart."
        " Begin with the middle one: its centre lies on the page's centre, 6 from the left edge."
    ),
    "{row: badge, count: 3, left: 0, right: 2, top: 1}": (
        "Lay three in a row, 0 from the page's left edge and 2 from its right,"
        " their top edges 1 below the page's top, 2 apart."
        " Begin with the middle one: its centre lies 5 from the page's left edge."
    ),
    "{row: badge, count: 4, left: 0, right: 0, top: 1}": (
        "Lay four in a row, from edge to edge of the page, their top edges 1 below the page's top,"
        " ≈ 1 5/16 apart."
    ),
    "{row: tag, count: 3, even_ends: yes, top: 2}": (
        "Lay three in a row, their top edges 2 below the page's top, 1 1/2 apart and at both ends."
        " Begin with the middle one: its centre lies on the page's centre, 6 from the left edge."
    ),
    "{row: badge, count: 2, left: 1, top: 1, apart: 5/8}": (
        "Lay two in a row, the first 1 from the page's left edge, their top edges 1 below the page's top,"
        " 5/8 apart."
    ),
    "{row: badge, count: 2, right: 1, top: 1, apart: 0}": (
        "Lay two in a row, the last 1 from the page's right edge, their top edges 1 below the page's top,"
        " edge to edge."
    ),
    "{row: badge, count: 2, left: 1, top: 1, apart: -1/2}": (
        "Lay two in a row, the first 1 from the page's left edge, their top edges 1 below the page's top,"
        " each overlapping the one before by 1/2."
    ),
    "{row: [tag, badge], left: 1, top: 1, apart: 1/2}": (
        "Lay them in a row, in this order, the first 1 from the page's left edge,"
        " their top edges 1 below the page's top, 1/2 apart."
    ),
    "{row: tag, count: 2, left: 1, top: 1, apart: 1/2, turn: clockwise, tilt: 3}": (
        "Give both a quarter turn clockwise and lay them in a row, the first 1 from the page's left edge,"
        " their top edges 1 below the page's top, 1/2 apart, then tilt each 3° clockwise."
    ),
    "{row: badge, count: 4, left: 1, top: 1, apart: 1/2, face: back}": (
        "Turn all four back side up and lay them in a row, the first 1 from the page's left edge,"
        " their top edges 1 below the page's top, 1/2 apart."
    ),
    f"{STRIP}, {{row: small tag, count: 2, above: strip, gap: 0, left: 2, apart: 1}}": (
        "Lay two in a row, edge to edge above 1, the first 2 from the page's left edge, 1 apart."
    ),
    "{column: badge, count: 3, apart: 1/4, right: 1/2, centred: down}": (
        "Lay three in a column, 1/2 from the page's right edge, the column centred on the page top to bottom,"
        " 1/4 apart."
    ),
    "{column: badge, count: 2, top: 1, apart: 1/4, left: 1/2}": (
        "Lay two in a column, the first one's top edge 1 below the page's top,"
        " 1/2 from the page's left edge, 1/4 apart."
    ),
}


@pytest.mark.parametrize("steps", IN_LINE)
def test_rows_and_columns(steps: str) -> None:
    assert body(f"[{steps}]") == IN_LINE[steps]


ONE_OF = {
    ("row", 2, 1): "the left one of 1",
    ("row", 2, 2): "the right one of 1",
    ("row", 3, 2): "the middle one of 1",
    ("row", 4, 2): "the second from the left of 1",
    ("row", 4, 4): "the right one of 1",
    ("column", 3, 1): "the top one of 1",
    ("column", 3, 3): "the bottom one of 1",
}


@pytest.mark.parametrize(("verb", "count", "place"), ONE_OF)
def test_one_of_several(verb: str, count: int, place: int) -> None:
    line = f"{verb}: badge, count: {count}, called: badges, apart: 1/2, left: 1, top: 1"
    said = ONE_OF[verb, count, place]
    assert body(f"[{{{line}}}, {{photo: 1 x 1, on: badges {place}}}]") == (
        f"Centre it on {said}: an even 1/2 all round."
    )


def test_all_of_a_row_are_meant_by_its_name() -> None:
    row = "{row: badge, count: 3, called: badges, apart: 1/2, left: 1, top: 1}"
    assert body(f"[{row}, {{place: strip, left: 0, below: badges, gap: 1/4}}]") == (
        "Lay it across the whole page, below 1, 1/4 between."
    )
