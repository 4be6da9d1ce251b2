"""The whole kit in one picture, and each of its pieces told in a line."""

from __future__ import annotations

from booklet.content.blocks import Picture
from booklet.content.figures import KitFlow
from booklet.content.names import kit_name, layout_name, piece_name, sheet_ref
from booklet.content.spans import Line, Number, PieceRef, PocketRef
from booklet.content.words.language import Language
from booklet.kit.spreads import pockets_of
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry


@dataclass(frozen=True)
class Overview:
    """The picture of a kit, its title, what it shows; a line for each piece in the order of the ledger."""

    title: Line
    lead: Line
    picture: Picture
    pieces: tuple[Line, ...]


def overview(resolved: ResolvedKit, language: Language) -> Overview:
    """The flow of a kit from its sheets through the pockets to its layouts."""
    kit, words, entries = resolved.kit, language.overview, resolved.ledger.entries
    pieces = _count(len(entries))
    alt = words.alt(kit_name(kit), pieces, _count(len(pockets_of(kit))), _count(len(kit.layouts)))
    told = tuple(_told(resolved, entry, language) for entry in entries)
    return Overview(words.title, words.lead(pieces), Picture(KitFlow(), alt), told)


def _count(number: int) -> Number:
    return Number(Fraction(number), str(number), ())


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
