"""Every page of a template can be read: no letters on lines or on each other, none too small."""

from __future__ import annotations

from itertools import combinations

import pytest

from booklet.pages.office_paper import OfficePaper
from tests.templates.joined import Page, Sign, Stroke, away
from tests.templates.made import HILL_LINE, LONG, ODD, ROOF_GARDEN, pages, resolved

LAYOUTS = [(kit, layout.id) for kit in (HILL_LINE, ROOF_GARDEN) for layout in resolved(kit).kit.layouts]
PIECES = [
    (HILL_LINE, "left canopy"),
    (HILL_LINE, "rail"),
    (HILL_LINE, "sun"),
    (HILL_LINE, "sun badge"),
    (HILL_LINE, "single ticket"),
    (HILL_LINE, "night ticket"),
    (ROOF_GARDEN, "sun stamp"),
    (ROOF_GARDEN, "parapet"),
    (ODD, "card"),
    (ODD, "note"),
    (ODD, "mat"),
    (ODD, "left page"),
    (ODD, "right page"),
    (LONG, "Zierleiste"),
    (LONG, "Blätterhintergrundtafel"),
    (LONG, "Waldrandpanorama"),
    (LONG, "eins"),
    (LONG, "zwei"),
]
# Nothing that is read is smaller, in points.
LEAST = 9.0
# A quarter of an inch, which office printers leave white (common practice, no source).
MARGIN = 6.35


def whole(sign: Sign, page: Page) -> bool:
    """Whether a letter is not one that the next page shows whole."""
    left, top, right, bottom = sign.box
    if top >= page.window[3]:
        return True
    return (
        page.window[0] < left and right < page.window[2] and page.window[1] < top and bottom < page.window[3]
    )


def touches(sign: Sign, stroke: Stroke) -> bool:
    left, top, right, bottom = sign.box
    middle, half = ((left + right) / 2, (top + bottom) / 2), stroke.width / 2
    if away(middle, stroke) > half + (right - left + bottom - top) / 2:
        return False
    points = [(left, top), (right, top), (right, bottom), (left, bottom), middle]
    if any(away(point, stroke) < half for point in points):
        return True
    ends = (stroke.start, stroke.end)
    return any(left < x < right and top < y < bottom for x, y in ends) or crosses(sign, stroke)


def crosses(sign: Sign, stroke: Stroke) -> bool:
    """Whether both diagonals' ends lie on both sides of a stroke that is as long as the letter is high."""
    left, top, right, bottom = sign.box
    steps = max(2, int(stroke.length * 4))
    (x, y), (end_x, end_y) = stroke.start, stroke.end
    along = ((x + (end_x - x) * at / steps, y + (end_y - y) * at / steps) for at in range(steps + 1))
    return any(left < px < right and top < py < bottom for px, py in along)


@pytest.mark.parametrize("paper", OfficePaper)
@pytest.mark.parametrize(("kit", "name"), [*PIECES, *LAYOUTS])
def test_words_stand_clear(kit: str, name: str, paper: OfficePaper) -> None:
    for page in pages(kit, name, paper):
        signs = [sign for sign in page.signs if whole(sign, page)]
        assert len(signs) > 50
        assert min(sign.size for sign in signs) >= LEAST - 0.01
        for sign in signs:
            left, top, right, bottom = sign.box
            assert min(left, top, page.size[0] - right, page.size[1] - bottom) >= MARGIN - 0.3, sign.text
            for stroke in (*page.shown, *page.others):
                assert not touches(sign, stroke), (sign, stroke)
        for one, other in combinations(signs, 2):
            assert not overlap(one, other), (one, other)


def overlap(one: Sign, other: Sign) -> bool:
    """Whether the ink of two letters meets; neighbours in a word may lean into each other a little."""
    across = min(one.box[2], other.box[2]) - max(one.box[0], other.box[0])
    down = min(one.box[3], other.box[3]) - max(one.box[1], other.box[1])
    return across > 0.35 and down > 0.35


def test_every_page_has_its_name_and_a_plan_of_all() -> None:
    read = pages(HILL_LINE, "all-aboard")
    names = ["A1", "A2", "B1", "B2"]
    for page, name in zip(read, names, strict=True):
        foot = [sign for sign in page.signs if sign.box[1] > page.window[3]]
        assert "".join(sign.text for sign in foot if sign.size > 13) == name
        plan = sorted(sign.text for sign in foot if sign.box[2] < page.window[0] + 25)
        assert plan == sorted("".join(names))


def test_one_page_says_nothing_of_joining() -> None:
    (page,) = pages(HILL_LINE, "sun")
    said = "".join(sign.text for sign in page.signs)
    assert "cutoffthemargin" not in said
    assert page.marks == {}
    assert "cutoffthemargin" in "".join(sign.text for sign in pages(HILL_LINE, "rail")[0].signs)
