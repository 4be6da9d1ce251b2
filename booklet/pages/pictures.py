"""Pictures as flowables: alone, with blocks beside them, as cards in rows, as labels to cut out."""

from __future__ import annotations

from collections.abc import Callable

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable

from booklet.content.artist import Room
from booklet.content.blocks import Card, Cards, CardStyle, Legend, Picture
from booklet.content.spans import Words
from booklet.drawing.shapes.figure import Figure
from booklet.pages.boxes import (
    BETWEEN_BLOCKS,
    FigureBox,
    Framed,
    GrowingFigure,
    Leaders,
    PenLines,
    SideBySide,
    figure_beside,
    spaced,
)
from booklet.pages.setup import PageSetup, drawn
from booklet.pages.text import paragraph

# A picture alone takes this share of the text's height at most before it grows into what a page has to spare.
_SHARE, _LARGEST_SHARE = 0.46, 0.7
# A picture with blocks beside it takes this share of the width at most.
_BESIDE = 0.46
GUTTER = 12.0
# What the leaders of a legend lead to stands at least so far apart; a legend takes this share of the text's
# height at most.
_LEGEND_GAP, _LEGEND_SHARE = 3.0, 0.74
_CARD_GUTTER, _CARD_ROW, _CARD_GAP = 12.0, 10.0, 9.0
# The picture of a card, in parts of the card's width where words stand beside it, and how high it may be.
_CARD_PICTURE, _CARD_HEIGHT = 0.44, 0.2
# How large the picture of a card to write on may be, and what stands between such cards, in points.
_WRITTEN_PICTURE, _WRITTEN_ROW = 26.0, 4.0
_LABEL_PADDING, _LABEL_PICTURE, _LABEL_HEIGHT = 9.0, 0.6, 64.0


def picture(setup: PageSetup, block: Picture, width: float) -> list[Flowable]:
    """A picture in the middle of the column, its scale below it."""
    most = setup.grid.text_height * _LARGEST_SHARE

    def within(height: float) -> Figure:
        return drawn(setup, block, Room(width, min(height, most)))

    figure = within(setup.grid.text_height * _SHARE)
    box = spaced(GrowingFigure(figure, within), 2.0, BETWEEN_BLOCKS)
    if not figure.scale:
        return [box]
    box.keepWithNext = True
    box.spaceAfter = 3.0
    return [box, spaced(scale_words(setup, figure), 0.0, BETWEEN_BLOCKS)]


def scale_words(setup: PageSetup, figure: Figure) -> Flowable:
    """The scale of a figure, in small type."""
    return paragraph((Words(figure.scale),), setup.styles.small)


def beside(
    setup: PageSetup, block: Picture, width: float, lay: Callable[[float], list[Flowable]]
) -> list[Flowable]:
    """A picture at the left and what is about it, laid by `lay` in the width that is left; kept together."""
    figure = drawn(setup, block, Room(width * _BESIDE, setup.grid.text_height * _SHARE))
    box: list[Flowable] = [FigureBox(figure)]
    if figure.scale:
        box.append(spaced(scale_words(setup, figure), 3.0, 0.0))
    rest = width - figure.width - GUTTER
    columns = [(box, figure.width), (lay(rest), rest)]
    return [spaced(SideBySide(columns, GUTTER, middle=True), 0.0, BETWEEN_BLOCKS)]


def legend(setup: PageSetup, block: Legend, width: float) -> list[Flowable]:
    """A picture at the left, and at the end of each of its leaders what it leads to.

    Entries that are too long for that stand below the picture.
    """
    styles = setup.styles
    for share, style in ((0.42, styles.cell), (0.36, styles.cell), (0.36, styles.small), (0.3, styles.small)):
        entries = [paragraph(entry, style) for entry in block.entries]
        column = width * (1 - share) - _LEGEND_GAP
        pitch = max((entry.wrap(column, 0.0)[1] for entry in entries), default=0.0) + _LEGEND_GAP
        figure = drawn(setup, block.picture, Room(width * share, pitch=pitch))
        box = Leaders(figure, entries, pitch, _LEGEND_GAP)
        if box.wrap(width, 0.0)[1] <= _LEGEND_SHARE * setup.grid.text_height:
            return [spaced(box, 0.0, BETWEEN_BLOCKS)]
    figure = drawn(setup, block.picture, Room(width, pitch=styles.cell.leading))
    below = [spaced(paragraph(entry, styles.cell), 0.0, _LEGEND_GAP) for entry in block.entries]
    return [spaced(FigureBox(figure), 0.0, BETWEEN_BLOCKS), *below]


def cards(setup: PageSetup, block: Cards, width: float) -> list[Flowable]:
    """Cards in rows; a row stays together."""
    count = max(1, block.columns)
    gutter = _CARD_GUTTER
    column = (width - gutter * (count - 1)) / count
    make = _CARDS[block.style]
    rows = []
    for start in range(0, len(block.cards), count):
        row = block.cards[start : start + count]
        columns = [(make(setup, card, column), column) for card in row]
        gap = _WRITTEN_ROW if block.style is CardStyle.WRITE else _CARD_ROW
        rows.append(spaced(SideBySide(columns, gutter), 0.0, gap))
    return rows


def _card_lines(card: Card, first: ParagraphStyle, others: ParagraphStyle) -> list[Flowable]:
    return [paragraph(said, others if at else first) for at, said in enumerate(card.lines)]


def _beside_card(setup: PageSetup, card: Card, width: float) -> list[Flowable]:
    room = Room(width * _CARD_PICTURE, setup.grid.text_height * _CARD_HEIGHT)
    figure = drawn(setup, card.picture, room)
    lines = _card_lines(card, setup.styles.cell_strong, setup.styles.cell)
    return [figure_beside(figure, lines, width, _CARD_GAP)]


def _below_card(setup: PageSetup, card: Card, width: float) -> list[Flowable]:
    figure = drawn(setup, card.picture, Room(width, setup.grid.text_height * _SHARE))
    lines = _card_lines(card, setup.styles.cell_strong, setup.styles.cell)
    return [spaced(FigureBox(figure), 0.0, 4.0), *lines]


def _written_card(setup: PageSetup, card: Card, width: float) -> list[Flowable]:
    """A card with a line for a pen below its words; its picture is small, for many stand on a page."""
    figure = drawn(setup, card.picture, Room(_WRITTEN_PICTURE, _WRITTEN_PICTURE))
    rest = width - _WRITTEN_PICTURE - _CARD_GAP
    lines = [*_card_lines(card, setup.styles.cell, setup.styles.cell), PenLines(1, setup.palette.rule)]
    columns = [([FigureBox(figure)], _WRITTEN_PICTURE), (lines, rest)]
    return [SideBySide(columns, _CARD_GAP, middle=True)]


def _label(setup: PageSetup, card: Card, width: float) -> list[Flowable]:
    """A label within dashed lines, to cut out: its picture large, its lines beside it."""
    inner = width - 2 * _LABEL_PADDING
    figure = drawn(setup, card.picture, Room(inner * _LABEL_PICTURE, _LABEL_HEIGHT))
    lines = _card_lines(card, setup.styles.group, setup.styles.body)
    inside = figure_beside(figure, lines, inner, GUTTER)
    return [Framed(inside, _LABEL_PADDING, _LABEL_HEIGHT + 2 * _LABEL_PADDING, setup.palette.ink)]


_CARDS = {
    CardStyle.BESIDE: _beside_card,
    CardStyle.BELOW: _below_card,
    CardStyle.WRITE: _written_card,
    CardStyle.LABEL: _label,
}
