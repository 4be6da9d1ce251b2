"""The ledger in rows for print: pieces alike that go to one layout stand in one row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from booklet.drawing.marks.marker import pocket_chip
from booklet.drawing.shapes.figure import Figure, translated
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.kit import layout_title, sheet_title
from booklet.measure.length import TIMES, Size
from booklet.measure.words import print_size
from booklet.pages.book import Book
from booklet.placing.resolved import ResolvedKit, parts_of
from booklet.sorting.ledger import LedgerEntry

# What stands in the place of a label where a piece comes ready-cut and bears none.
IN_BOX = "box"


@dataclass(frozen=True)
class FiledRow:
    """Pieces of one name and size that go to one layout, or are spare.

    `labels` are the labels of those that have one, in order, each once; `count` is how many pieces they are.
    `note` says in which parts each is snipped on its layout, and that a layout may do without.
    """

    labels: tuple[str, ...]
    name: str
    size: Size
    count: int
    pocket: int | None
    goes: str
    note: str = ""

    @property
    def said(self) -> str:
        """The name, how many, and the note: `label (snip: short end 3 × 3, long end 4 × 3)`."""
        counted = f"{self.name} {TIMES} {self.count}" if self.count > 1 else self.name
        return f"{counted} ({self.note})" if self.note else counted


@dataclass(frozen=True)
class FiledGroup:
    """The rows of one sheet, or of what comes ready-cut."""

    title: str
    number: int | None
    rows: tuple[FiledRow, ...]


def filed_groups(resolved: ResolvedKit) -> tuple[FiledGroup, ...]:
    """Every piece of the kit: by sheet and letter, then what comes ready-cut."""
    return tuple(_groups(resolved))


def _groups(resolved: ResolvedKit) -> Iterator[FiledGroup]:
    for (kind, index), entries in groupby(resolved.ledger.entries, key=_group_key):
        rows = filed_rows(resolved, list(entries))
        if kind == "ready":
            yield FiledGroup("Ready-cut", None, rows)
            continue
        sheet = next(sheet for sheet in resolved.sheets if sheet.index == index)
        yield FiledGroup(sheet_title(resolved.kit, sheet.sheet), sheet.number, rows)


def _group_key(entry: LedgerEntry) -> tuple[str, int]:
    kind, index = entry.source
    return (kind, index if kind == "sheets" else 0)


def filed_rows(resolved: ResolvedKit, entries: Sequence[LedgerEntry]) -> tuple[FiledRow, ...]:
    """Neighbours that are alike in one row."""
    return tuple(
        _row(resolved, list(alike))
        for _, alike in groupby(entries, key=lambda entry: _row_key(resolved, entry))
    )


def _row_key(resolved: ResolvedKit, entry: LedgerEntry) -> tuple[object, ...]:
    layout = entry.use.layout_index if entry.use else None
    return (entry.name, entry.size, layout, entry.spare, note_of(resolved, entry))


def note_of(resolved: ResolvedKit, entry: LedgerEntry) -> str:
    """`snip: short end 3 × 3, long end 4 × 3; if you like`; nothing for most pieces."""
    unit = resolved.kit.unit
    parts = [f"{part.name} {print_size(part.size, unit)}" for part in parts_of(resolved, entry)]
    snipped = [f"snip: {', '.join(parts)}"] if parts else []
    optional = ["if you like"] if entry.use is not None and entry.use.optional else []
    return "; ".join([*snipped, *optional])


def _row(resolved: ResolvedKit, entries: Sequence[LedgerEntry]) -> FiledRow:
    first = entries[0]
    labels = tuple(dict.fromkeys(entry.label for entry in entries if entry.label))
    goes, note = _goes(resolved, first), note_of(resolved, first)
    return FiledRow(labels, first.name, first.size, len(entries), first.pocket, goes, note)


def _goes(resolved: ResolvedKit, entry: LedgerEntry) -> str:
    if entry.use is not None:
        return layout_title(resolved.kit.layouts[entry.use.layout_index])
    return "spare" if entry.spare else "not used"


def short_labels(labels: Sequence[str]) -> str:
    """Labels of one sheet with its number said once: `1D, E, F`."""
    if not labels:
        return ""
    number = "".join(letter for letter in labels[0] if letter.isdigit())
    return ", ".join([labels[0], *(label.removeprefix(number) for label in labels[1:])])


def pocket_figure(number: int, style: DrawingStyle) -> Figure:
    """A pocket with its number, as a figure of its own."""
    chip = pocket_chip(0.0, 0.0, str(number), style)
    edge = style.dimension_width
    shapes = (translated(chip.shapes, edge, edge),)
    return Figure(
        f"pocket-{number}",
        chip.box.width + 2 * edge,
        chip.box.height + 2 * edge,
        shapes,
        f"Pocket {number}",
        "",
    )


def small_pocket_figure(book: Book, number: int) -> Figure:
    """A pocket's chip low enough for a line of small type."""
    return pocket_figure(number, book.drawing.with_changes(disc_text_size=book.sizes.small))
