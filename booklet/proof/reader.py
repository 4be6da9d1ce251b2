"""A finished PDF read back with pypdfium2: every letter, path and form of its pages.

Nothing is known of the writer: what a page means is found from where ink lies.
"""

from __future__ import annotations

import ctypes
from collections.abc import Iterable, Iterator
from functools import reduce
from typing import Any

import pypdfium2 as pdfium
import pypdfium2.raw as raw

from booklet.proof.page_objects import (
    SIMPLE,
    Matrix,
    address_of,
    bounds,
    box_of,
    clipped,
    clips_of,
    height_scale,
    items_of,
    least_scale,
    mapped,
    matrix_of,
    parts_of,
    then,
)
from booklet.proof.printed import (
    Box,
    Colour,
    Form,
    Letter,
    Outline,
    Page,
    Path,
    Point,
    along_curve,
    box_about,
)

__all__ = ["Page", "read_artwork", "read_metadata", "read_page", "read_pages"]


def read_pages(data: bytes) -> tuple[Page, ...]:
    """Every page of a PDF; one that cannot be opened bears nothing and has no size."""
    document = pdfium.PdfDocument(data)
    try:
        return tuple(read_page(opened_page(document, at), at + 1) for at in range(len(document)))
    finally:
        document.close()


def read_metadata(data: bytes, key: str) -> str:
    """What the metadata of a PDF says by a key (`Title`, `Keywords`); empty where it says nothing."""
    document = pdfium.PdfDocument(data)
    try:
        return str(document.get_metadata_value(key))
    finally:
        document.close()


def read_artwork(data: bytes, number: int) -> tuple[Path, ...]:
    """The filled paths in the forms of a page (from 1), however deep, that lie in what shows of their form.

    Print that belongs to a paper lies there: pictures, and words as outlines.
    """
    document = pdfium.PdfDocument(data)
    try:
        page = document[number - 1]
        height = page.get_height()
        flip = (1.0, 0.0, 0.0, -1.0, 0.0, height)
        found: list[Path] = []
        for order, item in enumerate(items_of(page)):
            if raw.FPDFPageObj_GetType(item) == raw.FPDF_PAGEOBJ_FORM:
                found += _within(item, flip, order, _shown(item, flip))
        return tuple(found)
    finally:
        document.close()


def opened_page(document: pdfium.PdfDocument, at: int) -> pdfium.PdfPage | None:
    """A page of an open PDF, from 0; None for one that cannot be opened."""
    try:
        return document[at]
    except pdfium.PdfiumError:
        return None


def read_page(page: pdfium.PdfPage | None, number: int) -> Page:
    """A page of an open PDF, its number counts from 1; where there is none, one that bears nothing."""
    if page is None:
        return Page(number, 0.0, 0.0, (), (), ())
    width, height = page.get_size()
    orders: dict[int, int] = {}
    paths: list[Path] = []
    forms: list[Form] = []
    flip = (1.0, 0.0, 0.0, -1.0, 0.0, height)
    for order, (item, outer) in enumerate(_painted(items_of(page), flip)):
        kind = raw.FPDFPageObj_GetType(item)
        if kind == raw.FPDF_PAGEOBJ_TEXT:
            orders[address_of(item)] = order
        elif kind == raw.FPDF_PAGEOBJ_PATH:
            paths.append(_path(item, outer, order))
        elif kind in (raw.FPDF_PAGEOBJ_FORM, raw.FPDF_PAGEOBJ_IMAGE, raw.FPDF_PAGEOBJ_SHADING):
            forms.append(Form(order, _shown(item, outer), tuple(_within_outlines(item, outer))))
    letters = tuple(_letters(page, height, orders))
    seen = tuple(path for path in paths if path.outlines and (path.box.width > 0 or path.box.height > 0))
    return Page(number, width, height, letters, seen, tuple(forms))


def _painted(items: Iterable[Any], outer: Matrix) -> Iterator[tuple[Any, Matrix]]:
    """Items in the order of painting, each with the map from where it lies to the page.

    A form that bears text is a page that was placed on a larger one: its parts are what is painted.
    """
    for item in items:
        parts = list(parts_of(item))
        if any(raw.FPDFPageObj_GetType(part) == raw.FPDF_PAGEOBJ_TEXT for part in parts):
            yield from _painted(parts, then(matrix_of(item), outer))
        else:
            yield item, outer


# Letters.


def _letters(page: pdfium.PdfPage, height: float, orders: dict[int, int]) -> Iterator[Letter]:
    opened = page.get_textpage()
    text = opened.raw  # asked for once, not for each letter
    left, right, bottom, top, x, y = (ctypes.c_double() for _ in range(6))
    matrix = raw.FS_MATRIX()
    red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
    held: tuple[int, Any] = (0, None)
    for at in range(opened.count_chars()):
        item = address_of(raw.FPDFText_GetTextObject(text, at))
        if item != held[0] or not item:
            raw.FPDFText_GetMatrix(text, at, matrix)
            raw.FPDFText_GetFillColor(text, at, red, green, blue, alpha)
            held = (
                item,
                (
                    raw.FPDFText_GetFontSize(text, at)
                    * height_scale((matrix.a, matrix.b, matrix.c, matrix.d, 0.0, 0.0)),
                    round(raw.FPDFText_GetCharAngle(text, at), 3),
                    (red.value, green.value, blue.value),
                    orders.get(item, -1),
                    _font_name(text, at),
                ),
            )
        size, angle, colour, order, font = held[1]
        raw.FPDFText_GetCharBox(text, at, left, right, bottom, top)
        raw.FPDFText_GetCharOrigin(text, at, x, y)
        box = Box(left.value, height - top.value, right.value, height - bottom.value)
        letter = chr(raw.FPDFText_GetUnicode(text, at))
        yield Letter(letter, box, size, angle, colour, height - y.value, order, font)
    opened.close()


def _font_name(text: Any, at: int) -> str:
    name = ctypes.create_string_buffer(128)
    flags = ctypes.c_int()
    raw.FPDFText_GetFontInfo(text, at, name, 128, flags)
    return name.value.decode("utf-8", "replace").rpartition("+")[2]


# Paths and forms.


def _path(item: Any, outer: Matrix, order: int) -> Path:
    mode, stroked = ctypes.c_int(), ctypes.c_int()
    raw.FPDFPath_GetDrawMode(item, mode, stroked)
    matrix = then(matrix_of(item), outer)
    outlines, curves, lines = _outlines(_segments(item), matrix)
    clips = tuple(clips_of(item, outer))
    width = ctypes.c_float()
    raw.FPDFPageObj_GetStrokeWidth(item, width)
    return Path(
        order,
        outlines,
        reduce(Box.common, map(box_about, clips), bounds(outlines)),
        _colour(raw.FPDFPageObj_GetFillColor, item) if mode.value else None,
        _colour(raw.FPDFPageObj_GetStrokeColor, item) if stroked.value else None,
        width.value * least_scale(matrix),
        bool(stroked.value) and raw.FPDFPageObj_GetDashCount(item) > 0,
        curves,
        lines,
        clips,
    )


def _colour(ask: Any, item: Any) -> Colour:
    red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
    ask(item, red, green, blue, alpha)
    return red.value, green.value, blue.value


def _segments(item: Any) -> Iterator[tuple[int, Point, bool]]:
    x, y = ctypes.c_float(), ctypes.c_float()
    for number in range(raw.FPDFPath_CountSegments(item)):
        segment = raw.FPDFPath_GetPathSegment(item, number)
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        kind = raw.FPDFPathSegment_GetType(segment)
        yield kind, (x.value, y.value), bool(raw.FPDFPathSegment_GetClose(segment))


def _outlines(
    segments: Iterator[tuple[int, Point, bool]], matrix: Matrix
) -> tuple[tuple[tuple[Point, ...], ...], int, int]:
    outlines: list[list[Point]] = []
    pulls: list[Point] = []
    curves = lines = 0
    for kind, at, closes in segments:
        point = mapped(matrix, at)
        if kind == raw.FPDF_SEGMENT_MOVETO or not outlines:
            outlines.append([point])
        elif kind == raw.FPDF_SEGMENT_LINETO:
            outlines[-1].append(point)
            lines += 1
        else:
            pulls.append(point)
            if len(pulls) == 3:
                outlines[-1] += along_curve(outlines[-1][-1], *pulls)
                pulls = []
                curves += 1
        if closes and outlines[-1][0] != outlines[-1][-1]:
            outlines[-1].append(outlines[-1][0])
    return tuple(tuple(outline) for outline in outlines if len(outline) > 1), curves, lines


def _shown(item: Any, outer: Matrix) -> Box:
    """The box of what shows of a form or a picture: its own, cut to its clip and to its frame."""
    box, inner = clipped(item, box_of(item, outer), outer), then(matrix_of(item), outer)
    # A part tells the clips that cut something off it, the form's frame among them.
    parts = [clipped(part, box_of(part, inner), inner) for part in parts_of(item)]
    return box.common(reduce(Box.joined, parts)) if parts else box


def _within_outlines(form: Any, outer: Matrix) -> Iterator[Outline]:
    """The outlines to which a form and each of its parts are cut, and those of its simple parts.

    A part that is a form and cut to nothing is told by the box about it.
    """
    yield from clips_of(form, outer)
    matrix = then(matrix_of(form), outer)
    for item in parts_of(form):
        clips, kind = clips_of(item, matrix), raw.FPDFPageObj_GetType(item)
        yield from clips
        if kind == raw.FPDF_PAGEOBJ_PATH:
            if raw.FPDFPath_CountSegments(item) <= SIMPLE:
                yield from _outlines(_segments(item), then(matrix_of(item), matrix))[0]
        elif not clips:
            box = box_of(item, matrix)
            yield (box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)


def _within(form: Any, outer: Matrix, order: int, window: Box) -> Iterator[Path]:
    matrix = then(matrix_of(form), outer)
    for item in parts_of(form):
        kind = raw.FPDFPageObj_GetType(item)
        seen = clipped(item, box_of(item, matrix).common(window), matrix)
        if kind not in (raw.FPDF_PAGEOBJ_FORM, raw.FPDF_PAGEOBJ_PATH) or seen.width * seen.height == 0:
            continue
        if kind == raw.FPDF_PAGEOBJ_FORM:
            yield from _within(item, matrix, order, seen)
        else:
            path = _path(item, matrix, order)
            if path.fill is not None and path.outlines:
                yield path
