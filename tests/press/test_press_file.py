"""Press files: boxes, marks clear of the bleed, slug lines clear of marks, each page once."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from io import BytesIO
from itertools import combinations
from typing import Any

import pikepdf
import pytest

from booklet.binding.binding import Binding
from booklet.binding.condition import Condition, check_ink_limit, read_condition, usual_condition
from booklet.binding.errors import BleedError, ConditionError, InkLimitError, StockTooSmallError
from booklet.binding.press_file import check_bleed, page_sides, sheet_sides, usual_press_sheet
from booklet.binding.press_marks import MARGIN, slug_place
from booklet.binding.sides import Box
from booklet.binding.stock import A4, LETTER, STOCK_OF
from booklet.kit.kit import PageFormat
from booklet.measure.length import Unit
from booklet.pages.press import SLUG_HEIGHT
from booklet.proof.reader import read_pages
from tests.press.small import BLEED, binding, file_of, small_booklet, small_pages, small_sheets

MM = Unit.MILLIMETRE.points


def opened(data: bytes) -> Any:
    return pikepdf.open(BytesIO(data))


def edges(box: Any) -> list[float]:
    return [float(edge) for edge in box]


# Boxes.


def test_a_single_page_has_its_trim_its_bleed_and_room_for_marks() -> None:
    with opened(small_pages()) as pdf:
        assert len(pdf.pages) == 4
        for page in pdf.pages:
            media, bleed, trim = (edges(page.obj[f"/{name}Box"]) for name in ("Media", "Bleed", "Trim"))
            assert trim[2] - trim[0] == pytest.approx(5.5 * 72)
            assert trim[3] - trim[1] == pytest.approx(8.5 * 72)
            assert [trim[0] - bleed[0], bleed[3] - trim[3]] == pytest.approx([9, 9])
            assert [bleed[0], media[2] - bleed[2]] == pytest.approx([float(MARGIN)] * 2, abs=0.001)


def test_a_press_sheet_is_trimmed_about_both_pages_in_its_middle() -> None:
    with opened(small_sheets()) as pdf:
        assert len(pdf.pages) == 2
        for page in pdf.pages:
            assert edges(page.mediabox) == [0, 0, 17 * 72, 11 * 72]
            assert edges(page.trimbox) == [3 * 72, 1.25 * 72, 14 * 72, 9.75 * 72]
            assert edges(page.obj.BleedBox) == [3 * 72 - 9, 1.25 * 72 - 9, 14 * 72 + 9, 9.75 * 72 + 9]


# What is drawn where.


def outside(file: bytes, place: int) -> tuple[Any, list[Box]]:
    """The bleed of a side, and where its marks lie as another library reads them; its pages are emptied."""
    with opened(file) as pdf:
        for name, thing in pdf.pages[place].obj.Resources.XObject.items():
            if name.startswith("/Page"):
                thing.write(b"")
        page = pdf.pages[place]
        bleed = Box(*(Fraction(str(edge)) for edge in page.obj.BleedBox))
        out = BytesIO()
        pdf.save(out)
    read = read_pages(out.getvalue())[place]
    high = Fraction(str(read.height))
    found = [path.box.grown(path.width / 2 if path.stroke is not None else 0) for path in read.paths]
    return bleed, [
        Box(*map(_exact, (box.left, float(high) - box.bottom, box.right, float(high) - box.top)))
        for box in found
    ]


def _exact(value: float) -> Fraction:
    return Fraction(value).limit_denominator(10_000)


def meet(one: Box, other: Box) -> bool:
    return (
        one.left < other.right
        and other.left < one.right
        and one.bottom < other.top
        and other.bottom < one.top
    )


@pytest.mark.parametrize(
    ("made", "place"), [(small_pages, 0), (small_pages, 1), (small_sheets, 0), (small_sheets, 1)]
)
def test_marks_stand_clear_of_the_bleed_and_of_the_slug_line(made: Any, place: int) -> None:
    bleed, marks = outside(made(), place)
    sides = page_sides(4, binding()) if made is small_pages else sheet_sides(4, binding())
    at = slug_place(sides[place], Fraction(SLUG_HEIGHT))
    slug = Box(at.left, at.bottom, at.left + at.room, at.bottom + Fraction(SLUG_HEIGHT))
    assert len(marks) > 20
    for mark in marks:
        assert not meet(mark, bleed.grown(MM / 2))
        assert not meet(mark, slug)
    assert not meet(slug, bleed.grown(MM / 2))


def test_the_colour_bar_meets_no_other_mark() -> None:
    _, marks = outside(small_sheets(), 0)
    patches = [mark for mark in marks if mark.size.width > 4 * MM and mark.size.height > 4 * MM]
    assert len(patches) == 12
    lines = [mark for mark in marks if mark not in patches]
    assert not [(one, other) for one in patches for other in lines if meet(one, other)]
    assert not [
        pair for pair in combinations([patch.grown(-MM / 100) for patch in patches], 2) if meet(*pair)
    ]


def test_each_side_names_title_place_and_signature() -> None:
    texts = [page.text for page in read_pages(small_sheets())]
    assert all("Low Tide" in text for text in texts)


def test_each_page_lies_in_the_sheets_once() -> None:
    with opened(small_sheets()) as pdf:
        shown = [
            thing.objgen
            for page in pdf.pages
            for name, thing in page.obj.Resources.XObject.items()
            if name.startswith("/Page")
        ]
    assert len(shown) == len(set(shown)) == 4


def test_inner_sheets_move_towards_the_fold_and_are_trimmed_narrower() -> None:
    """By f*k*t, here 1 * 1 * 0.1 mm on each side of the fold."""
    caliper = MM / 10
    plain, crept = (sheet_sides(8, each) for each in (binding(), binding(caliper)))
    assert crept[0].trim == plain[0].trim
    assert plain[2].trim.size.width - crept[2].trim.size.width == 2 * caliper
    (left, right) = crept[2].pages
    assert left.trim.right - right.trim.left == 2 * caliper
    assert left.clip.right == right.clip.left
    booklet = small_booklet()
    data = file_of(booklet, sheet_sides(4, binding(caliper)), binding(caliper), "Low Tide")
    assert len(read_pages(data)) == 2


# What is refused.


@pytest.mark.parametrize("bleed", [Fraction(0), Fraction(4), Fraction(37), Fraction(-9)])
def test_a_bleed_that_no_shop_takes_is_refused(bleed: Fraction) -> None:
    with pytest.raises(BleedError, match=r"usual is 3 mm or 1/8 in"):
        check_bleed(bleed, Unit.INCH)


@pytest.mark.parametrize("bleed", [9, 3 * MM, 36])
def test_a_usual_bleed_is_taken(bleed: Fraction) -> None:
    check_bleed(Fraction(bleed), Unit.MILLIMETRE)


@pytest.mark.parametrize("percent", [0, 199, 401])
def test_an_ink_limit_that_is_none_is_refused(percent: int) -> None:
    with pytest.raises(InkLimitError, match="four solid inks are 400 %"):
        check_ink_limit(Fraction(percent))


def test_a_condition_is_named_as_it_is_registered_but_for_spaces_and_case() -> None:
    assert read_condition(" cgats tr006 ") is Condition.TR_006
    assert all(read_condition(each.value) is each for each in Condition)
    with pytest.raises(ConditionError, match=r"nearest: FOGRA39"):
        read_condition("fogra38")


def test_a_condition_is_usual_where_the_paper_is() -> None:
    metric = [page for page in PageFormat if usual_condition(page) is Condition.FOGRA51]
    assert metric == [PageFormat.A5, PageFormat.A4, PageFormat.SQUARE_15_CM]


@pytest.mark.parametrize("page", list(PageFormat))
def test_every_page_format_has_a_usual_press_sheet_with_room_for_its_marks(page: PageFormat) -> None:
    trimmed, home = STOCK_OF[page]
    bleed = 3 * MM if page.is_metric else Fraction(9)
    bound = replace(Binding(trimmed, home), bleed=bleed)
    bound = replace(bound, press=usual_press_sheet(bound, page))
    for side in sheet_sides(8, bound):
        marks = side.bleed.grown(MARGIN)
        assert marks.left >= 0
        assert marks.bottom >= 0
        assert marks.right <= side.size.width
        assert marks.top <= side.size.height


def test_a_sheet_without_room_for_marks_is_refused_with_the_size_needed() -> None:
    for press in (LETTER, A4):
        with pytest.raises(
            StockTooSmallError, match="two pages with their bleed and the marks about it take"
        ):
            sheet_sides(4, replace(binding(), press=press))


def test_the_bleed_is_that_of_the_binding() -> None:
    assert page_sides(4, binding())[0].bleed.size.width == 396 + 2 * BLEED
