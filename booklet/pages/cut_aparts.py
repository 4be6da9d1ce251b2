"""The pages of the printed sheets that are cut apart on their register marks."""

from __future__ import annotations

from booklet.pages.book import Book
from booklet.pages.cut_blocks import sheet_blocks
from booklet.pages.cutting import cut_apart_sheets
from booklet.pages.page import Block


def cut_apart_blocks(book: Book) -> tuple[Block, ...]:
    """The pages of every cut-apart sheet, each sheet on an opening of its own or on less."""
    return sheet_blocks(book, cut_apart_sheets(book))
