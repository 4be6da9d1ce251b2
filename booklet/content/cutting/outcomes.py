"""What becomes of pieces that a cut or scissors leave: filed, spare, or set aside for what is done next."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.content.blocks import SlipRow
from booklet.content.cutting.pieces import cut_piece_name, piece_refs, piece_size, pocket_of
from booklet.content.spans import CutRef, Extent, PocketRef
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet, Fate, Piece
from booklet.measure.dataclass import dataclass, replace
from booklet.placing.resolved import ResolvedKit


@dataclass(frozen=True)
class Outcome:
    """Pieces of which one row tells: of one name, filed in one pocket or taken up again by one step."""

    pieces: tuple[Piece, ...]
    fate: Fate
    pocket: PocketRef | None
    taken: CutRef | None


def outcomes(kit: ResolvedKit, sheet: CutSheet, pieces: Iterable[Piece], after: int) -> Iterable[Outcome]:
    """What becomes of pieces once the step of this number is done."""
    groups: dict[object, Outcome] = {}
    for piece in pieces:
        taken = taken_next(sheet, piece, after)
        pocket = pocket_of(kit, piece) if piece.fate is Fate.KEPT else None
        key = taken or (piece.fate, piece.name, piece.size, pocket)
        known = groups.get(key, Outcome((), piece.fate, pocket, taken))
        groups[key] = replace(known, pieces=(*known.pieces, piece))
    return groups.values()


def taken_next(sheet: CutSheet, piece: Piece, after: int) -> CutRef | None:
    """What takes a piece up again once the step of this number is done: a cut, or work by hand."""
    taken_by = [(stage.cuts[0].number, stage.taken) for stage in sheet.stages]
    taken_by += [(work.number, work.taken) for work in sheet.works]
    later = [
        number for number, taken in taken_by if number > after and any(one.key == piece.key for one in taken)
    ]
    return CutRef(sheet.sheet.id, min(later)) if later else None


def outcome_row(
    kit: ResolvedKit,
    sheet: CutSheet,
    head: SlipRow,
    outcome: Outcome,
    above: Extent | None,
    language: Language,
    *,
    goes_on: bool = False,
) -> tuple[SlipRow, Extent | None]:
    """The row of what is more than scrap, and the size that a reader finds in it or just above it.

    `goes_on` says that what takes it up is done next, with the pieces where they lie.
    """
    words, first, letters = language.cutting, outcome.pieces[0], piece_refs(outcome.pieces)
    if outcome.taken is not None:
        tell = words.go_on if goes_on else words.set_aside
        return replace(head, said=tell(letters, outcome.taken)), None
    name, size = cut_piece_name(sheet, first), piece_size(kit, sheet, first)
    shown = size if above is None or above.size != size.size else None
    if outcome.fate is Fate.SPARE:
        return replace(head, said=words.spare(letters, name, shown)), size
    said = words.kept(letters, name, shown)
    return replace(head, said=said, pocket=outcome.pocket, is_tick=True), size
