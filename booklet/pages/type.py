"""The type of a booklet: one family for text, one for titles, black on white."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_CENTER, TA_LEFT, TA_RIGHT
from reportlab.lib.fonts import addMapping
from reportlab.lib.styles import ParagraphStyle

from booklet.content.blocks import Align
from booklet.drawing.shapes.figure import Colour
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.style import Palette
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class TypeSizes:
    """Font sizes and leadings in points.  Nothing that is read is set under 9 pt."""

    body: float = 10.4
    leading: float = 13.6
    small: float = 9.2
    small_leading: float = 11.8
    table: float = 9.7
    table_leading: float = 11.9
    reading: float = 13.4
    heading: float = 11.8
    step: float = 10.0
    step_leading: float = 11.65
    number_leading: float = 12.2
    title: float = 24.0
    number: float = 34.0
    display: float = 40.0
    folio: float = 9.4


@dataclass(frozen=True)
class Styles:
    """Every paragraph style that a page may use."""

    body: ParagraphStyle
    lead: ParagraphStyle
    tip: ParagraphStyle
    small: ParagraphStyle
    cell: ParagraphStyle
    cell_strong: ParagraphStyle
    cells: Mapping[tuple[Align, bool], ParagraphStyle]
    group: ParagraphStyle
    reading: ParagraphStyle
    step: ParagraphStyle
    step_number: ParagraphStyle
    heading: ParagraphStyle
    kicker: ParagraphStyle
    signal: ParagraphStyle
    signal_on_ink: ParagraphStyle
    titles: tuple[ParagraphStyle, ...]
    displays: tuple[ParagraphStyle, ...]


_SIDES = {Align.START: TA_LEFT, Align.CENTRE: TA_CENTER, Align.END: TA_RIGHT}
# Titles are set in the first of these shares of their size in which they take two lines at most.
_SHRUNK = (1.0, 0.85, 0.7, 0.56)


def make_styles(palette: Palette, sizes: TypeSizes, language: str) -> Styles:
    """The styles for a palette, a set of sizes, and the language by which words are hyphenated."""
    sans, bold, italic, serif = map(
        pdf_font_name, (Font.SANS, Font.SANS_BOLD, Font.SANS_ITALIC, Font.SERIF_BOLD)
    )
    ink, accent, paper = (hex_colour(c) for c in (palette.ink, palette.accent, palette.paper))
    for name in (sans, bold, italic, serif):
        # Each face stands for itself: bold words are named by their own face.
        addMapping(name, 0, 0, name)

    def style(name: str, font: str, size: float, leading: float, **more: Any) -> ParagraphStyle:
        options = {
            "textColor": ink,
            "strongFont": bold,
            "quietFont": italic,
            "language": language,
            "palette": palette,
            "splitLongWords": 1,
            "embeddedHyphenation": 1,
            "allowWidows": 0,
            "allowOrphans": 0,
            # Words keep their distance, and no line is longer than its room (reportlab's default: 0.05).
            "spaceShrinkage": 0,
            **more,
        }
        return ParagraphStyle(name, fontName=font, fontSize=size, leading=leading, **options)

    def scaled(name: str, size: float, leading: float) -> tuple[ParagraphStyle, ...]:
        return tuple(style(f"{name} {share}", serif, size * share, leading * share) for share in _SHRUNK)

    body, small = (sizes.body, sizes.leading), (sizes.small, sizes.small_leading)
    table = (sizes.table, sizes.table_leading)
    return Styles(
        body=style("body", sans, *body),
        lead=style("lead", sans, sizes.body, sizes.leading * 0.96),
        tip=style("tip", italic, *body),
        small=style("small", sans, *small),
        cell=style("cell", sans, *table),
        cell_strong=style("cell strong", bold, *table),
        cells={
            (align, is_strong): style(f"cell {align} {is_strong}", face, *table, alignment=side)
            for align, side in _SIDES.items()
            for is_strong, face in ((False, sans), (True, bold))
        },
        group=style("group", bold, sizes.body, sizes.leading),
        step=style("step", sans, sizes.step, sizes.step_leading),
        # Steps of one line keep their discs apart.
        step_number=style("numeral", sans, sizes.step, sizes.number_leading),
        reading=style("reading", bold, sizes.reading, sizes.reading * 1.12),
        heading=style("heading", bold, sizes.heading, sizes.heading * 1.25),
        kicker=style("kicker", bold, sizes.body, sizes.leading, textColor=accent),
        signal=style("signal", bold, sizes.body, sizes.leading),
        signal_on_ink=style("signal on ink", bold, sizes.body, sizes.leading, textColor=paper),
        titles=scaled("title", sizes.title, sizes.title * 1.14),
        displays=scaled("display", sizes.display, sizes.display * 1.08),
    )


def hex_colour(colour: Colour) -> HexColor:
    """A colour as reportlab takes it."""
    return HexColor(colour.hex)
