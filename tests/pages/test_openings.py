"""On which pages the stages of sheets stand, and how large they are drawn."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from booklet.pages.openings import Fit, Rooms, fits, split_stages

ROOMS = Rooms(first=400.0, later=480.0, gap=10.0)

heights = st.lists(st.integers(20, 400).map(float), min_size=1, max_size=7)


def test_a_sheet_that_fits_a_page_is_drawn_as_large_as_the_page_allows() -> None:
    ways = fits(lambda _stage, scale: 300.0 - 60 * scale, stages=2, scales=4, rooms=ROOMS)
    assert ways[0] == Fit(2, ((0, 1),))  # 2 x 180 + 10 are 370
    assert ways[1] == Fit(0, ((0,), (1,)))


def test_a_scale_that_leaves_no_room_for_words_is_passed_over() -> None:
    ways = fits(lambda _stage, scale: None if scale == 0 else 100.0, stages=1, scales=3, rooms=ROOMS)
    assert ways[0] == Fit(1, ((0,),))


def test_a_sheet_that_no_opening_holds_goes_on_over_the_page() -> None:
    (way,) = fits(lambda _stage, _scale: 250.0, stages=5, scales=2, rooms=ROOMS)
    assert way.pages == 5
    assert [stage for page in way.split for stage in page] == [0, 1, 2, 3, 4]


@given(heights, st.integers(1, 4))
def test_every_stage_stands_once_in_order_and_no_page_is_overfull(tall: list[float], pages: int) -> None:
    split = split_stages(tall, ROOMS, pages)
    if split is None:
        return
    assert len(split) == pages
    assert [stage for page in split for stage in page] == list(range(len(tall)))
    for at, page in enumerate(split):
        room = ROOMS.later if at else ROOMS.first
        assert sum(tall[stage] for stage in page) + ROOMS.gap * (len(page) - 1) <= room


@given(heights)
def test_fewer_pages_are_found_whenever_some_split_holds(tall: list[float]) -> None:
    """Compared with every split there is."""
    for pages in (1, 2):
        cuts = product([False, True], repeat=len(tall) - 1)
        held = any(_fits([bool(cut) for cut in each], tall) for each in cuts if sum(each) == pages - 1)
        assert (split_stages(tall, ROOMS, pages) is not None) == held


def _fits(cuts: list[bool], tall: list[float]) -> bool:
    pages: list[list[float]] = [[tall[0]]]
    for cut, height in zip(cuts, tall[1:], strict=True):
        if cut:
            pages.append([])
        pages[-1].append(height)
    return all(
        sum(page) + ROOMS.gap * (len(page) - 1) <= (ROOMS.later if at else ROOMS.first)
        for at, page in enumerate(pages)
    )
