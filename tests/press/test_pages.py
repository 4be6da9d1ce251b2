"""Pages in the inks of a press: every colour goes through the inks, and papers run over the trim."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import Any

import pikepdf
import pytest
from reportlab.lib.colors import Color

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Group, Line, Rect, Shape, Text, bounds
from booklet.kit.kit import PageFormat
from booklet.pages.booklet import LaidBooklet, lay_out
from booklet.pages.edges import edges_of, margin_figure
from booklet.pages.grid import Grid
from booklet.pages.press import Slug, write_press_pages, write_slugs
from booklet.pages.press_canvas import PressCanvas
from tests.pages.documents import PALETTE, measured
from tests.press.small import BLEED, INKS, inked, small_booklet

SAFE = 9.0
BEYOND = float(BLEED)
BLACK, WHITE = [0.0, 0.0, 0.0, 1.0], [0.0, 0.0, 0.0, 0.0]


def opened(data: bytes) -> Any:
    return pikepdf.open(BytesIO(data))


def written() -> bytes:
    return write_press_pages(small_booklet(), INKS, BLEED)


def streams(pdf: Any) -> list[Any]:
    return [*(page.obj for page in pdf.pages), *things(pdf, "/Form")]


def things(pdf: Any, kind: str) -> list[Any]:
    """All forms or all pictures of a file."""
    found = (each for each in pdf.objects if isinstance(each, pikepdf.Stream))
    return [each for each in found if each.get("/Subtype") == kind]


def test_no_colour_is_set_but_in_four_inks() -> None:
    """reportlab sets colours of its own for paragraphs, rules, tables and heads."""
    with opened(written()) as pdf:
        operators = {
            str(read.operator) for stream in streams(pdf) for read in pikepdf.parse_content_stream(stream)
        }
    assert {"k", "K"} <= operators
    assert not operators & {"rg", "RG", "g", "G", "cs", "CS", "sc", "SC", "scn", "SCN", "sh", "BI"}


def test_letters_are_black_or_left_white_whatever_their_colour() -> None:
    inks: list[list[float]] = []
    with opened(written()) as pdf:
        for stream in streams(pdf):
            fill = BLACK
            saved = []
            for read in pikepdf.parse_content_stream(stream):
                match str(read.operator):
                    case "k":
                        fill = [float(ink) for ink in read.operands]
                    case "q":
                        saved.append(fill)
                    case "Q":
                        fill = saved.pop()
                    case "Tj" | "TJ":
                        inks.append(fill)
    assert BLACK in inks
    assert WHITE in inks
    assert all(ink in (BLACK, WHITE) for ink in inks)


def test_there_are_no_links_no_bookmarks_and_no_standard_face() -> None:
    with opened(written()) as pdf:
        assert all("/Annots" not in page.obj for page in pdf.pages)
        assert "/Outlines" not in pdf.Root
    assert b"Helvetica" not in written()


def test_each_picture_lies_in_the_file_once_without_a_mask() -> None:
    with opened(written()) as pdf:
        (picture,) = things(pdf, "/Image")
        assert picture.ColorSpace == "/DeviceCMYK"
        assert "/SMask" not in picture
        assert "/Mask" not in picture


def test_the_same_pages_give_the_same_bytes() -> None:
    assert written() == written()


def test_nothing_transparent_can_be_asked_for() -> None:
    canvas = PressCanvas(BytesIO(), page_of={}, inks=INKS)
    half = Color(0.2, 0.3, 0.4, 0.5)
    with pytest.raises(ValueError, match="transparent"):
        canvas.setFillColor(half, 0.5)
    with pytest.raises(ValueError, match="transparent"):
        canvas.beginText().setFillColor(half, 0.5)


# What bleeds.


def shapes_of(booklet: LaidBooklet, number: int, bleed: float | None = BEYOND) -> tuple[Shape, ...]:
    edges = replace(edges_of(booklet.setup.document.sections), bleed=bleed)
    return margin_figure(booklet.setup, booklet.pages[number - 1], number, edges).shapes


@pytest.fixture(params=list(PageFormat))
def booklet(request: pytest.FixtureRequest) -> LaidBooklet:
    """The small booklet on pages of each size."""
    return lay_out(small_booklet().setup.document, request.param, PALETTE, inked, measured)


def test_the_paper_of_a_sheet_runs_over_the_outer_trim_and_no_further(booklet: LaidBooklet) -> None:
    number, grid = 2, booklet.setup.grid
    (band,) = [each for each in shapes_of(booklet, number) if isinstance(each, Rect) and each.fill is None]
    assert band.x == pytest.approx(-BEYOND)
    assert band.x + band.width < grid.left(number)
    assert band.y >= grid.top - 0.1
    assert band.y + band.height <= grid.height - grid.bottom + 0.1


def assert_is_within(box: Box, grid: Grid) -> None:
    assert min(box.left, box.top) >= SAFE - 0.01
    assert max(box.right - grid.width, box.bottom - grid.height) <= -SAFE + 0.01


def test_what_is_not_paper_keeps_its_distance_from_the_trim(booklet: LaidBooklet) -> None:
    grid = booklet.setup.grid
    for number in range(1, len(booklet.pages) + 1):
        for shape in shapes_of(booklet, number):
            is_paper = isinstance(shape, Group | Line) or (isinstance(shape, Rect) and shape.fill is None)
            if not is_paper:
                assert_is_within(bounds([shape]), grid)


def test_one_paper_runs_over_the_fold_from_cover_to_cover(booklet: LaidBooklet) -> None:
    grid, last = booklet.setup.grid, len(booklet.pages)
    front = spine(booklet, 1)
    back = spine(booklet, last)
    assert front.left == pytest.approx(-BEYOND)
    assert back.right == pytest.approx(grid.width + BEYOND)
    for box in (front, back):
        assert box.top == pytest.approx(-BEYOND)
        assert box.bottom == pytest.approx(grid.height + BEYOND)
    assert front.right == pytest.approx(grid.width - back.left)
    assert front.right < grid.inner
    # The print of both is one: what lies at the fold of the one lies at that of the other.
    assert offset(booklet, 1) == pytest.approx(offset(booklet, last) - grid.width)


def spine_group(booklet: LaidBooklet, number: int) -> Group:
    return next(
        each for each in shapes_of(booklet, number) if isinstance(each, Group) and each.clip is not None
    )


def spine(booklet: LaidBooklet, number: int) -> Box:
    clip = spine_group(booklet, number).clip
    assert clip is not None
    xs, ys = zip(*clip, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def offset(booklet: LaidBooklet, number: int) -> float:
    """Where the print of a spine begins."""
    (printed,) = spine_group(booklet, number).children
    assert isinstance(printed, Group)
    return printed.transform.e


def test_words_along_the_spine_stand_on_a_label(booklet: LaidBooklet) -> None:
    last = len(booklet.pages)
    shapes = shapes_of(booklet, last)
    (words,) = [each for each in shapes if isinstance(each, Text) and each.role == "spine"]
    (label,) = [each for each in shapes if isinstance(each, Rect) and each.fill is not None]
    assert shapes.index(label) < shapes.index(words)
    box, ground = bounds([words]), bounds([label])
    assert ground.left < box.left
    assert ground.top < box.top
    assert box.right < ground.right
    assert box.bottom < ground.bottom


def test_without_bleed_all_is_as_it_was(booklet: LaidBooklet) -> None:
    assert shapes_of(booklet, 1, None) == ()
    for number in range(2, len(booklet.pages) + 1):
        assert_is_within(bounds(shapes_of(booklet, number, None)), booklet.setup.grid)


# Slug lines.


def test_a_title_too_long_for_its_line_is_cut_and_the_rest_stands() -> None:
    said = Slug("A Title That Goes On and On About a Kit of Papers", "  ·  page 3 of 8", 160.0)
    assert said.text.endswith("…  ·  page 3 of 8")
    assert said.text.startswith("A Title")
    with opened(write_slugs([said], INKS, "en")) as pdf:
        assert float(pdf.pages[0].mediabox[2]) <= 160
