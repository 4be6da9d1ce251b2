"""The index of a booklet as a document: every thing of its kit, in the order that it is given."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.blocks import Align, Column, Document, Paragraph, Row, Section, Table
from booklet.content.names import kit_name
from booklet.content.spans import Line, line
from booklet.content.things import KitThing
from booklet.content.words.english.index import EnglishIndex
from booklet.content.words.language import Language
from booklet.kit.kit import Kit

_SHARES = (1.0, None, None, None, None, None)


def index_document(
    kit: Kit, edition: str, pages: int, things: Sequence[KitThing], language: Language
) -> Document:
    """The index of the booklet of an edition, which has so many pages."""
    words = language.index
    aligned = (Align.START, Align.START, Align.START, *(Align.END,) * 3)
    columns = tuple(map(Column, words.heads, aligned, _SHARES))
    table = Table(columns, tuple(_rows(words, things)))
    title = words.title(kit_name(kit))
    section = Section("index", title, (Paragraph(words.edition(edition, pages)), table))
    return Document(language.code, title, line(), words.subject, (section,), (), section, language.furniture)


def _rows(words: EnglishIndex, things: Sequence[KitThing]) -> Iterator[Row]:
    for thing in things:
        numbers = (_numbers(words, pages) for pages in (thing.cut, thing.sorted, thing.used))
        labels = words.several(thing.labels)
        yield Row((words.name(thing.kind, thing.name), words.kind(thing.kind), labels, *numbers))


def _numbers(words: EnglishIndex, pages: Sequence[int]) -> Line:
    return words.several([str(page) for page in pages])
