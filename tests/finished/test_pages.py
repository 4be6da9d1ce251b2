"""Pages of a finished booklet: how many, which face each other, how full they are."""

from __future__ import annotations

from itertools import pairwise

import pytest

from booklet.content.blocks import Section
from booklet.kit.spreads import spreads
from booklet.proof.printed import Box, Page
from tests.finished.book import type_area
from tests.finished.conftest import Open
from tests.finished.expected import (
    layout_sections,
    part_of,
    rows_of,
    said,
    sheet_sections,
    step_line,
    steps_of,
)
from tests.finished.kits import Finished
from tests.finished.listing import listed
from tests.finished.signs import letters_right_of, numbered

MOST_PAGES = {"hill-line": 36, "roof-garden": 20, "starter": 12, "plain": 8}
HALF_FULL = 0.5
# So many level lines of one length, one below another, are for writing on.
LEAST_LINES, LEAST_LINE = 3, 60.0


@pytest.mark.parametrize("name", MOST_PAGES)
def test_a_booklet_takes_no_more_pages_than_it_may(name: str, open_booklet: Open) -> None:
    count = len(open_booklet(name).book.pages)
    assert count <= MOST_PAGES[name]


def test_pages_fill_whole_press_sheets(finished: Finished) -> None:
    count = len(finished.book.pages)
    assert count % 4 == 0


def test_every_page_but_the_covers_bears_its_number(finished: Finished) -> None:
    wrong = []
    for page in finished.book.pages[1:-1]:
        foot = [letter for letter in page.ink if letter.box.top > type_area(page).bottom]
        outer = min(
            foot, key=lambda letter: letter.box.left if page.is_left else -letter.box.right, default=None
        )
        line = [
            letter
            for letter in foot
            if outer and (letter.baseline, letter.font) == (outer.baseline, outer.font)
        ]
        number = "".join(letter.text for letter in line)
        if number != str(page.number):
            wrong.append(f"p. {page.number}: {number!r}")
    assert not wrong, listed(wrong)


# What lies open together.


def test_facing_layouts_lie_on_facing_pages(finished: Finished) -> None:
    sections = {section.anchor: section for section in layout_sections(finished.document)}
    kit = finished.resolved.kit
    wrong = []
    for spread in spreads(kit):
        if len(spread) == 2:
            left, right = (
                pages_of_layout(finished, sections[f"layout-{kit.layouts[at].id}"]) for at in spread
            )
            if not (
                len(left) == len(right) == 1 and left[0].is_left and right[0].number == left[0].number + 1
            ):
                wrong.append(
                    f"{kit.layouts[spread[0]].title}: p. {numbers(left)}, facing p. {numbers(right)}"
                )
    assert not wrong, listed(wrong)


def test_titles_that_face_each_other_are_of_one_size(finished: Finished) -> None:
    sections = {section.anchor: section for section in layout_sections(finished.document)}
    kit, book = finished.resolved.kit, finished.book
    wrong = []
    for spread in spreads(kit):
        parts = [part_of(book, sections[f"layout-{kit.layouts[at].id}"]) for at in spread]
        sizes = {found.letters[0].size for part in parts if (found := book.find(part.title, part.start))}
        if len(sizes) != 1:
            wrong.append(f"{' and '.join(part.title for part in parts)}: {sorted(sizes)}")
    assert not wrong, listed(wrong)


def test_no_layout_is_turned_within(finished: Finished) -> None:
    wrong = []
    for section in layout_sections(finished.document):
        pages = pages_of_layout(finished, section)
        if not is_one_opening(pages):
            wrong.append(f"{section.anchor}: p. {numbers(pages)}")
    assert not wrong, listed(wrong)


def test_no_sheet_is_turned_within(finished: Finished) -> None:
    wrong = []
    for section in sheet_sections(finished.document):
        pages = pages_of_sheet(finished, section)
        if not is_one_opening(pages):
            wrong.append(f"{section.anchor}: p. {numbers(pages)}")
    assert not wrong, listed(wrong)


def pages_of_layout(finished: Finished, section: Section) -> list[Page]:
    """From the title of a layout to its last step."""
    part = part_of(finished.book, section)
    last = said(step_line(steps_of(section)[-1].parts[-1]))
    ends = [found.places[-1].page.number for found in finished.book.every(last, part.start, part.end)]
    end = max(ends, default=part.pages[-1].number)
    return [page for page in part.pages if page.number <= end]


def pages_of_sheet(finished: Finished, section: Section) -> list[Page]:
    """From the title of a sheet to its last reading."""
    part = part_of(finished.book, section)
    cuts = {row.cut.number for row in rows_of(section) if row.cut}
    cut = [
        page.number
        for page in part.pages
        for each in numbered(page)
        if each.is_disc
        and each.number in cuts
        and any(letter.size > 12 for letter in letters_right_of(page, each.circle.box, 30.0))
    ]
    assert cut
    return [page for page in part.pages if page.number <= max(cut)]


def is_one_opening(pages: list[Page]) -> bool:
    """Whether pages are seen without turning one."""
    return len(pages) == 1 or (len(pages) == 2 and pages[0].is_left)


def numbers(pages: list[Page]) -> str:
    return ", ".join(str(page.number) for page in pages)


# How full they are.


def test_no_page_is_less_than_half_full_unless_it_is_for_writing_on(finished: Finished) -> None:
    wrong = []
    for page in finished.book.pages:
        share = (lowest_ink(page) - type_area(page).top) / type_area(page).height
        if share < HALF_FULL and not has_lines_to_write_on(page):
            wrong.append(f"p. {page.number}: {share:.0%} full")
    assert not wrong, listed(wrong)


def lowest_ink(page: Page) -> float:
    """How far down something stands in the type area."""
    area = type_area(page)
    boxes = [letter.box for letter in page.ink]
    boxes += [path.box for path in page.paths if path.fill != (255, 255, 255) or path.stroke]
    boxes += [form.box for form in page.forms]
    return max((box.bottom for box in boxes if is_inside(area, box)), default=area.top)


def is_inside(area: Box, box: Box) -> bool:
    """Whether the middle of something stands in the type area."""
    x, y = box.centre
    return area.left <= x <= area.right and area.top <= y and box.bottom <= area.bottom + 2.0


def has_lines_to_write_on(page: Page) -> bool:
    """Whether several level lines of one length and distance stand one below another."""
    levels: dict[tuple[int, int], list[float]] = {}
    for stroke in page.strokes:
        if stroke.is_level and stroke.length > LEAST_LINE:
            ends = sorted((stroke.start[0], stroke.end[0]))
            levels.setdefault((round(ends[0]), round(ends[1])), []).append(stroke.start[1])
    return any(are_even(sorted(ys)) for ys in levels.values())


def are_even(ys: list[float]) -> bool:
    """Whether so many lines follow each other at one distance, wide enough for a hand."""
    gaps = [below - above for above, below in pairwise(ys)]
    runs = zip(*(gaps[at:] for at in range(LEAST_LINES - 1)), strict=False)
    return any(max(run) - min(run) < 0.1 and min(run) > 12.0 for run in runs)
