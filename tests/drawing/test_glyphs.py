"""Outlines of glyphs are those that fontTools reads from the same file."""

from __future__ import annotations

from typing import Any

import pytest
from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont

from booklet.drawing.shapes.fonts import Font, font_file
from booklet.drawing.shapes.glyphs import contours, cubic, open_glyphs


class Recorder(BasePen):  # type: ignore[misc]  # fontTools carries no types
    """Notes lines and curves; the base class takes glyphs apart and makes quadratic curves cubic."""

    def __init__(self, glyphs: Any) -> None:
        super().__init__(glyphs)
        self.drawn: list[tuple[Any, ...]] = []

    def _moveTo(self, point: Any) -> None:  # noqa: N802 (the pen protocol's name)
        self.drawn.append(tuple(point))

    def _lineTo(self, point: Any) -> None:  # noqa: N802
        self.drawn.append(tuple(point))

    def _curveToOne(self, *points: Any) -> None:  # noqa: N802
        self.drawn.append(tuple(number for point in points for number in point))


@pytest.mark.parametrize("font", Font)
def test_glyphs_are_those_of_fonttools(font: Font) -> None:
    theirs, ours = TTFont(font_file(font)), open_glyphs(font_file(font))
    glyphs, names = theirs.getGlyphSet(), theirs.getGlyphOrder()
    turned = [name for name in names if any(hasattr(part, "transform") for part in parts(theirs, name))]
    assert theirs["head"].unitsPerEm == ours.em
    assert len(names) == len(ours.begins) - 1
    assert turned  # parts that are scaled or mirrored are among them
    for name in {*names[::5], *turned}:
        pen = Recorder(glyphs)
        glyphs[name].draw(pen)
        assert drawn(ours, theirs.getGlyphID(name)) == pen.drawn, name
    theirs.close()


def parts(file: Any, name: str) -> list[Any]:
    """The glyphs that one is put together of; none of one that is drawn."""
    glyph = file["glyf"][name]
    return glyph.components if glyph.isComposite() else []


def drawn(file: Any, number: int) -> list[tuple[float, ...]]:
    """Our contours as the recorder notes them."""
    noted: list[tuple[float, ...]] = []
    for contour in contours(file, number):
        at = contour.start
        noted.append(at)
        for stretch in contour.stretches:
            noted.append(stretch[0] if len(stretch) == 1 else cubic(at, *stretch))
            at = stretch[-1]
    return noted
