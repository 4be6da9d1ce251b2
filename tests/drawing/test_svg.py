"""SVG documents are short, and show for all that what the figure shows."""

from __future__ import annotations

import re
from base64 import b64decode
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from itertools import chain
from math import dist, hypot
from xml.etree import ElementTree

import numpy as np
import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image as Pixels

from booklet.drawing.shapes.affine import Affine, Box, Point, compose, rotation, scaling, translation
from booklet.drawing.shapes.figure import (
    BLACK,
    Colour,
    Figure,
    Fill,
    Group,
    Image,
    Line,
    Motifs,
    Path,
    Segment,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
    image_from_bytes,
)
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.outlined import letters
from booklet.drawing.shapes.outlines import arch, as_path, circle, outline, shared_rows, star
from booklet.drawing.shapes.style import POINTS_PER_MM
from booklet.drawing.writers.svg_paths import Numbers
from booklet.drawing.writers.svg_writer import figure_svgs
from tests.drawing.rasters import farthest, figure_pdf, figure_svg, pdf_pixels, same_picture, svg_pixels

INK, RUST = Colour("#1f2d3d"), Colour("#bb5533")
SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"


def drawn(*shapes: Shape, side: float = 120.0) -> Figure:
    return Figure("Test", side, side, shapes, "what it shows")


def every(svg: str, name: str) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(svg).iter(f"{SVG}{name}"))


# A pattern is all edges, where the rasterisers differ.
PATTERN_LIMIT = 0.009

# Motifs.


def lattice(count: int, step: float = 10.0) -> list[tuple[tuple[float, ...], float]]:
    """Places for so many motifs to a side."""
    along = tuple((at + 0.5) * step for at in range(count))
    return [(along, y) for y in along]


DOTS = Motifs(shared_rows(circle(0, 0, 3), lattice(12)), Fill(RUST))
ARCHES = Motifs(shared_rows(arch(0, 0, 4, -1), lattice(12)), stroke=Stroke(INK, 1.2))
SCATTERED = Motifs(shared_rows(star(0, 0, 9), [((10.0, 41.3), 20.0), ((77.7,), 61.25)]), Fill(INK))
WORDS = Motifs(
    (*letters("Low tide", Font.SERIF_BOLD, 24, 60, 50), *letters("do not", Font.SERIF_BOLD, 18, 60, 80)),
    Fill(INK),
)


@pytest.mark.parametrize("motifs", [DOTS, ARCHES, SCATTERED, WORDS])
@pytest.mark.parametrize(
    "way", [scaling(1.0), compose(rotation(20, (60, 60)), scaling(0.6), translation(24, 24))]
)
def test_motifs_look_like_one_path_of_all_their_outlines(motifs: Motifs, way: Affine) -> None:
    figure, plain = drawn(Group((motifs,), way)), drawn(Group((as_path(motifs),), way))
    shown, wanted = svg_pixels(figure_svg(figure), 480), svg_pixels(figure_svg(plain), 480)
    assert farthest(shown, wanted) <= 0.26
    assert np.abs(shown - wanted).mean() < 0.0005
    assert np.array_equal(pdf_pixels(figure_pdf(figure)), pdf_pixels(figure_pdf(plain)))
    assert same_picture(figure_pdf(figure), figure_svg(figure), PATTERN_LIMIT)


def test_a_row_that_recurs_is_written_once() -> None:
    few, many = (
        figure_svg(drawn(Motifs(shared_rows(star(0, 0, 3), lattice(count)), Fill(INK)))) for count in (10, 20)
    )
    # The outline, the motifs of one row, the rows.
    assert len(every(few, "path")) == len(every(many, "path")) == 1
    assert [len(every(svg, "use")) for svg in (few, many)] == [20, 40]


def test_a_letter_is_written_once_for_all_words_of_any_size() -> None:
    svg = figure_svg(drawn(WORDS))
    # The letters of "Low tide" and "do not"; d, e and so on recur.
    assert len(every(svg, "path")) == len(set("Lowtidedonot"))
    assert len(every(svg, "use")) == len("Lowtidedonot")


def test_words_without_any_letter_that_the_face_has_show_nothing() -> None:
    nothing = Motifs(letters("\ue000", Font.SERIF_BOLD, 12, 50, 50), Fill(INK))
    paper = Symbol("paper", (nothing,), 100, 100)
    half = ((0.0, 0.0), (50.0, 0.0), (50.0, 100.0), (0.0, 100.0))
    assert every(figure_svg(drawn(Use(paper, clip=half))), "use")[0].get(HREF)
    assert svg_pixels(figure_svg(drawn(Use(paper))), 120).min() == 1.0


def test_ids_of_figures_with_other_names_never_meet() -> None:
    """Several may stand in one HTML page."""
    figures = [replace(drawn(DOTS, WORDS), name=f"sheet-{number}") for number in range(60)]
    ids = [set(re.findall(r' id="([^"]*)"', svg)) for svg in figure_svgs(figures)]
    assert all(ids)
    assert len(set.union(*ids)) == sum(map(len, ids))
    for svg, own in zip(figure_svgs(figures), ids, strict=True):
        assert {str(use.get(HREF))[1:] for use in every(svg, "use")} <= own


# Rounding.


def points_of(data: str) -> list[Point]:
    """Every point of a path as another library reads it, those that pull its curves as well."""
    pen = RecordingPen()
    parse_path(data, pen)
    found: list[Point] = []
    for verb, points in pen.value:
        # It adds up the steps of a path as floats, and closes what ends a hair beside its start by a line.
        if verb == "closePath" and len(found) > 1 and 0.0 < dist(found[-1], found[-2]) < 1e-9:
            found.pop()
        found += points
    return found


def points_in(segments: tuple[Segment, ...], step: float) -> list[Point]:
    """Every point of segments, and once more the start of what ends elsewhere and is closed."""
    found: list[Point] = []
    start: Point = (0.0, 0.0)
    for kind, *values in segments:
        points = [(float(x), float(y)) for x, y in zip(values[::2], values[1::2], strict=True)]
        if kind == "M":
            start = points[0]
        if kind == "Z" and [round(part / step) for part in found[-1]] != [
            round(part / step) for part in start
        ]:
            points = [start]
        found += points
    return found


ENDS = st.tuples(*[st.floats(-2000, 2000)] * 2)
LINES = st.one_of(
    ENDS.map(lambda end: ("L", *end)),
    st.tuples(*[st.floats(-2000, 2000)] * 6).map(lambda numbers: ("C", *numbers)),
    st.sampled_from([("L", 0.0, 5.0), ("L", 7.0, 5.0), ("L", 7.0, 0.25)]),
)
OUTLINES = st.tuples(ENDS, st.lists(LINES, min_size=1, max_size=8), st.booleans()).map(
    lambda parts: (("M", *parts[0]), *parts[1], *((("Z",),) if parts[2] else ()))
)


@given(st.lists(OUTLINES, min_size=1, max_size=4), st.integers(0, 3))
@settings(deadline=None)
def test_no_point_of_a_path_lies_farther_off_than_half_a_step(
    parts: list[tuple[Segment, ...]], decimals: int
) -> None:
    segments = tuple(chain.from_iterable(parts))
    read = points_of(Numbers(decimals).path(segments))
    meant = points_in(segments, 1 / 10**decimals)
    assert len(read) == len(meant)
    assert all(
        abs(one - other) <= 0.5 / 10**decimals + 1e-6
        for point, place in zip(read, meant, strict=True)
        for one, other in zip(point, place, strict=True)
    )


@pytest.mark.parametrize("scale", [4.0, 1.0, 0.5, 0.24, 0.05, 0.004])
def test_an_outline_is_a_thousandth_of_a_millimetre_off_in_print_at_the_most(scale: float) -> None:
    """However large its paper is drawn; and no finer than it needs to be."""
    around = tuple((x * 7.31237, y * 5.77159) for x, y in ((1, 2), (30, 3), (31, 29), (4, 30)))
    path = Path((("M", *around[0]), *(("L", *point) for point in around[1:]), ("Z",)), Fill(INK))
    paper = Symbol("paper", (path,), 240, 240)
    svg = figure_svg(drawn(Use(paper, scaling(scale)), Use(paper, scaling(scale / 3)), side=240 * scale))
    (data,) = [str(path.get("d")) for path in every(svg, "path") if path.get("fill")]
    off = max(
        hypot(x - u, y - v) for (x, y), (u, v) in zip(points_of(data), (*around, around[0]), strict=True)
    )
    assert off * scale < 0.001 * POINTS_PER_MM * 2**0.5
    if scale < 0.5:
        assert len(data) < len(Numbers(3).path(path.segments))


@given(st.lists(st.floats(-900, 900), min_size=1), st.integers(0, 3))
def test_numbers_are_read_as_they_are_meant(values: list[float], decimals: int) -> None:
    numbers = Numbers(decimals)
    assert [float(numbers.text(value)) for value in values] == [
        pytest.approx(round(value, decimals), abs=1.01 / 10**decimals) for value in values
    ]
    assert all(abs(float(numbers.text(value)) - value) <= 0.5 / 10**decimals + 1e-9 for value in values)
    assert not any(numbers.text(value).startswith(("0.", "-0")) for value in values)


# What elements have in common.


def test_what_several_in_a_row_look_like_is_said_once() -> None:
    lines = tuple(Line((10.0, y), (90.0, y), Stroke(RUST, 1.5, (4, 2))) for y in range(10, 100, 10))
    words = tuple(Text(f"line {y}", 10, y, 9, Font.SANS_BOLD, RUST) for y in range(10, 100, 10))
    svg = figure_svg(drawn(*lines, *words))
    assert svg.count('stroke="#b53"') == svg.count('stroke-width="1.5"') == 1
    assert svg.count("font-weight") == svg.count("font-size") == 1
    shapes: tuple[Shape, ...] = (*lines, *words)
    apart = tuple(Group((shape,)) for shape in shapes)
    assert np.array_equal(svg_pixels(svg, 480), svg_pixels(figure_svg(drawn(*apart)), 480))


def test_black_is_what_is_not_told_otherwise() -> None:
    shapes = (Path(outline("M 10 10 L 50 10 L 50 50 Z"), Fill(BLACK)), Path(star(80, 80, 20), Fill(RUST)))
    black, rust = every(figure_svg(drawn(*shapes)), "path")
    assert (black.get("fill"), rust.get("fill")) == (None, "#b53")
    assert same_picture(figure_pdf(drawn(*shapes)), figure_svg(drawn(*shapes)))


@given(st.text(st.characters(codec="utf-8", categories=["L", "N", "P", "S", "Zs"]), min_size=1))
@settings(deadline=None, max_examples=50)
def test_words_never_become_markup(words: str) -> None:
    for said in (words, f"</text><script>{words}</script>", f'{words}" onload="', "&amp;<![CDATA[" + words):
        figure = Figure(said, 100, 100, (Text(said, 10, 50, 9, Font.SANS, INK),), alt=said)
        svg = figure_svg(figure)
        (text,), root = every(svg, "text"), ElementTree.fromstring(svg)
        assert text.text == root.findtext(f"{SVG}title") == root.findtext(f"{SVG}desc") == said
        assert {element.tag for element in root.iter()} == {
            f"{SVG}{name}" for name in ("svg", "title", "desc", "defs", "g", "text")
        }
        assert not any("onload" in element.attrib for element in root.iter())


# Pictures.


def picture(side: int, kind: str = "PNG") -> bytes:
    """Stripes, falling at a slant, whose edges tell where they lie."""
    across, down = np.meshgrid(np.arange(side) / side, np.arange(side) / side)
    stripes = (((across * 2 + down) * 6) % 1 * 255).astype(np.uint8)
    held = BytesIO()
    Pixels.fromarray(np.dstack([stripes, 255 - stripes, np.full_like(stripes, 90)])).save(
        held, kind, quality=95
    )
    return held.getvalue()


def pictures_in(svg: str) -> Iterator[tuple[Box, Pixels.Image]]:
    """Where each picture of a document lies, and its pixels."""
    for image in every(svg, "image"):
        x, y, width, height = (float(image.get(name, "")) for name in ("x", "y", "width", "height"))
        data = b64decode(str(image.get(HREF)).partition("base64,")[2])
        yield Box(x, y, x + width, y + height), Pixels.open(BytesIO(data))


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_a_picture_has_the_pixels_that_print_and_no_more(kind: str) -> None:
    source = image_from_bytes(picture(1000, kind))
    (_, pixels), *_ = pictures_in(figure_svg(drawn(Image(source, Box(0, 0, 120, 120)))))
    assert pixels.format == kind
    assert pixels.size == (500, 500), "300 to the inch on 120 pt, which are 1 2/3 in"


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_a_picture_that_is_no_finer_than_it_prints_stays_as_it_came(kind: str) -> None:
    data = picture(400, kind)
    svg = figure_svg(drawn(Image(image_from_bytes(data), Box(0, 0, 120, 120))))
    (uri,) = [str(image.get(HREF)) for image in every(svg, "image")]
    assert b64decode(uri.partition("base64,")[2]) == data


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
@given(
    st.lists(st.tuples(*[st.integers(0, 350)] * 2, st.integers(10, 200)), min_size=1, max_size=3),
    st.sampled_from([0, 90, 33]),
)
@settings(max_examples=12, deadline=None)
def test_what_shows_of_a_picture_shows_where_it_did(
    kind: str, windows: list[tuple[int, int, int]], turn: int
) -> None:
    box = Box(20, 30, 380, 390)
    image = Image(image_from_bytes(picture(900, kind)), box)
    paper = Symbol("photo", (Group((image,), translation(0.0, 2.0)),), 400, 400)
    way = compose(rotation(turn, (200, 200)), scaling(0.2), translation(20, 20))
    clips = [((x, y), (x + side, y), (x + side, y + side), (x, y + side)) for x, y, side in windows]
    parts = figure_svg(drawn(*(Use(paper, way, clip) for clip in clips)))
    whole = figure_svg(drawn(*(Group((Group(tuple(paper.shapes)),), way, clip) for clip in clips)))
    for lying, _ in pictures_in(parts):
        assert box.grown(0.01).holds(lying)
    assert np.abs(svg_pixels(parts, 240) - svg_pixels(whole, 240)).mean() < 0.004


def test_of_a_picture_there_is_what_shows() -> None:
    paper = Symbol("photo", (Image(image_from_bytes(picture(1000)), Box(0, 0, 400, 400)),), 400, 400)
    corners = [((x, y), (x + 80.0, y), (x + 80.0, y + 80.0), (x, y + 80.0)) for x, y in ((0, 0), (300, 300))]
    one, two, all_of_it = (
        list(pictures_in(figure_svg(drawn(*uses))))
        for uses in (
            [Use(paper, scaling(0.3), corners[0])],
            [Use(paper, scaling(0.3), corner) for corner in corners],
            [Use(paper, scaling(0.3))],
        )
    )
    sizes = [[pixels.size for _, pixels in found] for found in (one, two, all_of_it)]
    # 80 of 400 pt at 500 pixels, and a few pixels about them.
    assert sizes == [[(102, 102)], [(102, 102), (104, 104)], [(500, 500)]]
