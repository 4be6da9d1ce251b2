"""What a print shop looks at in a finished PDF: boxes, fonts, pictures, lines, however deep in forms.

pypdfium2 reads the pages; what it does not hand out, the boxes as they stand in the file among it, is read
with pikepdf.
"""

from __future__ import annotations

import ctypes
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from io import BytesIO
from math import hypot
from typing import Any

import pypdfium2 as pdfium
import pypdfium2.raw as raw

from booklet.proof.page_objects import (
    Matrix,
    address_of,
    box_of,
    clipped,
    items_of,
    least_scale,
    matrix_of,
    parts_of,
    then,
)
from booklet.proof.pictures import PagePicture, picture_of
from booklet.proof.printed import Box, Colour, Page
from booklet.proof.reader import opened_page, read_page

# The boxes of a page (ISO 32000-1, 14.11.2; from memory).
_BOXES = ("MediaBox", "CropBox", "BleedBox", "TrimBox", "ArtBox")
# Dots to a point when the grounds of letters are looked at: 216 to the inch.
_CLOSE = 3
# What a box is grown by to be seen at all, in points.
_HAIR = 0.01


@dataclass(frozen=True)
class PageBox:
    """A box of a page by its name: left, bottom, right and top in points, y up, as the file has them."""

    name: str
    sides: tuple[float, float, float, float]


@dataclass(frozen=True)
class Font:
    """A typeface of a page, whether it lies in the file, and where a letter of it stands."""

    name: str
    is_embedded: bool
    box: Box


@dataclass(frozen=True)
class Picture:
    """A picture as it lies on the page: its dots to the inch in that direction in which they are fewest."""

    dots: float
    box: Box


@dataclass(frozen=True)
class Line:
    """A stroke that is seen: its width in points on the page, where it is thinnest."""

    width: float
    box: Box


@dataclass(frozen=True)
class PageFacts:
    """What a page is made of.

    `turn` is by how many degrees it is shown turned; `transparent` is where something lets show through what
    lies below it; `unlike` is how many runs of letters are not simply filled, or let show through.
    """

    number: int
    boxes: tuple[PageBox, ...]
    turn: int
    fonts: tuple[Font, ...]
    pictures: tuple[Picture, ...]
    lines: tuple[Line, ...]
    transparent: tuple[Box, ...]
    unlike: int


@dataclass(frozen=True)
class FinishedFile:
    """A finished PDF as it was read.

    `unread` is how many things of it are painted and cannot be looked into: patterns that are tiled, and
    annotations with an appearance of their own; None where the file cannot be looked through for them.
    """

    data: bytes
    pages: tuple[Page, ...]
    facts: tuple[PageFacts, ...]
    unread: int | None


def read_file(data: bytes) -> FinishedFile:
    """Every page of a PDF with what it is made of.  Raises pypdfium2.PdfiumError for what is no PDF."""
    return _read(data, slice(None))


def read_file_page(data: bytes, number: int) -> FinishedFile:
    """One page of a PDF, by its number from 1, as the file that it is of is read."""
    return _read(data, slice(number - 1, number))


def read_file_and_pictures(data: bytes) -> tuple[FinishedFile, tuple[PagePicture, ...]]:
    """Every page of a PDF with what it is made of, and as it is seen; each page is opened once."""
    pictures: list[PagePicture] = []
    return _read(data, slice(None), lambda page: pictures.append(picture_of(page))), tuple(pictures)


def _read(
    data: bytes, places: slice, also: Callable[[pdfium.PdfPage | None], None] = lambda _: None
) -> FinishedFile:
    """The pages of a PDF at some places; `also` is given each as it is open."""
    boxes, unread = _as_written(data)
    document = pdfium.PdfDocument(data)
    try:
        pages: list[Page] = []
        facts: list[PageFacts] = []
        for at in range(len(document))[places]:
            page = opened_page(document, at)
            also(page)
            pages.append(read_page(page, at + 1))
            facts.append(_facts(page, at + 1, boxes[at] if at < len(boxes) else ()))
        return FinishedFile(data, tuple(pages), tuple(facts), unread)
    finally:
        document.close()


# What only the file itself tells.


def _as_written(data: bytes) -> tuple[list[tuple[PageBox, ...]], int | None]:
    """The boxes of each page, and how many things are painted that pypdfium2 does not look into."""
    import pikepdf

    try:
        with pikepdf.open(BytesIO(data)) as pdf:
            boxes = [_boxes(page.obj) for page in pdf.pages]
            tiled = sum(_is_tiled(item) for item in pdf.objects)
            notes = sum(_appears(note) for page in pdf.pages for note in page.obj.get("/Annots", ()))
            return boxes, tiled + notes
    except (pikepdf.PdfError, AttributeError, TypeError, ValueError):
        # A file that pypdfium2 mends may still hold a box without numbers or an annotation that is none.
        return [], None


def _boxes(page: Any) -> tuple[PageBox, ...]:
    """The boxes that a page has or takes over from the tree of pages, in points."""
    unit = float(page.get("/UserUnit", 1))
    found = []
    for name in _BOXES:
        array = _inherited(page, f"/{name}")
        if array is not None and len(array) == 4:
            one, two, three, four = (unit * float(number) for number in array)
            sides = min(one, three), min(two, four), max(one, three), max(two, four)
            found.append(PageBox(name, sides))
    return tuple(found)


def _inherited(page: Any, key: str) -> Any:
    # A tree deeper than this is a ring.
    for _ in range(100):
        if key in page:
            return page[key]
        if "/Parent" not in page:
            return None
        page = page["/Parent"]
    return None


def _is_tiled(item: Any) -> bool:
    import pikepdf

    return isinstance(item, pikepdf.Stream) and item.get("/PatternType") == 1


def _appears(note: Any) -> bool:
    return "/AP" in note


# What is painted.


@dataclass
class _Found:
    fonts: dict[int, Font] = field(default_factory=dict)
    pictures: list[Picture] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    transparent: list[Box] = field(default_factory=list)
    unlike: int = 0


def _facts(page: pdfium.PdfPage | None, number: int, boxes: tuple[PageBox, ...]) -> PageFacts:
    if page is None:
        return PageFacts(number, boxes, 0, (), (), (), (), 0)
    width, height = page.get_size()
    found = _Found()
    flip = (1.0, 0.0, 0.0, -1.0, 0.0, height)
    _look_at(items_of(page), flip, Box(0.0, 0.0, width, height), found)
    return PageFacts(
        number,
        boxes,
        page.get_rotation(),
        tuple(found.fonts.values()),
        tuple(found.pictures),
        tuple(found.lines),
        tuple(found.transparent),
        found.unlike,
    )


def _look_at(items: Iterable[Any], outer: Matrix, window: Box, found: _Found) -> None:
    """Gather what is seen of items within a window; `outer` leads from where they lie to the page."""
    for item in items:
        kind = raw.FPDFPageObj_GetType(item)
        if kind == raw.FPDF_PAGEOBJ_TEXT:
            _look_at_letters(item, outer, found)
            continue
        # A line without width has a box without height, and is seen as well.
        box = clipped(item, box_of(item, outer).grown(_HAIR).common(window), outer)
        if box.width * box.height == 0:
            continue
        if raw.FPDFPageObj_HasTransparency(item):
            found.transparent.append(box)
        if kind == raw.FPDF_PAGEOBJ_FORM:
            _look_at(parts_of(item), then(matrix_of(item), outer), box, found)
        elif kind == raw.FPDF_PAGEOBJ_IMAGE:
            found.pictures.append(Picture(_dots(item, then(matrix_of(item), outer)), box))
        elif kind == raw.FPDF_PAGEOBJ_PATH and (width := _stroke_width(item)) is not None:
            found.lines.append(Line(width * least_scale(then(matrix_of(item), outer)), box))


def _look_at_letters(item: Any, outer: Matrix, found: _Found) -> None:
    font = raw.FPDFTextObj_GetFont(item)
    if font and (key := address_of(font)) not in found.fonts:
        name = ctypes.create_string_buffer(128)
        raw.FPDFFont_GetBaseFontName(font, name, 128)
        is_embedded = raw.FPDFFont_GetIsEmbedded(font) == 1
        found.fonts[key] = Font(name.value.decode("utf-8", "replace"), is_embedded, box_of(item, outer))
    is_filled = raw.FPDFTextObj_GetTextRenderMode(item) == raw.FPDF_TEXTRENDERMODE_FILL
    if not is_filled or raw.FPDFPageObj_HasTransparency(item):
        found.unlike += 1


def _dots(item: Any, matrix: Matrix) -> float:
    """Dots to the inch: a picture fills a square of 1 in its own coordinates."""
    across, down = ctypes.c_uint(), ctypes.c_uint()
    raw.FPDFImageObj_GetImagePixelSize(item, across, down)
    width, height = hypot(matrix[0], matrix[1]), hypot(matrix[2], matrix[3])
    return min(72 * across.value / width, 72 * down.value / height) if width and height else 0.0


def _stroke_width(item: Any) -> float | None:
    mode, is_stroked, width = ctypes.c_int(), ctypes.c_int(), ctypes.c_float()
    raw.FPDFPath_GetDrawMode(item, mode, is_stroked)
    if not is_stroked.value:
        return None
    raw.FPDFPageObj_GetStrokeWidth(item, width)
    return width.value


# What lies under letters.


def colours_under(data: bytes, number: int, boxes: Sequence[Box]) -> tuple[frozenset[Colour], ...]:
    """The colours of a page (from 1) in each of some boxes, as they are printed without any letters."""
    import numpy as np

    document = pdfium.PdfDocument(data)
    try:
        page = document[number - 1]
        _hide_letters(items_of(page))
        pixels = page.render(scale=_CLOSE, rev_byteorder=True).to_numpy()[:, :, :3]
        found = []
        for box in boxes:
            left, top = max(int(box.left * _CLOSE), 0), max(int(box.top * _CLOSE), 0)
            seen = pixels[top : int(box.bottom * _CLOSE) + 1, left : int(box.right * _CLOSE) + 1]
            rows = np.unique(seen.reshape(-1, 3), axis=0).tolist()
            found.append(frozenset((red, green, blue) for red, green, blue in rows))
        return tuple(found)
    finally:
        document.close()


def _hide_letters(items: Iterable[Any]) -> None:
    for item in items:
        if raw.FPDFPageObj_GetType(item) == raw.FPDF_PAGEOBJ_TEXT:
            raw.FPDFTextObj_SetTextRenderMode(item, raw.FPDF_TEXTRENDERMODE_INVISIBLE)
        else:
            _hide_letters(parts_of(item))
