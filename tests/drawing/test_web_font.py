"""A face for a page: what it keeps is as in the whole face, and it is a file that others read."""

from __future__ import annotations

from io import BytesIO

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from booklet.drawing.shapes.fonts import Font, font_file
from booklet.drawing.writers.web_font import web_font

LETTERS = "Set to 9¹⁄₄ × 10 ≈ é ½"


def opened(data: bytes) -> TTFont:
    return TTFont(BytesIO(data), checkChecksums=2)


def drawn(face: TTFont, letter: str) -> tuple[object, int]:
    name = face.getBestCmap()[ord(letter)]
    pen = DecomposingRecordingPen(face.getGlyphSet())
    face.getGlyphSet()[name].draw(pen)
    return pen.value, face["hmtx"][name][0]


@pytest.mark.parametrize("font", list(Font))
def test_the_letters_are_those_of_the_whole_face(font: Font) -> None:
    whole, face = TTFont(font_file(font)), opened(web_font(font, LETTERS))
    assert set(face.getBestCmap()) == {ord(letter) for letter in LETTERS} & set(whole.getBestCmap())
    assert all(drawn(face, letter) == drawn(whole, letter) for letter in set(LETTERS))


@pytest.mark.parametrize("font", list(Font))
def test_it_is_small_and_says_whose_it_is(font: Font) -> None:
    data = web_font(font, LETTERS)
    assert len(data) < font_file(font).stat().st_size / 15
    names = {record.toUnicode() for record in opened(data)["name"].names}
    assert any("SIL Open Font License" in name for name in names)


def test_a_letter_that_it_lacks_is_left_to_the_reader_s_own_faces() -> None:
    assert set(opened(web_font(Font.SANS, "a\u4e00\U0001f600")).getBestCmap()) == {ord("a")}


def test_the_same_letters_in_any_order_give_the_same_bytes() -> None:
    assert web_font(Font.SANS, "abc") == web_font(Font.SANS, "cabba")
