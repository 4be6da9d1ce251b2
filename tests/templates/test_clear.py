"""Every page of a template can be read: no letters on lines or on each other, none too small."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from booklet.pages.office_paper import OfficePaper
from tests.spec_data import demo_data
from tests.templates.joined import Ground, Page, Sign, Stroke, away
from tests.templates.made import HILL_LINE, LONG, ODD, ROOF_GARDEN, pages

LAYOUTS = [
    pytest.param(kit, layout["id"], marks=pytest.mark.thorough)
    for kit in (HILL_LINE, ROOF_GARDEN)
    for layout in demo_data(kit)["layouts"]
]
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


def reach_of(sign: Sign) -> float:
    """Farther than this from its middle there is nothing of a letter."""
    left, top, right, bottom = sign.box
    return (right - left + bottom - top) / 2


def touches(sign: Sign, stroke: Stroke) -> bool:
    left, top, right, bottom = sign.box
    middle, half = ((left + right) / 2, (top + bottom) / 2), stroke.width / 2
    if away(middle, stroke) > half + reach_of(sign):
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
        ground = Ground((*page.shown, *page.others))
        assert len(signs) > 50
        assert min(sign.size for sign in signs) >= LEAST - 0.01
        for sign in signs:
            left, top, right, bottom = sign.box
            assert min(left, top, page.size[0] - right, page.size[1] - bottom) >= MARGIN - 0.3, sign.text
            for stroke in ground.beside(sign.box, reach_of(sign)):
                assert not touches(sign, stroke), (sign, stroke)
        assert overlaps(signs) == []


def overlaps(signs: Sequence[Sign]) -> list[tuple[Sign, Sign]]:
    """The letters whose ink meets; neighbours in a word may lean into each other a little."""
    left, top, right, bottom = np.array([sign.box for sign in signs]).T
    across = np.minimum.outer(right, right) - np.maximum.outer(left, left)
    down = np.minimum.outer(bottom, bottom) - np.maximum.outer(top, top)
    meet = np.triu((across > 0.35) & (down > 0.35), 1)
    return [(signs[one], signs[other]) for one, other in zip(*np.nonzero(meet), strict=True)]


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


def test_letters_on_each_other_and_on_a_line_are_seen() -> None:
    (page,) = pages(HILL_LINE, "sun")
    first, second, *_ = page.signs
    left, top, right, bottom = first.box
    on_it = replace(second, box=(left + 0.1, top + 0.1, right + 0.1, bottom + 0.1))
    assert overlaps([first, *page.signs[1:], on_it]) == [(first, on_it)]
    struck = Stroke((left - 50, (top + bottom) / 2), (right + 50, (top + bottom) / 2), 0.2, False)
    beside = Ground((*page.shown, struck)).beside(first.box, reach_of(first))
    assert [stroke for stroke in beside if touches(first, stroke)] == [struck]
