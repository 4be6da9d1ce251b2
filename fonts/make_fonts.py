"""Make the booklet's four faces: the letters of Source Sans 3 and Source Serif 4, with larger fractions.

    pip install --target SOURCES --no-deps fontpkg-source-sans-3==3.52 fontpkg-source-serif-4==4.4
    python fonts/make_fonts.py SOURCES

Those packages hold the variable fonts; a face is one instance of such a font.  Only what the superior and
inferior figures (U+2070 and its like) and the fraction slash (U+2044) show is drawn anew, in glyphs added at
the end: from the lining figures of a heavier instance, so that their stems are as heavy as the text's once
they are made smaller.  The glyphs that showed them before stay, since other signs (the per cent sign, the
made fractions) are built from them.

What sets a fraction knows no kerning, so all spacing lies in the advances: each figure's side towards the
slash is measured along the slash, and moved until the gap is even.

`Source` is a Reserved Font Name of the originals' licence, so the results bear other names.
"""

from __future__ import annotations

import argparse
import hashlib
from dataclasses import dataclass
from math import radians, tan
from pathlib import Path
from typing import Any

from fontTools.misc.transform import Identity, Transform
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.varLib import instancer

FOLDER = Path(__file__).resolve().parent

_SUPERIORS = "⁰¹²³⁴⁵⁶⁷⁸⁹"
_INFERIORS = "₀₁₂₃₄₅₆₇₈₉"
_SLASH = "\u2044"

# All in units of the fonts, thousandths of an em.
#
# How high a figure with a flat top stands, 2.33 mm at 13 pt; a round one reaches a little over both its ends.
_HEIGHT = 508
# The baselines of numerators and denominators.  Numerators end where those of the originals did; denominators
# hang no deeper than a comma, so that a line's box is no higher than before.
_RAISED, _LOWERED = 280, -118
# The slash's ends, and its angle in an upright face.
_SLASH_BOTTOM, _SLASH_TOP = -62, 738
_SLASH_ANGLE = 66
# The least white between the slash and a figure, measured level along the slash.
_GAP = 66
# How much of that white belongs to the slash, before and behind it; the rest is the figure's.
_SLASH_BEFORE, _SLASH_BEHIND = 46, 34
# How far a figure may lean over its advance towards the slash to fill that white, and stand off to keep it.
_LEAN_OVER, _STAND_OFF = 34, 44
# A figure's white on its far side: before a numerator, behind a denominator, and so between two figures.
_OUTER = 68


@dataclass(frozen=True)
class Family:
    """What the faces of one family are called, and whose work they derive from."""

    name: str
    original: str


@dataclass(frozen=True)
class Face:
    """One face: the instance of a variable font that its letters are, and the one that its figures come from.

    `slash` is the slash's width, measured level.
    """

    family: Family
    style: str
    source: str
    letters: dict[str, float]
    figures: dict[str, float]
    slash: float

    @property
    def name(self) -> str:
        """The name in a PDF, which is also the file's stem."""
        return f"{self.family.name}-{self.style}".replace(" ", "")


_SANS = Family("Booklet Sans", "Source Sans 3")
_SERIF = Family("Booklet Serif", "Source Serif 4")
_UPRIGHT = "fontpkg_source_sans_3/files/SourceSans3[wght].ttf"
_ITALIC = "fontpkg_source_sans_3/files/SourceSans3-Italic[wght].ttf"
_ROMAN = "fontpkg_source_serif_4/files/SourceSerif4[opsz,wght].ttf"
_DIGESTS = {
    _UPRIGHT: "042fe2cc0b933e328410d7acbd0aa6a1873dca5aef81875f4bc214b08825c7b9",
    _ITALIC: "39e3ab05ccd7cb94907c31005bb5bec1d5432f0b096a2b782976e217a540eb6c",
    _ROMAN: "97b2d4da6e3cb494b5a1e66ae176914d852ccabef49e0c02c0df25f3e39aca0b",
}

FACES = (
    Face(_SANS, "Regular", _UPRIGHT, {"wght": 400}, {"wght": 500}, slash=58),
    Face(_SANS, "SemiBold", _UPRIGHT, {"wght": 600}, {"wght": 670}, slash=76),
    Face(_SANS, "Italic", _ITALIC, {"wght": 400}, {"wght": 500}, slash=55),
    Face(_SERIF, "SemiBold", _ROMAN, {"opsz": 14, "wght": 600}, {"opsz": 10, "wght": 660}, slash=68),
)


def make_face(face: Face, sources: Path) -> TTFont:
    """The finished face.  Raises SystemExit where its source is not the one that these measures are for."""
    source = sources / face.source
    if not source.is_file() or hashlib.sha256(source.read_bytes()).hexdigest() != _DIGESTS[face.source]:
        raise SystemExit(f"{source}: not there, or of another release than {Path(__file__).name} names")
    variable = TTFont(source)
    font = instancer.instantiateVariableFont(variable, face.letters)
    font.recalcTimestamp = False
    for character, made in _fraction_glyphs(face, variable).items():
        _add(font, character, made)
    _rename(font, face)
    return font


@dataclass(frozen=True)
class _Made:
    """A glyph and its advance."""

    glyph: Any
    advance: float


@dataclass(frozen=True)
class _Figure:
    """An outline at its place in height, and its sides: along its own slant, and along the slash's."""

    outline: Any
    place: Transform
    left: float
    right: float
    left_along_slash: float
    right_along_slash: float


def _fraction_glyphs(face: Face, variable: TTFont) -> dict[str, _Made]:
    """What each character that is drawn anew shows."""
    glyphs, names = variable.getGlyphSet(location=face.figures), variable.getBestCmap()
    slant = tan(radians(-variable["post"].italicAngle))
    lean = slant + 1 / tan(radians(_SLASH_ANGLE))
    outlines = [_outline(glyphs, names[ord("0") + number]) for number in range(10)]
    small = _HEIGHT / _bounds(outlines[1], Identity)[3]
    made = {_SLASH: _slash(lean, face.slash)}
    for outline, superior, inferior in zip(outlines, _SUPERIORS, _INFERIORS, strict=True):
        made[superior] = _numerator(_figure(outline, small, _RAISED, slant, lean))
        made[inferior] = _denominator(_figure(outline, small, _LOWERED, slant, lean))
    return made


def _outline(glyphs: Any, name: str) -> Any:
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    return pen


def _figure(outline: Any, small: float, baseline: float, slant: float, lean: float) -> _Figure:
    place = Transform(small, 0, 0, small, 0, baseline)
    left, _, right, _ = _bounds(outline, _upright(slant).transform(place))
    along_left, _, along_right, _ = _bounds(outline, _upright(lean).transform(place))
    return _Figure(outline, place, left, right, along_left, along_right)


def _upright(lean: float) -> Transform:
    """What makes lines upright that lean by so much a unit of height; the slash's middle stays in place."""
    return Transform(1, 0, -lean, 1, lean * (_SLASH_BOTTOM + _SLASH_TOP) / 2, 0)


def _bounds(outline: Any, transform: Transform) -> tuple[float, float, float, float]:
    pen = BoundsPen(None)
    outline.replay(TransformPen(pen, transform))
    left, bottom, right, top = pen.bounds
    return left, bottom, right, top


def _numerator(figure: _Figure) -> _Made:
    inner = _inner(_GAP - _SLASH_BEFORE - (figure.right - figure.right_along_slash))
    return _made(figure, _OUTER, inner)


def _denominator(figure: _Figure) -> _Made:
    inner = _inner(_GAP - _SLASH_BEHIND - (figure.left_along_slash - figure.left))
    return _made(figure, inner, _OUTER)


def _inner(wanted: float) -> float:
    return min(max(wanted, -_LEAN_OVER), _STAND_OFF)


def _made(figure: _Figure, before: float, behind: float) -> _Made:
    pen = TTGlyphPen(None)
    figure.outline.replay(TransformPen(pen, Identity.translate(before - figure.left).transform(figure.place)))
    return _Made(pen.glyph(), before + figure.right - figure.left + behind)


def _slash(lean: float, width: float) -> _Made:
    pen = TTGlyphPen(None)
    leaning = TransformPen(pen, _upright(-lean))
    leaning.moveTo((_SLASH_BEFORE, _SLASH_BOTTOM))
    leaning.lineTo((_SLASH_BEFORE, _SLASH_TOP))
    leaning.lineTo((_SLASH_BEFORE + width, _SLASH_TOP))
    leaning.lineTo((_SLASH_BEFORE + width, _SLASH_BOTTOM))
    leaning.closePath()
    return _Made(pen.glyph(), _SLASH_BEFORE + width + _SLASH_BEHIND)


def _add(font: TTFont, character: str, made: _Made) -> None:
    """Add a glyph to a face and let it show the character."""
    name = f"uni{ord(character):04X}.fraction"
    font.setGlyphOrder([*font.getGlyphOrder(), name])
    font["glyf"].glyphs[name] = made.glyph
    made.glyph.recalcBounds(font["glyf"])
    font["hmtx"].metrics[name] = (round(made.advance), made.glyph.xMin)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[ord(character)] = name


def _rename(font: TTFont, face: Face) -> None:
    """Name a face after its own family; copyright, trademark and authors stay said."""
    names = font["name"]
    full = f"{face.family.name} {face.style}"
    is_bold = face.style == "SemiBold"
    original = names.getDebugName(5).split(";")[0]
    said = {
        1: full if is_bold else face.family.name,
        2: "Regular" if is_bold else face.style,
        3: f"{original};{face.name}",
        4: full,
        5: f"{original}; fraction figures redrawn",
        6: face.name,
        10: f"Derived from {face.family.original} and modified: superior and inferior figures and"
        " the fraction slash are redrawn for setting fractions.",
        16: face.family.name if is_bold else None,
        17: face.style if is_bold else None,
        25: None,
    }
    for number, words in said.items():
        names.removeNames(nameID=number)
        if words is not None:
            names.setName(words, number, 3, 1, 0x409)
    names.removeUnusedNames(font)
    font["OS/2"].achVendID = "NONE"


def main() -> None:
    """Write every face beside this file."""
    parser = argparse.ArgumentParser(description="Make the booklet's faces from the variable fonts.")
    parser.add_argument("sources", type=Path, help="the folder that both packages were installed into")
    parser.add_argument("--out", type=Path, default=FOLDER, help="where the faces go")
    given = parser.parse_args()
    for face in FACES:
        path = given.out / f"{face.name}.ttf"
        make_face(face, given.sources).save(path)
        print(path.name)


if __name__ == "__main__":
    main()
