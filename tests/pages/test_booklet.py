"""Whole booklets of the demo kits, read back from their PDFs."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from io import BytesIO
from itertools import pairwise

import pikepdf
import pymupdf
import pypdfium2 as pdfium
import pytest

from booklet.drawing.shapes.figure import dimensions
from booklet.kit.kit import PageFormat, sheet_title, trimmer_limits
from booklet.measure.length import parse_length
from booklet.measure.words import print_length
from booklet.pages.booklet import draw_figures, make_booklet
from tests.pages.conftest import Made
from tests.pages.reading import LETTER_SPACE, overlaps, runs_of
from tests.pages.telling import typed

# Sides in points: half of Letter, 8 1/2 x 11 in; half of A4, 148 x 210 mm (ISO 216).
PAGE_SIDES = {PageFormat.HALF_LETTER: (396, 612), PageFormat.A5: (419.53, 595.28)}
PRESS_SIDES = {PageFormat.HALF_LETTER: (792, 612), PageFormat.A5: (841.89, 595.28)}
SAFE = 12
LEAST_TYPE = 9
# Sections in their order; what a kit does not need it does not have.
SECTIONS = [
    "Cover",
    "Welcome",
    "In the box",
    "Tools and cautions",
    "The pile",
    "Cutting",
    "Where every piece goes",
    "What each pocket holds",
    "Layouts",
    "Supplies",
]


def opened(made: Made) -> pdfium.PdfDocument:
    return pdfium.PdfDocument(made.pdf)


def bookmarks(made: Made) -> list[tuple[int, str, int]]:
    """Level, title and page number of every bookmark."""
    found = []
    for mark in opened(made).get_toc():
        target = mark.get_dest()
        assert target is not None
        found.append((mark.level, mark.get_title(), target.get_index() + 1))
    return found


def texts_of(document: pdfium.PdfDocument) -> list[list[str]]:
    """The texts of each page, without spaces, in the order of drawing."""
    return [[run.text for run in runs_of(page)] for page in document]


def test_the_pages_fill_whole_sheets(demo: Made) -> None:
    assert len(opened(demo)) == len(demo.booklet.pages)
    assert len(demo.booklet.pages) % 4 == 0


def test_every_page_has_the_page_format(demo: Made) -> None:
    for page in opened(demo):
        assert page.get_size() == pytest.approx(PAGE_SIDES[demo.resolved.kit.page], abs=0.01)


def test_sections_come_in_their_order(demo: Made) -> None:
    marks = bookmarks(demo)
    assert [page for _, _, page in marks] == sorted(page for _, _, page in marks)
    titles = [title for level, title, _ in marks if level == 0]
    places = [titles.index(section) for section in SECTIONS if section in titles]
    assert places == sorted(places)
    assert {"Cover", "In the box", "Cutting", "Where every piece goes", "Layouts"} <= set(titles)
    assert marks[0] == (0, "Cover", 1)
    assert marks[-1][2] == len(demo.booklet.pages)


def test_every_sheet_and_layout_has_its_bookmark(demo: Made) -> None:
    kit = demo.resolved.kit
    sheets = [sheet for sheet in demo.resolved.sheets if sheet.stages]
    in_order = sorted(sheets, key=lambda sheet: sheet.number)
    expected = [f"Sheet {sheet.number}: {sheet_title(kit, sheet.sheet)}" for sheet in in_order]
    expected += [layout.title or layout.id for layout in kit.layouts]
    assert [title for level, title, _ in bookmarks(demo) if level == 1] == expected


def test_a_page_is_never_blank(demo: Made) -> None:
    for number, page in enumerate(opened(demo), start=1):
        assert len(runs_of(page)) >= 2, f"page {number}"


def test_no_text_lies_over_another(demo: Made) -> None:
    found = {number: list(overlaps(runs_of(page))) for number, page in enumerate(opened(demo), start=1)}
    assert {number: texts for number, texts in found.items() if texts} == {}


def test_no_type_is_smaller_than_nine_points(demo: Made) -> None:
    small = {
        (number, run.text)
        for number, page in enumerate(opened(demo), start=1)
        for run in runs_of(page)
        if min(letter.size for letter in run.letters) < LEAST_TYPE - 0.01
    }
    assert small == set()


def test_nothing_is_printed_near_the_trim(demo: Made) -> None:
    for number, page in enumerate(opened(demo), start=1):
        ink = page.render(scale=1).to_numpy().min(axis=2) < 250
        edges = ink[:SAFE], ink[-SAFE:], ink[:, :SAFE], ink[:, -SAFE:]
        assert not any(edge.any() for edge in edges), f"page {number}"


def test_every_font_is_embedded(demo: Made) -> None:
    for data in (demo.pdf, demo.print_pdf):
        with pikepdf.open(BytesIO(data)) as pdf:
            fonts = [thing for thing in pdf.objects if _is_font(thing)]
            assert fonts
            bare = [str(font.BaseFont) for font in fonts if not _holds_its_outlines(font)]
            assert bare == []


def _is_font(thing: pikepdf.Object) -> bool:
    return isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/Font"


def _holds_its_outlines(font: pikepdf.Object) -> bool:
    described = font.get("/FontDescriptor", pikepdf.Dictionary())
    return bool({"/FontFile", "/FontFile2", "/FontFile3"} & set(described.keys()))


def test_the_document_says_what_it_is(demo: Made) -> None:
    kit = demo.resolved.kit
    with pikepdf.open(BytesIO(demo.pdf)) as pdf:
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.docinfo["/Title"]) == f"{kit.title}, {kit.month}"
        assert str(pdf.docinfo["/Author"]) == kit.publisher
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"


def test_other_readers_open_it_without_a_warning(demo: Made) -> None:
    for data in (demo.pdf, demo.print_pdf):
        pymupdf.TOOLS.reset_mupdf_warnings()
        with pymupdf.open(stream=data, filetype="pdf") as document:
            for page in document:
                page.get_pixmap(dpi=20)
        assert pymupdf.TOOLS.mupdf_warnings() == ""
        with pikepdf.open(BytesIO(data)) as pdf:
            assert pdf.check_pdf_syntax() == []


# Where things lie.


def test_facing_layouts_lie_on_facing_pages(demo: Made) -> None:
    pages = {title: page for level, title, page in bookmarks(demo) if level == 1}
    layouts = {layout.id: layout for layout in demo.resolved.kit.layouts}
    spreads = [(one, layouts[one.facing]) for one in layouts.values() if one.facing]
    assert spreads
    for left, right in spreads:
        number = pages[left.title or left.id]
        assert number % 2 == 0
        assert pages[right.title or right.id] == number + 1


def test_a_sheet_s_words_and_figures_share_an_opening(demo: Made) -> None:
    texts = texts_of(opened(demo))
    for sheet in demo.resolved.sheets:
        if sheet.stages:
            footer = {f"Sheet{sheet.number}", sheet_title(demo.resolved.kit, sheet.sheet).replace(" ", "")}
            pages = [number for number, said in enumerate(texts, start=1) if footer <= set(said[-3:])]
            assert 1 <= len(pages) <= 2
            assert len({number // 2 for number in pages}) == 1, footer


# What is said of a cut: a sentence that begins so and ends with a full stop.
CUT_SENTENCE = re.compile(r"(?:Cutat|Slideto)(.*?)\.(?= |$)")
PRINTED_LENGTH = re.compile("[0-9]*[⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+|[0-9]+(?:[.][0-9]+)?")


def test_the_steps_of_a_sheet_give_the_readings_of_the_spec(demo: Made) -> None:
    unit = demo.resolved.kit.unit
    texts = texts_of(opened(demo))
    checked = 0
    for sheet in demo.resolved.sheets:
        if sheet.stages and not sheet.sheet.is_cut_apart:
            pages = [said for said in texts if f"Sheet{sheet.number}" in said[-3:]]
            said = " ".join(text for page in pages for text in page)
            found = [length for part in CUT_SENTENCE.findall(said) for length in PRINTED_LENGTH.findall(part)]
            typed_in_spec = [reading for step in sheet.sheet.cuts or () for reading in step.at]
            assert found == [print_length(reading, unit) for reading in typed_in_spec]
            checked += 1
    assert checked >= 3


# Dimensions.


# A length that no mark of a ruler shows is printed with this, rounded to a mark or finer.
ABOUT = "≈"


def test_every_dimension_is_as_long_as_it_says(demo: Made) -> None:
    unit, mark = demo.resolved.kit.unit, trimmer_limits(demo.resolved.kit).mark
    counted = 0
    for figure in draw_figures(demo.resolved):
        for dimension in dimensions(figure.shapes):
            one = unit.points / Fraction(figure.scale.removeprefix("Scale 1:"))
            said = parse_length(typed(dimension.label).removeprefix(ABOUT).strip(), unit)
            off = mark / 2 * one if dimension.label.startswith(ABOUT) else 0
            assert dimension.length == pytest.approx(float(said * one), abs=float(off) + 1e-6)
            counted += 1
    assert counted > 50


def test_every_dimension_s_text_is_printed(demo: Made) -> None:
    printed = Counter(run.text for page in opened(demo) for run in runs_of(page, LETTER_SPACE))
    drawn = Counter(
        dimension.label.split("\u00a0")[-1]  # what stands before a space is a run of its own
        for figure in draw_figures(demo.resolved)
        for dimension in dimensions(figure.shapes)
    )
    assert {label: count for label, count in drawn.items() if printed[label] < count} == {}


def test_the_strips_of_a_stage_add_up_to_what_is_cut(demo: Made) -> None:
    unit = demo.resolved.kit.unit
    figures = {figure.name: figure for figure in draw_figures(demo.resolved)}
    for sheet in demo.resolved.sheets:
        for stage in sheet.stages:
            found = dimensions(figures[f"sheet-{sheet.number}-stage-{stage.number}"].shapes)
            across = [one for one in found if abs(one.start[1] - one.end[1]) < 1e-6]
            said = sum((parse_length(typed(one.label), unit) for one in across), Fraction(0))
            assert sheet.sheet.is_cut_apart or said == stage.seen.width


# The file for a home printer.


def test_each_side_pairs_the_pages_that_add_up(demo: Made) -> None:
    """Folded and nested, the pages of one side add up to one more than the count of pages."""
    numbers = {tuple(texts): number for number, texts in enumerate(texts_of(opened(demo)), start=1)}
    assert len(numbers) == len(demo.booklet.pages)
    for side in pdfium.PdfDocument(demo.print_pdf):
        assert side.get_size() == pytest.approx(PRESS_SIDES[demo.resolved.kit.page], abs=0.01)
        middle = side.get_size()[0] / 2
        runs = runs_of(side)
        left = tuple(run.text for run in runs if run.box[2] < middle)
        right = tuple(run.text for run in runs if run.box[0] > middle)
        assert len(left) + len(right) == len(runs)
        assert numbers[left] + numbers[right] == len(demo.booklet.pages) + 1


# Drafts.


def test_a_draft_says_so_on_every_page_and_is_otherwise_the_same(demo: Made) -> None:
    draft = pdfium.PdfDocument(make_booklet(demo.resolved).pdf(draft=True))
    final = opened(demo)
    assert len(draft) == len(final)
    for marked, plain in zip(draft, final, strict=True):
        texts = [run.text for run in runs_of(marked)]
        assert "DRAFT" in texts
        texts.remove("DRAFT")
        assert texts == [run.text for run in runs_of(plain)]


def test_neighbouring_bookmarks_never_point_backwards(demo: Made) -> None:
    assert all(one[2] <= other[2] for one, other in pairwise(bookmarks(demo)))
