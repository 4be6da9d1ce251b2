"""Sheets whose cuts are written, planned anew: what they give, and what of their print a plan must keep."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from booklet.cutting.model import CutSheet, Fate, Piece
from booklet.cutting.orientation import Orientation, has_edge
from booklet.cutting.planner.kit_plan import SheetAnswer, plan_sheet
from booklet.cutting.planner.request import cut_pieces, possible_pairs
from booklet.kit.fields import Edge, Face
from booklet.kit.kit import Kit, with_sheet
from booklet.kit.sheet import Sheet
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Size


@dataclass(frozen=True)
class KeptCuts:
    """Why the cuts of a sheet stay where they are."""

    why: str


def plan_written(kit: Kit, cut: CutSheet) -> SheetAnswer | KeptCuts:
    """Cuts anew for what a sheet's written cuts give; pieces keep the printed border that they have."""
    freed = freed_sheet(kit, cut)
    if isinstance(freed, KeptCuts):
        return freed
    return plan_sheet(with_sheet(kit, cut.index, freed), cut.index, cut_pieces(cut))


def freed_sheet(kit: Kit, cut: CutSheet) -> Sheet | KeptCuts:
    """The sheet with its printed borders as wishes; or why a plan could not keep what it is."""
    if not cut.stages:
        return KeptCuts("left whole")
    if cut.works:
        return KeptCuts("worked on by hand between its cuts")
    if cut.sheet.is_cut_apart:
        return KeptCuts("cut between its printed elements")
    if _is_picture(kit, cut.sheet):
        return KeptCuts("printed with a picture, so that each piece has its place")
    pieces = cut_pieces(cut)
    if len({piece.name for piece in pieces}) < len(pieces):
        return KeptCuts("cut so that one name has two sizes")
    if any(piece.count % cut.sheet.count for piece in pieces):
        return KeptCuts("not cut alike in all its copies")
    edges = _border_edges(kit, cut)
    if None in edges.values():
        return KeptCuts("cut so that not all pieces of one name have the printed border")
    kept = {name: edge.value for name, edge in edges.items() if edge is not None}
    once = {piece.name for piece in pieces if piece.count == cut.sheet.count}
    beside = possible_pairs(cut.sheet.wishes.beside, once)
    wishes = replace(cut.sheet.wishes, edge=kept | cut.sheet.wishes.edge, beside=beside)
    return replace(cut.sheet, wishes=wishes)


def _is_picture(kit: Kit, sheet: Sheet) -> bool:
    paper = kit.papers[sheet.paper]
    return any(face.image and face.has_direction for face in (paper.front, paper.back))


def _border_edges(kit: Kit, cut: CutSheet) -> Mapping[str, Edge | None]:
    """For each name the printed border that its pieces have; None where only some of them have it."""
    paper = kit.papers[cut.sheet.paper]
    printed, turned_over = {border.edge for border in paper.front.borders}, Orientation(Face.BACK)
    printed |= {turned_over.edge_at(border.edge) for border in paper.back.borders}
    found: dict[str, set[Edge | None]] = {}
    for piece in cut.pieces:
        if piece.fate in {Fate.KEPT, Fate.SPARE}:
            found.setdefault(piece.name, set()).add(_longest(piece, printed, cut.size))
    return {
        name: next(iter(edges)) if len(edges) == 1 else None
        for name, edges in found.items()
        if edges != {None}
    }


def _longest(piece: Piece, printed: set[Edge], size: Size) -> Edge | None:
    """The printed edge of the sheet along which most of the piece lies."""
    sides = {edge: length for edge, length in _outer_sides(piece, size) if edge in printed}
    return max(sides, key=lambda edge: (sides[edge], edge.value)) if sides else None


def _outer_sides(piece: Piece, size: Size) -> Iterator[tuple[Edge, Fraction]]:
    for edge in Edge:
        if has_edge(piece.part, edge, size):
            yield edge, piece.part.height if edge.is_upright else piece.part.width
