"""The faces: their files, their widths and heights, measured here by another library."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import ImageFont

from booklet.drawing.shapes import fonts
from booklet.drawing.shapes.figure import WHITE, Colour
from booklet.drawing.shapes.fonts import Font, cap_height, font_file, font_metrics, pdf_font_name, text_width
from booklet.drawing.shapes.style import DrawingStyle, palette_from_accent

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
    with pytest.raises(fonts.MissingFontError, match=r"SourceSans3-Italic\.ttf is not in .*here or .*there"):
        fonts.font_file.__wrapped__(Font.SANS_ITALIC)


@pytest.mark.parametrize("font", Font)
@pytest.mark.parametrize("text", [*PRINTED, "6¹⁄₄ × 12", "11⁷⁄₈"])
def test_a_width_is_that_of_the_face(font: Font, text: str) -> None:
    face = ImageFont.truetype(str(font_file(font)), 1000, layout_engine=ImageFont.Layout.BASIC)
    # Basic layout adds up advances in whole thousandths of an em and kerns pairs where the old table says so.
    assert text_width(text, font, 10) == pytest.approx(face.getlength(text, features=None) / 100, abs=0.05)


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


def test_a_fraction_has_a_width_in_every_face() -> None:
    for font in Font:
        whole, mixed = text_width("6", font, 10), text_width("6¹⁄₄", font, 10)
        assert whole < mixed < 3.5 * whole


@pytest.mark.parametrize("accent", ["#17597a", "#ffcc33", "#000000", "#ffffff", "#ff0000"])
def test_white_numerals_stand_out_on_any_accent(accent: str) -> None:
    palette = palette_from_accent(Colour(accent))
    assert palette.accent.contrast(WHITE) >= 4.5
    assert palette.ink.contrast(palette.accent_tint) >= 4.5
    assert palette.soft_ink.contrast(WHITE) >= 4.5


def test_a_changed_style_leaves_the_first_one_alone() -> None:
    style = DrawingStyle()
    changed = style.with_changes(dimension_size=14)
    assert (style.dimension_size, changed.dimension_size) == (10.8, 14)
    with pytest.raises(TypeError):
        style.with_changes(dimension_sise=14)
