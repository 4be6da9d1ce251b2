"""Words as outlines, for print that belongs to a paper: a picture of words, not text to be read or found."""

from __future__ import annotations

from functools import lru_cache

from booklet.drawing.shapes.figure import Motif, Motifs, Row, Segment
from booklet.drawing.shapes.fonts import Font, font_file, glyph_number, text_width
from booklet.drawing.shapes.glyphs import GlyphFile, contours, cubic, open_glyphs
from booklet.drawing.shapes.outlines import as_path


def outlined(text: str, font: Font, size: float, x: float, y: float) -> tuple[Segment, ...]:
    """The outlines of a line of text with its middle at x and its baseline at y, in points, y down."""
    return as_path(Motifs(letters(text, font, size, x, y))).segments


def letters(text: str, font: Font, size: float, x: float, y: float) -> tuple[Row, ...]:
    """The letters of a line of text with its middle at x and its baseline at y, a row for each kind."""
    places: dict[Motif, list[float]] = {}
    at = x - text_width(text, font, size) / 2
    for character in text:
        glyph = _glyph(character, font)
        if glyph.segments:
            places.setdefault(glyph, []).append(at)
        at += text_width(character, font, size)
    unit = size / _opened(font).em
    return tuple(Row(glyph, tuple(xs), y, unit, -unit) for glyph, xs in places.items())


@lru_cache
def _opened(font: Font) -> GlyphFile:
    return open_glyphs(font_file(font))


@lru_cache(maxsize=512)
def _glyph(character: str, font: Font) -> Motif:
    """One glyph's outlines in the units of its face, y up; a character that the face lacks shows nothing."""
    opened = _opened(font)
    number = glyph_number(character, font)
    if number is None:
        return Motif(())
    segments: list[Segment] = []
    for contour in contours(opened, number):
        at = contour.start
        segments.append(("M", *at))
        for stretch in contour.stretches:
            segments.append(("L", *stretch[0]) if len(stretch) == 1 else ("C", *cubic(at, *stretch)))
            at = stretch[-1]
        segments.append(("Z",))
    return Motif(tuple(segments))
