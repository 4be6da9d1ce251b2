"""Where things lie, as the steps tell it, with lengths as a hand types them."""

from __future__ import annotations

import pytest

from tests.content.assembly.telling import last, said

TAG = "{place: tag, left: 1, top: 1}"
MAT = "{place: mat, left: 1, top: 1}"
STRIP = "{place: strip, left: 0, top: 5}"
TUCKED = "{place: big mat, tucked: mat, left: 6, top: 2}"

# Where one thing lies, by itself.
ON_THE_PAGE = {
    "{place: tag, left: 1, top: 2 7/8}": "1 in from the left, 2 7/8 in down.",
    "{place: tag, right: 3/4, bottom: 3/4}": "3/4 in from the right, 3/4 in up.",
    "{place: tag, left: 0, top: 0}": "In the top left corner of the page.",
    "{place: tag, flush: [bottom, right]}": "In the bottom right corner of the page.",
    "{place: tag, left: 0, top: 3}": "Against the left edge, 3 in down.",
    "{place: strip, left: 0, top: 7 1/2}": "Across the page, top edge 7 1/2 in down.",
    "{place: strip, left: 0, bottom: 2}": "Across the page, bottom edge 2 in up.",
    "{place: strip, left: 0, top: 0}": "Across the page, along the top edge.",
    "{place: strip, turn: clockwise, right: 2, top: 0}": (
        "Turn it a quarter clockwise. Lay it from top to bottom of the page, 2 in from the right."
    ),
    "{place: other base, left: 0, top: 0}": "Over the whole page.",
    "{place: mat, centred: yes}": "Centre it on the page, 2 7/8 in at each side, 3 7/8 in above and below.",
    "{place: tag, centred: across, top: 6}": (
        "Top edge 6 in down, centred on the page left to right, 5 in at each side."
    ),
    "{place: banner, right: -1/2, top: 2, overhang: yes}": (
        "Reaching 1/2 in beyond the right edge of the page, 2 in down. Trim it at the right edge of the page."
    ),
    "{place: tag, left: -1/4, top: 2, tilt: 6, overhang: yes}": (
        "Reaching 1/4 in beyond the left edge of the page, 2 in down. Tilt 6° right. Trim it"
        " at the left edge of the page."
    ),
    "{row: [tag, banner], apart: 1/4, left: 8, top: -1, overhang: yes}": (
        "Lay them in a row, in this order from the left: the first 8 in from the left, reaching 1 in"
        " beyond the top edge of the page, 1/4 in apart. Trim them at the top and right edges of the"
        " page."
    ),
    "{photo: 4 x 6, right: -1, top: 2, overhang: yes}": (
        "Reaching 1 in beyond the right edge of the page, 2 in down. Trim it at the right edge of the page."
    ),
    "{place: tag, left: 1, top: 2, overhang: yes}": "1 in from the left, 2 in down.",
    "{place: tag, left: 1, top: 2, tilt: 6}": "1 in from the left, 2 in down. Tilt 6° right.",
    "{place: tag, left: 1, top: 2, tilt: -2.5}": ("1 in from the left, 2 in down. Tilt 2.5° left."),
    "{place: tag, left: 1, top: 2, turn: half}": (
        "Turn it half round. Lay it 1 in from the left, 2 in down."
    ),
    "{place: tag, left: 1, top: 2, face: back}": (
        "Turn it back side up. Lay it 1 in from the left, 2 in down."
    ),
    "{place: tag, left: 1, top: 2, face: back, turn: anticlockwise}": (
        "Turn it back side up. Turn it a quarter anticlockwise. Lay it 1 in from the left, 2 in down."
    ),
    "{place: tag, left: 1, top: 2, optional: yes}": "If you like: lay it 1 in from the left, 2 in down.",
    "{photo: 4 x 6, left: 1, top: 2}": "1 in from the left, 2 in down.",
    "{write: 4 x 2, left: 1, top: 2}": "Leave 4 × 2 in free: 1 in from the left, 2 in down.",
}

# The last thing, after those before it.
BY_SOMETHING = {
    f"{MAT}, {{place: tag, below: mat, gap: 1/4, flush: left}}": (
        "1/4 in below (1), in line with (1) at the left."
    ),
    f"{STRIP}, {{place: tag, above: strip, gap: 0, left: 3/4}}": (
        "Stand it on the strip (1), 3/4 in from the left."
    ),
    f"{MAT}, {{place: tag, beside: mat, side: right, gap: 1/4, flush: top}}": (
        "1/4 in to the right of (1), in line with (1) at the top."
    ),
    f"{MAT}, {{place: tag, beside: mat, gap: -1/2, flush: bottom}}": (
        "To the right of (1), overlapping it by 1/2 in, in line with (1) at the bottom."
    ),
    "{place: mat, centred: yes}, {place: tag, beside: mat, side: left, gap: 1, centred: down}": (
        "1 in to the left of (1), centred on (1) top to bottom, 5/8 in above and below."
    ),
    f"{TAG}, {STRIP}, {{place: badge, beside: tag, below: strip, gap: 1/4}}": (
        "1/4 in to the right of (1), 1/4 in below (2)."
    ),
    f"{TAG}, {STRIP}, {{place: badge, above: strip, gap: 1/2, flush: left, flush_with: tag}}": (
        "1/2 in above (2), in line with (1) at the left."
    ),
    f"{TAG}, {{place: small tag, centred_on: tag, centred: across, top: 6}}": (
        "Top edge 6 in down, centred on (1) left to right, 1/2 in at each side."
    ),
    f"{MAT}, {{place: tag, on: mat, left: 1/2, top: 1/4}}": (
        "On the mat (1), 1/2 in from its left edge, 1/4 in from its top edge."
    ),
    f"{MAT}, {{place: tag, on: mat, top: 3/8}}": (
        "On the mat (1), 3/8 in from its top edge, centred left to right, 2 1/8 in at each side."
    ),
    "{place: big mat, left: 1, top: 1}, {place: tall mat, on: big mat}": (
        "One on another, 1/8 in showing all round. Lay them 1 in from the left, 1 in down."
    ),
    "{place: big mat, left: 1, top: 1}, {place: tall mat, on: big mat, border: 1/8}": (
        "One on another, 1/8 in showing all round. Lay them 1 in from the left, 1 in down."
    ),
    "{place: banner, left: 1, top: 1}, {place: half strip, on: banner}": (
        "One on another, 1 in showing all round. Lay them 1 in from the left, 1 in down."
    ),
    "{place: banner, left: 1, top: 1}, {photo: 8 x 2 3/4, on: banner, border: [0, 1/8]}": (
        "Lay the banner 1 in from the left, 1 in down. Centre the photo on it; flush at the sides, 1/8 in"
        " shows above and below."
    ),
    f"{MAT}, {{place: half strip, on: mat}}": (
        "Lay the mat 1 in from the left, 1 in down. Centre the half strip on it; 1/8 in shows at the"
        " sides, 1 5/8 in above and below."
    ),
    "{place: tall mat, centred: yes}, {place: big mat, under: tall mat}": (
        "Slide it under (1), centred; 1/8 in shows all round."
    ),
    "{place: mat, left: 3, top: 3}, {place: tag, left: 2, top: 3 1/2, tucked: mat, tilt: 6}": (
        "Slide it under (1): 2 in from the left, 3 1/2 in down. Tilt 6° right."
    ),
    f"{MAT}, {{place: tag, on: mat, left: 1/2}}, {{place: badge, beside: mat, gap: -1, top: 1,"
    f" tucked: [mat, tag]}}": (
        "Slide it under (2): to the right of (1), 1 in of it tucked under, top edge 1 in down."
    ),
    f"{MAT}, {TUCKED}, {{place: tag, on: big mat, left: 1/4}}": (
        "Slide it under (1), on the big mat (2): 1/4 in from its left edge, centred top to bottom, 1 3/4 in"
        " above and below."
    ),
    f"{MAT}, {TUCKED}, {{place: tall mat, on: big mat}}": (
        "Slide it under (1), centred on the big mat (2); 1/8 in shows all round."
    ),
    f"{MAT}, {TUCKED}, {{row: badge, count: 2, apart: 0, on: big mat, left: 1/8}}": (
        "Slide them in a row under (1), on the big mat (2): the first 1/8 in from its left edge, centred top"
        " to bottom, 2 1/4 in above and below, edge to edge."
    ),
    "{place: tag, left: 3, top: 3, tilt: 6}, {place: badge, on: tag, tilt: 6}": (
        "Lay the tag 3 in from the left, 3 in down. Tilt 6° right. Centre the badge on it, at"
        " the same tilt; flush at the sides, 1/2 in shows above and below."
    ),
    "{place: mat, left: 3, top: 3}, {place: badge, on: mat, tilt: 6}": (
        "Lay the mat 3 in from the left, 3 in down. Centre the badge on it. Tilt the badge 6° right."
    ),
    "{place: tall mat, centred: yes}, {photo: 4 x 6, on: tall mat}": (
        "One on another, 1/8 in showing all round. Centre them on the page, 3 7/8 in at each side, 2"
        " 7/8 in above and below."
    ),
    f"{MAT}, {{write: 5 x 3, on: mat}}": (
        "1 in from the left, 1 in down. Leave its middle free to write in, up to 5/8 in from its edges."
    ),
    "{place: tag, called: one, left: 0, top: 0}, {place: tag, called: two, beside: one, flush: top}": (
        "Edge to edge to the right of (1), in line with (1) at the top."
    ),
}

# Rows and columns.
IN_LINE = {
    "{row: badge, count: 3, left: 3/4, right: 3/4, bottom: 3/4}": (
        "Lay the middle one first: its centre 6 in from the left, bottom edge 3/4 in up."
        " The others beside it, 2 1/4 in apart."
    ),
    "{row: badge, count: 3, left: 0, right: 2, top: 1}": (
        "Lay the middle one first: its centre 5 in from the left, top edge 1 in down."
        " The others beside it, 2 in apart."
    ),
    "{row: badge, count: 4, left: 0, right: 0, top: 1}": (
        "Lay them in a row: from edge to edge, top edges 1 in down, ≈ 1 5/16 in apart."
    ),
    "{row: tag, count: 3, even_ends: yes, top: 2}": (
        "Lay the middle one first: its centre 6 in from the left, top edge 2 in down."
        " The others beside it, 1 1/2 in apart."
    ),
    "{row: badge, count: 2, left: 1, top: 1, apart: 5/8}": (
        "Lay them in a row: the first 1 in from the left, top edges 1 in down, 5/8 in apart."
    ),
    "{row: badge, count: 2, right: 1, top: 1, apart: 0}": (
        "Lay them in a row: the last 1 in from the right, top edges 1 in down, edge to edge."
    ),
    "{row: badge, count: 2, left: 1, top: 1, apart: -1/2}": (
        "Lay them in a row: the first 1 in from the left, top edges 1 in down, each overlapping the"
        " one before by 1/2 in."
    ),
    "{row: [tag, badge], left: 1, top: 1, apart: 1/2}": (
        "Lay them in a row, in this order from the left: the first 1 in from the left, top edges 1 in"
        " down, 1/2 in apart."
    ),
    "{row: tag, count: 2, left: 1, top: 1, apart: 1/2, turn: clockwise, tilt: 3}": (
        "Turn them a quarter clockwise. Lay them in a row: the first 1 in from the left, top edges 1"
        " in down, 1/2 in apart. Tilt each 3° right."
    ),
    "{row: badge, count: 4, left: 1, top: 1, apart: 1/2, face: back}": (
        "Turn them back side up. Lay them in a row: the first 1 in from the left, top edges 1 in"
        " down, 1/2 in apart."
    ),
    f"{STRIP}, {{row: small tag, count: 2, above: strip, gap: 0, left: 2, apart: 1}}": (
        "Stand them in a row on the strip (1): the first 2 in from the left, 1 in apart."
    ),
    "{column: badge, count: 3, apart: 1/4, right: 1/2, centred: down}": (
        "Lay them in a column: the whole column centred on the page top to bottom, 2 3/4 in above and"
        " below, 1/2 in from the right, 1/4 in apart."
    ),
    "{column: badge, count: 2, top: 1, apart: 1/4, left: 1/2}": (
        "Lay them in a column: the first 1 in down, 1/2 in from the left, 1/4 in apart."
    ),
}


@pytest.mark.parametrize("step", ON_THE_PAGE)
def test_one_thing_on_the_page(step: str) -> None:
    assert last(f"[{step}]") == ON_THE_PAGE[step]


@pytest.mark.parametrize("steps", BY_SOMETHING)
def test_one_thing_by_another(steps: str) -> None:
    assert last(f"[{steps}]") == BY_SOMETHING[steps]


@pytest.mark.parametrize("steps", IN_LINE)
def test_rows_and_columns(steps: str) -> None:
    assert last(f"[{steps}]") == IN_LINE[steps]


ONE_OF = {
    ("row", 2, 1): "the left one",
    ("row", 2, 2): "the right one",
    ("row", 3, 2): "the middle one",
    ("row", 4, 2): "the second from the left",
    ("row", 4, 4): "the right one",
    ("column", 3, 1): "the top one",
    ("column", 3, 3): "the bottom one",
}


@pytest.mark.parametrize(("verb", "count", "place"), ONE_OF)
def test_one_of_several_is_told_by_its_place(verb: str, count: int, place: int) -> None:
    line = f"{verb}: small tag, count: {count}, called: tags, apart: 1/2, left: 1, top: 1"
    which = ONE_OF[verb, count, place]
    wanted = f"Centre it on {which} of (1); 1/8 in shows at the sides, 1/4 in above and below."
    small = {"base": "12 x 12", "small tag": "1 x 2", "dot": "3/4 x 1 1/2"}
    assert said(f"[{{{line}}}, {{place: dot, on: tags {place}}}]", sizes=small)[-1] == wanted


def test_all_of_a_row_are_meant_by_its_name() -> None:
    row = "{row: badge, count: 3, called: badges, apart: 1/2, left: 1, top: 1}"
    assert last(f"[{row}, {{place: strip, left: 0, below: badges, gap: 1/4}}]") == (
        "Across the page, 1/4 in below (1)."
    )


def test_words_follow_the_place_of_their_own_step() -> None:
    # 12 - 4 = 8: 4 at each side, wherever the piece is moved later.
    steps = "[{place: mat, centred: across, top: 1}, {group: mat, left: 1, top: 1}]"
    assert said(steps, sizes={"base": "12 x 12", "mat": "4 x 5"}) == [
        "Top edge 1 in down, centred on the page left to right, 4 in at each side.",
        "Take it in one piece. Move it 1 in from the left, 1 in down.",
    ]


def test_what_is_moved_later_is_trimmed_where_it_comes_to_lie() -> None:
    there = "{place: banner, left: 6, top: 1, overhang: yes}"
    here = "{place: banner, left: 1, top: 1, overhang: yes}"
    in_line, beyond = "{group: banner, left: 1, top: 1}", "{group: banner, left: 6, top: 1}"
    trim = "Trim it at the right edge of the page."
    assert [trim in one for one in said(f"[{there}, {in_line}]")] == [False, False]
    assert [trim in one for one in said(f"[{here}, {beyond}]")] == [False, True]
