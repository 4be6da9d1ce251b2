"""Both writers replay the same figure: seen as pixels, and read back from the PDF by another library."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO

import pypdf
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from PIL import Image as Pixels

from booklet.drawing.shapes.affine import Affine, Box, compose, rotation, scaling, translation
from booklet.drawing.shapes.figure import (
    Anchor,
    Cap,
    Circle,
    Colour,
    Figure,
    Fill,
    Group,
    Image,
    Join,
    Line,
    Motifs,
    Path,
    Polygon,
    Polyline,
    Rect,
    Segment,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
    image_from_bytes,
)
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.outlines import circle, shared_rows, star
from booklet.drawing.writers.pdf_writer import PdfResources, draw_figure
from booklet.drawing.writers.svg_writer import figure_svgs
from booklet.proof.file_reader import read_file
from tests.drawing.rasters import (
    difference,
    farthest,
    figure_pdf,
    figure_svg,
    pdf_pixels,
    same_picture,
    svg_pixels,
)

INK = Colour("#1f2d3d")
RUST = Colour("#bb5533")
PALE = Colour("#d4e4e8")

ARROW_WITH_A_HOLE: tuple[Segment, ...] = (
    ("M", 10, 80),
    ("C", 30, 60, 60, 60, 80, 80),
    ("L", 45, 110),
    ("Z",),
    ("M", 40, 80),
    ("L", 45, 95),
    ("L", 50, 80),
    ("Z",),
)


def chequered_png(mode: str = "RGB") -> bytes:
    """A picture of 2 by 2 squares, red, green, blue and yellow; the last one clear where there is alpha."""
    picture = Pixels.new(mode, (40, 40), "red")
    picture.paste(Pixels.new(mode, (20, 20), "green"), (20, 0))
    picture.paste(Pixels.new(mode, (20, 20), "blue"), (0, 20))
    last = (255, 255, 0, 0) if mode == "RGBA" else (255, 255, 0)
    picture.paste(Pixels.new(mode, (20, 20), last), (20, 20))
    held = BytesIO()
    picture.save(held, "PNG")
    return held.getvalue()


def wavy_paper() -> Symbol:
    waves: list[Segment] = []
    for y in range(10, 100, 20):
        waves += [("M", 0.0, y), ("C", 20.0, y - 12.0, 30.0, y + 12.0, 50.0, y), ("L", 80.0, y)]
    return Symbol(
        "wavy",
        (
            Rect(0, 0, 80, 100, Fill(PALE)),
            Path(tuple(waves), stroke=Stroke(INK, 2)),
            Circle(80, 100, 15, Fill(RUST)),
        ),
        80,
        100,
    )


def every_primitive() -> tuple[Shape, ...]:
    paper = wavy_paper()
    return (
        Rect(0, 0, 300, 240, Fill(Colour("#fbfaf6"))),
        Line((10, 10), (90, 25), Stroke(INK, 1.4, (6, 3))),
        Polyline(((10, 40), (30, 60), (50, 40), (70, 60)), Stroke(RUST, 4, cap=Cap.ROUND, join=Join.ROUND)),
        Polygon(((110, 10), (150, 10), (130, 50)), Fill(RUST), Stroke(INK, 1.5)),
        Rect(170, 10, 50, 40, Fill(PALE), Stroke(INK, 1.4), radius=8),
        Circle(255, 30, 20, None, Stroke(INK, 2, (3, 2))),
        Path(ARROW_WITH_A_HOLE, Fill(RUST)),
        Text("Sheet 3: flush fit 6¹⁄₄ × 12", 100, 80, 12, Font.SANS, INK),
        Text("Low tide", 290, 100, 15, Font.SERIF_BOLD, INK, Anchor.END),
        Text("AVATAR", 150, 110, 11, Font.SANS_BOLD, RUST, Anchor.MIDDLE),
        Text("7¹⁄₂", 285, 170, 11, Font.SANS, INK, Anchor.MIDDLE, -90.0),
        Text("tilted", 100, 130, 11, Font.SANS_ITALIC, INK, Anchor.START, 12.0),
        Image(image_from_bytes(chequered_png()), Box(150, 120, 210, 150)),
        Use(paper, compose(scaling(0.5), translation(10, 120))),
        Use(paper, compose(rotation(90), translation(120, 160)), ((0, 0), (80, 0), (80, 50), (40, 100))),
        Group(
            (Rect(0, 0, 60, 60, Fill(PALE)), Line((0, 0), (60, 60), Stroke(INK, 3))),
            compose(rotation(10), translation(200, 165)),
            ((5, 5), (50, 5), (50, 50), (5, 40)),
            "clipped",
        ),
    )


@pytest.fixture
def figure() -> Figure:
    return Figure("Every primitive", 300, 240, every_primitive(), "One of each kind of shape", "Scale 1:1")


def test_pdf_and_svg_show_the_same_picture(figure: Figure) -> None:
    assert same_picture(figure_pdf(figure), figure_svg(figure)), difference(
        figure_pdf(figure), figure_svg(figure)
    )


@pytest.mark.parametrize("dropped", range(1, len(every_primitive())))
def test_a_missing_shape_of_any_kind_is_seen(figure: Figure, dropped: int) -> None:
    without = replace(figure, shapes=figure.shapes[:dropped] + figure.shapes[dropped + 1 :])
    assert not same_picture(figure_pdf(figure), figure_svg(without))


def test_a_figure_moved_by_one_point_is_seen(figure: Figure) -> None:
    moved = replace(figure, shapes=(Group(figure.shapes, translation(1, 0)),))
    assert not same_picture(figure_pdf(figure), figure_svg(moved))


def test_a_symbol_and_a_picture_used_twice_are_written_once() -> None:
    paper, source = wavy_paper(), image_from_bytes(chequered_png())
    shapes: tuple[Shape, ...] = tuple(
        shape
        for x in (0, 90)
        for shape in (Use(paper, translation(x, 0)), Image(source, Box(x, 110, x + 40, 150)))
    )
    pdf = figure_pdf(Figure("Twice", 200, 160, shapes, "", ""))
    kinds = [
        (str(entry["/Subtype"]), entry.get("/Width"))
        for entry in (each.get_object() for each in _objects(pdf))
        if isinstance(entry, pypdf.generic.StreamObject) and "/Subtype" in entry
    ]
    assert kinds.count(("/Form", None)) == 2
    assert kinds.count(("/Image", 40)) == 1
    svg = figure_svg(Figure("Twice", 200, 160, shapes, "", ""))
    assert svg.count("<use ") == 2
    assert svg.count("<g id=") == 1


def _objects(pdf: bytes) -> list[pypdf.generic.IndirectObject]:
    reader = pypdf.PdfReader(BytesIO(pdf))
    return [pypdf.generic.IndirectObject(number, 0, reader) for number in reader.xref[0]]


def test_two_figures_on_one_canvas_share_their_symbols() -> None:
    from reportlab.pdfgen.canvas import Canvas

    held = BytesIO()
    canvas = Canvas(held, pagesize=(200, 300), invariant=1)
    resources = PdfResources(canvas)
    whole = Figure("One paper", 80, 100, (Use(wavy_paper()),), "", "")
    half = Figure("The same at half", 40, 50, (Use(wavy_paper(), scaling(0.5)),), "", "")
    draw_figure(whole, resources, 10, 290)
    draw_figure(half, resources, 10, 140)
    canvas.save()
    page = pdf_pixels(held.getvalue(), 1.0)
    assert len(pypdf.PdfReader(held).pages[0]["/Resources"]["/XObject"]) == 1  # type: ignore[index]
    bare_spot = PALE.rgb[0] / 3 + PALE.rgb[1] / 3 + PALE.rgb[2] / 3
    assert page[30, 70] == pytest.approx(bare_spot, abs=0.01)
    assert page[170, 40] == pytest.approx(bare_spot, abs=0.01)
    assert page[163, 60] == 1.0, "at half scale the paper ends at 10 + 40 points"


def test_a_symbol_is_clipped_to_its_own_size() -> None:
    figure = Figure("Clip", 120, 130, (Use(wavy_paper()),), "", "")
    for picture in (pdf_pixels(figure_pdf(figure), 1.0), svg_pixels(figure_svg(figure), 120)):
        assert picture[95, 77] < 0.6
        assert picture[105, 85] == 1.0


def test_a_line_along_the_edge_of_a_figure_is_not_halved_by_the_frame_of_its_svg() -> None:
    edge = Polygon(((0, 0), (100, 0), (100, 100), (0, 100)), None, Stroke(INK, 8))
    svg = figure_svg(Figure("Edge", 100, 100, (edge,), "", ""))
    assert 'viewBox="-4 -4 108 108"' in svg
    picture = svg_pixels(svg, 108)
    # INK has a lightness of about 0.18; the line is 8 wide on every side.
    for row, column in ((1, 50), (6, 50), (106, 50), (50, 1), (50, 106)):
        assert picture[row, column] < 0.25


def printed_sheet() -> Symbol:
    """A sheet of 10 x 10 dots in one path and as many stars in rows, a square and a word in each quarter."""
    dots = tuple(
        segment
        for x in range(5, 100, 10)
        for y in range(5, 100, 10)
        for segment in circle(float(x), float(y), 2)
    )
    quarters = tuple(
        Group(
            (Rect(10, 10, 20, 20, Fill(RUST)), Text(f"at {x} {y}", 10, 40, 9, Font.SANS, INK)),
            translation(x, y),
        )
        for x in (0, 50)
        for y in (0, 50)
    )
    ground, xs = Rect(0, 0, 100, 100, Fill(PALE)), tuple(map(float, range(0, 100, 10)))
    stars = Motifs(shared_rows(star(0, 0, 3), ((xs, y) for y in xs)), Fill(RUST))
    return Symbol("printed", (ground, Path(dots, Fill(INK)), stars, *quarters), 100, 100)


def assert_looks_complete(figure: Figure, svg: str) -> None:
    """An SVG shows what it would if every sheet that it uses were drawn in full."""
    uses = [shape for shape in figure.shapes if isinstance(shape, Use)]
    in_full = tuple(
        Group((Group(tuple(use.symbol.shapes), clip=use.symbol.box.corners),), use.transform, use.clip)
        for use in uses
    )
    full = figure_svg(replace(figure, shapes=in_full))
    assert farthest(svg_pixels(svg, 280), svg_pixels(full, 280)) <= 0.07


def test_an_svg_holds_of_a_sheet_only_what_is_used_of_it() -> None:
    sheet = printed_sheet()
    quarter = ((0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0))
    whole = Figure("Sheet", 100, 100, (Use(sheet),), "", "")
    part = Figure("Sheet", 100, 100, (Use(sheet, clip=quarter),), "", "")
    assert outlines_in(figure_svg(whole)) > outlines_in(figure_svg(part)) > 25
    assert len(figure_svg(part)) < 0.6 * len(figure_svg(whole))
    assert figure_svg(part).count("<text") == 1
    assert_looks_complete(part, figure_svg(part))


def outlines_in(svg: str) -> int:
    """How many outlines the paths of a document hold: each begins with a move."""
    return sum(data.count("m") for data in re.findall(r' d="([^"]*)"', svg))


def test_documents_that_use_different_parts_of_a_sheet_each_hold_their_own() -> None:
    sheet = printed_sheet()
    corners = [
        ((x, y), (x + 50.0, y), (x + 50.0, y + 50.0), (x, y + 50.0)) for x, y in ((0.0, 0.0), (50.0, 50.0))
    ]
    figures = [Figure("Part", 100, 100, (Use(sheet, clip=corner),), "", "") for corner in corners]
    for figure, svg, word in zip(figures, figure_svgs(figures), ("at 0 0", "at 50 50"), strict=True):
        assert word in svg
        assert svg.count("<text") == 1
        assert_looks_complete(figure, svg)


@given(
    st.lists(
        st.tuples(*(st.integers(-20, 100) for _ in range(2)), st.integers(5, 80)), min_size=1, max_size=3
    ),
    st.sampled_from([0, 30, 90]),
)
@settings(max_examples=20, deadline=None)
def test_whatever_part_of_a_sheet_is_used_looks_as_if_all_of_it_were_there(
    windows: list[tuple[int, int, int]], turn: int
) -> None:
    # Along a window that only touches the sheet each rasteriser shades its pixels by a rule of its own.
    assume(all(0 not in (x + side, y + side) and 100 not in (x, y) for x, y, side in windows))
    sheet = printed_sheet()
    uses = tuple(
        Use(sheet, rotation(turn, (60, 60)), ((x, y), (x + side, y), (x + side, y + side), (x, y + side)))
        for x, y, side in windows
    )
    figure = Figure("Parts", 140, 140, uses, "", "")
    assert_looks_complete(figure, figure_svg(figure))


def test_nothing_in_the_pdf_is_transparent() -> None:
    see_through = Image(image_from_bytes(chequered_png("RGBA")), Box(0, 0, 40, 40))
    pdf = figure_pdf(Figure("Flat", 40, 40, (see_through,), "", ""))
    assert b"/SMask" not in pdf
    assert pdf_pixels(pdf, 1.0)[30, 30] == 1.0, "what was clear is white"


def test_the_same_figure_gives_the_same_bytes(figure: Figure) -> None:
    assert figure_pdf(figure) == figure_pdf(figure)
    assert figure_svg(figure) == figure_svg(figure)


def test_the_svg_says_how_large_it_is_and_what_it_shows(figure: Figure) -> None:
    svg = figure_svg(figure)
    # 300 pt is 300 / 72 * 25.4 = 105.833 mm.
    assert 'width="105.833mm"' in svg
    assert 'viewBox="0 0 300 240"' in svg
    assert "<title>Every primitive</title>" in svg
    assert "<desc>One of each kind of shape</desc>" in svg


def test_the_text_of_the_pdf_can_be_read_and_its_fonts_are_embedded(figure: Figure) -> None:
    page = pypdf.PdfReader(BytesIO(figure_pdf(figure))).pages[0]
    text = page.extract_text()
    assert "6¹⁄₄ × 12" in text
    assert "7¹⁄₂" in text
    used = [font.get_object() for font in page["/Resources"]["/Font"].values()]  # type: ignore[index]
    sources = [font for font in used if "Booklet" in font["/BaseFont"]]
    assert len(sources) == 4
    assert all("/FontFile2" in font["/FontDescriptor"] for font in sources)


def lined_paper(key: str = "lined") -> Symbol:
    """A paper with a line of a point, and words on it as one long outline."""
    words = tuple(segment for x in range(12, 96, 12) for segment in circle(x, 60, 4))
    line = Line((5, 20), (95, 20), Stroke(INK, 1.0))
    return Symbol(key, (Rect(0, 0, 100, 100, Fill(PALE)), line, Path(words * 2, Fill(RUST))), 100, 100)


@pytest.mark.parametrize(
    ("shrunk", "width"),
    [
        (scaling(1), 1.0),
        (scaling(0.25), 0.25),
        (scaling(0.2), 0.25),
        (scaling(0.01), 0.25),
        (compose(scaling(0.1), rotation(30)), 0.25),
        # Sheared as in a pile, where a line is thinnest across the shear.
        (Affine(0.1, 0.0, 0.05, 0.05), 0.25),
    ],
)
def test_no_line_of_a_paper_is_finer_than_prints_however_small_it_is_drawn(
    shrunk: Affine, width: float
) -> None:
    drawn = Use(lined_paper(), compose(shrunk, translation(20, 20)))
    within = Use(Symbol("page", (drawn,), 140, 140))
    for shape in (drawn, Group((drawn,), translation(3, 3)), within):
        (page,) = read_file(figure_pdf(Figure("Small", 140, 140, (shape,)))).facts
        assert [line.width for line in page.lines] == [pytest.approx(width, abs=1e-4)]


def forms_of(*factors: float, paper: Symbol | None = None) -> list[int]:
    """How long the forms are of a paper that is drawn in some sizes, the longest first."""
    uses = tuple(Use(paper or lined_paper(), scaling(factor)) for factor in factors)
    found = [each.get_object() for each in _objects(figure_pdf(Figure("Sizes", 140, 140, uses)))]
    forms = [each for each in found if isinstance(each, pypdf.generic.StreamObject)]
    return sorted((len(each.get_data()) for each in forms if each.get("/Subtype") == "/Form"), reverse=True)


def test_a_paper_is_written_once_for_all_sizes_at_which_its_lines_print() -> None:
    words, paper = forms_of(1.0)
    assert forms_of(1.0, 0.5, 0.25) == [words, paper]
    # A smaller one has lines of its own; its words are those of the others.
    smaller = forms_of(1.0, 0.2, 0.2)
    assert smaller[0] == words
    assert len(smaller) == 3
    assert words > 4 * paper


def ringed_paper() -> Symbol:
    """A paper printed all over with small rings in lines of a point."""
    places = [(tuple(range(5, 100, 10)), y) for y in range(5, 100, 10)]
    rings = Motifs(shared_rows(circle(0, 0, 3), places), stroke=Stroke(RUST, 1.0))
    return Symbol("ringed", (Rect(0, 0, 100, 100, Fill(PALE)), rings), 100, 100)


def test_the_lines_of_a_print_are_written_once_for_all_sizes() -> None:
    def lengths(*factors: float) -> list[int]:
        return forms_of(*factors, paper=ringed_paper())

    rings, paper = lengths(1.0)
    assert rings > 20 * paper
    # In smaller sizes they are as wide as prints there, and the same lines all the same.
    several = lengths(1.0, 0.2, 0.15, 0.1)
    assert several[0] == rings
    assert sum(several[1:]) < rings


def broad_paper() -> Symbol:
    """A paper printed with zigzags so broad that they reach far beyond their points."""
    zigzag = tuple(("L" if x else "M", float(x), -50.0 - x % 4) for x in range(0, 102, 2))
    broad = Motifs(shared_rows(zigzag, [((0.0,), 0.0)]), stroke=Stroke(RUST, 160.0))
    return Symbol("broad", (Rect(0, 0, 100, 100, Fill(PALE)), broad), 100, 100)


@pytest.mark.parametrize("factor", [0.5, 0.25, 0.125])
@pytest.mark.parametrize("paper", [ringed_paper(), broad_paper()], ids=["rings", "broad zigzags"])
def test_lines_that_are_written_once_look_as_if_drawn_in_place(paper: Symbol, factor: float) -> None:
    once = Figure("Once", 60, 60, (Use(paper, scaling(0.6)), Use(paper, scaling(factor))))
    in_place = [Group(tuple(paper.shapes), scaling(each), paper.box.corners) for each in (0.6, factor)]
    drawn = (pdf_pixels(figure_pdf(figure)) for figure in (once, replace(once, shapes=tuple(in_place))))
    assert len({pixels.tobytes() for pixels in drawn}) == 1


@pytest.mark.parametrize("factor", [0.5, 0.2])
def test_a_small_paper_looks_as_it_does_in_svg(factor: float) -> None:
    figure = Figure("Small", 60, 60, (Use(lined_paper(), scaling(factor)),))
    assert same_picture(figure_pdf(figure), figure_svg(figure))
