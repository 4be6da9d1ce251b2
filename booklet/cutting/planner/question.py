"""Pose the question in whole units: the common grid of all lengths, kinds of pieces, pairs made one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from math import gcd, lcm

from booklet.cutting.planner.kinds import PieceKind
from booklet.cutting.planner.patterns import PatternLeaf, PatternNode, PatternSplit, join_parts
from booklet.cutting.planner.regions import BOTTOM, LEFT, RIGHT, TOP
from booklet.cutting.planner.wanted import SheetStock, Wanted
from booklet.kit.fields import Edge
from booklet.kit.sheet import SCRAP
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction

_BITS = {Edge.LEFT: LEFT, Edge.TOP: TOP, Edge.RIGHT: RIGHT, Edge.BOTTOM: BOTTOM}


@dataclass(frozen=True)
class PieceClass:
    """Wanted pieces that are equal to the planner: in size, freedom to turn, and edge; with their names."""

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
class PiecePair:
    """Two pieces as one, side by side (`upright`) or one above the other, until they are cut apart."""

    upright: bool
    parts: tuple[PatternLeaf, PatternLeaf]

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the two together."""
        one, other = self.parts
        if self.upright:
            return one.width + other.width, one.height
        return one.width, one.height + other.height


@dataclass(frozen=True)
class Question:
    """The question in whole numbers of `unit`: classes of equal pieces, pairs, and the sheets that there are.

    Kinds are the classes in order, then the pairs; a class whose pieces are all in pairs counts none.
    """

    unit: Fraction
    classes: tuple[PieceClass, ...]
    pairs: tuple[PiecePair, ...]
    sheets: tuple[tuple[int, int], ...]

    @property
    def kinds(self) -> tuple[PieceKind, ...]:
        """What is to be cut from the sheets, in the order of the numbers in a pattern."""
        paired = [leaf.kind for pair in self.pairs for leaf in pair.parts]
        singles = tuple(
            PieceKind(
                piece_class.width, piece_class.height, piece_class.count - paired.count(at), piece_class.turns
            )
            for at, piece_class in enumerate(self.classes)
        )
        return singles + tuple(PieceKind(*pair.size, 1, self._pair_turns(pair)) for pair in self.pairs)

    @property
    def borders(self) -> tuple[int, ...]:
        """For each kind the edges of the sheet that it wants, as bits; a pair wants what its pieces want."""
        singles = tuple(piece_class.border for piece_class in self.classes)
        return singles + tuple(
            singles[one.kind or 0] | singles[other.kind or 0]
            for one, other in (pair.parts for pair in self.pairs)
        )

    def _pair_turns(self, pair: PiecePair) -> bool:
        classes = [self.classes[leaf.kind or 0] for leaf in pair.parts]
        return _is_free(*classes)

    def undo_pairs(self, node: PatternNode) -> PatternNode:
        """The pattern with every pair cut in two."""
        if isinstance(node, PatternSplit):
            return join_parts(node.upright, tuple(self.undo_pairs(part) for part in node.parts))
        if node.kind is None or node.kind < len(self.classes):
            return node
        pair = self.pairs[node.kind - len(self.classes)]
        if (node.width, node.height) == pair.size:
            return self._parted(pair.upright, pair.parts)
        one, other = (PatternLeaf(leaf.height, leaf.width, leaf.kind) for leaf in pair.parts)
        return self._parted(not pair.upright, (one, other))

    def _parted(self, upright: bool, parts: tuple[PatternLeaf, PatternLeaf]) -> PatternNode:
        """The two pieces of a pair, in the order that the edges they want ask for."""
        near, far = (LEFT, RIGHT) if upright else (TOP, BOTTOM)
        first, second = (self.classes[leaf.kind or 0].border for leaf in parts)
        return join_parts(upright, parts[::-1] if first & far or second & near else parts)


def _is_free(one: PieceClass, other: PieceClass) -> bool:
    """Whether a pair of these may be turned as one; with an edge wished for, each direction is its own."""
    return one.turns and other.turns and not one.border and not other.border


def check_question(wanted: Sequence[Wanted], stocks: Sequence[SheetStock]) -> None:
    """Raises ValueError for an invalid question, with the name that is at fault."""
    by_name = {piece.name: piece for piece in wanted}
    if len(by_name) != len(wanted) or SCRAP in by_name or "" in by_name:
        raise ValueError("wanted pieces need names of their own, and none may be called scrap")
    things: list[Wanted | SheetStock] = [*wanted, *stocks]
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


def pose(wanted: Sequence[Wanted], stocks: Sequence[SheetStock]) -> tuple[Question, ...]:
    """The question, once for every way in which pieces that are wished side by side can lie so.

    Empty where such a wish can never be met: the two have no side in common.
    """
    sizes = [piece.size for piece in wanted] + [stock.size for stock in stocks]
    unit = _unit([length for size in sizes for length in (size.width, size.height)])
    classes, at = _classes(wanted, unit)
    sheets = tuple(
        (int(stock.size.width / unit), int(stock.size.height / unit))
        for stock in stocks
        for _ in range(stock.count)
    )
    asked = dict.fromkeys(
        tuple(sorted((piece.name, piece.wish.beside))) for piece in wanted if piece.wish and piece.wish.beside
    )
    ways = [tuple(_pairs(classes, at[one], at[other])) for one, other in asked]
    return tuple(Question(unit, classes, pairs, sheets) for pairs in product(*ways))


def _unit(lengths: Sequence[Fraction]) -> Fraction:
    """The longest length that divides all the given ones."""
    denominator = lcm(*(length.denominator for length in lengths))
    return Fraction(gcd(*(int(length * denominator) for length in lengths)), denominator)


def _classes(wanted: Sequence[Wanted], unit: Fraction) -> tuple[tuple[PieceClass, ...], dict[str, int]]:
    partners = {piece.wish.beside for piece in wanted if piece.wish} - {None}
    classes: dict[tuple[int, int, bool, int, str], PieceClass] = {}
    for piece in wanted:
        width, height = int(piece.size.width / unit), int(piece.size.height / unit)
        turns = piece.may_turn and width != height
        if turns and height > width:
            width, height = height, width
        border = _BITS[piece.wish.edge] if piece.wish and piece.wish.edge else 0
        # A piece of a pair is one by name and not by size.
        paired = piece.name in partners or bool(piece.wish and piece.wish.beside)
        key = (width, height, turns, border, piece.name if paired else "")
        piece_class = classes.get(key, PieceClass(width, height, turns, border, ()))
        classes[key] = replace(piece_class, names=(*piece_class.names, (piece.name, piece.count)))
    order = tuple(classes.values())
    return order, {name: at for at, piece_class in enumerate(order) for name, _ in piece_class.names}


def _pairs(classes: Sequence[PieceClass], one: int, other: int) -> Iterator[PiecePair]:
    """The ways in which two pieces lie side by side and share the whole side between them."""
    seen = set()
    for first, second in product(_orientations(classes, one), _orientations(classes, other)):
        for upright, shared in ((True, first.height == second.height), (False, first.width == second.width)):
            pair = PiecePair(upright, (first, second))
            size = tuple(sorted(pair.size)) if _is_free(classes[one], classes[other]) else pair.size
            along = LEFT | RIGHT if upright else TOP | BOTTOM
            clash = classes[one].border & classes[other].border & along
            if shared and not clash and size not in seen:
                seen.add(size)
                yield pair


def _orientations(classes: Sequence[PieceClass], at: int) -> tuple[PatternLeaf, ...]:
    piece_class = classes[at]
    upright = PatternLeaf(piece_class.width, piece_class.height, at)
    return (
        (upright, PatternLeaf(piece_class.height, piece_class.width, at)) if piece_class.turns else (upright,)
    )
