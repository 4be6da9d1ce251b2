"""The last pages: room to write, a page to keep the booklet by, the back cover."""

from __future__ import annotations

from booklet.content.blocks import (
    Arrangement,
    Paragraph,
    Picture,
    Section,
    SpineEdge,
    Tone,
    WritingLines,
)
from booklet.content.figures import PaperStrips, PrintFrame
from booklet.content.front.welcome import print_check_blocks
from booklet.content.names import kit_name, month_name
from booklet.content.spans import Extent, Own, line
from booklet.content.words.language import Language
from booklet.kit.kit import Kit
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, convert

# A small print as it is sold, or what is cut from one: a page of the booklet holds it.
_INCH_SNAPSHOT = Size(Fraction(4), Fraction(3))
_METRIC_SNAPSHOT = Size(Fraction(100), Fraction(75))
# Lines for a pen: fewer for notes are no page of notes, and a name and a date take two.
_NOTES, _NAMES = 8, 2


def notes_section(language: Language) -> Section:
    """Room to write."""
    words = language.closing
    return Section(
        "notes",
        words.notes,
        (WritingLines((), least=_NOTES),),
        Arrangement.COMPACT,
        kicker=words.to_write_in,
    )


def keepsake_section(kit: Kit, language: Language) -> Section:
    """Room for a snapshot of the finished album: what makes the booklets of the months a set."""
    words = language.closing
    size = Extent(_snapshot(kit.unit), kit.unit, ("unit",), with_unit=True)
    blocks = (
        Picture(PrintFrame(size), words.frame(size)),
        WritingLines(words.made_by, least=_NAMES),
    )
    return Section(
        "keepsake",
        words.keepsake,
        blocks,
        Arrangement.LAST,
        kicker=words.to_keep,
        lead=words.keepsake_lead,
    )


def _snapshot(unit: Unit) -> Size:
    if unit is Unit.INCH:
        return _INCH_SNAPSHOT
    width, height = _METRIC_SNAPSHOT.width, _METRIC_SNAPSHOT.height
    return Size(convert(width, Unit.MILLIMETRE, unit), convert(height, Unit.MILLIMETRE, unit))


def back_cover_section(kit: Kit, language: Language) -> Section:
    """Whose kit it was, its papers, and how to print a page again or the whole booklet at home."""
    words, month = language.closing, month_name(kit)
    publisher = Own(kit.publisher, ("publisher",))
    blocks = (
        Picture(PaperStrips(), words.strips),
        Paragraph(words.page_lost),
        Paragraph(words.whole_booklet(kit.page)),
        *print_check_blocks(kit.unit, language),
        Paragraph(words.typefaces, Tone.NOTE),
    )
    return Section(
        "back",
        line(kit_name(kit)),
        blocks,
        Arrangement.BACK_COVER,
        kicker=language.front.made_by(publisher, month),
        edge=SpineEdge(language.front.title_and_month(kit_name(kit), month)) if month else None,
        part=words.back_part,
    )
