"""Words as outlines, for print that belongs to a paper: a picture of words, not text to be read or found."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from booklet.drawing.shapes.affine import Affine
from booklet.drawing.shapes.figure import Segment
from booklet.drawing.shapes.fonts import Font, font_file, glyph_number, text_width
from booklet.drawing.shapes.outlines import under

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont


def outlined(text: str, font: Font, size: float, x: float, y: float) -> tuple[Segment, ...]:
    """The outlines of a line of text with its middle at x and its baseline at y, in points, y down."""
    segments: list[Segment] = []
    at = x - text_width(text, font, size) / 2
    for character in text:
        segments += under(Affine(size, 0.0, 0.0, -size, at, y), _glyph(character, font))
        at += text_width(character, font, size)
    return tuple(segments)


@lru_cache
def _opened(font: Font) -> TTFont:
    from fontTools.ttLib import TTFont

    opened = TTFont(font_file(font), lazy=True)
    # To find out what glyphs are called takes longer than all else; here they go by their numbers.
    opened.setGlyphOrder([str(number) for number in range(opened["maxp"].numGlyphs)])
    return opened


@lru_cache(maxsize=512)
def _glyph(character: str, font: Font) -> tuple[Segment, ...]:
    """One glyph's outlines in em, y up; a character that the face lacks shows nothing."""
    from fontTools.pens.basePen import BasePen

    opened = _opened(font)
    number = glyph_number(character, font)
    if number is None:
        return ()
    segments: list[Segment] = []
    em = opened["head"].unitsPerEm

    class Collector(BasePen):  # type: ignore[misc]  # fontTools carries no types
        """Takes a glyph's lines and curves; the base class turns quadratic curves into cubic ones."""

        def _moveTo(self, point: tuple[float, float]) -> None:  # noqa: N802 (the pen protocol's name)
            segments.append(("M", point[0] / em, point[1] / em))

        def _lineTo(self, point: tuple[float, float]) -> None:  # noqa: N802
            segments.append(("L", point[0] / em, point[1] / em))

        def _curveToOne(self, *points: tuple[float, float]) -> None:  # noqa: N802
            (x1, y1), (x2, y2), (x, y) = points
            segments.append(("C", x1 / em, y1 / em, x2 / em, y2 / em, x / em, y / em))

        def _closePath(self) -> None:  # noqa: N802
            segments.append(("Z",))

    glyphs = opened.getGlyphSet()
    glyphs[str(number)].draw(Collector(glyphs))
    return tuple(segments)
