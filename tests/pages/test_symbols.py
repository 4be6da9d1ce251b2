"""Symbols in the steps of the demo booklets and in the key of the same page, read back from the PDF."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

import pikepdf
import pypdfium2 as pdfium
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfgen.canvas import Canvas

from booklet.drawing.marks.symbols import OPTIONAL, SYMBOL_NAMES, SYMBOL_SIDE
from booklet.drawing.shapes.figure import BLACK, Colour
from booklet.drawing.shapes.style import palette_from_accent
from booklet.drawing.writers.pdf_writer import PdfResources, draw_figure
from booklet.kit.steps import VERBS
from booklet.pages.grid import TypeSizes
from booklet.pages.printed_steps import PrintedStep, printed_steps
from booklet.pages.sentences import StepWords, step_words
from booklet.pages.symbol_words import (
    SYMBOL_WORDS,
    SymbolParagraph,
    symbol_figure,
    symbol_fragments,
    symbols_of,
    symbols_on,
)
from booklet.pages.type import make_styles, run
from tests.pages.conftest import Made
from tests.pages.reading import Letter, letters_of

PALETTE = palette_from_accent(Colour("#17597a"))
STYLES = make_styles(PALETTE, TypeSizes())
HEAD_OF_STEPS = "put it together"


@dataclass(frozen=True)
class Stood:
    """A symbol on a page, its left lower corner in points, and the words that follow it on its line."""

    name: str
    left: float
    bottom: float
    words: str
    air: float


def forms_of_symbols(colour: Colour) -> dict[str, str]:
    """Which symbol each form of a PDF holds: a form's name follows from what it draws."""
    resources = PdfResources(Canvas(BytesIO()))
    named: dict[str, str] = {}
    for name in SYMBOL_NAMES:
        draw_figure(symbol_figure(name, colour), resources, 0, 0)
        (form,) = set(resources.forms.values()) - set(named)
        named[form] = name
    return named


FORMS = forms_of_symbols(PALETTE.soft_ink)


def symbols_drawn(page: pikepdf.Page) -> Iterator[tuple[str, float, float]]:
    """Name, left and lower edge of every symbol that a page's own instructions draw."""
    here = pikepdf.Matrix()
    outer: list[pikepdf.Matrix] = []
    for instruction in pikepdf.parse_content_stream(page):
        operator = str(instruction.operator)
        if operator == "q":
            outer.append(here)
        elif operator == "Q":
            here = outer.pop()
        elif operator == "cm":
            here = pikepdf.Matrix(*map(float, instruction.operands)) @ here
        elif operator == "Do" and (name := FORMS.get(_form_of(instruction.operands[0]))):
            box = here.transform(pikepdf.Rectangle(0, 0, SYMBOL_SIDE, SYMBOL_SIDE))
            assert box.width == pytest.approx(SYMBOL_SIDE)
            yield name, box.llx, box.lly


def _form_of(named: pikepdf.Object) -> str:
    return str(named).rpartition(".")[2].removeprefix("/")


def read(pdf: bytes) -> Iterator[tuple[str, list[Stood]]]:
    """Every page's words and symbols."""
    doc = pdfium.PdfDocument(pdf)
    with pikepdf.open(BytesIO(pdf)) as opened:
        for index, page in enumerate(opened.pages):
            letters = letters_of(doc[index])
            text = doc[index].get_textpage().get_text_bounded()
            yield text, [_stood(*drawn, letters) for drawn in symbols_drawn(page)]


def _stood(name: str, left: float, bottom: float, letters: list[Letter]) -> Stood:
    line = sorted(
        (each for each in letters if bottom < each.origin[1] < bottom + 5 and each.origin[0] > left),
        key=lambda each: each.origin[0],
    )
    return Stood(
        name, left, bottom, "".join(each.text for each in line), line[0].origin[0] - left - SYMBOL_SIDE
    )


def test_every_symbol_has_a_word_of_its_own() -> None:
    assert set(SYMBOL_WORDS) == set(SYMBOL_NAMES)
    assert len(set(SYMBOL_WORDS.values())) == len(SYMBOL_NAMES)


def pages_of_steps(demo: Made) -> list[list[Stood]]:
    """The symbols of each page of steps, in the order of the layouts."""
    return [stood for text, stood in read(demo.pdf) if HEAD_OF_STEPS in text]


def is_in_the_key(stood: Stood) -> bool:
    return stood.words.startswith(SYMBOL_WORDS[stood.name].replace(" ", ""))


def heads(demo: Made) -> list[list[tuple[str, str]]]:
    """For each layout every symbol that is wanted, with the head that it stands before."""
    return [
        [
            (name, part.head)
            for step in printed_steps(step_words(demo.resolved, layout))
            for part in step.parts
            for name in symbols_of(step, part)
        ]
        for layout in demo.resolved.layouts
    ]


def test_every_layout_keeps_to_one_page_of_steps(demo: Made) -> None:
    assert len(pages_of_steps(demo)) == len(demo.resolved.layouts)


def test_a_page_explains_exactly_the_symbols_that_stand_on_it(demo: Made) -> None:
    for stood, wanted in zip(pages_of_steps(demo), heads(demo), strict=True):
        key = [each.name for each in stood if is_in_the_key(each)]
        used = [each.name for each in stood if not is_in_the_key(each)]
        assert Counter(used) == Counter(name for name, _ in wanted)
        assert sorted(key) == sorted(set(used)), "each once"


def test_a_symbol_stands_close_before_the_head_of_its_part(demo: Made) -> None:
    for stood, wanted in zip(pages_of_steps(demo), heads(demo), strict=True):
        in_steps = [each for each in stood if not is_in_the_key(each)]
        for symbol, (name, head) in zip(in_steps, wanted, strict=True):
            assert symbol.name == name
            # A long head may go on in the next line; its first word never does.
            assert symbol.words.startswith(head.split()[0])
        assert all(0.5 < each.air < 4.5 for each in stood)


def test_no_symbol_stands_on_any_other_page(demo: Made) -> None:
    assert not any(stood for text, stood in read(demo.pdf) if HEAD_OF_STEPS not in text)


# Words alone.


def part(symbol: str, *, optional: bool = False) -> StepWords:
    return StepWords(1, "Tag", (), "", "Lay it here.", None, optional, symbol)


def test_what_is_optional_is_marked_once_where_its_step_begins() -> None:
    first, second = part("place", optional=True), part("raise", optional=True)
    step = PrintedStep(1, (first, second))
    assert symbols_of(step, first) == (OPTIONAL,)
    assert symbols_of(step, second) == ("raise",)
    assert symbols_on([step, PrintedStep(2, (part("photo"), part("raise")))]) == (OPTIONAL, "raise", "photo")


def test_laying_down_and_working_by_hand_have_no_symbol() -> None:
    assert symbols_on([PrintedStep(1, (part("place"), part("do")))]) == ()


@pytest.mark.parametrize("verb", sorted(set(VERBS) - {"place", "do"}))
def test_every_other_verb_stands_in_the_key_of_its_page(verb: str) -> None:
    assert symbols_on([PrintedStep(1, (part(verb),))]) == (verb,)


@given(
    before=st.lists(st.integers(1, 12), min_size=0, max_size=12),
    width=st.integers(80, 320),
    size=st.sampled_from(["step", "step_tight", "note"]),
    count=st.integers(1, 2),
)
def test_a_line_never_breaks_between_a_symbol_and_its_word(
    before: list[int], width: int, size: str, count: int
) -> None:
    style = getattr(STYLES, size)
    symbols = [part for name in ("photo", "tape")[:count] for part in symbol_fragments(name, style, BLACK)]
    filling = run(" ".join("x" * length for length in before) + ".\u00a0 ", style)
    said = (run("Photograph", style, "<b>word</b>"), run(" of it", style))
    paragraph = SymbolParagraph("", style, frags=[filling, *symbols, *said])
    paragraph.wrap(width, 1000)
    lines = [line.words for line in paragraph.blPara.lines]
    marked = [line for line in lines if any(hasattr(run, "cbDefn") for run in line)]
    assert len(marked) == 1
    (line,) = marked
    marks = [at for at, run in enumerate(line) if hasattr(run, "cbDefn")]
    assert len(marks) == count
    assert line[marks[-1] + 1].text.startswith("Photograph")
    for at in marks:
        kept = len(line[at - 1].text) - len(line[at - 1].text.rstrip("\u00a0"))
        assert kept * style.fontSize * 0.2 >= SYMBOL_SIDE, "room for the symbol in the same line"
