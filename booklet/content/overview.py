"""The whole kit in one picture, and each of its pieces told in a line."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from booklet.content.blocks import Picture
from booklet.content.figures import KitFlow
from booklet.content.names import kit_name, layout_name, piece_name, ready_name, sheet_name, sheet_ref
from booklet.content.spans import Line, PieceRef, PocketRef, line, whole
from booklet.content.words.language import Language
from booklet.drawing.overview.flow_figure import node_tag
from booklet.drawing.overview.strands import Node, Strand, flow_of
from booklet.kit.finding import SpecPath
from booklet.kit.spreads import assembly_order, pockets_of
from booklet.measure.dataclass import dataclass
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry


@dataclass(frozen=True)
class Followed:
    """Something that can be followed through the picture, and the tag of all that belongs to it there.

    `where` is the value of the spec that it is.
    """

    tag: str
    name: Line
    where: SpecPath


@dataclass(frozen=True)
class Overview:
    """The picture of a kit, its title, what it shows; a line for each piece in the order of the ledger; and
    what can be followed: sources, pockets and layouts as they stand in the picture.
    """

    title: Line
    lead: Line
    picture: Picture
    pieces: tuple[Line, ...]
    sources: tuple[Followed, ...]
    pockets: tuple[Followed, ...]
    layouts: tuple[Followed, ...]


def overview(resolved: ResolvedKit, language: Language) -> Overview:
    """The flow of a kit from its sheets through the pockets to its layouts."""
    kit, words, entries = resolved.kit, language.overview, resolved.ledger.entries
    pieces = whole(len(entries))
    alt = words.alt(kit_name(kit), pieces, whole(len(pockets_of(kit))), whole(len(kit.layouts)))
    told = tuple(_told(resolved, entry, language) for entry in entries)
    lead, picture = words.lead(pieces), Picture(KitFlow(), alt)
    return Overview(words.title, lead, picture, told, *_followed(resolved, language))


def rows_to_follow(told: Overview, language: Language) -> Iterator[tuple[Line, tuple[Followed, ...]]]:
    """What can be followed, a row with its title for each kind of thing that the kit has."""
    words = language.overview
    rows = ((words.sources, told.sources), (words.pockets, told.pockets), (words.layouts, told.layouts))
    yield from ((title, things) for title, things in rows if things)


def _followed(
    resolved: ResolvedKit, language: Language
) -> tuple[tuple[Followed, ...], tuple[Followed, ...], tuple[Followed, ...]]:
    """What can be followed in each column of the picture."""
    kit, flow = resolved.kit, flow_of(resolved)
    sheets = {sheet.index: sheet for sheet in resolved.sheets}
    numbers = {index: number for number, index in enumerate(assembly_order(kit), 1)}

    def source(strand: Strand) -> tuple[Line, SpecPath]:
        kind, index = strand.source
        if kind == "ready":
            return line(ready_name(kit, index)), strand.source
        return language.overview.numbered(sheet_ref(sheets[index]), sheet_name(kit, index)), strand.source

    def pocket(strand: Strand) -> tuple[Line, SpecPath]:
        assert strand.pocket is not None
        assert strand.layout is not None
        return line(PocketRef(strand.pocket)), ("layouts", strand.layout, "pocket")

    def layout(strand: Strand) -> tuple[Line, SpecPath]:
        assert strand.layout is not None
        name = language.overview.numbered(whole(numbers[strand.layout]), layout_name(kit, strand.layout))
        return name, ("layouts", strand.layout)

    return (
        _named("source", flow.sources, source),
        _named("pocket", flow.pockets, pocket),
        _named("layout", flow.layouts, layout),
    )


def _named(
    column: str, nodes: Sequence[Node], name: Callable[[Strand], tuple[Line, SpecPath]]
) -> tuple[Followed, ...]:
    """The nodes of a column, but for what passes no pocket; any of its strands says what a node is."""
    keyed = ((node.key, node.strands[0]) for node in nodes)
    return tuple(Followed(node_tag(column, key), *name(first)) for key, first in keyed if key is not None)


def _told(resolved: ResolvedKit, entry: LedgerEntry, language: Language) -> Line:
    words, name = language.overview, piece_name(entry)
    if entry.piece is None:
        piece = words.from_box(name)
    else:
        sheets = {sheet.index: sheet for sheet in resolved.sheets}
        sheet = sheet_ref(sheets[entry.piece.sheet_index])
        piece = words.from_sheet(PieceRef(entry.label, entry.label), name, sheet)
    if entry.use is None:
        return words.is_spare(piece)
    pocket = PocketRef(entry.pocket) if entry.pocket is not None else None
    return words.goes(piece, pocket, layout_name(resolved.kit, entry.use.layout_index))
