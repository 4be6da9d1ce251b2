"""Pieces as spans: letter, name, size, pocket, and the cut that takes them again."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.content.spans import CutRef, Extent, Own, PieceRef, PocketRef, Precision
from booklet.cutting.labels import label_letters
from booklet.cutting.model import CutSheet, Piece, Stage
from booklet.kit.finding import SpecPath
from booklet.placing.resolved import ResolvedKit


def piece_ref(piece: Piece) -> PieceRef:
    """A piece by its letter: its sheet is the one in hand."""
    return PieceRef(label_letters(piece.label), piece.label)


def piece_refs(pieces: Iterable[Piece]) -> tuple[PieceRef, ...]:
    """Pieces by their letters."""
    return tuple(piece_ref(piece) for piece in pieces)


def cut_piece_name(sheet: CutSheet, piece: Piece) -> Own:
    """The designer's name of a piece; a printed element has its own."""
    elements = sheet.sheet.elements
    number = next((at for at, element in enumerate(elements) if element.name == piece.name), None)
    where = piece.where if number is None else ("sheets", sheet.index, "elements", number, "name")
    return Own(piece.name, where)


def piece_size(kit: ResolvedKit, sheet: CutSheet, piece: Piece) -> Extent:
    """A piece's size as its print stands upright; approximate where it is cut on register marks."""
    stated: SpecPath = ("sheets", sheet.index, "sizes", piece.name)
    where = stated if piece.name in sheet.sheet.sizes else piece.where
    precision = Precision.ROUGH if sheet.sheet.is_cut_apart else Precision.EXACT
    return Extent(piece.size, kit.kit.unit, where, precision)


def pocket_of(kit: ResolvedKit, piece: Piece) -> PocketRef | None:
    """The pocket in which a piece is filed; None where it goes to none."""
    entry = kit.ledger.of_piece(piece)
    return PocketRef(entry.pocket) if entry is not None and entry.pocket is not None else None


def stage_taking(sheet: CutSheet, piece: Piece) -> Stage | None:
    """The stage that takes a piece to cut it on."""
    return next(
        (stage for stage in sheet.stages if any(taken.key == piece.key for taken in stage.taken)), None
    )


def next_cut(sheet: CutSheet, stage: Stage) -> CutRef:
    """The first cut of a stage."""
    return CutRef(sheet.sheet.id, stage.cuts[0].number)
