"""pdfplumber, which has a reader of its own, sees the same numbers in the same places, and the cut lines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber
import pikepdf
import pytest

from booklet.proof.figures import cut_figures
from booklet.proof.printed import Letter, Page, Stroke
from tests.proof.altered import with_content
from tests.proof.finished import finished
from tests.proof.test_second_reader import NUMERALS, PAGES, page_at

pytestmark = pytest.mark.thorough

# pdfplumber tells how far a numeral advances, pypdfium2 where its ink is: the middles lie so far apart at
# most, in points, or as a share of the type's size.
SIDEWAYS, OF_SIZE = 0.6, 0.09
# How far apart both may see a cut line, in points.
SAME = 0.02


# What shows letters, draws a line, or places a form that may (ISO 32000-1, tables 60, 87, 107 and 109).
SHOWING = "Tj TJ ' \" S s B B* b b* Do"


@cache
def without_surfaces(file: bytes) -> bytes:
    """A file whose forms that only fill surfaces are empty: papers, on which pdfplumber spends its time."""
    out = BytesIO()
    with pikepdf.open(BytesIO(file)) as document:
        forms = [each for each in document.objects if isinstance(each, pikepdf.Stream)]
        for form in forms:
            if form.get("/Subtype") == "/Form" and not list(pikepdf.parse_content_stream(form, SHOWING)):
                form.write(b"")
        document.save(out)
    return out.getvalue()


def read_third(file: bytes, number: int) -> tuple[list[Any], list[Any]]:
    """The numerals of a page and its straight strokes, as pdfplumber has them."""
    with pdfplumber.open(BytesIO(without_surfaces(file))) as document:
        page = document.pages[number - 1]
        return [each for each in page.chars if each["text"] in NUMERALS], list(page.lines)


def lost(page: Page, numerals: Sequence[Any]) -> list[str]:
    """Upright numerals of a page that the other reader does not see there, each taken once."""
    left = list(numerals)
    missing = []
    for letter in page.ink:
        if letter.text in NUMERALS and not letter.angle:
            found = next((each for each in left if _is_there(letter, each)), None)
            if found is None:
                missing.append(f"{letter.text} at {letter.box}")
            else:
                left.remove(found)
    return missing


def _is_there(letter: Letter, other: Any) -> bool:
    x, y = letter.box.centre
    aside = abs((other["x0"] + other["x1"]) / 2 - x)
    is_level = other["top"] - 1 <= y <= other["bottom"] + 1
    is_near = aside < max(SIDEWAYS, OF_SIZE * letter.size)
    return bool(letter.text == other["text"] and is_level and is_near)


def _is_cut(stroke: Stroke, line: Any) -> bool:
    (x, top), (_, foot) = sorted((stroke.start, stroke.end), key=lambda end: end[1])
    return bool(max(abs(line["x0"] - x), abs(line["top"] - top), abs(line["bottom"] - foot)) < SAME)


@pytest.mark.parametrize(("kit", "anchor"), PAGES)
def test_a_third_library_reads_the_same_from_a_page(kit: str, anchor: str) -> None:
    made = finished(kit)
    page = page_at(made, anchor)
    numerals, lines = read_third(made.file, page.number)
    ours = Counter(letter.text for letter in page.ink if letter.text in NUMERALS)
    assert ours == Counter(each["text"] for each in numerals)
    assert lost(page, numerals) == []
    cuts = [stroke for figure in cut_figures(page) for stroke in figure.cuts]
    assert [stroke for stroke in cuts if not any(_is_cut(stroke, line) for line in lines)] == []


def test_the_third_reader_sees_a_page_that_is_altered() -> None:
    made = finished("hill-line")
    page = page_at(made, "sheet-iron")
    moved = with_content(made.file, page.number, r"\A", "1 0 0 1 2 0 cm ")
    numerals, lines = read_third(moved, page.number)
    assert len(lost(page, numerals)) > 50
    cuts = [stroke for figure in cut_figures(page) for stroke in figure.cuts]
    assert not any(_is_cut(stroke, line) for stroke in cuts[:1] for line in lines)
