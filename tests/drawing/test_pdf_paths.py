"""Paths in the words of PDF, against those that reportlab's own calls make."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfgen.canvas import Canvas

from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import Motif, Motifs, Path, Row, Segment
from booklet.drawing.shapes.outlines import as_path
from booklet.drawing.writers.pdf_paths import outline_words, points_box, segment_count, shape_words

NUMBERS = st.integers(-20_000, 20_000).map(lambda thousandths: thousandths / 1000)
POINTS = st.tuples(NUMBERS, NUMBERS)
SEGMENTS = st.one_of(
    st.builds(lambda kind, point: (kind, *point), st.sampled_from("ML"), POINTS),
    st.builds(lambda a, b, c: ("C", *a, *b, *c), POINTS, POINTS, POINTS),
    st.just(("Z",)),
)
OUTLINES = st.builds(
    lambda start, rest: (("M", *start), *rest), POINTS, st.lists(SEGMENTS, max_size=5).map(tuple)
)
ROWS = st.builds(
    lambda outline, xs, y, across, down: Row(Motif(outline), tuple(sorted(xs)), y, across, down),
    OUTLINES,
    st.lists(NUMBERS, min_size=1, max_size=4, unique=True),
    NUMBERS,
    st.sampled_from([1.0, 0.25, 3.5]),
    st.sampled_from([1.0, -1.0, 0.5]),
)


def by_calls(segments: tuple[Segment, ...]) -> str:
    """The words of reportlab, its numbers written as ours are."""
    path = Canvas(BytesIO()).beginPath()
    calls = {"M": path.moveTo, "L": path.lineTo, "C": path.curveTo, "Z": path.close}
    for kind, *numbers in segments:
        calls[str(kind)](*numbers)
    begun = path.getCode().removeprefix("n")  # it ends what no one began
    return re.sub(r"-?[\d.]+", lambda found: f"{float(found[0]):.3f}", begun)


@given(OUTLINES)
def test_an_outline_is_written_as_reportlab_writes_it(segments: tuple[Segment, ...]) -> None:
    assert outline_words(segments).getCode().split() == by_calls(segments).split()


@given(st.lists(ROWS, min_size=1, max_size=4))
def test_motifs_are_written_as_one_path_of_all_their_outlines(rows: list[Row]) -> None:
    motifs = Motifs(tuple(rows))
    path = as_path(motifs)
    assert shape_words(motifs).getCode() == outline_words(path.segments).getCode()
    assert segment_count(motifs) == segment_count(path)
    assert points_box(motifs) == pytest.approx(points_box(path))


def test_a_motif_in_two_columns_and_two_rows() -> None:
    dash = Motif((("M", 0.0, 0.0), ("L", 1.0, 0.5)))
    rows = (Row(dash, (0.0, 10.0), 2.0), Row(dash, (0.0, 10.0), 4.0, across=2.0))
    written = shape_words(Motifs(rows)).getCode()
    assert written == (
        "0.000 2.000 m 1.000 2.500 l 10.000 2.000 m 11.000 2.500 l "
        "0.000 4.000 m 2.000 4.500 l 10.000 4.000 m 12.000 4.500 l"
    )
    assert points_box(Motifs(rows)) == Box(0.0, 2.0, 12.0, 4.5)
    assert points_box(Path((("M", 1.0, 2.0), ("C", 0.0, 9.0, 3.0, 3.0, 2.0, 2.0)))) == Box(0.0, 2.0, 3.0, 9.0)
