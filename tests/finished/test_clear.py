"""That nothing printed lies on something else that is read, and all stays where pages have room for it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest

from booklet.proof.figures import cut_figures
from booklet.proof.grounds import covers, painted_over
from booklet.proof.printed import POINTS_PER_MM, Box, Letter, Page, Path, Stroke, Word
from booklet.proof.reader import read_artwork
from tests.finished.book import type_area
from tests.finished.conftest import Open
from tests.finished.expected import part_of, sheet_sections
from tests.finished.kits import Finished
from tests.finished.listing import listed
from tests.finished.signs import numbered
from tests.spec_data import DEMOS

# Ink that meets by less than this is not seen to.
TOUCH = 0.4
# What is printed nearer to the edge may be cut off.
SAFE = 3 * POINTS_PER_MM
# The ink of an overhanging letter or half a line's width may pass the type area.
OVERHANG = 1.2


def where(page: Page, box: Box) -> str:
    x, y = box.centre
    return f"p. {page.number} at {x:.0f}, {y:.0f}"


# Text on text.


def test_no_text_lies_on_another(finished: Finished) -> None:
    wrong = [
        f"{where(page, one.box)}: {one.text!r} and {other.text!r}"
        for page in finished.book.pages
        for one, other in overlapping(page)
    ]
    assert not wrong, listed(wrong)


def overlapping(page: Page) -> Iterator[tuple[Word, Word]]:
    """Words of which letters overlap."""
    words = sorted(page.words, key=lambda word: word.box.left)
    for at, one in enumerate(words):
        for other in words[at + 1 :]:
            if other.box.left > one.box.right - TOUCH:
                break
            if one.box.overlaps(other.box, TOUCH) and any(
                a.box.overlaps(b.box, TOUCH) for a in one.letters for b in other.letters
            ):
                yield one, other


def test_nothing_is_painted_over_text(finished: Finished) -> None:
    wrong = [
        f"{where(page, letter.box)}: {letter.text!r} is covered"
        for page in finished.book.pages
        for letter, _ in painted_over(page)
    ]
    assert not wrong, listed(wrong)


def test_no_line_runs_through_text(finished: Finished) -> None:
    wrong = [
        f"{where(page, letter.box)}: a line through {word.text!r}"
        for page in finished.book.pages
        for word, letter in crossed(page)
    ]
    assert not wrong, listed(wrong)


def crossed(page: Page) -> Iterator[tuple[Word, Letter]]:
    """Letters that a straight stroke crosses, unless something lies between the two."""
    strokes = page.strokes
    if not strokes:
        return
    ends = np.array([(*stroke.start, *stroke.end) for stroke in strokes])
    lefts, rights = np.minimum(ends[:, 0], ends[:, 2]), np.maximum(ends[:, 0], ends[:, 2])
    tops, bottoms = np.minimum(ends[:, 1], ends[:, 3]), np.maximum(ends[:, 1], ends[:, 3])
    fills = [path for path in page.paths if path.fill is not None]
    for word in page.words:
        box = word.box
        is_near = (lefts < box.right) & (rights > box.left) & (tops < box.bottom) & (bottoms > box.top)
        near = [strokes[at] for at in np.flatnonzero(is_near)]
        for letter in word.letters if near else ():
            if any(passes(stroke, letter.box) and not parted(stroke, letter, fills) for stroke in near):
                yield word, letter


def passes(stroke: Stroke, box: Box) -> bool:
    """Whether a stroke runs through a box, not only along its edge."""
    inner = box.grown(-TOUCH + stroke.width / 2)
    if inner.width <= 0 or inner.height <= 0:
        return False
    (x, y), (dx, dy) = stroke.start, (stroke.end[0] - stroke.start[0], stroke.end[1] - stroke.start[1])
    low, high = 0.0, 1.0
    for at, way, least, most in ((x, dx, inner.left, inner.right), (y, dy, inner.top, inner.bottom)):
        if abs(way) < 1e-9:
            if not least < at < most:
                return False
            continue
        first, last = sorted(((least - at) / way, (most - at) / way))
        low, high = max(low, first), min(high, last)
    return low < high


def parted(stroke: Stroke, letter: Letter, fills: list[Path]) -> bool:
    """Whether something painted between a stroke and a letter hides the stroke there."""
    between = (path for path in fills if stroke.order < path.order < letter.order)
    return any(covers(path, letter.box.centre) for path in between)


def test_no_ring_or_disc_touches_text_outside_it(finished: Finished) -> None:
    wrong = []
    for page in finished.book.pages:
        for each in numbered(page):
            cx, cy = each.circle.box.centre
            radius = each.circle.box.width / 2 - TOUCH
            own = {id(letter) for letter in each.letters}
            wrong += [
                f"{where(page, letter.box)}: {each.number} in a circle lies on {letter.text!r}"
                for letter in page.ink
                if id(letter) not in own and distance(letter.box, cx, cy) < radius
            ]
    assert not wrong, listed(wrong)


def test_no_ring_or_disc_lies_on_another(finished: Finished) -> None:
    wrong = []
    for page in finished.book.pages:
        for at, one in enumerate(numbered(page)):
            for other in numbered(page)[at + 1 :]:
                (x, y), (u, v) = one.circle.box.centre, other.circle.box.centre
                reach = (one.circle.box.width + other.circle.box.width) / 2
                if float(np.hypot(x - u, y - v)) < reach - TOUCH:
                    wrong.append(f"{where(page, one.circle.box)}: {one.number} and {other.number}")
    assert not wrong, listed(wrong)


def distance(box: Box, x: float, y: float) -> float:
    """From a point to the nearest of a box."""
    dx = max(box.left - x, 0.0, x - box.right)
    dy = max(box.top - y, 0.0, y - box.bottom)
    return float((dx * dx + dy * dy) ** 0.5)


# Margins.


def test_no_text_stands_where_it_may_be_trimmed(finished: Finished) -> None:
    wrong = []
    for page in finished.book.pages:
        safe = Box(SAFE, SAFE, page.width - SAFE, page.height - SAFE)
        wrong += [
            f"{where(page, letter.box)}: {letter.text!r}"
            for letter in page.ink
            if not safe.holds(letter.box, 0.05)
        ]
    assert not wrong, listed(wrong)


def inner_pages(finished: Finished) -> tuple[Page, ...]:
    """All pages between the covers."""
    return finished.book.pages[1:-1]


def test_only_the_folio_and_marks_of_the_edge_stand_outside_the_type_area(finished: Finished) -> None:
    wrong = []
    for page in inner_pages(finished):
        area, folio = type_area(page), folio_line(page)
        strangers = [
            word
            for word in page.words
            if not area.holds(word.box, OVERHANG)
            and word.baseline != folio
            and not (is_at_the_edge(page, word.box) and word.text.isdecimal())
        ]
        wrong += [f"{where(page, word.box)}: {word.text!r}" for word in strangers]
        if folio is None:
            wrong.append(f"p. {page.number}: no folio")
    assert not wrong, listed(wrong)


def folio_line(page: Page) -> float | None:
    """How far down the number of a page stands, in the margin at its foot."""
    foot = type_area(page).bottom
    numbers = [word for word in page.words if word.box.top > foot and word.text == str(page.number)]
    return max((word.baseline for word in numbers), default=None)


def is_at_the_edge(page: Page, box: Box) -> bool:
    """Whether something stands in the outer margin, beside the type area."""
    area = type_area(page)
    is_outside = box.right < area.left if page.is_left else box.left > area.right
    return is_outside and area.top - OVERHANG <= box.top and box.bottom <= area.bottom + OVERHANG


def test_what_is_drawn_stays_in_the_type_area_or_at_the_edge(finished: Finished) -> None:
    wrong = []
    for page in inner_pages(finished):
        area = type_area(page)
        boxes = [path.box.grown(path.width / 2 if path.stroke else 0.0) for path in page.paths]
        boxes += [form.box for form in page.forms]
        wrong += [
            f"{where(page, box)}: {box.left:.1f} to {box.right:.1f}, {box.top:.1f} to {box.bottom:.1f}"
            for box in boxes
            if not area.holds(box, OVERHANG) and not is_at_the_edge(page, box)
        ]
    assert not wrong, listed(wrong)


# Printed elements.


@pytest.mark.parametrize("name", DEMOS)
def test_no_label_covers_the_words_or_pictures_of_an_element(name: str, open_booklet: Open) -> None:
    finished = open_booklet(name)
    wrong = []
    seen = 0
    for page in finished.book.pages:
        for artwork in printed_figures(finished, page):
            seen += len(artwork)
            labels = [(letter.text, letter.box) for letter in page.ink]
            labels += [(f"disc {each.number}", each.circle.box) for each in numbered(page)]
            wrong += [
                f"{where(page, box)}: {said!r} lies on an element"
                for said, box in labels
                if any(box.overlaps(path.box, TOUCH) for path in artwork)
            ]
    assert seen > 20
    assert not wrong, listed(wrong)


def printed_figures(finished: Finished, page: Page) -> Iterator[list[Path]]:
    """What is drawn on the elements in each cut figure of a cut-apart sheet on a page.

    Words of an element are outlines of many curves; grounds and frames are rectangles.
    """
    sections = [each for each in sheet_sections(finished.document) if is_cut_apart(finished, each.anchor)]
    if page not in [page for section in sections for page in part_of(finished.book, section).pages]:
        return
    artwork = read_artwork(finished.data, page.number)
    for figure in cut_figures(page):
        yield [
            path for path in artwork if path.curves + path.lines > 4 and figure.outline.holds(path.box, 0.2)
        ]


def is_cut_apart(finished: Finished, anchor: str) -> bool:
    return any(
        sheet.sheet.is_cut_apart and anchor == f"sheet-{sheet.sheet.id}" for sheet in finished.resolved.sheets
    )
