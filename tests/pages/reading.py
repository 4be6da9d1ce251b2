"""A PDF read back from the outside, with a library that had no hand in drawing it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from ctypes import c_double, c_float
from dataclasses import dataclass
from itertools import combinations
from math import hypot

import pypdfium2 as pdfium
import pypdfium2.raw as raw

# What glyphs may share before it counts: the tails of neighbouring letters touch in any good typeface.
_TOUCH = 0.3
# In parts of the type's size: wider than any word space, narrower than what parts two texts; and wider than
# what lies between two letters of a word, narrower than a word space.
_WORD_SPACE = 0.42
LETTER_SPACE = 0.2


@dataclass(frozen=True)
class Letter:
    """One glyph: what it says, the box of its ink, where it stands, how large its type is, which way it runs.

    All in points from the lower left corner of the page; `along` is the direction of the line, of length 1.
    """

    text: str
    left: float
    bottom: float
    right: float
    top: float
    origin: tuple[float, float]
    size: float
    along: tuple[float, float]


@dataclass(frozen=True)
class Run:
    """Letters that follow each other on one line without a wide gap."""

    letters: tuple[Letter, ...]

    @property
    def text(self) -> str:
        """What it says."""
        return "".join(letter.text for letter in self.letters)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of its ink."""
        return (
            min(letter.left for letter in self.letters),
            min(letter.bottom for letter in self.letters),
            max(letter.right for letter in self.letters),
            max(letter.top for letter in self.letters),
        )


def letters_of(page: pdfium.PdfPage) -> list[Letter]:
    """Every glyph of a page with ink, in the order in which they were drawn."""
    text = page.get_textpage()
    found = (_letter(text, index) for index in range(text.count_chars()))
    return [letter for letter in found if letter is not None]


def _letter(text: pdfium.PdfTextPage, index: int) -> Letter | None:
    said = chr(raw.FPDFText_GetUnicode(text, index))
    if raw.FPDFText_IsGenerated(text, index) or said.isspace():
        return None
    left, bottom, right, top = text.get_charbox(index)
    x, y = c_double(), c_double()
    raw.FPDFText_GetCharOrigin(text, index, x, y)
    matrix = raw.FS_MATRIX(c_float(), c_float(), c_float(), c_float(), c_float(), c_float())
    raw.FPDFText_GetMatrix(text, index, matrix)
    enlarged = hypot(matrix.a, matrix.b)
    size = raw.FPDFText_GetFontSize(text, index) * enlarged
    along = (matrix.a / enlarged, matrix.b / enlarged)
    return Letter(said, left, bottom, right, top, (x.value, y.value), size, along)


def runs_of(page: pdfium.PdfPage, widest_gap: float = _WORD_SPACE) -> list[Run]:
    """A page's letters as runs; a gap wider than this, in parts of the type's size, parts two of them."""
    runs: list[list[Letter]] = []
    for letter in letters_of(page):
        if runs and _follows(runs[-1][-1], letter, widest_gap):
            runs[-1].append(letter)
        else:
            runs.append([letter])
    return [Run(tuple(run)) for run in runs]


def _follows(before: Letter, letter: Letter, widest_gap: float) -> bool:
    """Whether a letter stands on the same line as the one before it, and not much further on."""
    if before.along != letter.along or before.size != letter.size:
        return False
    (x, y), (dx, dy) = (
        letter.along,
        (letter.origin[0] - before.origin[0], letter.origin[1] - before.origin[1]),
    )
    gap = x * dx + y * dy - _inked_ahead(before)
    return abs(x * dy - y * dx) < 0.05 * letter.size and abs(gap) < widest_gap * letter.size


def _inked_ahead(letter: Letter) -> float:
    """How far a letter's ink goes on from its origin along its line."""
    (x, y), (from_x, from_y) = letter.along, letter.origin
    corners = ((cx, cy) for cx in (letter.left, letter.right) for cy in (letter.bottom, letter.top))
    return max(x * (cx - from_x) + y * (cy - from_y) for cx, cy in corners)


def overlaps(runs: Sequence[Run]) -> Iterator[tuple[str, str]]:
    """The words of every two runs whose ink lies over each other by more than a touch."""
    for one, other in combinations(runs, 2):
        left, bottom, right, top = one.box
        other_left, other_bottom, other_right, other_top = other.box
        wide = min(right, other_right) - max(left, other_left)
        high = min(top, other_top) - max(bottom, other_bottom)
        if wide > _TOUCH and high > _TOUCH:
            yield one.text, other.text
