"""What is wanted of a sheet, as the planner's question, and the planner's steps as cuts of the spec.

A sheet lies in the trimmer as its `lay` says, and the planner takes it so: sizes and edges are turned on the
way in, and the steps come out right for the hand.  The planner's scale has its zero at the left: where the
trimmer's is at the right, it looks on from the other side of the table, and its steps are the same.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Mapping

from booklet.cutting.cut import first_lying, is_directed
from booklet.cutting.model import CutSheet, Fate
from booklet.cutting.orientation import Orientation
from booklet.cutting.planner.wanted import PlannedStep, Settings, SheetStock, Wanted, Wish
from booklet.kit.fields import Edge, Turn
from booklet.kit.kit import Kit, sheet_size, trimmer_limits
from booklet.kit.paper import Paper
from booklet.kit.references import edge_words
from booklet.kit.sheet import CutStep, NamePair, Wishes
from booklet.kit.used import used_names
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.length import Size


@dataclass(frozen=True)
class PieceDemand:
    """Pieces of one name that one paper is to give: their size seen upright on the front, and how many."""

    name: str
    size: Size
    count: int


def stated_pieces(kit: Kit, index: int) -> tuple[PieceDemand, ...]:
    """What the sheet's `sizes` name, as often as layouts use it or it is to be spare; at least once."""
    sheet = kit.sheets[index]
    counts = _wanted_counts(kit) + Counter(sheet.spare)
    return tuple(PieceDemand(name, size, max(1, counts[name])) for name, size in sheet.sizes.items())


def _wanted_counts(kit: Kit) -> Counter[str]:
    return Counter(name for index, layout in enumerate(kit.layouts) for name, _ in used_names(layout, index))


def cut_pieces(cut: CutSheet) -> tuple[PieceDemand, ...]:
    """What the written cuts of a sheet give, all its copies together."""
    counts = Counter(
        (piece.name, piece.size) for piece in cut.pieces if piece.fate in {Fate.KEPT, Fate.SPARE}
    )
    return tuple(PieceDemand(name, size, count) for (name, size), count in counts.items())


def trimmer_settings(kit: Kit, copies: int = 1) -> Settings:
    """The kit's trimmer for the planner; of sheets cut together each counts in what one pass cuts."""
    limits = trimmer_limits(kit)
    together = max(1, limits.together // copies)
    return Settings(limits.mark, limits.hold, limits.reach, together, kit.unit, held=limits.held)


def request_for(kit: Kit, index: int, pieces: tuple[PieceDemand, ...]) -> tuple[list[Wanted], SheetStock]:
    """What is wanted of one of the sheet's copies; the count of each piece is a multiple of the copies."""
    sheet = kit.sheets[index]
    lying = sheet_orientation(kit, index)
    may_turn = not is_directed(kit, sheet)
    wishes = wishes_of(kit, index)
    wanted = [
        Wanted(
            piece.name,
            lying.seen_size(piece.size),
            piece.count // sheet.count,
            may_turn,
            wishes.get(piece.name),
        )
        for piece in pieces
    ]
    return wanted, SheetStock(sheet.id, lying.seen_size(sheet_size(kit, sheet)))


def as_wanted(paper: Paper, piece: PieceDemand, wishes: Wishes) -> Wanted:
    """The piece as it is wanted of an upright sheet of this paper."""
    word = wishes.edge.get(piece.name)
    beside = next((other for one, other in wishes.beside if one == piece.name), None)
    wish = Wish(edge_words(paper)[word] if word else None, beside) if word or beside else None
    return Wanted(piece.name, piece.size, piece.count, not paper.has_direction, wish)


def possible_pairs(pairs: Iterable[NamePair], names: Container[str]) -> tuple[NamePair, ...]:
    """The wishes for two side by side that can be had of pieces of these names, one of each.

    A piece lies beside one other; further wishes for it are dropped.
    """
    kept: list[NamePair] = []
    for pair in pairs:
        taken = {name for earlier in kept for name in earlier}
        if pair[0] != pair[1] and all(name in names and name not in taken for name in pair):
            kept.append(pair)
    return tuple(kept)


def sheet_orientation(kit: Kit, index: int) -> Orientation:
    """How the sheet first lies in the trimmer, seen with the scale's zero at the left."""
    lying = first_lying(kit, kit.sheets[index])
    return lying if trimmer_limits(kit).zero is Edge.LEFT else lying.turned(Turn.HALF)


def wishes_of(kit: Kit, index: int) -> Mapping[str, Wish]:
    """The spec's wishes for the sheet by the name of the piece, edges as the sheet lies."""
    sheet, lying = kit.sheets[index], sheet_orientation(kit, index)
    words = edge_words(kit.papers[sheet.paper])
    wishes = {name: Wish(edge=lying.seen_at(words[word])) for name, word in sheet.wishes.edge.items()}
    for one, other in sheet.wishes.beside:
        wishes[one] = replace(wishes.get(one, Wish()), beside=other)
    return wishes


def as_cuts(steps: tuple[PlannedStep, ...], copies: int) -> tuple[CutStep, ...]:
    """The steps as a spec has them; what is taken is taken of every copy."""
    return tuple(
        CutStep(
            at=step.at,
            leaves=tuple((name,) for name in step.leaves),
            take=tuple(name for name in step.take or () for _ in range(copies)),
            turn=step.turn,
        )
        for step in steps
    )
