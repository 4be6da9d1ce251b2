"""A page read by MuPDF, which shares no code with pypdfium2: its words, its signs, its straight strokes.

Coordinates are points from the page's top left corner, y down.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pymupdf

from booklet.proof.printed import Box, Point


@dataclass(frozen=True)
class Sign:
    """A printed letter or figure: its box is as wide as its advance, as high as its ink."""

    text: str
    box: Box


@dataclass(frozen=True)
class Line:
    """A straight stroke, from its end that is farther left or up: its width, and whether it is dashed."""

    start: Point
    end: Point
    width: float
    is_dashed: bool


@dataclass(frozen=True)
class SecondReading:
    """What stands on a page: words as MuPDF parts them, all signs, all straight strokes."""

    words: tuple[str, ...]
    signs: tuple[Sign, ...]
    lines: tuple[Line, ...]


def read_second(file: bytes, number: int) -> SecondReading:
    """The page of this number, from 1."""
    open_document: Any = pymupdf.open
    with open_document(stream=file, filetype="pdf") as document:
        page = document[number - 1]
        words = tuple(word[4] for word in page.get_text("words"))
        return SecondReading(words, tuple(_signs(page)), tuple(_lines(page)))


def _signs(page: Any) -> Iterator[Sign]:
    blocks = page.get_text("rawdict", flags=pymupdf.TEXT_ACCURATE_BBOXES)["blocks"]
    lines = (line for block in blocks if block["type"] == 0 for line in block["lines"])
    for sign in (sign for line in lines for span in line["spans"] for sign in span["chars"]):
        if not sign["c"].isspace():
            yield Sign(sign["c"], Box(*sign["bbox"]))


def _lines(page: Any) -> Iterator[Line]:
    for path in page.get_drawings():
        if "s" not in path["type"]:
            continue
        for start, end in (ends for item in path["items"] for ends in _ends(item)):
            first, last = sorted((start, end))
            yield Line(first, last, path["width"], path["dashes"] != "[] 0")


def _ends(item: Any) -> Iterator[tuple[Point, Point]]:
    match item:
        case ("l", start, end):
            yield tuple(start), tuple(end)
        case ("re", box, _):
            yield from _sides([box.top_left, box.top_right, box.bottom_right, box.bottom_left])
        case ("qu", box):
            yield from _sides([box.ul, box.ur, box.lr, box.ll])


def _sides(corners: list[Any]) -> Iterator[tuple[Point, Point]]:
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield tuple(start), tuple(end)
