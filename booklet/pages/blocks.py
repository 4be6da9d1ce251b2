"""Blocks of words as flowables: headings, paragraphs, lists, cautions, lines to write on, the contents.

Each function takes the width of the column that the block stands in, in points.
"""

from __future__ import annotations

from reportlab.platypus import Flowable

from booklet.content.blocks import (
    Contents,
    ContentsEntry,
    Heading,
    ItemList,
    Marker,
    Paragraph,
    Tone,
    WritingLines,
)
from booklet.content.spans import Line, Words
from booklet.pages.boxes import (
    BETWEEN_BLOCKS,
    LeadingRow,
    PageNumber,
    PenLines,
    Rule,
    SideBySide,
    TickBox,
    spaced,
)
from booklet.pages.setup import PageSetup
from booklet.pages.text import paragraph

_HEADING_BEFORE, _HEADING_AFTER = 12.0, 3.5
_BETWEEN_ITEMS = 4.0
_MARKER_WIDTH = 17.0
_CONTENTS_GUTTER, _NUMBER_WIDTH = 22.0, 22.0


def heading(setup: PageSetup, block: Heading, width: float) -> list[Flowable]:  # noqa: ARG001
    """A heading, kept with what it is about."""
    said = paragraph(block.text, setup.styles.heading)
    said.keepWithNext = True
    said.anchor = block.anchor
    return [spaced(said, _HEADING_BEFORE, _HEADING_AFTER)]


def text_paragraph(setup: PageSetup, block: Paragraph, width: float) -> list[Flowable]:  # noqa: ARG001
    """A paragraph as its tone wants it."""
    styles = setup.styles
    style = {
        Tone.BODY: styles.body,
        Tone.TIP: styles.tip,
        Tone.NOTE: styles.small,
    }[block.tone]
    return [spaced(paragraph(block.text, style), 0.0, BETWEEN_BLOCKS)]


def item_list(setup: PageSetup, block: ItemList, width: float) -> list[Flowable]:
    """Items under one another, each beside its marker."""
    last = len(block.items) - 1
    return [
        spaced(
            _item(setup, item, at + 1, block.marker, width),
            0.0,
            BETWEEN_BLOCKS if at == last else _BETWEEN_ITEMS,
        )
        for at, item in enumerate(block.items)
    ]


def _item(setup: PageSetup, item: Line, number: int, marker: Marker, width: float) -> Flowable:
    said = paragraph(item, setup.styles.body)
    mark: Flowable
    match marker:
        case Marker.NONE:
            return said
        case Marker.TICK:
            mark = TickBox(setup.palette.ink, setup.styles.body)
        case Marker.NUMBER:
            mark = paragraph((Words(str(number)),), setup.styles.kicker)
    return SideBySide([([mark], _MARKER_WIDTH), ([said], width - _MARKER_WIDTH)], 0.0)


def writing_lines(setup: PageSetup, block: WritingLines, width: float) -> list[Flowable]:
    """A title, what is said of it, and lines for a pen, kept together; under heads they are a table."""
    story: list[Flowable] = [
        *(heading(setup, Heading(block.title), width) if block.title else []),
        *([spaced(paragraph(block.text, setup.styles.body), 0.0, 2.0)] if block.text else []),
    ]
    shares = (1 / len(block.heads),) * len(block.heads) if block.heads else (1.0,)
    if block.heads:
        heads = [
            ([paragraph(head, setup.styles.cell_strong)], share * width)
            for head, share in zip(block.heads, shares, strict=True)
        ]
        story += [SideBySide(heads, 0.0), Rule(setup.palette.accent, 0.9, 2.0, 0.0)]
    lines = PenLines(block.least, setup.palette.rule, shares)
    for above in story:
        above.keepWithNext = True
    return [*story, spaced(lines, 0.0, BETWEEN_BLOCKS)]


# The contents.


def contents(setup: PageSetup, block: Contents, width: float) -> list[Flowable]:
    """Lists side by side, each line with the number of its page."""
    count = len(block.lists)
    column = (width - _CONTENTS_GUTTER * (count - 1)) / max(count, 1)
    lists = [(_entries(setup, entries, column), column) for entries in block.lists]
    return [spaced(SideBySide(lists, _CONTENTS_GUTTER), 0.0, BETWEEN_BLOCKS)] if lists else []


def _entries(setup: PageSetup, entries: tuple[ContentsEntry, ...], width: float) -> list[Flowable]:
    story: list[Flowable] = []
    for entry in entries:
        number = PageNumber(entry.anchor, setup.styles.cell_strong)
        said = paragraph(entry.text, setup.styles.cell)
        story += [
            LeadingRow(entry.anchor, [([said], width - _NUMBER_WIDTH), ([number], _NUMBER_WIDTH)], 0.0),
            Rule(setup.palette.rule, 0.4, 2.0, 3.0),
        ]
    return story
