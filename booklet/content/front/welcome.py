"""The page inside the front cover: a welcome, the way, what stands where, and a bar to check the print by."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.blocks import (
    Arrangement,
    Block,
    Contents,
    ContentsEntry,
    Heading,
    ItemList,
    Marker,
    Paragraph,
    Picture,
    Section,
    Tone,
)
from booklet.content.figures import PrintCheck
from booklet.content.names import kit_name
from booklet.content.spans import Length, Own, Role, line
from booklet.content.words.language import Language
from booklet.drawing.marks.print_check import check_length
from booklet.kit.kit import Kit
from booklet.measure.length import Unit


def welcome_section(
    kit: Kit, is_piled: bool, contents: Sequence[tuple[ContentsEntry, ...]], language: Language
) -> Section:
    """The welcome.  With contents, in a list or two side by side, it has the bar, which else the back has."""
    words = language.front
    welcome = line(Own(kit.welcome, ("welcome",))) if kit.welcome else words.usual_welcome
    has_cuts = any(sheet.cuts != () for sheet in kit.sheets)
    blocks: list[Block] = [
        Paragraph(welcome),
        ItemList(words.way(has_cuts, is_piled), Marker.NUMBER),
    ]
    if any(contents):
        blocks += [*_contents(contents, language), *print_check_blocks(kit.unit, language)]
    return Section(
        "welcome",
        words.welcome,
        tuple(blocks),
        Arrangement.FLOW,
        kicker=line(kit_name(kit)),
        part=words.welcome,
    )


def _contents(lists: Sequence[tuple[ContentsEntry, ...]], language: Language) -> tuple[Block, ...]:
    return (Heading(language.front.contents), Contents(tuple(entries for entries in lists if entries)))


def print_check_blocks(unit: Unit, language: Language) -> tuple[Block, ...]:
    """The bar that shows whether the page was printed at its size, and what to do if it was not."""
    length = Length(check_length(unit), unit, Role.LENGTH, ("unit",), with_unit=True)
    return (
        Paragraph(language.front.true_size(length), Tone.NOTE),
        Picture(PrintCheck(), language.front.bar(length)),
    )
