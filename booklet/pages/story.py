"""Every kind of block, and what lays it out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from reportlab.platypus import Flowable

from booklet.content.blocks import (
    Abreast,
    Beside,
    Block,
    Cards,
    Caution,
    Contents,
    Heading,
    IfRoom,
    ItemList,
    Legend,
    Paragraph,
    Picture,
    Table,
    WritingLines,
)
from booklet.pages.blocks import contents, heading, item_list, text_paragraph, writing_lines
from booklet.pages.boxes import BETWEEN_BLOCKS, SideBySide, spaced
from booklet.pages.caution import caution
from booklet.pages.flow import only_if_room
from booklet.pages.pictures import beside, cards, legend, picture
from booklet.pages.setup import PageSetup
from booklet.pages.tables import table

_GUTTER = 18.0
# Lays a block of one kind in a column of a width in points.
Handler = Callable[[PageSetup, Any, float], list[Flowable]]


def _beside(setup: PageSetup, block: Beside, width: float) -> list[Flowable]:
    return beside(setup, block.picture, width, lambda rest: story(setup, block.blocks, rest))


def _abreast(setup: PageSetup, block: Abreast, width: float) -> list[Flowable]:
    count = len(block.groups)
    column = (width - _GUTTER * (count - 1)) / count
    columns = [(story(setup, group, column), column) for group in block.groups]
    return [spaced(SideBySide(columns, _GUTTER), BETWEEN_BLOCKS, BETWEEN_BLOCKS)]


def _if_room(setup: PageSetup, block: IfRoom, width: float) -> list[Flowable]:
    return only_if_room(story(setup, block.blocks, width))


_HANDLERS: dict[type, Handler] = {
    Heading: heading,
    Paragraph: text_paragraph,
    ItemList: item_list,
    Caution: caution,
    WritingLines: writing_lines,
    Picture: picture,
    Legend: legend,
    Beside: _beside,
    Cards: cards,
    Table: table,
    Contents: contents,
    Abreast: _abreast,
    IfRoom: _if_room,
}


def story(setup: PageSetup, blocks: Sequence[Block], width: float) -> list[Flowable]:
    """The flowables of blocks in order.  Raises KeyError for a kind of block that nobody lays out."""
    return [flowable for block in blocks for flowable in _HANDLERS[type(block)](setup, block, width)]
