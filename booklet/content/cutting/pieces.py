"""Sheets and what is cut of them as spans: sizes; of pieces letter, name, pocket, and the next cut."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.content.spans import Extent, Length, Own, PieceRef, PocketRef, Precision, Role
from booklet.cutting.labels import label_letters
from booklet.cutting.model import CutSheet, Piece, Strip
from booklet.kit.finding import SpecPath
from booklet.kit.kit import Kit
from booklet.placing.resolved import ResolvedKit


def piece_ref(piece: Piece) -> PieceRef:
    """A piece by its letter: its sheet is the one in hand."""
    return PieceRef(label_letters(piece.label), piece.label)


def piece_refs(pieces: Iterable[Piece]) -> tuple[PieceRef, ...]:
    """Pieces by their letters."""
    return tuple(piece_ref(piece) for piece in pieces)


def cut_piece_name(sheet: CutSheet, piece: Piece) -> Own:
    """The designer's name of a piece; a printed element has its own."""
    element = next((one for one in sheet.sheet.printed if one.name == piece.name), None)
    where = piece.where if element is None else ("sheets", sheet.index, *element.where)
    return Own(piece.name, where)


def piece_size(kit: ResolvedKit, sheet: CutSheet, piece: Piece) -> Extent:
    """A piece's size as its print stands upright."""
    stated: SpecPath = ("sheets", sheet.index, "sizes", piece.name)
    where = stated if piece.name in sheet.sheet.sizes else piece.where
    return Extent(piece.size, kit.kit.unit, where, _precision(sheet))


def strip_width(
    kit: ResolvedKit, sheet: CutSheet, strip: Strip, where: SpecPath, *, with_unit: bool = False
) -> Length:
    """How wide a strip of a sheet is."""
    width, unit = strip.end - strip.start, kit.kit.unit
    return Length(width, unit, Role.WIDTH, where, _precision(sheet), with_unit=with_unit)


def _precision(sheet: CutSheet) -> Precision:
    """What is cut on register marks measures about so much."""
    return Precision.ROUGH if sheet.sheet.is_cut_apart else Precision.EXACT


def sheet_extent(kit: Kit, sheet: CutSheet) -> Extent:
    """The size of a whole sheet: its own, or that of all sheets of the kit."""
    source: SpecPath = ("sheets", sheet.index, "size") if sheet.sheet.size else ("sheet",)
    return Extent(sheet.size, kit.unit, source, with_unit=True)


def by_name(pieces: Iterable[Piece]) -> tuple[list[Piece], ...]:
    """Pieces of one name together, in the order of the first of each."""
    names: dict[str, list[Piece]] = {}
    for piece in pieces:
        names.setdefault(piece.name, []).append(piece)
    return tuple(names.values())


def pocket_of(kit: ResolvedKit, piece: Piece) -> PocketRef | None:
    """The pocket in which a piece is filed; None where it goes to none."""
    entry = kit.ledger.of_piece(piece)
    return PocketRef(entry.pocket) if entry is not None and entry.pocket is not None else None
