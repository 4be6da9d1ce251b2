"""Pose the question in whole units: the common grid of all lengths, kinds of pieces, pairs made one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import gcd, lcm

from booklet.cutting.planner.kinds import Kind
from booklet.cutting.planner.patterns import Leaf, Node, Split, joined
from booklet.cutting.planner.rooms import BOTTOM, LEFT, RIGHT, TOP
from booklet.cutting.planner.wanted import Stock, Wanted
from booklet.kit.fields import Edge
from booklet.kit.sheet import SCRAP
from booklet.measure.exact import Fraction

_BITS = {Edge.LEFT: LEFT, Edge.TOP: TOP, Edge.RIGHT: RIGHT, Edge.BOTTOM: BOTTOM}


@dataclass(frozen=True)
class Slot:
    """Wanted pieces that are the same to the planner: one size, one freedom, one edge; and their names."""

    width: int
    height: int
    turns: bool
    border: int
    names: tuple[tuple[str, int], ...]

    @property
    def count(self) -> int:
        """How many pieces there are."""
        return sum(count for _, count in self.names)


@dataclass(frozen=True)
class Pair:
    """Two pieces as one, side by side (`upright`) or one above the other, for as long as they are not cut."""

    upright: bool
    parts: tuple[Leaf, Leaf]

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the two together."""
        one, other = self.parts
        if self.upright:
            return one.width + other.width, one.height
        return one.width, one.height + other.height


@dataclass(frozen=True)
class Question:
    """Whole numbers of `unit`: slots of pieces, pairs of them, and the sheets that there are.

    Kinds are the slots in order, then the pairs; a slot whose pieces are all in pairs counts none.
    """

    unit: Fraction
    slots: tuple[Slot, ...]
    pairs: tuple[Pair, ...]
    sheets: tuple[tuple[int, int], ...]

    @property
    def kinds(self) -> tuple[Kind, ...]:
        """What is to be cut from the sheets, in the order of the numbers in a pattern."""
        paired = [leaf.kind for pair in self.pairs for leaf in pair.parts]
        singles = tuple(
            Kind(slot.width, slot.height, slot.count - paired.count(at), slot.turns)
            for at, slot in enumerate(self.slots)
        )
        return singles + tuple(Kind(*pair.size, 1, self._pair_turns(pair)) for pair in self.pairs)

    @property
    def borders(self) -> tuple[int, ...]:
        """For each kind the edges of the sheet that it wants, as bits; a pair wants what its pieces want."""
        singles = tuple(slot.border for slot in self.slots)
        return singles + tuple(
            singles[one.kind or 0] | singles[other.kind or 0]
            for one, other in (pair.parts for pair in self.pairs)
        )

    def _pair_turns(self, pair: Pair) -> bool:
        slots = [self.slots[leaf.kind or 0] for leaf in pair.parts]
        return _is_free(*slots)

    def undo_pairs(self, node: Node) -> Node:
        """The pattern with every pair cut in two."""
        if isinstance(node, Split):
            return joined(node.upright, tuple(self.undo_pairs(part) for part in node.parts))
        if node.kind is None or node.kind < len(self.slots):
            return node
        pair = self.pairs[node.kind - len(self.slots)]
        if (node.width, node.height) == pair.size:
            return self._parted(pair.upright, pair.parts)
        one, other = (Leaf(leaf.height, leaf.width, leaf.kind) for leaf in pair.parts)
        return self._parted(not pair.upright, (one, other))

    def _parted(self, upright: bool, parts: tuple[Leaf, Leaf]) -> Node:
        """The two pieces of a pair, in the order that the edges they want ask for."""
        near, far = (LEFT, RIGHT) if upright else (TOP, BOTTOM)
        first, second = (self.slots[leaf.kind or 0].border for leaf in parts)
        return joined(upright, parts[::-1] if first & far or second & near else parts)


def _is_free(one: Slot, other: Slot) -> bool:
    """Whether a pair of these may be turned as one; with an edge wished for, each direction is its own."""
    return one.turns and other.turns and not one.border and not other.border


def check(wanted: Sequence[Wanted], stocks: Sequence[Stock]) -> None:
    """Raises ValueError for a question that makes no sense, with the name that is at fault."""
    by_name = {piece.name: piece for piece in wanted}
    if len(by_name) != len(wanted) or SCRAP in by_name or "" in by_name:
        raise ValueError("wanted pieces need names of their own, and none may be called scrap")
    things: list[Wanted | Stock] = [*wanted, *stocks]
    for thing in things:
        if thing.count < 1 or thing.size.width <= 0 or thing.size.height <= 0:
            raise ValueError(f"{thing.name!r}: a count of at least 1 and lengths above 0")
    for piece in wanted:
        beside = piece.wish.beside if piece.wish else None
        if beside is None:
            continue
        other = by_name.get(beside)
        if other is None or other is piece or other.count != 1 or piece.count != 1:
            raise ValueError(f"{piece.name!r} beside {beside!r}: name another piece, each wanted once")


def without_lost_partners(wanted: Sequence[Wanted]) -> list[Wanted]:
    """The pieces of a part of a question, without the wish to lie beside one that is not among them."""
    names = {piece.name for piece in wanted}
    return [
        replace(piece, wish=replace(piece.wish, beside=None))
        if piece.wish and piece.wish.beside and piece.wish.beside not in names
        else piece
        for piece in wanted
    ]


def pose(wanted: Sequence[Wanted], stocks: Sequence[Stock]) -> tuple[Question, ...]:
    """The question, once for every way in which pieces that are wished side by side can lie so.

    Empty where such a wish can never be met: the two have no side in common.
    """
    sizes = [piece.size for piece in wanted] + [stock.size for stock in stocks]
    unit = _unit([length for size in sizes for length in (size.width, size.height)])
    slots, at = _slots(wanted, unit)
    sheets = tuple(
        (int(stock.size.width / unit), int(stock.size.height / unit))
        for stock in stocks
        for _ in range(stock.count)
    )
    asked = dict.fromkeys(
        tuple(sorted((piece.name, piece.wish.beside))) for piece in wanted if piece.wish and piece.wish.beside
    )
    ways = [tuple(_pairs(slots, at[one], at[other])) for one, other in asked]
    return tuple(Question(unit, slots, pairs, sheets) for pairs in product(*ways))


def _unit(lengths: Sequence[Fraction]) -> Fraction:
    """The longest length of which all the given ones are whole multiples."""
    denominator = lcm(*(length.denominator for length in lengths))
    return Fraction(gcd(*(int(length * denominator) for length in lengths)), denominator)


def _slots(wanted: Sequence[Wanted], unit: Fraction) -> tuple[tuple[Slot, ...], dict[str, int]]:
    partners = {piece.wish.beside for piece in wanted if piece.wish} - {None}
    slots: dict[tuple[int, int, bool, int, str], Slot] = {}
    for piece in wanted:
        width, height = int(piece.size.width / unit), int(piece.size.height / unit)
        turns = piece.may_turn and width != height
        if turns and height > width:
            width, height = height, width
        border = _BITS[piece.wish.edge] if piece.wish and piece.wish.edge else 0
        # A piece of a pair is one by name and not by size.
        paired = piece.name in partners or bool(piece.wish and piece.wish.beside)
        key = (width, height, turns, border, piece.name if paired else "")
        slot = slots.get(key, Slot(width, height, turns, border, ()))
        slots[key] = replace(slot, names=(*slot.names, (piece.name, piece.count)))
    order = tuple(slots.values())
    return order, {name: at for at, slot in enumerate(order) for name, _ in slot.names}


def _pairs(slots: Sequence[Slot], one: int, other: int) -> Iterator[Pair]:
    """The ways in which two pieces lie side by side and share the whole side between them."""
    seen = set()
    for first, second in product(_lies(slots, one), _lies(slots, other)):
        for upright, shared in ((True, first.height == second.height), (False, first.width == second.width)):
            pair = Pair(upright, (first, second))
            size = tuple(sorted(pair.size)) if _is_free(slots[one], slots[other]) else pair.size
            along = LEFT | RIGHT if upright else TOP | BOTTOM
            clash = slots[one].border & slots[other].border & along
            if shared and not clash and size not in seen:
                seen.add(size)
                yield pair


def _lies(slots: Sequence[Slot], at: int) -> tuple[Leaf, ...]:
    slot = slots[at]
    upright = Leaf(slot.width, slot.height, at)
    return (upright, Leaf(slot.height, slot.width, at)) if slot.turns else (upright,)
