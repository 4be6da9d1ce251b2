"""A small press file: words, marks among them, a table, papers at the edge, a picture, lines and letters."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from io import BytesIO

import numpy as np
from PIL import Image as Pixels

from booklet.binding.binding import Binding, Folded
from booklet.binding.condition import Condition, PressInks
from booklet.binding.creep import Creep
from booklet.binding.pictures import make_coarser
from booklet.binding.press_file import PressStyle, page_sides, press_file, sheet_sides
from booklet.binding.press_marks import slug_place
from booklet.binding.sides import ImposedSide
from booklet.binding.stock import HALF_LETTER, TABLOID
from booklet.binding.write import opened_pages
from booklet.content.artist import Room
from booklet.content.blocks import Arrangement, Column, PaperEdge, PocketEdge, Row, SpineEdge, Table
from booklet.content.figures import FigureRequest, PaperBand, PocketFigure
from booklet.content.spans import CutRef, StepRef, line, strong
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import (
    BLACK,
    WHITE,
    Circle,
    Colour,
    Figure,
    Fill,
    Image,
    Line,
    Rect,
    Shape,
    Stroke,
    Text,
    image_from_bytes,
)
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.writers.process_inks import InkLimit, ProcessInks
from booklet.kit.kit import PageFormat
from booklet.pages.booklet import LaidBooklet, lay_out
from booklet.pages.press import SLUG_HEIGHT, Slug, write_press_pages, write_slugs
from tests.pages.documents import ACCENT, PALETTE, document, measured, picture, section, text, words

BLEED = Fraction(9)
LIMIT = Fraction(300)
INKS = ProcessInks(InkLimit(LIMIT))


def photograph(wide: int = 400, high: int = 200) -> bytes:
    """A picture of many colours, dark ones too, half of it seen through."""
    across, down = np.linspace(0, 255, wide), np.linspace(0, 255, high)
    red, green = np.meshgrid(across, down)
    whole = np.stack([red, green, 255 - red, np.where(green > 128, 255, 90)], axis=2)
    out = BytesIO()
    Pixels.fromarray(whole.astype(np.uint8), "RGBA").save(out, "PNG")
    return out.getvalue()


_PHOTOGRAPH = image_from_bytes(photograph())


def inked(request: FigureRequest, room: Room) -> Figure:
    """A dark ground with a picture, a black and a coloured line, a black disc, dark and white letters."""
    high = room.height or 120.0
    width, height = room.width, high if isinstance(request, PaperBand) else min(high, 120.0)
    if isinstance(request, PocketFigure):
        width, height = 24.0, 20.0
    middle = (width / 2, height / 2)
    shapes: tuple[Shape, ...] = (
        Rect(0.0, 0.0, width, height, Fill(Colour("#2f1d50"))),
        Image(_PHOTOGRAPH, Box(width * 0.1, height * 0.1, width * 0.9, height * 0.5)),
        Line((0.0, 2.0), (width, 2.0), Stroke(BLACK, 0.5)),
        Line((0.0, 4.0), (width, 4.0), Stroke(Colour("#8a8a8a"), 0.5)),
        Circle(*middle, min(width, height) / 8, Fill(BLACK)),
        Text("dark", 1.0, height * 0.8, 9.0, Font.SANS, ACCENT),
        Text("white", 1.0, height * 0.95, 9.0, Font.SANS_BOLD, WHITE),
    )
    return Figure(type(request).__name__, width, height, shapes)


@cache
def small_booklet() -> LaidBooklet:
    """Four pages: a cover, a sheet with its paper at the edge, a layout in a pocket, a cover."""
    table = Table(
        (Column(line("Place")), Column(line("Size"), share=1.0)),
        (Row((line("left"), line("3 x 4"))), Row((line(strong("right")), line("5 x 7")))),
    )
    sheet = section(
        "sheet",
        text("Set it to ", CutRef("fern", 1), " and go on with ", StepRef("window", 2)),
        picture(PocketFigure("1")),
        words(2),
        number="1",
        edge=PaperEdge(0, "1"),
        arrangement=Arrangement.OPENING,
    )
    layout = section("layout", table, words(30), edge=PocketEdge("4", 0, 2))
    back = section(
        "back", text("Printed."), arrangement=Arrangement.BACK_COVER, edge=SpineEdge(line("Low Tide"))
    )
    cover = section("cover", text("Low Tide"), arrangement=Arrangement.FRONT_COVER)
    made = document(cover, sheet, layout, back=back)
    return lay_out(made, PageFormat.HALF_LETTER, PALETTE, inked, measured)


def binding(caliper: Fraction | None = None, sheets_in_signature: int | None = None) -> Binding:
    """Half letter pages on Tabloid."""
    creep = Creep(caliper) if caliper is not None else None
    return Binding(HALF_LETTER, TABLOID, Folded(sheets_in_signature, creep, Fraction(36)), bleed=BLEED)


def file_of(booklet: LaidBooklet, sides: tuple[ImposedSide, ...], bound: Binding, slug: str) -> bytes:
    """A press file of these sides."""
    style = PressStyle(bound, PressInks(Condition.CRPC6, LIMIT), "offset", "Low Tide", "")
    rooms = [float(slug_place(side, Fraction(SLUG_HEIGHT)).room) for side in sides]
    lines = [Slug(slug, f"  ·  {at}", room) for at, room in enumerate(rooms)]
    with opened_pages(write_press_pages(booklet, INKS, bound.bleed)) as source:
        make_coarser(source)
        return press_file(source, sides, write_slugs(lines, INKS, "en"), style)


@cache
def small_pages() -> bytes:
    """The small booklet as single pages."""
    booklet = small_booklet()
    return file_of(booklet, page_sides(len(booklet.pages), binding()), binding(), "Low Tide")


@cache
def small_sheets() -> bytes:
    """The small booklet on press sheets."""
    booklet = small_booklet()
    return file_of(booklet, sheet_sides(len(booklet.pages), binding()), binding(), "Low Tide")
