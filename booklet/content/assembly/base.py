"""The base of a layout: which piece, where it waits, and which way it lies."""

from __future__ import annotations

from enum import Enum

from booklet.content.assembly.lying import Handling
from booklet.content.assembly.ways import PrintEdge, print_edge, shows_its_way
from booklet.content.spans import Own, PieceRef, PocketRef
from booklet.cutting.orientation import Orientation
from booklet.drawing.papers.piece_print import ledger_entry_of
from booklet.kit.fields import Edge, Face, Turn
from booklet.measure.dataclass import dataclass
from booklet.placing.model import Placed
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry


class Waits(Enum):
    """Where a base waits that is in no pocket."""

    PILE = "pile"
    BOX = "box"


@dataclass(frozen=True)
class Base:
    """What all else lies on: its name and label, where it waits, what the hand does with it.

    Where its print shows which way it lies, `edge` is an edge of it that the paper has a word for, or else
    `top` is where the top of the print lies.
    """

    name: Own
    label: PieceRef | None
    waits: PocketRef | Waits
    handling: Handling
    edge: PrintEdge | None = None
    top: Edge | None = None


def base_of(resolved: ResolvedKit, index: int) -> Base:
    """The base of a layout, by its index among the kit's layouts."""
    layout, spec = resolved.layouts[index], resolved.kit.layouts[index]
    entry = ledger_entry_of(layout.base, layout, resolved)
    source = ("layouts", index, "base")
    lying = Orientation(layout.base.face, layout.base.turn)
    edge = print_edge(resolved.kit, entry, lying, spec.base.up) if entry is not None else None
    shows = entry is not None and shows_its_way(resolved.kit, entry, lying.face)
    return Base(
        Own(spec.base.name, source),
        PieceRef(entry.label, entry.label) if entry is not None and entry.label else None,
        _waits(resolved, entry, spec.pocket),
        Handling(
            spec.base.turn if _turn_shows(resolved, layout.base, entry, spec.base.turn) else None,
            is_over=spec.base.face is Face.BACK,
        ),
        edge,
        lying.seen_at(Edge.TOP) if shows and edge is None else None,
    )


def _turn_shows(resolved: ResolvedKit, base: Placed, entry: LedgerEntry | None, turn: Turn | None) -> bool:
    """Whether it can be seen that a base was turned: by its print, or as it is not square."""
    if entry is None or (turn is not Turn.HALF and base.rect.width != base.rect.height):
        return True
    return shows_its_way(resolved.kit, entry, base.face, is_half=turn is Turn.HALF)


def _waits(resolved: ResolvedKit, entry: LedgerEntry | None, pocket: str) -> PocketRef | Waits:
    """A sheet that stays whole waits in the pile, what is cut in its pocket, the rest in the box."""
    if entry is None:
        return PocketRef(pocket)
    if entry.piece is None:
        return Waits.BOX
    sheet = resolved.sheets[entry.piece.sheet_index]
    return PocketRef(pocket) if sheet.stages else Waits.PILE
