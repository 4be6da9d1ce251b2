"""Words as outlines, for print that belongs to a paper: a picture of words, not text to be read or found."""

from __future__ import annotations

from functools import lru_cache

from booklet.drawing.shapes.affine import Affine
from booklet.drawing.shapes.figure import Segment
from booklet.drawing.shapes.fonts import Font, font_file, glyph_number, text_width
from booklet.drawing.shapes.glyphs import GlyphFile, contours, cubic, open_glyphs
from booklet.drawing.shapes.outlines import under


def outlined(text: str, font: Font, size: float, x: float, y: float) -> tuple[Segment, ...]:
    """The outlines of a line of text with its middle at x and its baseline at y, in points, y down."""
    segments: list[Segment] = []
    at = x - text_width(text, font, size) / 2
    for character in text:
        segments += under(Affine(size, 0.0, 0.0, -size, at, y), _glyph(character, font))
        at += text_width(character, font, size)
    return tuple(segments)


@lru_cache
def _opened(font: Font) -> GlyphFile:
    return open_glyphs(font_file(font))


@lru_cache(maxsize=512)
def _glyph(character: str, font: Font) -> tuple[Segment, ...]:
    """One glyph's outlines in em, y up; a character that the face lacks shows nothing."""
    opened = _opened(font)
    number = glyph_number(character, font)
    if number is None:
        return ()
    em = opened.em
    segments: list[Segment] = []
    for contour in contours(opened, number):
        x, y = at = contour.start
        segments.append(("M", x / em, y / em))
        for stretch in contour.stretches:
            if len(stretch) == 1:
                segments.append(("L", stretch[0][0] / em, stretch[0][1] / em))
            else:
                x1, y1, x2, y2, x, y = cubic(at, *stretch)
                segments.append(("C", x1 / em, y1 / em, x2 / em, y2 / em, x / em, y / em))
            at = stretch[-1]
        segments.append(("Z",))
    return tuple(segments)
