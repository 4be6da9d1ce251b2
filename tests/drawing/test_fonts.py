"""The faces: their files, their widths and heights, measured here by another library."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO
from itertools import pairwise, product
from pathlib import Path

import pytest
import shapely
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont
from PIL import ImageFont
from shapely.affinity import translate

from booklet.drawing.shapes import fonts
from booklet.drawing.shapes.affine import Point
from booklet.drawing.shapes.figure import WHITE, Colour
from booklet.drawing.shapes.fonts import Font, cap_height, font_file, font_metrics, text_width
from booklet.drawing.shapes.style import DrawingStyle, palette_from_accent
from booklet.drawing.shapes.truetype import open_face
from booklet.drawing.writers.pdf_fonts import pdf_font_name

PRINTED = ("0123456789", "Hxgpqy bdfhkl", "⁰¹²³⁴⁵⁶⁷⁸⁹⁄₀₁₂₃₄₅₆₇₈₉", "×≈−→", "Q,;()")


@pytest.mark.parametrize("font", Font)
def test_every_face_is_found_and_known_to_the_pdf_library(font: Font) -> None:
    from reportlab.pdfbase import pdfmetrics

    assert font_file(font).stat().st_size > 100_000
    assert pdfmetrics.getFont(pdf_font_name(font)).face.name.decode() == font.value


def test_a_missing_font_file_is_named_with_where_it_was_looked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(fonts, "_FOLDERS", (tmp_path / "here", tmp_path / "there"))
    with pytest.raises(fonts.MissingFontError, match=r"BookletSans-Italic\.ttf is not in .*here or .*there"):
        fonts.font_file.__wrapped__(Font.SANS_ITALIC)


@pytest.mark.parametrize("font", Font)
@pytest.mark.parametrize("text", [*PRINTED, "6¹⁄₄ × 12", "11⁷⁄₈"])
def test_a_width_is_that_of_the_face(font: Font, text: str) -> None:
    face = ImageFont.truetype(str(font_file(font)), 1000, layout_engine=ImageFont.Layout.BASIC)
    # Basic layout adds up advances in whole thousandths of an em and kerns pairs where the old table says so.
    assert text_width(text, font, 10) == pytest.approx(face.getlength(text, features=None) / 100, abs=0.05)


@pytest.mark.parametrize("font", Font)
def test_every_character_has_the_glyph_and_the_advance_that_fonttools_reads(font: Font) -> None:
    theirs, ours = opened(font), open_face(font_file(font))
    names = theirs.getGlyphOrder()
    assert ours.em == theirs["head"].unitsPerEm
    assert {code: names[glyph] for code, glyph in ours.glyphs.items()} == theirs.getBestCmap()
    assert list(ours.advances) == [theirs["hmtx"][name][0] for name in names]


@pytest.mark.parametrize("font", Font)
def test_every_text_is_as_wide_as_the_pdf_library_sets_it(font: Font) -> None:
    from reportlab.pdfbase.pdfmetrics import stringWidth

    characters = "".join(map(chr, open_face(font_file(font)).glyphs))
    for text in (*PRINTED, *characters, characters, "not there: \U0001f600"):
        assert text_width(text, font, 10) == pytest.approx(
            stringWidth(text, pdf_font_name(font), 10), abs=1e-9
        )


@pytest.mark.parametrize("font", Font)
@pytest.mark.parametrize("text", PRINTED)
def test_no_printed_letter_reaches_out_of_the_heights_given(font: Font, text: str) -> None:
    face = ImageFont.truetype(str(font_file(font)), 1000)
    _, top, _, bottom = face.getbbox(text, anchor="ls")
    metrics = font_metrics(font)
    assert -top <= metrics.ascent * 1000
    assert bottom <= metrics.descent * 1000


@pytest.mark.parametrize("font", Font)
def test_a_capital_is_as_high_as_said(font: Font) -> None:
    face = ImageFont.truetype(str(font_file(font)), 1000)
    _, top, _, bottom = face.getbbox("H", anchor="ls")
    assert cap_height(font, 1000) == pytest.approx(bottom - top, abs=3)


# Fractions: an eighth misread spoils a sheet, so its figures are measured here on the faces' outlines, in em.

SUPERIORS, INFERIORS = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
SLASH = "\u2044"
EIGHTHS_AND_SIXTEENTHS = (
    *("1/2", "1/4", "3/4", "1/8", "3/8", "5/8", "7/8"),
    *("1/16", "3/16", "5/16", "7/16", "9/16", "11/16", "13/16", "15/16"),
)


@lru_cache
def opened(font: Font) -> TTFont:
    return TTFont(font_file(font))


@lru_cache
def ink(font: Font, letter: str) -> shapely.Geometry:
    """What a letter blackens, its advance's start at 0."""
    glyphs = opened(font).getGlyphSet()
    pen = DecomposingRecordingPen(glyphs)
    glyphs[opened(font).getBestCmap()[ord(letter)]].draw(pen)
    rings: list[list[Point]] = []
    for what, points in pen.value:
        if what == "moveTo":
            rings.append([points[0]])
        elif what == "lineTo":
            rings[-1].append(points[0])
        elif what == "qCurveTo":
            rings[-1] += along_quadratics(rings[-1][-1], points)
    rings = [[(x / 1000, y / 1000) for x, y in ring] for ring in rings]
    areas = [shapely.make_valid(shapely.Polygon(ring)) for ring in rings if len(ring) > 2]
    clockwise = [not shapely.LinearRing(ring).is_ccw for ring in rings if len(ring) > 2]
    black = shapely.union_all([area for area, outer in zip(areas, clockwise, strict=True) if outer])
    return black - shapely.union_all(
        [area for area, outer in zip(areas, clockwise, strict=True) if not outer]
    )


def along_quadratics(start: Point, points: tuple[Point, ...]) -> list[Point]:
    """Points along a TrueType spline: between two off-curve points lies one on the curve, halfway."""
    *controls, last = points
    ends = [((ax + bx) / 2, (ay + by) / 2) for (ax, ay), (bx, by) in pairwise(controls)]
    found = []
    for control, end in zip(controls, [*ends, last], strict=True):
        for at in (step / 12 for step in range(1, 13)):
            x, y = (
                (1 - at) ** 2 * a + 2 * at * (1 - at) * b + at**2 * c
                for a, b, c in zip(start, control, end, strict=True)
            )
            found.append((x, y))
        start = end
    return found


def white(font: Font, before: str, after: str) -> float:
    """The white between two texts that follow each other, in em."""
    return float(ink_of(font, before).distance(translate(ink_of(font, after), text_width(before, font, 1))))


@lru_cache
def ink_of(font: Font, text: str) -> shapely.Geometry:
    places = (text_width(text[:at], font, 1) for at in range(len(text)))
    return shapely.union_all([translate(ink(font, x), at) for x, at in zip(text, places, strict=True)])


def height(font: Font, letter: str) -> float:
    _, bottom, _, top = ink(font, letter).bounds
    return float(top - bottom)


def stem(font: Font, letter: str) -> float:
    """How wide the ink of a one or an l is, halfway up."""
    _, bottom, _, top = ink(font, letter).bounds
    middle = (bottom + top) / 2
    return float(ink(font, letter).intersection(shapely.LineString([(-1, middle), (2, middle)])).length)


@pytest.mark.parametrize("font", Font)
def test_a_fraction_s_figures_are_at_least_half_an_em_high(font: Font) -> None:
    for letter in SUPERIORS + INFERIORS:
        assert 0.5 <= height(font, letter) <= 0.55, letter


@pytest.mark.parametrize("font", Font)
def test_the_figures_of_a_reading_of_13_pt_are_at_least_2_3_mm_high(font: Font) -> None:
    assert min(height(font, letter) for letter in SUPERIORS + INFERIORS) * 13 * 25.4 / 72 >= 2.3


@pytest.mark.parametrize("font", Font)
def test_a_fraction_is_as_heavy_as_the_text(font: Font) -> None:
    for letter in "¹₁":
        assert stem(font, letter) == pytest.approx(stem(font, "1"), rel=0.06)


@pytest.mark.parametrize("font", Font)
def test_the_numerators_stand_high_and_the_denominators_low(font: Font) -> None:
    numerators, denominators = (
        shapely.union_all([ink(font, x) for x in letters]).bounds for letters in (SUPERIORS, INFERIORS)
    )
    assert numerators[3] <= font_metrics(font).ascent
    assert denominators[1] >= -0.14
    assert numerators[1] - denominators[1] >= 0.35


@pytest.mark.parametrize("font", Font)
def test_no_figure_of_a_fraction_touches_the_slash_or_strays_from_it(font: Font) -> None:
    for numerator, denominator in (fraction.split("/") for fraction in EIGHTHS_AND_SIXTEENTHS):
        over, under = figures(numerator, SUPERIORS), figures(denominator, INFERIORS)
        assert 0.045 <= white(font, over, SLASH) <= 0.17, numerator
        assert 0.045 <= white(font, SLASH, under) <= 0.17, denominator
        assert white(font, over + SLASH, under) == pytest.approx(white(font, SLASH, under))


@pytest.mark.parametrize("font", Font)
@pytest.mark.parametrize("letters", [SUPERIORS, INFERIORS])
def test_any_two_figures_of_a_fraction_stand_clear_of_each_other(font: Font, letters: str) -> None:
    assert min(white(font, a, b) for a, b in product(letters, letters)) >= 0.03


@pytest.mark.parametrize("font", Font)
def test_a_whole_number_stands_a_little_off_its_fraction(font: Font) -> None:
    least = min(white(font, str(whole), numerator) for whole, numerator in product(range(10), SUPERIORS))
    assert 0.06 <= least <= 0.12


@pytest.mark.parametrize("font", Font)
def test_a_shaper_that_kerns_leaves_fractions_as_they_are(font: Font) -> None:
    face = ImageFont.truetype(str(font_file(font)), 1000, layout_engine=ImageFont.Layout.RAQM)
    for fraction in EIGHTHS_AND_SIXTEENTHS:
        numerator, denominator = fraction.split("/")
        text = "4" + figures(numerator, SUPERIORS) + SLASH + figures(denominator, INFERIORS)
        assert face.getlength(text) == pytest.approx(text_width(text, font, 1000), abs=1.0)


@pytest.mark.parametrize("font", Font)
def test_whole_figures_are_of_one_width_so_that_readings_stand_under_each_other(font: Font) -> None:
    widths = [text_width(str(figure), font, 1000) for figure in range(10)]
    assert max(widths) - min(widths) <= 1


def figures(digits: str, letters: str) -> str:
    return "".join(letters[int(digit)] for digit in digits)


@pytest.mark.parametrize("font", Font)
def test_a_fraction_set_in_a_paragraph_or_a_table_is_found_as_it_was_written(font: Font) -> None:
    import pypdfium2
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Paragraph, SimpleDocTemplate, Table

    lines = [
        f"cut at 11{figures('15', SUPERIORS)}{SLASH}{figures('16', INFERIORS)} in",
        "6⁷⁄₈ × 2³⁄₄",
        "⁰⁹⁄₀₅",
    ]
    style = ParagraphStyle("line", fontName=pdf_font_name(font), fontSize=10)
    table = Table([[lines[1], lines[2]]], style=[("FONTNAME", (0, 0), (-1, -1), pdf_font_name(font))])
    written = BytesIO()
    SimpleDocTemplate(written, invariant=1).build([Paragraph(lines[0], style), table])
    read = pypdfium2.PdfDocument(written.getvalue())[0].get_textpage().get_text_range()
    for line in lines:
        assert line in read


@pytest.mark.parametrize("font", Font)
def test_a_face_bears_a_name_of_its_own_and_says_whose_it_is(font: Font) -> None:
    # OFL 1.1, condition 3: no Modified Version may use the Reserved Font Name, here "Source".
    names = opened(font)["name"]
    assert names.getDebugName(6) == font.value
    assert not any("Source" in (names.getDebugName(number) or "") for number in (1, 3, 4, 6, 16, 18, 21, 25))
    assert "Adobe" in names.getDebugName(0)
    assert "modified" in names.getDebugName(10)
    family = names.getDebugName(16) or names.getDebugName(1)
    licence = font_file(font).with_name(f"OFL-{family.replace(' ', '')}.txt").read_text(encoding="utf-8")
    assert f'"{family}" derives from Source' in licence


def test_a_fraction_has_a_width_in_every_face() -> None:
    for font in Font:
        whole, mixed = text_width("6", font, 10), text_width("6¹⁄₄", font, 10)
        assert whole < mixed < 3.5 * whole


@pytest.mark.parametrize("accent", ["#17597a", "#ffcc33", "#000000", "#ffffff", "#ff0000"])
def test_any_accent_stands_out_on_white(accent: str) -> None:
    palette = palette_from_accent(Colour(accent))
    assert palette.accent.contrast(WHITE) >= 4.5
    assert palette.ink.contrast(palette.accent_tint) >= 4.5


def test_a_changed_style_leaves_the_first_one_alone() -> None:
    style = DrawingStyle()
    changed = style.with_changes(dimension_size=14)
    assert (style.dimension_size, changed.dimension_size) == (10.8, 14)
    with pytest.raises(TypeError):
        style.with_changes(dimension_sise=14)
