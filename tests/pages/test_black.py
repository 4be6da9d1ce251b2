"""The black edition: black and white alone, screens that hold, the pages and words of the one in colour."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cache
from io import BytesIO
from itertools import combinations
from typing import Any

import numpy as np
import pikepdf
import pymupdf
import pypdfium2
import pytest
from numpy.typing import NDArray
from pikepdf import Name, Stream

from booklet.binding.binding import home_binding
from booklet.binding.marks import black_marks
from booklet.binding.print_file import print_file
from booklet.drawing.papers.black_papers import BlackPapers
from booklet.drawing.shapes.affine import IDENTITY, Affine, scaling
from booklet.drawing.shapes.figure import Figure, Use
from booklet.drawing.shapes.screens import DOTS_PER_INCH, POINTS_PER_DOT
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.kit.fields import Face
from booklet.kit.load import load_kit, parse_kit
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, convert
from booklet.pages.black_canvas import BlackCanvas
from booklet.pages.booklet import LaidBooklet, make_black_booklet, write_booklet
from booklet.pages.compose import Page
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.drawing.black import SPECS
from tests.drawing.test_screens import Dots, grown
from tests.finished.kits import PLAIN
from tests.once import laid_once, laid_once_in_black, written_once
from tests.spec_data import WHOLE_DEMOS

# Half a percent of the page with the pile (measured), nothing on most.
SOFTENED = 0.01
SCALE = DOTS_PER_INCH / 72
CRISP = {"no_smoothtext": True, "no_smoothimage": True, "no_smoothpath": True, "grayscale": True}


@cache
def kit(name: str) -> ResolvedKit:
    return resolve_kit(load_kit(SPECS / f"{name}.yaml"))


@cache
def laid(name: str) -> LaidBooklet:
    return laid_once_in_black(kit(name))


@cache
def black(name: str) -> bytes:
    return written_once(laid(name))


@cache
def colour(name: str) -> bytes:
    return written_once(laid_once(kit(name)))


@cache
def to_print(name: str) -> bytes:
    return print_file(black(name), home_binding(kit(name).kit.page), black_marks)


def words(pdf: bytes) -> list[list[str]]:
    """The words of each page, as pypdfium2 reads them."""
    return [page.get_textpage().get_text_range().split() for page in pypdfium2.PdfDocument(pdf)]


# Black and white alone.


# What sets a colour, shades, or lays a state over what follows (ISO 32000-1, tables 57, 74 and 77).
GREYS, PATTERNS = {"g", "G"}, {"cs", "scn"}
OTHERS = {"rg", "RG", "k", "K", "sc", "SC", "CS", "SCN", "sh", "gs", "ri", "BI"}


def contents(pdf: pikepdf.Pdf) -> Iterator[Any]:
    """Whatever holds operators: pages, forms, and the cells of patterns."""
    for page in pdf.pages:
        page.contents_coalesce()
        yield page.obj.Contents
    for thing in pdf.objects:
        if isinstance(thing, Stream) and (thing.get("/Subtype") == Name.Form or "/PatternType" in thing):
            yield thing


def operators(content: Any, wanted: Iterable[str]) -> list[Any]:
    """Those operators of a stream that are wanted, each after its operands."""
    parsed: Any = pikepdf.parse_content_stream(content, " ".join(wanted))
    return list(parsed)


def wrong_colours(pdf: bytes) -> list[str]:
    """What paints anything but black or white, or a pattern made of them."""
    wrong = []
    with pikepdf.open(BytesIO(pdf)) as opened:
        for content in contents(opened):
            for operands, operator in operators(content, GREYS | PATTERNS | OTHERS):
                said = " ".join([*map(str, operands), str(operator)])
                is_grey = str(operator) in GREYS and operands[0] not in (0, 1)
                is_other = str(operator) == "cs" and said != "/Pattern cs"
                if is_grey or is_other or str(operator) in OTHERS:
                    wrong.append(said)
        for thing in opened.objects:
            if isinstance(thing, Stream) and thing.get("/Subtype") == Name.Image:
                wrong += wrong_picture(thing)
    return wrong


def wrong_picture(picture: Stream) -> list[str]:
    if picture.get("/ColorSpace") != Name.DeviceGray or "/SMask" in picture:
        return [f"a picture in {picture.get('/ColorSpace')}"]
    return ["a picture in greys"] if picture.BitsPerComponent != 1 else []


@pytest.mark.parametrize("name", WHOLE_DEMOS)
def test_no_page_paints_anything_but_black_and_white(name: str) -> None:
    assert wrong_colours(black(name)) == []


def test_nor_does_a_side_of_the_file_to_print() -> None:
    assert wrong_colours(to_print("roof-garden")) == []


def test_a_colour_in_a_booklet_is_found() -> None:
    assert wrong_colours(colour("roof-garden"))


def test_the_word_for_a_draft_is_black_too() -> None:
    draft = written_once(laid("roof-garden"), is_draft=True)
    assert wrong_colours(draft) == []
    assert "DRAFT" in words(draft)[0]


def rendered(pdf: bytes, page: int) -> NDArray[np.uint8]:
    """A page as an office printer of 600 dpi has it, by pypdfium2."""
    return np.asarray(pypdfium2.PdfDocument(pdf)[page].render(scale=SCALE, **CRISP).to_pil())


# The cover; a pile, which lies at a slant; a sheet, with a picture; a cut-apart; layouts with tilted pieces.
@pytest.mark.parametrize(
    ("name", "page"),
    [("roof-garden", at) for at in (2, 14)]
    + [pytest.param("hill-line", at, marks=pytest.mark.thorough) for at in (0, 2, 13, 19, 25, 34)],
)
def test_both_renderers_show_black_and_white_and_the_same_tones(name: str, page: int) -> None:
    ours = rendered(black(name), page)
    # A reader may soften the dots of a picture where they are no whole dots of its own.
    assert ((ours != 0) & (ours != 255)).mean() < SOFTENED
    theirs = pymupdf.open(stream=black(name))[page].get_pixmap(dpi=DOTS_PER_INCH, colorspace=pymupdf.csGRAY)
    tones = np.frombuffer(theirs.samples, dtype=np.uint8).reshape(theirs.height, theirs.width)
    assert coarse(ours) == pytest.approx(coarse(tones), abs=0.12)
    assert abs(coarse(ours) - coarse(tones)).mean() < 0.01


def coarse(picture: NDArray[np.uint8], side: int = 150) -> NDArray[np.float64]:
    """The mean tone of each quarter inch of a page, from 0 (black) to 1 (white)."""
    high, wide = (length // side for length in picture.shape)
    cut = picture[: high * side, : wide * side].reshape(high, side, wide, side)
    means: NDArray[np.float64] = cut.mean(axis=(1, 3)) / 255
    return means


# Screens.


_PLACING = ("q", "Q", "cm", "scn", "Do")


def screens_shown(pdf: bytes) -> Iterator[tuple[str, Affine]]:
    """Each pattern that is filled with, and the map from its cell to the page, for each use of its form."""
    with pikepdf.open(BytesIO(pdf)) as opened:
        for page in opened.pages:
            page.contents_coalesce()
            yield from _shown(page.obj.Contents, page.obj.Resources, IDENTITY, set())


def _shown(
    content: Any, resources: Any, base: Affine, known: set[tuple[object, ...]]
) -> Iterator[tuple[str, Affine]]:
    states, place = [], base
    for operands, operator in operators(content, _PLACING):
        match str(operator):
            case "q":
                states.append(place)
            case "Q":
                place = states.pop()
            case "cm":
                place = Affine(*map(float, operands)).then(place)
            case "scn":
                pattern = resources.Pattern[operands[0]]
                yield str(operands[0]), Affine(*map(float, pattern.Matrix)).then(base)
            case "Do":
                form = resources.XObject[operands[0]]
                key = (form.objgen, *(round(part, 3) for part in place[:4]))
                if form.Subtype == Name.Form and key not in known:
                    known.add(key)
                    matrix = Affine(*map(float, form.get("/Matrix", IDENTITY)))
                    yield from _shown(form, form.Resources, matrix.then(place), known)


@pytest.mark.parametrize(
    ("name", "make"),
    [
        pytest.param("hill-line", black, id="hill-line", marks=pytest.mark.thorough),
        pytest.param("roof-garden", black, id="roof-garden"),
        pytest.param("roof-garden", to_print, id="roof-garden to print", marks=pytest.mark.thorough),
    ],
)
def test_a_screen_keeps_its_size_on_the_page_whatever_the_scale_of_a_drawing(
    name: str, make: Callable[[str], bytes]
) -> None:
    pdf = make(name)
    shown = list(screens_shown(pdf))
    assert len({name for name, _ in shown}) > 30
    upright = scaling(POINTS_PER_DOT)
    for _, place in shown:
        assert place[:4] == pytest.approx(upright[:4], abs=POINTS_PER_DOT / 1000)


@cache
def swatches(name: str) -> dict[str, Dots]:
    """A piece of each paper that is seen without printed elements, two inches wide, black is True."""
    spec = kit(name).kit
    papers = BlackPapers(spec, SPECS)
    seen = {sheet.paper for sheet in spec.sheets if not sheet.is_cut_apart} | {
        one.paper for one in spec.ready
    }
    side = convert(Fraction(2), Unit.INCH, spec.unit)
    return {paper: swatch(papers, paper, Size(side, side)) for paper in sorted(seen)}


def swatch(papers: BlackPapers, paper: str, size: Size) -> Dots:
    symbol = papers.paper(paper, Face.FRONT, size)
    held = BytesIO()
    canvas = BlackCanvas(held, pagesize=(symbol.width, symbol.height), page_of={}, invariant=1)
    draw_figure(
        Figure("swatch", symbol.width, symbol.height, (Use(symbol),)), canvas.resources, 0, symbol.height
    )
    canvas.save()
    return rendered(held.getvalue(), 0) < 128


def measured(dots: Dots) -> tuple[float, ...]:
    """How dark a swatch is, and how often black begins along rows, columns, and both diagonals."""
    down = [np.roll(dots, (y, x), (0, 1)) for y, x in ((0, 1), (1, 0), (1, 1), (1, -1))]
    return (float(dots.mean()), *(float((dots & ~moved).mean()) for moved in down))


# Of straw and the printed timetable, the nearest to each other, 0.0276 (measured); of others 0.037 and more.
APART = 0.02


@pytest.mark.parametrize("is_gained", [False, True], ids=["as drawn", "with dot gain"])
@pytest.mark.parametrize("name", WHOLE_DEMOS)
def test_any_two_papers_differ_on_paper_or_bear_letters(name: str, is_gained: bool) -> None:
    papers = BlackPapers(kit(name).kit, SPECS)
    shown = {paper: measured(grown(dots) if is_gained else dots) for paper, dots in swatches(name).items()}
    for one, other in combinations(shown, 2):
        apart = max(abs(a - b) for a, b in zip(shown[one], shown[other], strict=True))
        has_letters = papers.letters.get(one, one) != papers.letters.get(other, other)
        both = one in papers.letters and other in papers.letters
        assert apart > APART or (both and has_letters), (one, other, apart)


@pytest.mark.parametrize("name", WHOLE_DEMOS)
def test_no_paper_closes_up_where_black_gains_a_dot_nor_vanishes_where_it_loses_one(name: str) -> None:
    for paper, dots in swatches(name).items():
        gained, lost = grown(dots).mean(), 1.0 - grown(~dots).mean()
        assert gained < 0.995, paper
        assert lost > 0.004 or not dots.any(), paper


def test_straw_and_mist_are_told_apart_by_their_marks_and_their_letters() -> None:
    papers = BlackPapers(kit("hill-line").kit, SPECS)
    assert papers.letters == {"straw": "s", "mist": "m"}
    shown = swatches("hill-line")
    straw, mist = measured(shown["straw"]), measured(shown["mist"])
    # Lines across begin along columns, dots along rows as well.
    assert straw[1] > 2 * mist[1]


# The same pages and words.


@pytest.mark.parametrize("name", WHOLE_DEMOS)
def test_pages_and_words_are_those_of_the_booklet_in_colour_but_for_letters(name: str) -> None:
    dark, bright = words(black(name)), words(colour(name))
    assert len(dark) == len(bright)
    box = next(at for at, page in enumerate(laid(name).pages) if "box" in page_anchors(page))
    for at, (ours, theirs) in enumerate(zip(dark, bright, strict=True)):
        if at != box:
            assert ours == theirs, at + 1
    if name == "roof-garden":
        assert dark[box] == bright[box]
        return
    added = [word for word in dark[box] if word not in bright[box]]
    key = "Papers that look alike in black bear a letter in the pictures: m is Mist card, s is Straw card."
    assert set(added) <= {*key.split(), "whole,", "s", "m"}
    assert key in " ".join(dark[box])
    assert "Straw card, two sheets, whole, s" in " ".join(dark[box])


def page_anchors(page: Page) -> list[str]:
    return [part.section.anchor for part in page.parts]


@pytest.mark.parametrize(
    ("name", "pages"), [pytest.param("hill-line", 36, marks=pytest.mark.thorough), ("roof-garden", 20)]
)
def test_a_demo_takes_as_many_pages_as_in_colour(name: str, pages: int) -> None:
    assert len(laid(name).pages) == pages


def test_the_same_kit_gives_the_same_bytes() -> None:
    def made() -> bytes:
        return write_booklet(make_black_booklet(resolve_kit(parse_kit(PLAIN, "kit.yaml", SPECS))))

    assert made() == made()
