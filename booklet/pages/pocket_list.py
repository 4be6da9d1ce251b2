"""What to take out of the pocket for one layout: a short list to tick off, in two columns."""

from __future__ import annotations

from xml.sax.saxutils import escape

from reportlab.platypus import Flowable, Paragraph

from booklet.kit.kit import capitalised
from booklet.measure.words import print_size
from booklet.pages.book import Book
from booklet.pages.flow import Beside, Stack, TickBox
from booklet.pages.type import words
from booklet.placing.model import PlacedLayout
from booklet.sorting.ledger import Entry

_GUTTER = 16.0
_TICK = 14.0


def pocket_list(book: Book, layout: PlacedLayout) -> list[Flowable]:
    """A heading and the pieces in the order in which they are used, equal ones together."""
    pocket = book.kit.layouts[layout.index].pocket
    heading = words(f"From pocket {pocket}", book.styles.heading)
    lines = [_line(book, group) for group in _grouped(book.worked.ledger.of_layout(layout.index))]
    half = -(-len(lines) // 2)
    width = (book.grid.text_width - _GUTTER) / 2
    columns: list[tuple[Flowable, float]] = [
        (Stack(part, 1.4), width) for part in (lines[:half], lines[half:]) if part
    ]
    return [heading, Beside(columns, _GUTTER)]


def _grouped(entries: tuple[Entry, ...]) -> list[list[Entry]]:
    groups: dict[str, list[Entry]] = {}
    for entry in entries:
        groups.setdefault(entry.name, []).append(entry)
    return list(groups.values())


def _line(book: Book, entries: list[Entry]) -> Flowable:
    labels = ", ".join(dict.fromkeys(entry.label for entry in entries if entry.label)) or "box"
    count = f"{len(entries)} × " if len(entries) > 1 else ""
    label = f'<font color="{book.palette.accent.hex}"><b>{escape(labels)}</b></font>'
    size = escape(print_size(entries[0].size, book.unit))
    markup = f"{label}&nbsp; {count}{escape(capitalised(entries[0].name))}&nbsp; {size}"
    width = (book.grid.text_width - _GUTTER) / 2 - _TICK
    tick = TickBox(book.palette.soft_ink, side=8.0)
    return Beside([(tick, 8.0), (Paragraph(markup, book.styles.small), width)], _TICK - 8.0)
