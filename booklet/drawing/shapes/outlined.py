"""Words as outlines, for print that belongs to a paper: a picture of words, not text to be read or found."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from booklet.drawing.shapes.figure import Motif, Motifs, Row, Segment
from booklet.drawing.shapes.fonts import Font, font_file, glyph_number, text_width
from booklet.drawing.shapes.outlines import as_path

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont


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
    unit = size / _opened(font)["head"].unitsPerEm
    return tuple(Row(glyph, tuple(xs), y, unit, -unit) for glyph, xs in places.items())


@lru_cache
def _opened(font: Font) -> TTFont:
    from fontTools.ttLib import TTFont

    opened = TTFont(font_file(font), lazy=True)
    # To find out what glyphs are called takes longer than all else; here they go by their numbers.
    opened.setGlyphOrder([str(number) for number in range(opened["maxp"].numGlyphs)])
    return opened


@lru_cache(maxsize=512)
def _glyph(character: str, font: Font) -> Motif:
    """One glyph's outlines in the units of its face, y up; a character that the face lacks shows nothing."""
    from fontTools.pens.basePen import BasePen

    opened = _opened(font)
    number = glyph_number(character, font)
    if number is None:
        return Motif(())
    segments: list[Segment] = []

    class Collector(BasePen):  # type: ignore[misc]  # fontTools carries no types
        """Takes a glyph's lines and curves; the base class turns quadratic curves into cubic ones."""

        def _moveTo(self, point: tuple[float, float]) -> None:  # noqa: N802 (the pen protocol's name)
            segments.append(("M", *point))

        def _lineTo(self, point: tuple[float, float]) -> None:  # noqa: N802
            segments.append(("L", *point))

        def _curveToOne(self, *points: tuple[float, float]) -> None:  # noqa: N802
            first, second, end = points
            segments.append(("C", *first, *second, *end))

        def _closePath(self) -> None:  # noqa: N802
            segments.append(("Z",))

    glyphs = opened.getGlyphSet()
    glyphs[str(number)].draw(Collector(glyphs))
    return Motif(tuple(segments))
