"""Which way the print of a piece lies on the page, by an edge that the member has a word for."""

from __future__ import annotations

from booklet.content.spans import Own
from booklet.cutting.orientation import Orientation, has_edge
from booklet.kit.fields import Edge, Face
from booklet.kit.kit import Kit, sheet_size
from booklet.kit.paper import Paper, Pattern
from booklet.kit.references import edge_words
from booklet.measure.dataclass import dataclass
from booklet.sorting.ledger import LedgerEntry
from booklet.sorting.remnants import paper_of


@dataclass(frozen=True)
class PrintEdge:
    """An edge of the print, in the paper's own word for it, and where it comes to lie as the page lies."""

    word: Own
    at: Edge


# What looks the same after half a turn, though not after a quarter.
_ALIKE_UPSIDE_DOWN = {Pattern.STRIPES, Pattern.WAVES}


def shows_its_way(kit: Kit, entry: LedgerEntry, face: Face, *, is_half: bool = False) -> bool:
    """Whether a quarter turn of a piece shows by its print, or by the words and pictures of a cut-apart.

    `is_half` asks for half a turn.
    """
    sheet = kit.sheets[entry.piece.sheet_index] if entry.piece is not None else None
    if sheet is not None and sheet.is_cut_apart:
        return face is Face.FRONT
    shown = kit.papers[paper_of(kit, entry)].face(face)
    is_plain = not (shown.image or shown.borders or shown.upright)
    return shown.has_direction and not (is_half and is_plain and shown.pattern in _ALIKE_UPSIDE_DOWN)


def print_edge(kit: Kit, entry: LedgerEntry, lying: Orientation, up: str | None = None) -> PrintEdge | None:
    """An edge that the paper has a word for and the piece has whole; none where its back is seen.

    It is the one that the spec states to be `up`, in any word for it, or else the first.
    """
    piece, name = entry.piece, paper_of(kit, entry)
    if piece is None or piece.is_turned or lying.face is Face.BACK:
        return None
    paper: Paper = kit.papers[name]
    if not paper.front.has_direction:
        return None
    whole = sheet_size(kit, kit.sheets[piece.sheet_index])
    stated = edge_words(paper).get(up) if up is not None else None
    for edge, word in sorted(paper.edges.items(), key=lambda named: named[0] is not stated):
        if has_edge(piece.part, edge, whole):
            return PrintEdge(Own(word, ("papers", name, "edges", edge.value)), lying.seen_at(edge))
    return None
