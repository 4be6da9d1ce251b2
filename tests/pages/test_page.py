"""Stories broken into pages, and pages put on their side of the fold."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count, pairwise

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.platypus import Flowable, Table

from booklet.drawing.shapes.style import TEAL
from booklet.pages.flow import Gap, Stack
from booklet.pages.grid import GRIDS, TypeSizes
from booklet.pages.page import (
    Block,
    Laid,
    Page,
    PageName,
    PageOverflowError,
    Start,
    anchors,
    arrange,
    break_story,
    flow,
    story_height,
)
from booklet.pages.type import make_styles, words
from booklet.pages.write import Imprint, write_pages

GRID = GRIDS[next(iter(GRIDS))]
STYLES = make_styles(TEAL, TypeSizes())


class Brick(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """Something of a given height that cannot be split, with space about it."""

    def __init__(self, height: float, before: float = 0.0, after: float = 0.0) -> None:
        super().__init__()
        self.high = height
        self.spaceBefore, self.spaceAfter = before, after

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002 (the flowable protocol)
        return width, self.high

    def draw(self) -> None:
        """Nothing shows."""


def tops(laid: tuple[Laid, ...]) -> list[float]:
    return [each.y for each in laid]


BRICKS = st.lists(
    st.one_of(
        st.builds(Brick, st.floats(1, 100), st.floats(0, 12), st.floats(0, 12)),
        st.floats(1, 100).map(Gap),
    ),
    max_size=30,
)


@given(BRICKS)
def test_everything_is_laid_once_in_its_order_within_its_page(story: list[Flowable]) -> None:
    pages = break_story(story, 300, 100)
    laid = [each.flowable for page in pages for each in page]
    assert [each for each in laid if isinstance(each, Brick)] == [s for s in story if isinstance(s, Brick)]
    for page in pages:
        assert page, "a blank page"
        assert page[0].y == 0
        assert not isinstance(page[0].flowable, Gap), "white space at the top of a page"
        for above, below in pairwise(page):
            assert above.y + above.height <= below.y + 1e-6
        assert page[-1].y + page[-1].height <= 100 + 1e-6


@given(BRICKS)
def test_the_height_of_a_story_is_where_its_last_part_ends(story: list[Flowable]) -> None:
    story = [*story, Brick(1)]
    if isinstance(story[0], Gap):
        story.insert(0, Brick(1))
    (page,) = break_story(story, 300, 100_000)
    assert page[-1].y + page[-1].height == pytest.approx(story_height(story, 300))


def test_a_story_that_just_fits_stays_on_one_page() -> None:
    assert len(break_story([Brick(40), Gap(20), Brick(40)], 300, 100)) == 1
    assert len(break_story([Brick(40), Gap(20), Brick(40.01)], 300, 100)) == 2


@given(BRICKS, st.floats(0, 40))
def test_every_later_page_stands_under_its_head(story: list[Flowable], high: float) -> None:
    story = [part for part in story if part.wrap(300, 100)[1] <= 100 - high]
    heads: list[Brick] = []

    def head() -> list[Flowable]:
        heads.append(Brick(high))
        return [heads[-1]]

    first, *later = break_story(story, 300, 100, head) or [()]
    assert [page[0].flowable for page in later] == heads[: len(later)]
    laid = [each.flowable for page in (first, *(page[1:] for page in later)) for each in page]
    assert [each for each in laid if isinstance(each, Brick)] == [s for s in story if isinstance(s, Brick)]
    for page in later:
        assert page[1].y == high
        assert not isinstance(page[1].flowable, Gap), "white space at the top of a page"
        assert page[-1].y + page[-1].height <= 100 + 1e-6


def test_a_gap_at_the_foot_makes_no_page_of_its_own() -> None:
    assert len(break_story([Brick(95), Gap(20)], 300, 100)) == 1


def test_a_paragraph_goes_on_over_the_page() -> None:
    said = " ".join(f"word{n}" for n in range(400))
    paragraph = words(said, STYLES.body)
    pages = break_story([Brick(60), paragraph], 300, 100)
    assert len(pages) > 2
    told = " ".join(line for page in pages for each in page for line in lines_of(each.flowable))
    assert told.split() == said.split()


def test_a_paragraph_that_begins_a_page_because_it_found_no_room_can_be_drawn() -> None:
    paragraph = words("two lines at the least, that is what these words make " * 2, STYLES.body)
    first, second = break_story([Brick(95), paragraph], 200, 100)
    assert [each.flowable for each in second] == [paragraph]
    pages = [Page(first, "one"), Page(second, "two")]
    pdf = pypdfium2.PdfDocument(write_pages(pages, GRID, TEAL, Imprint("", "", ""), draft=False))
    assert "two lines at the least" in pdf[1].get_textpage().get_text_range()


def lines_of(flowable: Flowable) -> list[str]:
    if not hasattr(flowable, "blPara"):
        return []
    lines = flowable.blPara.lines
    return [
        " ".join(line[1]) if isinstance(line, tuple) else " ".join(w.text for w in line.words)
        for line in lines
    ]


def test_a_table_goes_on_over_the_page() -> None:
    table = Table([[f"row {n}"] for n in range(40)])
    pages = break_story([table], 300, 200)
    told = [row[0] for page in pages for each in page for row in each.flowable._cellvalues]
    assert told == [f"row {n}" for n in range(40)]
    assert len(pages) > 2


def test_nothing_at_all_makes_no_page() -> None:
    assert break_story([], 300, 100) == []
    assert break_story([Gap(10)], 300, 100) == []


def test_what_is_higher_than_a_page_is_refused_by_name() -> None:
    story = [Brick(20), Stack([Brick(400), Brick(400)])]
    with pytest.raises(PageOverflowError, match=r"^Low tide: what belongs together is 800 pt high"):
        flow(story, GRID, PageName("running", "Low tide"))


def test_only_the_first_page_bears_bookmark_and_anchor() -> None:
    pages = flow([Brick(400)] * 3, GRID, PageName("Low tide", "Low tide", 1, "low-tide"))
    assert [(page.bookmark, page.anchor, page.running) for page in pages] == [
        ("Low tide", "low-tide", "Low tide"),
        (None, None, "Low tide"),
        (None, None, "Low tide"),
    ]
    assert {page.bookmark_level for page in pages} == {1}


# The fold.


def page(name: str) -> Page:
    return Page((), name)


def fillers() -> Iterator[Page]:
    return (page(f"filler {n}") for n in count())


BLOCKS = st.lists(st.tuples(st.integers(1, 5), st.sampled_from(list(Start))), max_size=12)


@given(BLOCKS)
def test_blocks_lie_on_their_side_of_the_fold_and_fill_whole_sheets(blocks: list[tuple[int, Start]]) -> None:
    made = [
        Block(tuple(page(f"{at} {n}") for n in range(length)), start)
        for at, (length, start) in enumerate(blocks)
    ]
    last = page("back cover")
    pages = arrange(made, fillers(), last)
    assert len(pages) % 4 == 0
    assert pages[-1] is last
    numbers = {each.running: number for number, each in enumerate(pages, start=1)}
    assert len(numbers) == len(pages)
    own = [each for each in pages if each.running[0].isdigit()]
    assert own == [each for block in made for each in block.pages], "nothing lost, nothing out of order"
    for block in made:
        first = numbers[block.pages[0].running]
        if block.start is Start.LEFT:
            assert first % 2 == 0
        if block.start is Start.RIGHT:
            assert first % 2 == 1
        places = [numbers[each.running] for each in block.pages]
        assert places == list(range(first, first + len(places))), "pages of a block follow each other"


@given(BLOCKS)
def test_no_more_pages_are_filled_than_it_takes(blocks: list[tuple[int, Start]]) -> None:
    made = [Block((page("block"),) * length, start) for length, start in blocks]
    pages = arrange(made, fillers(), page("back cover"))
    filled = [number for number, each in enumerate(pages, start=1) if each.running.startswith("filler")]
    within = [
        number
        for number in filled
        if number < max((n for n, p in enumerate(pages, 1) if p.running == "block"), default=0)
    ]
    for number in within:
        assert pages[number].running == "block", "one page is enough to change sides"
    assert len(filled) - len(within) <= 3
    assert [pages[number - 1].running for number in filled] == [f"filler {n}" for n in range(len(filled))]


def test_anchors_are_numbered_as_the_pages_are() -> None:
    pages = [Page((), "", anchor=name) for name in ("cover", None, "box", None)]
    assert anchors(pages) == {"cover": 1, "box": 3}
