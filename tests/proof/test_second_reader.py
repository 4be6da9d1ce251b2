"""Another library reads the same from our pages: the same numbers in the same places, the same strokes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from math import cos

import pytest

from booklet.kit.fields import Edge
from booklet.pages.compose import page_numbers
from booklet.proof.at_table import arrow_tips, finished_page
from booklet.proof.figures import cut_figures
from booklet.proof.numerals import numerals
from booklet.proof.printed import DENOMINATORS, NUMERATORS, Box, Letter, Page, Stroke
from tests.proof.altered import with_content
from tests.proof.finished import Finished, finished
from tests.proof.second_reader import Line, SecondReading, Sign, read_second

pytestmark = pytest.mark.thorough

# A page of each kind, by what begins on it.
PAGES = [
    ("hill-line", "cover"),
    ("hill-line", "how-to-read"),
    ("hill-line", "sheet-iron"),  # eight cuts and a lens
    ("hill-line", "sheet-tickets"),  # a cut-apart
    ("hill-line", "pockets"),
    ("hill-line", "layout-summit"),
    ("hill-line", "back"),
    ("roof-garden", "box"),
    ("roof-garden", "sheet-labels"),
    ("roof-garden", "layout-supper-on-the-roof"),
]
NUMERALS = {*"0123456789", *NUMERATORS, *DENOMINATORS, "⁄"}
# How far apart both may see a stroke's ends and its width, in points.
SAME = 0.01
# How far apart both may see a numeral's top and foot, in points.
LEVEL = 0.1
# MuPDF tells how far a numeral advances, pypdfium2 where its ink is.  The middles of both lie so far apart at
# most, as a share of its size: a third of a point in text, more in the figures of fractions, which hang over.
SIDEWAYS, IN_A_FRACTION = 0.03, 0.09


@dataclass(frozen=True)
class Differences:
    """What one reader of a page finds and the other does not."""

    numbers: tuple[str, ...]
    places: tuple[str, ...]
    strokes: tuple[str, ...]
    cuts: tuple[str, ...]


def differences(page: Page, second: SecondReading) -> Differences:
    """Hold two readings of a page against each other."""
    return Differences(
        tuple(_other_numbers(page, second)),
        tuple(_other_places(page, second)),
        tuple(_other_strokes(page, second)),
        tuple(_other_cuts(page, second)),
    )


NONE = Differences((), (), (), ())


def _other_numbers(page: Page, second: SecondReading) -> Iterator[str]:
    """Numbers in the words of one reader alone, each as often as it stands there."""
    one = Counter(value for word in page.words for value in numerals(word.text))
    two = Counter(value for word in second.words for value in numerals(word))
    yield from (f"{value} not seen by the second" for value in (one - two).elements())
    yield from (f"{value} seen by the second alone" for value in (two - one).elements())


def _other_places(page: Page, second: SecondReading) -> Iterator[str]:
    """Numerals that the second reader sees elsewhere, or that it alone sees."""
    left = [sign for sign in second.signs if sign.text in NUMERALS]
    for letter in page.ink:
        if letter.text in NUMERALS:
            found = next((sign for sign in left if _is_there(letter, sign)), None)
            if found is None:
                yield f"{letter.text} at {letter.box}"
            else:
                left.remove(found)
    yield from (f"{sign.text} at {sign.box} for the second alone" for sign in left)


def _is_there(letter: Letter, sign: Sign) -> bool:
    one, two = _along(letter.box, letter), _along(sign.box, letter)
    sideways = letter.size * (SIDEWAYS if letter.text.isascii() else IN_A_FRACTION)
    is_level = max(abs(one.top - two.top), abs(one.bottom - two.bottom)) < LEVEL
    return letter.text == sign.text and is_level and abs(one.centre[0] - two.centre[0]) < sideways


def _along(box: Box, letter: Letter) -> Box:
    """A box with its sides along the line of a letter as left and right."""
    is_turned = abs(cos(letter.angle)) < 0.1
    return Box(box.top, box.left, box.bottom, box.right) if is_turned else box


def _other_strokes(page: Page, second: SecondReading) -> Iterator[str]:
    """Straight strokes, upright or level, that the second reader does not see so long and so wide."""
    for stroke in page.strokes:
        if (stroke.is_upright or stroke.is_level) and not any(
            _is_same(stroke, line) for line in second.lines
        ):
            yield f"{stroke.start} to {stroke.end}, {stroke.width} wide"


def _is_same(stroke: Stroke, line: Line) -> bool:
    ends = zip(sorted((stroke.start, stroke.end)), (line.start, line.end), strict=True)
    off = [abs(x - u) + abs(y - v) for (x, y), (u, v) in ends]
    return max(*off, abs(stroke.width - line.width)) < SAME and stroke.is_dashed == line.is_dashed


def _other_cuts(page: Page, second: SecondReading) -> Iterator[str]:
    """Cut lines that one of the readers sees alone, and outlines of another size."""
    for figure in cut_figures(page):
        box = figure.outline
        one = sorted(stroke.start[0] for stroke in figure.cuts)
        two = sorted(line.start[0] for line in second.lines if line.is_dashed and _crosses(line, box))
        if one != pytest.approx(two, abs=SAME):
            yield f"cut lines at {one} and {two}"
    layout = finished_page(page)
    has_flags = layout is not None and any(arrow_tips(page, layout, along) for along in Edge)
    outlines = [figure.outline for figure in cut_figures(page)] + ([layout] if layout and has_flags else [])
    for box in outlines:
        for corner, length, way in ((box.left, box.width, 0), (box.top, box.height, 1)):
            sides = [line for line in second.lines if abs(line.start[way] - corner) < SAME]
            if not any(abs(line.end[way] - line.start[way] - length) < SAME for line in sides):
                yield f"no side of {length} at {corner}"


def _crosses(line: Line, box: Box) -> bool:
    """Whether an upright line runs from the top of a box to its foot."""
    (left, top), (right, foot) = line.start, line.end
    is_upright = abs(left - right) < SAME and box.left < left < box.right
    return is_upright and abs(top - box.top) < 0.3 and abs(foot - box.bottom) < 0.3


def page_at(made: Finished, anchor: str) -> Page:
    return made.pages[page_numbers(made.laid.pages)[anchor] - 1]


@pytest.mark.parametrize(("kit", "anchor"), PAGES)
def test_two_libraries_read_the_same_from_a_page(kit: str, anchor: str) -> None:
    made = finished(kit)
    page = page_at(made, anchor)
    second = read_second(made.file, page.number)
    assert len(second.signs) == len(page.ink) > 20
    assert differences(page, second) == NONE


def test_the_pages_held_against_each_other_bear_what_is_measured() -> None:
    pages = [page_at(finished(kit), anchor) for kit, anchor in PAGES]
    assert sum(len(figure.cuts) for page in pages for figure in cut_figures(page)) > 30
    assert sum(letter.text in NUMERALS for page in pages for letter in page.ink) > 900


# The second reader would see what the first one misses.


def moved(made: Finished, page: Page, by: float) -> SecondReading:
    """What the second reader sees where all on a page lies so many points farther right."""
    file = with_content(made.file, page.number, r"\A", f"1 0 0 1 {by} 0 cm ")
    return read_second(file, page.number)


def test_a_page_on_which_all_lies_aside_is_told() -> None:
    made = finished("hill-line")
    page = page_at(made, "sheet-iron")
    assert differences(page, moved(made, page, 0.0)) == NONE
    a_hair = differences(page, moved(made, page, 0.02))
    assert a_hair.strokes
    assert a_hair.cuts
    assert not a_hair.places
    assert len(differences(page, moved(made, page, 1.0)).places) > 100


def test_a_number_that_one_reader_sees_alone_is_told() -> None:
    made = finished("hill-line")
    page = page_at(made, "pockets")
    # The words of a page are single strings: one of a figure alone is printed twice.
    file = with_content(made.file, page.number, r"\(\d\) Tj", r"\g<0> 20 0 Td \g<0>")
    found = differences(page, read_second(file, page.number))
    assert len(found.numbers) == 1
    assert len(found.places) == 1
    assert not found.strokes


# The first line along which there is a cut, after its dashes are set; and a tenth of a point farther right.
CUT_LINE = r"(?s)(\[6 3\.2\] 0 d.*?)n 29\.25 0 m 29\.25 108 l"
MOVED_LINE = r"\g<1>n 29.35 0 m 29.35 108 l"


def test_a_cut_line_that_one_reader_sees_elsewhere_is_told() -> None:
    made = finished("hill-line")
    page = page_at(made, "sheet-iron")
    file = with_content(made.file, page.number, CUT_LINE, MOVED_LINE)
    found = differences(page, read_second(file, page.number))
    assert len(found.strokes) == len(found.cuts) == 1
    assert not found.numbers
