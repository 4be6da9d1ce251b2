"""The base of a layout: which piece, where it waits, and which way it lies."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from booklet.content.spans import Own, PieceRef, PocketRef
from booklet.cutting.orientation import Orientation
from booklet.drawing.papers.piece_print import ledger_entry_of
from booklet.kit.fields import Edge, Face, Turn
from booklet.kit.kit import Kit
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry


class Waits(Enum):
    """Where a base waits that is in no pocket."""

    PILE = "pile"
    BOX = "box"


@dataclass(frozen=True)
class Base:
    """What all else lies on: its name and label, where it waits, what the hand does with it.

    Where its print shows which way it lies, `edge` is a word of the paper's own for an edge and where on the
    page that lies, or `top` is where the top of the print lies.
    """

    name: Own
    label: PieceRef | None
    waits: PocketRef | Waits
    turn: Turn | None
    is_over: bool
    edge: tuple[Own, Edge] | None = None
    top: Edge | None = None


def base_of(resolved: ResolvedKit, index: int) -> Base:
    """The base of a layout, by its index among the kit's layouts."""
    layout, spec = resolved.layouts[index], resolved.kit.layouts[index]
    entry = ledger_entry_of(layout.base, layout, resolved)
    source = ("layouts", index, "base")
    edge, top = _way(resolved.kit, entry, Orientation(layout.base.face, layout.base.turn))
    return Base(
        Own(spec.base.piece, source),
        PieceRef(entry.label, entry.label) if entry is not None and entry.label else None,
        _waits(resolved, entry, spec.pocket),
        spec.base.turn,
        spec.base.face is Face.BACK,
        edge,
        top,
    )


def _waits(resolved: ResolvedKit, entry: LedgerEntry | None, pocket: int) -> PocketRef | Waits:
    """A sheet that stays whole waits in the pile, what is cut in its pocket, the rest in the box."""
    if entry is None:
        return PocketRef(pocket)
    if entry.piece is None:
        return Waits.BOX
    sheet = resolved.sheets[entry.piece.sheet_index]
    return PocketRef(pocket) if sheet.stages else Waits.PILE


def _way(
    kit: Kit, entry: LedgerEntry | None, lying: Orientation
) -> tuple[tuple[Own, Edge] | None, Edge | None]:
    """Where on the page an edge lies that the paper has a word for, or else the top of its print."""
    if entry is None or not entry.size.area:
        return None, None
    name = kit.sheets[entry.piece.sheet_index].paper if entry.piece is not None else _ready_paper(kit, entry)
    paper = kit.papers[name]
    shown = paper.front if lying.face is Face.FRONT else paper.back
    if not shown.has_direction:
        return None, None
    if entry.piece is not None and _is_whole(kit, entry):
        for edge, word in paper.edges.items():
            return (Own(word, ("papers", name, "edges", edge.value)), _at(lying, edge)), None
    return None, _at(lying, Edge.TOP)


def _ready_paper(kit: Kit, entry: LedgerEntry) -> str:
    assert entry.ready_index is not None
    return kit.ready[entry.ready_index].paper


def _is_whole(kit: Kit, entry: LedgerEntry) -> bool:
    assert entry.piece is not None
    size = kit.sheets[entry.piece.sheet_index].size or kit.sheet
    return entry.piece.part.size == size


def _at(lying: Orientation, edge: Edge) -> Edge:
    """Where on the page an edge of the front comes to lie."""
    return next(seen for seen in Edge if lying.edge_at(seen) is edge)
