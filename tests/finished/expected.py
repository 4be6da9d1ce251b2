"""What a booklet is to print, from its document: each line in pieces that know what they are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import TypeVar, get_args

from booklet.content.blocks import (
    Caution,
    CutStage,
    Document,
    IfRoom,
    ItemList,
    LayoutView,
    Paragraph,
    Section,
    SlipRow,
    StepItem,
    StepList,
    StepPart,
    Tone,
)
from booklet.content.spans import CutRef, Line, PocketRef, Span, StepRef, plain_text
from tests.finished.book import Book, Found, Part, Place, squeezed

_SPANS = get_args(Span)
_SIGNS = (StepRef, CutRef, PocketRef)
T = TypeVar("T")


@dataclass(frozen=True)
class Piece:
    """A span of a line, and its words as they are compared."""

    span: Span
    text: str

    @property
    def is_sign(self) -> bool:
        """Whether it is a number in a ring, a disc or a pocket."""
        return isinstance(self.span, _SIGNS)


@dataclass(frozen=True)
class Printed:
    """A line as it stands on the page: its pieces, each with its letters."""

    pieces: tuple[tuple[Piece, tuple[Place, ...]], ...]

    @property
    def start(self) -> Place:
        return next(places[0] for _, places in self.pieces if places)


def pieces_of(line: Line) -> tuple[Piece, ...]:
    """A line's spans with their words."""
    found = []
    for span in line:
        text = squeezed(plain_text((span,)))
        if text:
            found.append(Piece(span, text))
    return tuple(found)


def said(line: Line) -> str:
    """A line as it is compared."""
    return "".join(piece.text for piece in pieces_of(line))


def printed(book: Book, line: Line, start: int, end: int) -> Iterator[Printed]:
    """Every place where a line stands between two places of the stream."""
    for found in book.every(said(line), start, end) if said(line) else ():
        yield Printed(tuple(_with_places(pieces_of(line), found)))


def _with_places(pieces: tuple[Piece, ...], found: Found) -> Iterator[tuple[Piece, tuple[Place, ...]]]:
    """Each piece with its letters: letter by letter, as some are compared as more than one."""
    left = list(found.places)
    for piece in pieces:
        taken: list[Place] = []
        length = 0
        while length < len(piece.text):
            place = left.pop(0)
            length += len(squeezed(place.letter.text))
            taken.append(place)
        yield piece, tuple(taken)


# What is in a document.


def all_of(kind: type[T], part: object) -> Iterator[T]:
    """All parts of a kind, however deep, in reading order."""
    if isinstance(part, kind):
        yield part
    if isinstance(part, tuple | list):
        for one in part:
            yield from all_of(kind, one)
    elif is_dataclass(part) and not isinstance(part, _SPANS):
        for field in fields(part):
            yield from all_of(kind, getattr(part, field.name))


@cache
def sheet_sections(document: Document) -> tuple[Section, ...]:
    """The sections of the sheets that are cut."""
    return tuple(
        section for section in document.sections if any(True for _ in all_of(CutStage, section.blocks))
    )


@cache
def layout_sections(document: Document) -> tuple[Section, ...]:
    """The sections of the layouts."""
    return tuple(
        section
        for section in document.sections
        if any(isinstance(block, LayoutView) for block in section.blocks)
    )


def always_printed(document: Document) -> tuple[Section, ...]:
    """The sections that stand at their place whatever the pages cost."""
    return tuple(section for section in document.sections if not section.is_optional)


def part_of(book: Book, section: Section) -> Part:
    """Where a section is printed."""
    return book.part(section.number, said(section.title))


def rows_of(section: Section) -> tuple[SlipRow, ...]:
    """The rows of all slips of a sheet that have a reading."""
    return tuple(row for row in all_of(SlipRow, section.blocks) if row.cut and row.reading)


def steps_of(section: Section) -> tuple[StepItem, ...]:
    """The printed steps of a layout."""
    return tuple(step for each in all_of(StepList, section.blocks) for step in each.steps)


def step_line(part: StepPart) -> Line:
    """All that is said of a part of a step, as it follows on paper."""
    return (*part.head, *part.said, *part.tip)


def sentences(section: Section) -> Iterator[Line]:
    """What is read of a section as text: paragraphs but for remarks, lists, cautions, tips, slips, steps.

    What is printed only where there is room is left out.
    """
    if section.lead:
        yield section.lead
    for block in section.blocks:
        if not isinstance(block, IfRoom):
            yield from _sentences(block)


def _sentences(block: object) -> Iterator[Line]:
    for paragraph in all_of(Paragraph, block):
        if paragraph.tone is not Tone.NOTE:
            yield paragraph.text
    for items in all_of(ItemList, block):
        yield from items.items
    for caution in all_of(Caution, block):
        yield caution.text
    for stage in all_of(CutStage, block):
        yield from (line for line in (stage.heading, *stage.tips) if line)
        yield from (row.said for row in stage.slip.rows if row.said)
    for part in all_of(StepPart, block):
        yield step_line(part)
