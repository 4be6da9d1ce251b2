"""A finished PDF read back with pypdfium2: every letter with its box and size, every straight stroke.

Coordinates are points from the page's top left corner, y down.
"""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot

import pypdfium2 as pdfium
import pypdfium2.raw as raw

NUMERATORS = "⁰¹²³⁴⁵⁶⁷⁸⁹"
DENOMINATORS = "₀₁₂₃₄₅₆₇₈₉"


@dataclass(frozen=True)
class Box:
    """An upright box."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    def overlaps(self, other: Box, by: float = 0.0) -> bool:
        """Whether both share more than `by` points in each direction."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > by
            and min(self.bottom, other.bottom) - max(self.top, other.top) > by
        )

    def joined(self, other: Box) -> Box:
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


@dataclass(frozen=True)
class Letter:
    """A printed letter: the box of its ink, its size in points as it stands on the page, its colour."""

    text: str
    box: Box
    size: float
    angle: float
    colour: tuple[int, int, int]


@dataclass(frozen=True)
class Word:
    """Letters that stand on one line without a space between them."""

    text: str
    box: Box
    size: float
    angle: float
    colour: tuple[int, int, int]


@dataclass(frozen=True)
class Stroke:
    """A straight stroke of a path: its ends, its width and its colour."""

    start: tuple[float, float]
    end: tuple[float, float]
    width: float
    colour: tuple[int, int, int]


@dataclass(frozen=True)
class Page:
    """What stands on one page."""

    number: int
    width: float
    height: float
    letters: tuple[Letter, ...]
    strokes: tuple[Stroke, ...]

    @property
    def text(self) -> str:
        return "".join(letter.text for letter in self.letters)

    @property
    def words(self) -> tuple[Word, ...]:
        return tuple(_words(self.letters))


def read_pages(data: bytes) -> tuple[Page, ...]:
    """Every page of a PDF."""
    document = pdfium.PdfDocument(data)
    try:
        return tuple(_read(document[at], at + 1) for at in range(len(document)))
    finally:
        document.close()


def _read(page: pdfium.PdfPage, number: int) -> Page:
    width, height = page.get_size()
    return Page(number, width, height, tuple(_letters(page, height)), tuple(_strokes(page, height)))


def _letters(page: pdfium.PdfPage, height: float) -> Iterator[Letter]:
    text = page.get_textpage()
    for at in range(text.count_chars()):
        code = raw.FPDFText_GetUnicode(text, at)
        left, right, bottom, top = (ctypes.c_double() for _ in range(4))
        raw.FPDFText_GetCharBox(text, at, left, right, bottom, top)
        matrix = raw.FS_MATRIX()
        raw.FPDFText_GetMatrix(text, at, matrix)
        red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
        raw.FPDFText_GetFillColor(text, at, red, green, blue, alpha)
        yield Letter(
            chr(code),
            Box(left.value, height - top.value, right.value, height - bottom.value),
            raw.FPDFText_GetFontSize(text, at) * hypot(matrix.a, matrix.b),
            round(raw.FPDFText_GetCharAngle(text, at), 3),
            (red.value, green.value, blue.value),
        )
    text.close()


def _words(letters: tuple[Letter, ...]) -> Iterator[Word]:
    held: list[Letter] = []
    for letter in letters:
        if letter.text.isspace() or letter.text == "\ufffe":
            if held:
                yield _word(held)
            held = []
            continue
        if held and not _follows(held[-1], letter):
            yield _word(held)
            held = []
        held.append(letter)
    if held:
        yield _word(held)


def _follows(before: Letter, letter: Letter) -> bool:
    if (before.angle, before.colour) != (letter.angle, letter.colour) or abs(before.size - letter.size) > 0.1:
        return False
    gap = letter.box.left - before.box.right
    if before.angle:
        return abs(letter.box.left - before.box.left) < before.size
    return -0.6 * before.size < gap < 0.6 * before.size


def _word(letters: list[Letter]) -> Word:
    box = letters[0].box
    for letter in letters[1:]:
        box = box.joined(letter.box)
    first = letters[0]
    return Word("".join(letter.text for letter in letters), box, first.size, first.angle, first.colour)


def _strokes(page: pdfium.PdfPage, height: float) -> Iterator[Stroke]:
    for item in page.get_objects(max_depth=8):
        if item.type != raw.FPDF_PAGEOBJ_PATH:
            continue
        mode, stroked = ctypes.c_int(), ctypes.c_int()
        raw.FPDFPath_GetDrawMode(item, mode, stroked)
        if stroked.value:
            yield from _path_strokes(item, height)


def _path_strokes(item: pdfium.PdfObject, height: float) -> Iterator[Stroke]:
    width = ctypes.c_float()
    raw.FPDFPageObj_GetStrokeWidth(item, width)
    red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
    raw.FPDFPageObj_GetStrokeColor(item, red, green, blue, alpha)
    matrix = item.get_matrix()
    scale = hypot(matrix.a, matrix.b)
    at: tuple[float, float] | None = None
    for number in range(raw.FPDFPath_CountSegments(item)):
        segment = raw.FPDFPath_GetPathSegment(item, number)
        x, y = ctypes.c_float(), ctypes.c_float()
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        px, py = matrix.on_point(x.value, y.value)
        point = (px, height - py)
        if raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_LINETO and at is not None:
            yield Stroke(at, point, width.value * scale, (red.value, green.value, blue.value))
        at = point
