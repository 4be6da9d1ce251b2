"""The four faces that everything is set in: where they lie, how wide a text runs, how high it stands.

The files are found beside the package in a checkout (`fonts/`) and inside it when installed
(`booklet/fonts/`).  A face is parsed once, when the first text in it is measured or printed.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache
from pathlib import Path

from booklet.drawing.shapes.truetype import Face, open_face
from booklet.measure.dataclass import dataclass
from booklet.measure.identity_enum import IdentityEnum

_PACKAGE = Path(__file__).resolve().parents[2]
_FOLDERS = (_PACKAGE / "fonts", _PACKAGE.parent / "fonts")


class Font(IdentityEnum):
    """A face, by its file's stem, which is also its name in a PDF."""

    SANS = "BookletSans-Regular"
    SANS_BOLD = "BookletSans-SemiBold"
    SANS_ITALIC = "BookletSans-Italic"
    SERIF_BOLD = "BookletSerif-SemiBold"


@dataclass(frozen=True)
class FontMetrics:
    """Heights in em: how far the tallest and deepest figures and plain letters reach, and a capital's height.

    Measured on the outlines: superior figures are the tallest (an accent on a capital may rise above them),
    the letters g, p, q, y the deepest; inferior figures end above them.
    """

    ascent: float
    descent: float
    cap_height: float


_SANS_METRICS = FontMetrics(ascent=0.80, descent=0.225, cap_height=0.656)
_SERIF_METRICS = FontMetrics(ascent=0.80, descent=0.24, cap_height=0.664)


class MissingFontError(Exception):
    """A font file is not where this installation should hold it."""


def font_metrics(font: Font) -> FontMetrics:
    """The heights of a face in em."""
    return _SERIF_METRICS if font is Font.SERIF_BOLD else _SANS_METRICS


@lru_cache
def font_file(font: Font) -> Path:
    """Where a face's TrueType file lies.  Raises MissingFontError."""
    for folder in _FOLDERS:
        path = folder / f"{font.value}.ttf"
        if path.is_file():
            return path
    raise MissingFontError(f"The font file {font.value}.ttf is not in {' or '.join(map(str, _FOLDERS))}.")


@lru_cache
def _face(font: Font) -> Face:
    return open_face(font_file(font))


@lru_cache
def _in_all_faces() -> frozenset[int]:
    return frozenset.intersection(*(frozenset(_face(font).glyphs) for font in Font))


def missing_letters(text: str) -> tuple[str, ...]:
    """The letters of a text that not every face can print, each once, in its order.

    Signs that only steer other letters (joiners, turns of the reading direction) count among them: they
    print as nothing or as a box, and steer nothing.
    """
    letters = (letter for letter in dict.fromkeys(text) if not letter.isspace())
    held = _in_all_faces()
    return tuple(x for x in letters if ord(x) not in held or unicodedata.category(x) == "Cf")


def glyph_number(character: str, font: Font) -> int | None:
    """The number of a character's glyph in the file of a face; None where the face lacks it."""
    return _face(font).glyphs.get(ord(character))


@lru_cache(maxsize=4096)
def _width_in_em(text: str, font: Font) -> float:
    face = _face(font)
    return face.advance(text) / face.em


def text_width(text: str, font: Font, size: float) -> float:
    """The width of a text in points at a size in points: its advances added up, without kerning."""
    return _width_in_em(text, font) * size


def cap_height(font: Font, size: float) -> float:
    """How high a capital stands above the baseline, in points."""
    return font_metrics(font).cap_height * size


def size_for_cap_height(font: Font, height: float) -> float:
    """The font size at which a capital is `height` points high."""
    return height / font_metrics(font).cap_height
