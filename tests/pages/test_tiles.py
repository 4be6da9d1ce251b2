"""A drawing over pages: all of it is shown, pages overlap as stated, no fewer pages would do."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.measure.exact import Fraction as Exact
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size, Unit
from booklet.pages.office_paper import OfficePaper
from booklet.pages.tiles import FOOT, MARGIN, OVERLAP, Tiling, tile

# ISO 216 and ASME Y14.1 (from memory), in points.
PAPERS = {
    OfficePaper.LETTER: (Fraction(17, 2) * 72, Fraction(11) * 72),
    OfficePaper.A4: (Fraction(2100, 254) * 72, Fraction(2970, 254) * 72),
}
lengths = st.builds(Exact, st.integers(1, 200_000), st.integers(1, 64)).filter(lambda length: length < 7000)
papers = st.sampled_from(OfficePaper)


def of_kit(width: str, height: str) -> Size:
    return Size(*(Exact(Fraction(side)) * Unit.INCH.points for side in (width, height)))


@given(width=lengths, height=lengths, paper=papers)
def test_all_of_a_drawing_is_shown(width: Exact, height: Exact, paper: OfficePaper) -> None:
    tiling = tile(Size(width, height), paper)
    assert len(tiling.tiles) == tiling.count
    # Windows of one row leave no gap and reach from edge to edge; so do those of one column.
    for spans, length in ((row_of(tiling), width), (column_of(tiling), height)):
        assert spans[0][0] <= 0
        assert spans[-1][1] >= length
        assert all(end > start for (_, end), (start, _) in pairwise(spans))


def row_of(tiling: Tiling) -> list[tuple[Exact, Exact]]:
    return [(one.window.x, one.window.right) for one in tiling.tiles if one.row == 0]


def column_of(tiling: Tiling) -> list[tuple[Exact, Exact]]:
    return [(one.window.y, one.window.bottom) for one in tiling.tiles if one.column == 0]


@given(width=lengths, height=lengths, paper=papers)
def test_neighbours_share_ten_millimetres(width: Exact, height: Exact, paper: OfficePaper) -> None:
    tiling = tile(Size(width, height), paper)
    for spans in (row_of(tiling), column_of(tiling)):
        for (_, end), (start, _) in pairwise(spans):
            assert end - start == Fraction(10) / Fraction(254, 10) * 72
    seams = tiling.seams
    assert len(seams) == tiling.rows * (tiling.columns - 1) + tiling.columns * (tiling.rows - 1)
    for seam in seams:
        for part in (seam.first, seam.second):
            assert part.window.contains(seam.shared)
        assert (seam.shared.width if seam.is_upright else seam.shared.height) == OVERLAP


@given(width=lengths, height=lengths, paper=papers)
def test_no_fewer_pages_would_do(width: Exact, height: Exact, paper: OfficePaper) -> None:
    """Counted on, page by page, each way round, by the lengths alone."""
    short, long = PAPERS[paper]
    counts = [pages_for(width, across) * pages_for(height, down) for across, down in windows(short, long)]
    assert tile(Size(width, height), paper).count == min(counts)


def windows(short: Fraction, long: Fraction) -> list[tuple[Fraction, Fraction]]:
    foot = Fraction(int(FOOT))
    return [(short - 36, long - 36 - foot), (long - 36, short - 36 - foot)]


def pages_for(length: Exact, window: Fraction) -> int:
    count, reached = 1, window
    while reached < length:
        count, reached = count + 1, reached + window - Fraction(int(OVERLAP * 127), 127)
    return count


@given(width=lengths, height=lengths, paper=papers)
def test_a_page_shows_only_what_its_printer_reaches(width: Exact, height: Exact, paper: OfficePaper) -> None:
    tiling = tile(Size(width, height), paper)
    assert sorted((tiling.page.width, tiling.page.height)) == sorted(PAPERS[paper])
    reach = Size(tiling.page.width - 2 * MARGIN, tiling.page.height - 2 * MARGIN)
    assert MARGIN * Fraction(254, 10) / 72 == Fraction(635, 100)  # 1/4 in, 6.35 mm
    assert all(reach.width >= one.window.width for one in tiling.tiles)
    assert all(reach.height >= one.window.height + FOOT for one in tiling.tiles)


def test_pages_are_named_by_row_and_column() -> None:
    tiling = tile(of_kit("12", "12"), OfficePaper.LETTER)
    assert [one.name for one in tiling.tiles] == ["A1", "A2", "B1", "B2"]


def test_what_is_just_as_wide_as_a_printer_reaches_needs_one_page() -> None:
    assert tile(of_kit("8", "9"), OfficePaper.LETTER).count == 1
    assert tile(of_kit("513/64", "9"), OfficePaper.LETTER).count == 2


@pytest.mark.parametrize(
    ("width", "height", "lies"), [("10", "6", True), ("6", "9", False), ("12", "2", False)]
)
def test_a_page_lies_on_its_side_only_where_that_saves_pages(width: str, height: str, lies: bool) -> None:
    tiling = tile(of_kit(width, height), OfficePaper.LETTER)
    assert (tiling.page.width > tiling.page.height) is lies


def test_the_drawing_is_in_the_middle() -> None:
    tiling = tile(of_kit("12", "12"), OfficePaper.A4)
    whole, size = tiling.whole, tiling.size
    assert whole.centre == ExactRect(Exact(0), Exact(0), size.width, size.height).centre
